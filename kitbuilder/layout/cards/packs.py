"""Turns packs of cards into sheets: cards in order, then the adult's answers."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design import metrics
from kitbuilder.design.load import Look, Paper, Words
from kitbuilder.errors import NameTooWideError, RefusedError
from kitbuilder.kit.card_records import Backs, Card, CardWishes, LabelCard, Pack
from kitbuilder.kit.records import Say
from kitbuilder.layout.cards.answers import PICTURES, answer_figures, fact_figures
from kitbuilder.layout.cards.deal import deal, halved
from kitbuilder.layout.cards.halving import Halved
from kitbuilder.layout.cards.small_cards import arrow_sheets, digit_sheets, record_sheet
from kitbuilder.layout.model import Sheet
from kitbuilder.layout.page import Page
from kitbuilder.layout.text.flow import ADULT_INSET, Figure, flowed
from kitbuilder.layout.text.page_refs import PAGE, pointer_figure


def pack_sheets(
    packs: Sequence[Pack],
    wishes: CardWishes,
    paper: Paper,
    words: Words,
    look: Look,
    slack: float = 0.0,
    guided: bool = False,
) -> Iterator[Sheet]:
    """Yield the sheets on card of every pack in turn, then those on paper, the answers last.

    So each stock is printed in one go. Cards of one kind have one size in all packs. ``slack``
    is how far (mm) backs are shifted into register. Where cards are ``guided``, the answers
    point to the guide.
    """
    ways = _ways(packs, wishes, paper, look, slack if wishes.backs != "separate" else 0.0)
    others: list[Sheet] = []
    for pack in packs:
        for sheet in _sheets(pack, ways, wishes, paper, words, look, guided):
            named = replace(sheet, section=pack.name) if pack.name else sheet
            if sheet.stock == "card":
                yield named
            else:
                others.append(named)
    yield from sorted(others, key=lambda sheet: sheet.title == "answers")


def _ways(
    packs: Sequence[Pack], wishes: CardWishes, paper: Paper, look: Look, slack: float
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
            halved(main, paper, look, backs, slack, tall_first=tall) if main else None,
            halved(facts, paper, look, backs, slack) if facts else None,
        )
    except RefusedError:
        _check_labels(labels, paper, look, backs, slack)
        raise


def _check_labels(
    labels: Sequence[LabelCard], paper: Paper, look: Look, backs: Backs, slack: float
) -> None:
    """Raise ``NameTooWideError`` for the first name that is all that keeps its label off a card."""

    def fits(label: LabelCard) -> bool:
        try:
            return bool(halved([label], paper, look, backs, slack))
        except RefusedError:
            return False

    wide = next((label for label in labels if not fits(label)), None)
    if wide and fits(replace(wide, name="A")):
        raise NameTooWideError(wide.name, paper.name)


def _sheets(
    pack: Pack,
    ways: tuple[Halved | None, Halved | None],
    wishes: CardWishes,
    paper: Paper,
    words: Words,
    look: Look,
    guided: bool,
) -> Iterator[Sheet]:
    unit, backs = paper.unit_mm, wishes.backs
    labels = (pack.label,) if pack.label else ()
    if ways[0]:
        yield from deal("task_cards", (*labels, *pack.tasks), ways[0], unit, backs)
    if ways[1]:
        yield from deal("fact_cards", pack.facts, ways[1], unit, backs)
    yield from arrow_sheets(pack.arrows, paper)
    yield from digit_sheets(pack.digits, paper)
    if pack.record:
        yield record_sheet(pack.record, paper, look)
    yield from _answer_sheets(pack, paper, words, look, guided)


def _answer_sheets(
    pack: Pack, paper: Paper, words: Words, look: Look, guided: bool
) -> tuple[Sheet, ...]:
    """Return the adult's answers on the fewest pages, pictures as large as these allow."""
    best: tuple[Sheet, ...] = ()
    for picture in PICTURES:
        pages = flowed("answers", _answers(pack, paper, words, look, picture, guided), paper, look)
        if not best or len(pages) < len(best):
            best = pages
        if len(best) < 2:
            break
    return best


def _answers(
    pack: Pack, paper: Paper, words: Words, look: Look, picture: float, guided: bool
) -> list[Say | Figure]:
    area = Page.upright(paper).inside.inset(ADULT_INSET)
    blocks: list[Say | Figure] = []
    if pack.answers:
        blocks.append(Say("title", words("answers.title")))
        if pack.name:
            size = look.type_mm.heading
            if any(metrics.width(word, size) > area.width for word in pack.name.split()):
                raise NameTooWideError(pack.name, paper.name)
            blocks.append(Say("heading", pack.name))
        lead = words("answers.lead")
        if guided:
            helps = words("answers.help", page=PAGE)
            blocks.append(pointer_figure(f"{lead} {helps}", look.type_mm.adult, area.width))
        else:
            blocks.append(Say("body", lead))
        blocks += answer_figures(pack.answers, area.width, area.height, look, picture)
    if pack.fact_answers:
        blocks.append(Say("heading", words("answers.facts")))
        blocks += fact_figures(pack.fact_answers, area.width, look)
    return blocks
