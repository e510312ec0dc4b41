"""The cover names every part and counts what is cut."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from pdf_lines import page_texts

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.layout.model import SheetKind
from kitbuilder.layout.pages.cover_page import BANK_CARD
from kitbuilder.layout.parts.contents import Pictogram
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.request import Request, read_sum


@pytest.mark.parametrize("words", ["en-GB", "en-US", "es"])
def test_the_cover_names_every_part_whole_in_large_type(words: str, tmp_path: object) -> None:
    paper = ("--paper", "a4", "--look", "bold", "--words", words, "--out", str(tmp_path))
    assert CliRunner().invoke(main, ["kit", *paper]).exit_code == 0
    pages = page_texts(f"{tmp_path}/kit.pdf")  # type: ignore[arg-type]
    assert "…" not in pages[0] + pages[1]


def test_the_cover_counts_the_pieces_of_every_copy(tmp_path: Path) -> None:
    done = CliRunner().invoke(main, ["kit", "--within", "1000", "--out", str(tmp_path)])
    assert done.exit_code == 0, done.output
    pieces = json.loads((tmp_path / "kit.json").read_text())["pieces"]
    # a column of ones with 9 is never short, so 8 and the ten fetched are most; tens can have 9
    assert (pieces["hundreds"], pieces["tens"], pieces["ones"]) == (9, 19, 18)
    said = page_texts(tmp_path / "kit.pdf")[0]
    assert "You will cut 9 hundreds, 19 tens and 18 ones." in " ".join(said.split())


def test_the_cover_counts_spares_and_names_the_page_of_the_guide(tmp_path: Path) -> None:
    done = CliRunner().invoke(main, ["kit", "--spares", "5", "--out", str(tmp_path)])
    assert done.exit_code == 0, done.output
    texts = page_texts(tmp_path / "kit.pdf")
    # 5 % of 13 tens and of 15 ones, rounded up, are one of each
    assert "You will cut 4 hundreds, 14 tens and 16 ones." in " ".join(texts[0].split())
    page = next(n for n, text in enumerate(texts, 1) if "The first sum: 43" in text)
    assert f"It begins on page {page}." in texts[0]


@pytest.mark.parametrize(("paper", "words", "pages"), [("a4", "es", 1), ("a5", "es", 2)])
def test_the_ready_kits_cover_wastes_no_page(
    paper: str, words: str, pages: int, tmp_path: Path
) -> None:
    args = ("kit", "--paper", paper, "--words", words, "--out", str(tmp_path))
    assert CliRunner().invoke(main, args).exit_code == 0
    sheets = json.loads((tmp_path / "kit.json").read_text())["sheets"]
    assert sum(sheet["kind"] == "cover" for sheet in sheets) == pages


@pytest.mark.parametrize(
    ("text", "scene"), [("43-17", "together"), ("305-148", "together-hundreds")]
)
def test_hundreds_lie_on_the_covers_mat_where_the_kit_has_some(text: str, scene: str) -> None:
    request = Request((read_sum(text),), fitted_paper("a4"))
    cover = laid_out(held(request), request).sheets[0]
    shown = [i.content.name for i in cover.items if isinstance(i.content, Pictogram)]
    assert shown[0] == scene


@pytest.mark.parametrize("words", ["en-GB", "en-US", "es"])
@pytest.mark.parametrize("look", ["plain", "bold"])
@pytest.mark.parametrize("sums", ["71-48", "431-257,305-148,254-38,43-17"])
def test_the_size_is_checked_on_the_page_that_is_printed_alone(
    sums: str, look: str, words: str
) -> None:
    press = Press(look=designs.look(look), words=designs.words(words))
    asked = tuple(read_sum(text) for text in sums.split(","))
    request = Request(asked, fitted_paper("a5"), press=press)
    covers = [s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.COVER]
    assert len(covers) <= 3
    frames = [(i.rect.width, i.rect.height) for i in covers[0].items if i.what == "panel"]
    assert BANK_CARD in frames
    boxes = [i for i in covers[0].items if i.what == "tick_box"]
    assert len(boxes) == len(press.words.lines("cover.checks"))
