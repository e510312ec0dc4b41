"""A class set in large type is made on every paper, however many layers are cut at a time."""

import pytest

from kitbuilder.design import load as designs
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.model import SheetKind
from kitbuilder.number import Sum
from kitbuilder.pipeline import prepare
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request


@pytest.mark.parametrize(
    ("paper", "layers", "language"),
    [  # longest in Spanish; the small page in English too
        ("letter", 2, "es"),
        ("a5", 1, "es"),
        ("a5", 6, "en-GB"),
    ],
)
def test_a_class_set_in_large_type_is_made(paper: str, layers: int, language: str) -> None:
    # what a print run tells is known once every page is drawn, and a page that does not fit told
    press = Press(look=designs.look("bold"), words=designs.words(language))
    cutting = CutWish(6, layers=layers)
    request = Request(first_wishes().sums, fitted_paper(paper), press=press, cutting=cutting)
    kinds = [sheet.kind for sheet in prepare(request).laid.sheets]
    assert 1 <= kinds.count(SheetKind.PRINT_RUN) <= 3
    assert kinds.count(SheetKind.LABELS) >= 1


def test_a_table_that_goes_on_says_its_columns_again() -> None:
    # "28" and "2" began a page, and nothing said which were the pages
    press = Press(look=designs.look("bold"), words=designs.words("es"))
    cutting = CutWish(5, home=True)
    asked = Request((Sum(431, 257),), fitted_paper("letter"), press=press, cutting=cutting)
    run = [s for s in prepare(asked).laid.sheets if s.kind is SheetKind.PRINT_RUN]
    assert len(run) == 2
    tops = [i.rect.y for i in run[1].items if i.what == "tick_box"]
    said = {getattr(i.content, "text", ""): i.rect.y for i in run[1].items}
    assert said[press.words("run.copies")] < min(tops)
