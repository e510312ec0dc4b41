"""Each sentence as long as its box allows: every page still holds it."""

from collections.abc import Iterator
from datetime import date
from fnmatch import fnmatchcase

import pytest

from kitbuilder.design import load as designs
from kitbuilder.design.load import Words
from kitbuilder.design.style import Style
from kitbuilder.design.words_check import BOXES, FILLS, Entries, check_words
from kitbuilder.draw.drawings import draw_pages
from kitbuilder.errors import RefusedError
from kitbuilder.kit.card_records import BACKS, KINDS, STAGES
from kitbuilder.kit.plan_page import plan_sums
from kitbuilder.kit.records import CutWish, EstimateWish
from kitbuilder.layout.estimate import estimate
from kitbuilder.layout.model import Sheet
from kitbuilder.layout.pages.check_sheet import check_sheets
from kitbuilder.layout.pages.print_run import run_sheets
from kitbuilder.number import Sum
from kitbuilder.number.course.outline import Span
from kitbuilder.number.course.schedule import PlanWish, plan
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Part, Request, card_wish, mat_wish

SIZES = designs.look().type_mm


def stands(key: str) -> set[str]:
    """Return the keys that ``key`` says in its slots, and those that they say."""
    fills = [fill for fill in FILLS if fill.said and fnmatchcase(key, fill.keys)]
    slots = str(designs.words().entries[key])
    keys = [keys for fill in fills if f"{{{fill.slot}}}" in slots for keys in fill.stands]
    found = {other for other in designs.words().entries for k in keys if fnmatchcase(other, k)}
    return found.union(*(stands(other) for other in found))


WITHIN = {key: stands(key) for key in designs.words().entries}
BESIDE = {
    key: {key}.union(*({k} | held for k, held in WITHIN.items() if key == k or key in held))
    for key in WITHIN
}
"""What is said with a key: what stands in it, and what it stands in, with all that these say."""


def fits(entries: Entries, key: str, said: str) -> bool:
    try:
        beside = {k: entries[k] for k in entries if k in BESIDE[key]}
        check_words({**beside, key: said}, SIZES, "mine.toml")
    except RefusedError:
        return False
    return True


def stretched(words: Words) -> Words:
    """Lengthen each sentence that stands in a box, by words and letters, until one more is too
    long."""

    def longer(key: str, said: str) -> str:
        while True:
            more = next((m for m in ("m", " m", "i", " i") if fits(entries, key, said + m)), None)
            if more is None:
                return said
            said += more

    entries = dict(words.entries)
    for key, entry in words.entries.items():
        if any(fnmatchcase(key, box.keys) for box in BOXES):
            lines = (entry,) if isinstance(entry, str) else entry
            longest = tuple(longer(key, line) for line in lines)
            entries[key] = longest[0] if isinstance(entry, str) else longest
    return Words(words.language, entries, words.paper)


LONG = stretched(designs.words())


def requests(paper: str) -> Iterator[Request]:
    press, fitted = Press(words=LONG), fitted_paper(paper)
    sums = (*first_wishes().sums, Sum(634, 258))
    for arrangement in ("two", "beside"):
        mats = mat_wish(arrangement, "subtract,add,exchange", "words")
        yield Request(sums, fitted, press=press, parts=("mats",), mats=mats)
    for stage, backs in zip(STAGES, BACKS, strict=True):
        cards = card_wish(",".join(KINDS), stage, backs, "ten-and-crossing")
        yield Request(sums, fitted, press=press, parts=("pieces", "cards"), cards=cards)
    full = EstimateWish(4.5, 200, 0.12)
    yield Request(sums, fitted, press=press, cutting=CutWish(15, 3, spares=5), estimate=full)
    tasks = plan(PlanWish(Span(2, 5, date(2027, 1, 11)))).tasks
    parts: tuple[Part, ...] = ("cards", "guide", "progress")
    yield Request(plan_sums(tasks), fitted, press=press, plan=tasks, parts=parts)


def test_the_sentences_were_lengthened() -> None:
    short = designs.words()
    longer = [key for key, entry in LONG.entries.items() if entry != short.entries[key]]
    assert {"task.build", "back.check", "board.bank_hint", "footer.page"} <= set(longer)
    assert len(longer) > 60


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_every_page_holds_sentences_as_long_as_their_boxes(paper: str) -> None:
    """Drawing refuses what leaves the page or runs into something else."""
    for request in requests(paper):
        kit = held(request)
        laid = laid_out(kit, request)
        run: tuple[Sheet, ...] = ()
        if request.cutting.kits > 1:
            layers = request.cutting.layers
            inks = [900.0] * len(laid.sheets)
            takes = estimate(laid.sheets, inks, layers, request.estimate)
            look = request.press.look
            run = run_sheets(
                kit,
                laid.sheets,
                laid.cutting,
                request.cutting,
                takes,
                Style(request.paper, LONG, look),
            )
        assert list(draw_pages((*run, *laid.sheets), request.paper, request.press))
    sheets = check_sheets(Style(fitted_paper(paper), LONG, designs.look()), paper)
    assert list(draw_pages(sheets, fitted_paper(paper), Press(words=LONG)))
