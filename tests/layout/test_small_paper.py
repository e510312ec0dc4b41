"""The ready-made kit in the largest type on the smallest usual paper: it is made, not refused."""

from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner
from ready_made import ready_made

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.errors import RefusedError
from kitbuilder.layout.model import NoRoomError, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.contents import Line
from kitbuilder.layout.parts.furniture import Foot, foot
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.layout.small_paper import on_small_paper
from kitbuilder.press.printing import Press, fitted_paper


@pytest.mark.parametrize("language", ["en-GB", "es"])
def test_the_ready_made_kit_stands_on_a5_in_bold(language: str) -> None:
    """Both are drawn in tests/draw/test_large_type.py."""
    items = [item for sheet in ready_made("a5", language, "bold") for item in sheet.items]
    texts = " ".join(item.content.text for item in items if isinstance(item.content, Line))
    assert all(f"{whole} − {part}" in texts for whole, part in ((431, 257), (305, 148)))


@pytest.mark.parametrize("look", ["plain", "bold"])
def test_a_foot_stays_on_the_page_at_a_margin_as_wide_as_its_own(look: str) -> None:
    """Drawing refuses what leaves the printable page."""
    paper, press = fitted_paper("a4", 15.0), Press(look=designs.look(look))
    area = SheetArea.upright(paper)
    items = foot(Foot("note"), area, Style(paper, press.words, press.look))
    sheet = Sheet(SheetKind.GUIDE, 1, "paper", area.page.width, area.page.height, items)
    assert all(isinstance(page, Drawing) for page in draw_pages((sheet,), paper, press))


@pytest.mark.parametrize("margin", ["15", "10"])
def test_margins_at_which_a_thousand_fits_are_told(margin: str, tmp_path: Path) -> None:
    """279.4 mm are 250 for a thousand, 11 for its band and the foot, and twice 9."""
    asked = ["kit", "3421 - 1768", "--paper", "letter", "--only", "pieces", "--out", str(tmp_path)]
    refused = CliRunner().invoke(main, [*asked, "--margin", margin])
    assert "choose --margin 9 or less" in refused.stderr
    assert CliRunner().invoke(main, [*asked, "--margin", "9"]).exit_code == 0


def test_a_page_without_margins_holds_its_foot(tmp_path: Path) -> None:
    args = ["kit", "4003 - 1758", "--paper", "130x272mm", "--margin", "0"]
    done = CliRunner().invoke(main, [*args, "--out", str(tmp_path / "kit")])
    assert done.exit_code == 0, done.output


@pytest.mark.parametrize(
    ("asked", "page"),
    [
        ("--only pieces --paper 90x90mm", "Start here"),
        ("--only guide --paper 90x90mm", "Lessons"),
    ],
)
def test_a_page_without_room_on_small_paper_is_named(asked: str, page: str, tmp_path: Path) -> None:
    done = CliRunner().invoke(main, ["kit", "43-17", *asked.split(), "--out", str(tmp_path / "k")])
    assert (done.exit_code, len(done.stderr.splitlines())) == (2, 1)
    assert page in done.stderr
    assert "148 by 210 mm (a5) or larger" in done.stderr
    assert not (tmp_path / "k").exists()


def test_a_page_without_room_on_large_paper_stays_a_fault() -> None:
    style = Style(fitted_paper("a5"), designs.words("en-GB"), designs.look("plain"))
    with pytest.raises(NoRoomError), on_small_paper(SheetKind.COVER, style):
        Rect(0, 0, -1, 5)


def test_a_page_for_which_ones_own_look_leaves_no_room_is_refused() -> None:
    look = replace(designs.look("plain"), name="mine", text_contrast=4.6)
    style = Style(fitted_paper("a4"), designs.words("en-GB"), look)
    said = pytest.raises(RefusedError, match="make its type and lines smaller")
    with said, on_small_paper(SheetKind.COVER, style):
        Rect(0, 0, -1, 5)
