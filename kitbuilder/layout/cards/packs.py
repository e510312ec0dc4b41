"""Turns packs of cards into sheets: cards in order, then the adult's answers."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design import metrics
from kitbuilder.design.style import Style
from kitbuilder.errors import NameTooWideError, RefusedError
from kitbuilder.kit.card_records import Backs, Card, CardWishes, LabelCard, Pack
from kitbuilder.kit.records import Say
from kitbuilder.layout.cards.answers import PICTURES, answer_figures, fact_figures
from kitbuilder.layout.cards.deal import deal, halved
from kitbuilder.layout.cards.halving import Halved
from kitbuilder.layout.cards.small_cards import arrow_sheets, digit_sheets, record_sheet
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.page import Page
from kitbuilder.layout.text.flow import ADULT_INSET, Figure, flowed
from kitbuilder.layout.text.page_refs import PAGE, pointer_figure


def pack_sheets(
    packs: Sequence[Pack],
    wishes: CardWishes,
    style: Style,
    slack: float = 0.0,
    guided: bool = False,
) -> Iterator[Sheet]:
    """Yield the sheets on card of every pack in turn, then those on paper, the answers last.

    So each stock is printed in one go. Cards of one kind have one size in all packs. ``slack``
    is how far (mm) backs are shifted into register. Where cards are ``guided``, the answers
    point to the guide.
    """
    ways = _ways(packs, wishes, style, slack if wishes.backs != "separate" else 0.0)
    others: list[Sheet] = []
    for pack in packs:
        for sheet in _sheets(pack, ways, wishes, style, guided):
            named = replace(sheet, section=pack.name) if pack.name else sheet
            if sheet.stock == "card":
                yield named
            else:
                others.append(named)
    yield from sorted(others, key=lambda sheet: sheet.kind == SheetKind.ANSWERS)


def _ways(
    packs: Sequence[Pack], wishes: CardWishes, style: Style, slack: float
) -> tuple[Halved | None, Halved | None]:
    """Return how sheets are halved for task cards (with labels) and for small facts."""
    tasks = [card for pack in packs for card in pack.tasks]
    labels = [pack.label for pack in packs if pack.label]
    facts = [card for pack in packs[:1] for card in pack.facts]
    tall = bool(tasks) and all(card.stage == "written" for card in tasks)
    backs = wishes.backs
    main: list[Card] = [*labels, *tasks]
    try:
        return (
            halved(main, style, backs, slack, tall_first=tall) if main else None,
            halved(facts, style, backs, slack) if facts else None,
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
        raise NameTooWideError(wide.name, style.paper.name)


def _sheets(
    pack: Pack,
    ways: tuple[Halved | None, Halved | None],
    wishes: CardWishes,
    style: Style,
    guided: bool,
) -> Iterator[Sheet]:
    unit, backs = style.paper.unit_mm, wishes.backs
    labels = (pack.label,) if pack.label else ()
    if ways[0]:
        yield from deal(SheetKind.TASK_CARDS, (*labels, *pack.tasks), ways[0], unit, backs)
    if ways[1]:
        yield from deal(SheetKind.FACT_CARDS, pack.facts, ways[1], unit, backs)
    yield from arrow_sheets(pack.arrows, style.paper)
    yield from digit_sheets(pack.digits, style.paper)
    if pack.record:
        yield record_sheet(pack.record, style)
    yield from _answer_sheets(pack, style, guided)


def _answer_sheets(pack: Pack, style: Style, guided: bool) -> tuple[Sheet, ...]:
    """Return the adult's answers on the fewest pages, pictures as large as these allow."""
    best: tuple[Sheet, ...] = ()
    for picture in PICTURES:
        pages = flowed(SheetKind.ANSWERS, _answers(pack, style, picture, guided), style)
        if not best or len(pages) < len(best):
            best = pages
        if len(best) < 2:
            break
    return best


def _answers(pack: Pack, style: Style, picture: float, guided: bool) -> list[Say | Figure]:
    area = Page.upright(style.paper).inside.inset(ADULT_INSET)
    blocks: list[Say | Figure] = []
    if pack.answers:
        blocks.append(Say("title", style.words("answers.title")))
        if pack.name:
            size = style.look.type_mm.heading
            if any(metrics.width(word, size) > area.width for word in pack.name.split()):
                raise NameTooWideError(pack.name, style.paper.name)
            blocks.append(Say("heading", pack.name))
        lead = style.words("answers.lead")
        if guided:
            helps = style.words("answers.help", page=PAGE)
            blocks.append(pointer_figure(f"{lead} {helps}", style.look.type_mm.adult, area.width))
        else:
            blocks.append(Say("body", lead))
        blocks += answer_figures(pack.answers, area.width, area.height, style.look, picture)
    if pack.fact_answers:
        blocks.append(Say("heading", style.words("answers.facts")))
        blocks += fact_figures(pack.fact_answers, area.width, style.look)
    return blocks
