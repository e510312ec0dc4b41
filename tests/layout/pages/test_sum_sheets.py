"""Sheets of sums to write, their key, and the empty table that marks reads when it is filled in."""

from pathlib import Path

import pytest
from click.testing import CliRunner
from guards import small_type, words_apart, words_in_boxes, words_inside
from pdf_lines import page_texts

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.kit.card_packs import kit_pack, pupil_packs
from kitbuilder.kit.card_records import CardWishes, Pupil, Task
from kitbuilder.layout.model import SheetKind
from kitbuilder.layout.parts.settings import Setting
from kitbuilder.layout.parts.words import cut_to, wide
from kitbuilder.layout.worksheets.sum_sheets import sum_sheets
from kitbuilder.number import Sum
from kitbuilder.output.answer_table import answer_table
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.answers import read_answers

SUMS = (*(Sum(700 + 7 * k, 114 + 5 * k) for k in range(14)), Sum(43, 17), Sum(1300, 522))
WISH = CardWishes(kinds=("sheet",))


@pytest.mark.parametrize("look", ["plain", "bold"])
@pytest.mark.parametrize("paper", ["a4", "letter", "a5"])
@pytest.mark.parametrize("words", designs.names("words"))
def test_every_sum_stands_once_and_nothing_runs_together(words: str, paper: str, look: str) -> None:
    press = Press(look=designs.look(look), words=designs.words(words))
    fitted = fitted_paper(paper)
    sheets = sum_sheets((kit_pack(SUMS, WISH, press.words),), press.style(fitted))
    assert sum(item.what == "panel" for s in sheets for item in s.items) == 2 * len(SUMS)
    for sheet, drawing in zip(sheets, draw_pages(sheets, fitted, press), strict=True):
        assert words_apart(drawing) == [] and words_inside(drawing) == []
        assert words_in_boxes(sheet) == [] and small_type(drawing) == []


def test_the_key_comes_after_and_answers_stand_in_it_alone(tmp_path: Path) -> None:
    args = ["cards", "--kinds", "sheet", "--out", str(tmp_path), "702-368", "43-17"]
    assert CliRunner().invoke(main, args).exit_code == 0
    _, asked, key = page_texts(tmp_path / "cards.pdf")
    assert "Sums to write" in asked and "Name:" in asked
    assert "3 3 4" not in " ".join(asked.split()) and "3 3 4" in " ".join(key.split())


def test_a_table_that_was_filled_in_is_kept(tmp_path: Path) -> None:
    args = ["cards", "--kinds", "sheet", "--out", str(tmp_path), "702-368"]
    for _ in range(2):
        assert CliRunner().invoke(main, args).exit_code == 0
    table = tmp_path / "answers.csv"
    assert table.read_text() == "name,702 - 368\n"
    table.write_text("name,702 - 368\nAda,344\n")
    result = CliRunner().invoke(main, args)
    assert result.exit_code == 0 and table.read_text().endswith("Ada,344\n")
    assert "answers.csv" in result.stderr  # it is told that it was kept


def test_the_table_filled_in_is_read() -> None:
    words = designs.words()
    table = answer_table((kit_pack(SUMS[:2], WISH, words),))
    assert table == "name,700 - 114,707 - 119\n"
    (ada,) = read_answers(f"{table}Ada,586,\n", "answers.csv")
    assert [cell.answer for cell in ada.cells] == [586, None]
    packs = pupil_packs([Pupil("=Ada", (Task(SUMS[0]),))], WISH, words)
    assert answer_table(packs) == "name,sum,answer\n'=Ada,700 - 114,\n"
    assert answer_table((kit_pack(SUMS, CardWishes(), words),)) == ""


def test_a_pupils_own_sheet_bears_the_name() -> None:
    packs = pupil_packs([Pupil("Ada", (Task(SUMS[0]),))], WISH, designs.words())
    asked, key = sum_sheets(packs, Press().style(fitted_paper("a4")))
    assert (asked.kind, key.kind) == (SheetKind.SUM_SHEET, SheetKind.SUM_KEY)
    assert asked.section == key.section == "Ada"


@pytest.mark.parametrize(
    ("paper", "look", "words"), [("a4", "plain", "en-GB"), ("a5", "bold", "es")]
)
def test_a_class_has_sheets_with_their_names(
    paper: str, look: str, words: str, tmp_path: Path
) -> None:
    # 30 pages of sheets left the cover no room for a word; a long name left its page
    names = [*(f"Ada {k}" for k in range(29)), "Ana María Guadalupe Rodríguez de la Concepción"]
    (tmp_path / "class.csv").write_text("name,sum\n" + "".join(f"{n},43-17\n" for n in names))
    args = ["cards", "--pupils", str(tmp_path / "class.csv"), "--kinds", "sheet,record"]
    made = ["--paper", paper, "--look", look, "--words", words, "--out", str(tmp_path / "c")]
    result = CliRunner().invoke(main, [*args, *made])
    assert result.exit_code == 0, result.stderr
    pages = [" ".join(text.split()) for text in page_texts(tmp_path / "c" / "cards.pdf")[-60:]]
    for name, asked, key in zip(names, pages[::2], pages[1::2], strict=True):
        begin, _, last = name[:17].rstrip(), *name.rpartition(" ")[1:]
        for page in (asked, key):
            assert begin in page and last in page


def test_two_children_whose_names_begin_alike_are_told_apart_on_their_cards() -> None:
    names = [f"María de los Ángeles García {last}" for last in ("López", "Pérez")]
    alike = [
        names[0],
        "María de los Ángeles Gómez López",
        "María de los Ángeles García-Lorca López",
    ]
    tasks = (Task(SUMS[0]), Task(SUMS[1]))
    for several in (names, alike):
        packs = pupil_packs([Pupil(one, tasks) for one in several], CardWishes(), designs.words())
        edges = [card.own for pack in packs for card in (*pack.tasks, pack.blank) if card]
        assert len({*edges}) == len(edges) and all("…" in edge for edge in edges)
    setting = Setting(3, 4)
    cut = {cut_to(name, setting, 30) for name in names}
    assert len(cut) == 2 and all("…" in one and wide(one, setting) <= 30 for one in cut)
