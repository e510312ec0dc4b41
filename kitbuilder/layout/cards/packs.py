"""Turns packs of cards into sheets: cards in order, then the adult's answers."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from kitbuilder.design import metrics
from kitbuilder.design.style import Style
from kitbuilder.errors import NameTooWideError, RefusedError
from kitbuilder.kit.card_records import (
    Answer,
    Backs,
    Card,
    CardWishes,
    FactAnswer,
    LabelCard,
    Pack,
)
from kitbuilder.kit.records import Say
from kitbuilder.layout.cards.answers import PICTURES, answer_figures, fact_figures
from kitbuilder.layout.cards.deal import deal, halved
from kitbuilder.layout.cards.halving import Halved
from kitbuilder.layout.cards.small_cards import arrow_sheets, digit_sheets, record_sheet
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.page import Page
from kitbuilder.layout.text.flow import ADULT_INSET, Figure, flowed
from kitbuilder.layout.text.page_refs import PAGE, pointer_figure

MANY = 24
"""Answers from which pictures are of the smallest size at once: the pages are many anyway."""

Ways = tuple[Halved | None, Halved | None, Halved | None]


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
    together = len(packs) > 1 and not wishes.each
    others: list[Sheet] = []
    for pack in packs:
        sheets = _sheets(pack, ways, wishes, style)
        answers = () if together else _answer_sheets(_answers_of(pack, style), style, guided)
        for sheet in (*sheets, *answers):
            named = replace(sheet, section=pack.name) if pack.name else sheet
            if sheet.stock == "card":
                yield named
            else:
                others.append(named)
    if together:
        others += _answer_sheets(_answers_of_all(packs, style), style)
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
        raise NameTooWideError(wide.name, style.paper.name)


def _sheets(
    pack: Pack,
    ways: Ways,
    wishes: CardWishes,
    style: Style,
) -> Iterator[Sheet]:
    unit, backs = style.paper.unit_mm, wishes.backs
    if ways[0] and pack.tasks:
        each = len(ways[0].places) // (2 if backs == "fold" else 1)
        # the name stands on every card, so the name card takes no sheet of its own
        labels = (pack.label,) if pack.label and len(pack.tasks) % each else ()
        yield from deal(SheetKind.TASK_CARDS, (*labels, *pack.tasks), ways[0], unit, backs)
    if ways[1]:
        yield from deal(SheetKind.FACT_CARDS, pack.facts, ways[1], unit, backs)
    if ways[2]:
        yield from deal(SheetKind.STORY_CARDS, pack.said, ways[2], unit, "separate")
    yield from arrow_sheets(pack.arrows, style.paper)
    yield from digit_sheets(pack.digits, style.paper)
    if pack.record:
        yield record_sheet(pack.record, style)


@dataclass(frozen=True, slots=True)
class _Answers:
    """What the adult's answers say before the sums, and the sums and facts worked.

    So many answers as are ``alike`` stand in boxes of one height.
    """

    before: tuple[Say, ...]
    answers: tuple[Answer, ...]
    facts: tuple[FactAnswer, ...]
    alike: int


def _answers_of(pack: Pack, style: Style) -> _Answers:
    before = [Say("title", style.words("answers.title"))] if pack.answers else []
    if pack.answers and pack.name:
        _check_name(pack.name, style)
        before.append(Say("heading", pack.name))
    return _Answers(tuple(before), pack.answers, pack.fact_answers, max(1, len(pack.answers)))


def _answers_of_all(packs: Sequence[Pack], style: Style) -> _Answers:
    """Return a short key of every pupil's answers, and each sum worked once, by size."""
    before = []
    if any(pack.answers for pack in packs):
        before = [Say("title", style.words("answers.title"))]
        before.append(Say("heading", style.words("answers.key")))
        for pack in packs:
            _check_name(pack.name, style)
            before.append(Say("body", f"{pack.name}: {pack.key}"))
        before.append(Say("heading", style.words("answers.worked")))
    worked = {(a.sum.whole, a.sum.part): a for pack in packs for a in pack.answers}
    answers = tuple(worked[key] for key in sorted(worked))
    return _Answers(tuple(before), answers, packs[0].fact_answers, 2)


def _check_name(name: str, style: Style) -> None:
    """Raise ``NameTooWideError`` for a name with a word wider than a page of answers."""
    width, size = Page.upright(style.paper).inside.inset(ADULT_INSET).width, style.look.type_mm
    if any(metrics.width(word, size.heading) > width for word in name.split()):
        raise NameTooWideError(name, style.paper.name)


def _answer_sheets(held: _Answers, style: Style, guided: bool = False) -> tuple[Sheet, ...]:
    """Return the adult's answers on the fewest pages, pictures as large as these allow."""
    best: tuple[Sheet, ...] = ()
    for picture in PICTURES if len(held.answers) <= MANY else PICTURES[-1:]:
        pages = flowed(SheetKind.ANSWERS, _answers(held, style, picture, guided), style)
        if not best or len(pages) < len(best):
            best = pages
        if len(best) < 2:
            break
    return best


def _answers(held: _Answers, style: Style, picture: float, guided: bool) -> list[Say | Figure]:
    area = Page.upright(style.paper).inside.inset(ADULT_INSET)
    blocks: list[Say | Figure] = list(held.before)
    if held.answers:
        lead = style.words("answers.lead")
        if guided:
            helps = style.words("answers.help", page=PAGE)
            blocks.append(pointer_figure(f"{lead} {helps}", style.look.type_mm.adult, area.width))
        else:
            blocks.append(Say("body", lead))
        for start in range(0, len(held.answers), held.alike):
            row = held.answers[start : start + held.alike]
            blocks += answer_figures(row, area.width, area.height, style.look, picture)
    if held.facts:
        blocks.append(Say("heading", style.words("answers.facts")))
        blocks += fact_figures(held.facts, area.width, style.look)
    return blocks
