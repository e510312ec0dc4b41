"""Tables: as wide as their page, whole words, nothing cut short."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from pdf_lines import page_texts

from kitbuilder.cli import main
from kitbuilder.design import metrics
from kitbuilder.errors import RefusedError
from kitbuilder.layout.text.table import Table, table

ROWS = (("page", "what", "cut?"), ("2–3", "Answers, for the adult", "yes"))


def laid(width: float, rows: tuple[tuple[str, ...], ...] = ROWS, size: float = 5.0) -> Table:
    figure = table(rows, width, size)
    assert isinstance(figure.content, Table)
    return figure.content


def test_a_table_with_room_has_a_line_a_row() -> None:
    found = laid(180)
    assert found.lines == ROWS
    # Two ems of 5 mm stand between columns.
    edge = max(metrics.width(cell, 5) for cell in ("page", "2–3")) + 10
    assert found.columns[:2] == pytest.approx((0, edge))


def test_columns_stand_apart_until_the_page_is_full() -> None:
    natural = [max(metrics.width(row[i], 5) for row in ROWS) for i in range(3)]
    for gap in (4.0, 7.0, 10.0):  # from 0.8 ems to two
        found = laid(sum(natural) + 2 * gap)
        assert found.lines == ROWS
        assert found.columns[2] + natural[2] == pytest.approx(sum(natural) + 2 * gap)


def test_a_narrow_table_breaks_its_long_cells() -> None:
    found = laid(62)
    assert found.lines[0] == ROWS[0]
    assert " ".join(line[1] for line in found.lines[1:]) == "Answers, for the adult"
    assert all(line[::2] == ("", "") for line in found.lines[2:])
    ends = (*found.columns[1:], 62.0)
    for line in found.lines:
        for cell, left, right in zip(line, found.columns, ends, strict=True):
            assert left + metrics.width(cell, 5) <= right + 1e-6


def test_the_column_that_can_give_way_most_is_broken_alone() -> None:
    # Both have two words a line could break at; the sentence on the left has far more to give.
    rows = (("what is to be cut, and in what order it is done", "one side"),)
    long, short = (metrics.width(cell, 5) for cell in rows[0])
    found = laid(long + short - 20, rows)
    # Columns stand 0.8 ems (4 mm) apart where room is short, so 24 mm come off the left one.
    assert found.columns[1] == pytest.approx(long - 20)
    assert [line[1] for line in found.lines] == ["one side", ""]


def test_a_long_name_is_broken_and_a_table_too_narrow_refused() -> None:
    named = (*ROWS, ("4", "W" * 40, "yes"))
    assert all(metrics.width(line[1], 5) <= 100 for line in laid(100, named).lines)
    with pytest.raises(RefusedError, match="too wide"):
        laid(20)


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
