"""The cover names every part and counts what is cut."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner
from pdf_lines import page_texts
from ready_made import ready_made

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.model import SheetKind
from kitbuilder.layout.parts.contents import Line, Pictogram
from kitbuilder.pipeline import held, laid_out, prepare
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request, read_sum


@pytest.mark.parametrize(("paper", "words"), [("a4", "en-GB"), ("letter", "en-US"), ("a4", "es")])
def test_the_cover_names_every_part_whole_in_large_type(paper: str, words: str) -> None:
    pages = ready_made(paper, words, "bold")[:2]
    said = [i.content.text for page in pages for i in page.items if isinstance(i.content, Line)]
    assert len(said) > 20 and not any("…" in text for text in said)


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
def test_the_ready_kits_cover_wastes_no_page(paper: str, words: str, pages: int) -> None:
    assert sum(sheet.kind is SheetKind.COVER for sheet in ready_made(paper, words)) == pages


@pytest.mark.parametrize(
    ("text", "scene"), [("43-17", "together"), ("305-148", "together-hundreds")]
)
def test_hundreds_lie_on_the_covers_mat_where_the_kit_has_some(text: str, scene: str) -> None:
    request = Request((read_sum(text),), fitted_paper("a4"))
    cover = laid_out(held(request), request).sheets[0]
    shown = [i.content.name for i in cover.items if isinstance(i.content, Pictogram)]
    assert shown[0] == scene


def test_a_smaller_picture_saves_a_cover_its_second_page() -> None:
    press = Press(words=designs.words("es"))
    request = Request((read_sum("4002-1768"),), fitted_paper("a4"), press=press)
    sheets = laid_out(held(request), request).sheets
    assert [sheet.kind for sheet in sheets].count(SheetKind.COVER) == 1


def test_a_cover_offers_cups_for_envelopes_alone_and_no_pile_that_is_not_made(
    tmp_path: Path,
) -> None:
    def cover(name: str, *args: str) -> str:
        out = ("--out", str(tmp_path / name))
        assert CliRunner().invoke(main, ["kit", *args, *out]).exit_code == 0
        texts = page_texts(tmp_path / name / "kit.pdf")
        return " ".join(next(t for t in texts if "First print only" in t).split())

    assert "No envelopes? Cups will do." in cover("kit", "71-48")
    assert "envelopes" not in cover("cards", "71-48", "--only", "cards")
    assert "pile" not in cover("class", "71-48", "--children", "3")
    assert "A file “pile” holds every copy already." in cover(
        "piled", "71-48", "--children", "3", "--piles", "sets"
    )


def test_a_print_run_says_what_each_bag_takes_and_ink_only_where_it_is_asked_for() -> None:
    def said(ink: bool) -> str:
        press = Press(ink=ink)
        request = Request((read_sum("71-48"),), fitted_paper("a4"), press=press)
        request = replace(request, cutting=CutWish(kits=3))
        run = (s for s in prepare(request).laid.sheets if s.kind is SheetKind.PRINT_RUN)
        items = [item.content for sheet in run for item in sheet.items]
        return " ".join(content.text for content in items if isinstance(content, Line))

    assert "In each bag: 7 tens and 11 ones, from all pages of pieces." in said(ink=False)
    assert "Ink: " not in said(ink=False)
    assert "Ink: " in said(ink=True)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_print_run_of_a_class_with_bags_takes_one_page(paper: str) -> None:
    press = Press(words=designs.words("es"))  # the longest
    sums = first_wishes().sums
    request = Request(sums, fitted_paper(paper), press=press, cutting=CutWish(30, home=True))
    kinds = [sheet.kind for sheet in prepare(request).laid.sheets]
    assert kinds.count(SheetKind.PRINT_RUN) == 1


def test_a_print_run_names_every_page_once_and_its_own_page_on_paper() -> None:
    request = Request((read_sum("71-48"),), fitted_paper("a4"), cutting=CutWish(kits=3))
    sheets = prepare(request).laid.sheets
    listed = [item.content for item in sheets[0].items if isinstance(item.content, Line)]
    typed = ", ".join(line.text.rstrip(",") for line in listed if line.tone == "accent")
    ranges = [one.partition("–") for one in typed.split(", ") if one]
    pages = [n for a, _, b in ranges for n in range(int(a), int(b or a) + 1)]
    assert any("On paper, print pages 1–2 first" in line.text for line in listed)
    assert sorted(pages) == list(range(3, len(sheets) + 1))


def test_the_cover_of_cards_counts_the_pieces_they_need(tmp_path: Path) -> None:
    """55 - 37 and 93 - 15 hold 9 tens, and 5 + 10 ones; who only writes 305 - 148 may build it."""

    def cover(name: str, *args: str) -> str:
        out = tmp_path / name
        done = CliRunner().invoke(main, [*args, "--out", str(out)])
        assert done.exit_code == 0, done.output
        return " ".join(page_texts(next(out.glob("*.pdf")))[0].split())

    table = tmp_path / "pupils.csv"
    table.write_text("name,sum,stage\nAda,55-37,pieces\nAda,93-15,pieces\nAda,304-4,written\n")
    needed = "a mat, 3 hundreds, 9 tens and 15 ones: not in here."
    told = cover("packs", "cards", "--pupils", str(table))
    assert f"Each child also needs {needed}" in told
    assert "only written" not in told
    table.write_text(table.read_text() + "Bo,4053-1278,written\n")
    assert f"{needed} Sums above 999 are only" in cover("more", "cards", "--pupils", str(table))
    table.write_text(table.read_text() + "Cy,4002-1768,pieces\n")
    assert "only written" not in cover("built", "cards", "--pupils", str(table))
    only = cover("mats", "kit", "55-37", "--only", "mats,cards")
    assert "also needs 5 tens and 15 ones: not in here." in only
    written = cover("written", "cards", "55-37", "--stage", "written")
    assert "also needs" not in written
    all_written = ("--stage", "written", "--kinds", "tasks,facts")
    facts = cover("facts", "cards", "53-27", "4002-1768", *all_written)
    assert "also needs a mat, 1 ten and 18 ones: not in here. 1 First" in facts
    assert "stick of glue" not in written
    assert "a stick of glue" in cover("folded", "cards", "55-37", "--backs", "fold")
    run = cover("class", "kit", "55-37", "--backs", "fold", "--children", "4")
    assert "a stick of glue" in run
    assert "Task cards (fold and glue)" in run
