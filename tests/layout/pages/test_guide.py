"""The guide: every picture from the steps, every written mark beside the act that made it."""

from itertools import product
from pathlib import Path

import pytest
from grids import some, typed
from pdf_lines import page_texts

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.kit.lesson.script import taught
from kitbuilder.layout.lesson.lesson_pages import lesson_sheets
from kitbuilder.layout.model import SheetKind
from kitbuilder.number import Sum
from kitbuilder.number.steps import steps
from kitbuilder.number.written import columns, columns_after
from kitbuilder.pipeline import build
from kitbuilder.request.request import Request, fitted_paper

WORDS = designs.words()
SUMS = [Sum(42, 17), Sum(634, 258), Sum(305, 148), Sum(78, 41), Sum(500, 1), Sum(7, 3), Sum(71, 0)]


@pytest.mark.parametrize("sum_", SUMS, ids=str)
def test_every_mark_is_written_when_its_exchange_is_made(sum_: Sum) -> None:
    done = steps(sum_)
    written = columns_after(sum_, done)
    assert written[-1] == columns(sum_)
    for step, now in zip(done, written, strict=True):
        for place, column in enumerate(now):
            if step.act.value in ("build", "exchange", "take", "parts"):
                held = step.table.together.counts[place]
                marks = (column.top, *column.marks)
                # the last number above a column is what lies in it, in both zones together
                assert marks[-1] == held
    assert all(column.answer is None for column in written[0])


def test_marks_of_a_crossed_zero_come_one_by_one() -> None:
    # 305 − 148: the zero receives ten tens (10), then hands one on (9)
    done = steps(Sum(305, 148))
    tens = [now[1].marks for now in columns_after(Sum(305, 148), done)]
    assert tens[:3] == [(), (10,), (10, 9)]


@pytest.mark.parametrize(("sum_", "paper"), some(product(SUMS, ("a4", "letter")), 3))
def test_the_guide_fits_its_pages(sum_: Sum, paper: str, tmp_path: Path) -> None:
    built = build(Request((sum_,), fitted_paper(paper), parts=("guide",)), tmp_path)
    kinds = [sheet.kind for sheet in built.laid.sheets]
    stages = 5 if sum_.places < 3 or not sum_.part else 6
    assert kinds.count(SheetKind.GUIDE) <= stages + (sum_.places == 3)
    texts = page_texts(tmp_path / "kit.pdf")
    assert sum("When the answer is wrong" in text for text in texts) == 1


@pytest.mark.parametrize(("paper", "words", "look"), typed(("a4", "letter", "a5")))
def test_no_step_reaches_into_the_foot(paper: str, words: str, look: str) -> None:
    # A heading of two lines beside words of three: a row is as high as both together.
    said = designs.words(words)
    style = Style(fitted_paper(paper), said, designs.look(look))
    for sum_ in (Sum(43, 17), Sum(305, 148), Sum(431, 257)):
        title = said("guide_pages.first", sum=sum_)
        for sheet in lesson_sheets(taught(sum_, title, said), 1, style):
            bar = next(item.rect for item in sheet.items if item.what == "ruler")
            above = [item for item in sheet.items if item.rect.y < bar.y - 3.0]
            assert max(item.rect.bottom for item in above) <= bar.y, (sum_, sheet.number)
