"""Packs of cards on sheets: cards in order, then the adult's answers."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.errors import NameTooWideError, RefusedError
from kitbuilder.kit.card_records import Backs, Card, CardWishes, LabelCard, Pack
from kitbuilder.layout.cards.answer_sheets import answer_sheets
from kitbuilder.layout.cards.deal import deal, halved, holds
from kitbuilder.layout.cards.halving import Halved
from kitbuilder.layout.cards.small_cards import arrow_sheets, digit_sheets, record_sheet
from kitbuilder.layout.model import Sheet, SheetKind

Ways = tuple[Halved | None, Halved | None, Halved | None]


def pack_sheets(
    packs: Sequence[Pack], wishes: CardWishes, style: Style, slack: float = 0.0
) -> Iterator[Sheet]:
    """Yield the sheets on card of every pack in turn, then those on paper, the answers last.

    So each stock is printed in one go. Cards of one kind have one size in all packs. ``slack``
    is how far (mm) backs are shifted into register. Pupils' answers stand together, unless each
    pupil gets a file.
    """
    ways = _ways(packs, wishes, style, slack if wishes.backs != "separate" else 0.0)
    together = len(packs) > 1 and not wishes.each
    others: list[Sheet] = []
    for pack in packs:
        answers = () if together else answer_sheets((pack,), style)
        for sheet in (*_sheets(pack, ways, wishes, style), *answers):
            named = replace(sheet, section=pack.name) if pack.name else sheet
            if sheet.stock == "card":
                yield named
            else:
                others.append(named)
    if together:
        others += answer_sheets(packs, style)
    yield from sorted(others, key=lambda sheet: sheet.kind == SheetKind.ANSWERS)


def _ways(packs: Sequence[Pack], wishes: CardWishes, style: Style, slack: float) -> Ways:
    """Return how sheets are halved for task cards (with labels), small facts and stories."""
    tasks = [card for pack in packs for card in pack.tasks]
    labels = [pack.label for pack in packs if pack.label]
    facts = [card for pack in packs[:1] for card in pack.facts]
    said = [card for pack in packs for card in pack.said]
    tall = bool(tasks) and all(card.stage == "written" for card in tasks)
    backs = wishes.backs
    main: list[Card] = [*labels, *tasks]
    try:
        return (
            halved(main, style, backs, slack, tall_first=tall) if main else None,
            halved(facts, style, backs, slack) if facts else None,
            halved(said, style, "separate") if said else None,
        )
    except RefusedError:
        _check_labels(labels, style, backs, slack)
        raise


def _check_labels(labels: Sequence[LabelCard], style: Style, backs: Backs, slack: float) -> None:
    """Raise ``NameTooWideError`` for the first name that is all that keeps its label off a card."""

    def fits(label: LabelCard) -> bool:
        try:
            return bool(halved([label], style, backs, slack))
        except RefusedError:
            return False

    wide = next((label for label in labels if not fits(label)), None)
    if wide and fits(replace(wide, name="A")):
        raise NameTooWideError(
            wide.name, style.paper.name, lambda name: fits(replace(wide, name=name))
        )


def _sheets(pack: Pack, ways: Ways, wishes: CardWishes, style: Style) -> Iterator[Sheet]:
    backs = wishes.backs
    if ways[0] and pack.tasks:
        each = len(ways[0].places) // (2 if backs == "fold" else 1)
        # the name stands on every card, so the name card takes no sheet of its own
        labels = (pack.label,) if pack.label and len(pack.tasks) % each else ()
        cards = _filled((*labels, *pack.tasks), each, pack.blank, ways[0], style)
        yield from deal(SheetKind.TASK_CARDS, cards, ways[0], style, backs)
    if ways[1]:
        each = len(ways[1].places) // (2 if backs == "fold" else 1)
        cards = _filled(pack.facts, each, pack.blank, ways[1], style)
        yield from deal(SheetKind.FACT_CARDS, cards, ways[1], style, backs)
    if ways[2]:
        cards = _filled(pack.said, len(ways[2].places), pack.blank, ways[2], style)
        yield from deal(SheetKind.STORY_CARDS, cards, ways[2], style, "separate")
    yield from arrow_sheets(pack.arrows, style, pack.name)
    yield from digit_sheets(pack.digits, style, pack.name)
    if pack.record:
        yield record_sheet(pack.record, style, pack.name)


def _filled(
    cards: Sequence[Card], each: int, blank: Card | None, way: Halved, style: Style
) -> tuple[Card, ...]:
    """Return ``cards`` with as many of ``blank``, if it fits, as fill their last sheet.

    A sheet holds ``each``.
    """
    fills = blank is not None and holds(blank, way, style)
    return (*cards, *([blank] * (-len(cards) % each) if blank and fills else ()))
