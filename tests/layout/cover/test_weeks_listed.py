"""What a kit of some weeks prints later is listed week by week, and lies in that order."""

import re
from pathlib import Path

import pytest
from click.testing import CliRunner
from pdf_lines import page_texts

from kitbuilder.cli import main
from kitbuilder.layout.cover.print_lists import later_weeks, weekly
from kitbuilder.layout.model import Sheet, SheetKind


def sheet(kind: SheetKind, week: str, *, later: bool = True) -> Sheet:
    return Sheet(kind, 1, "paper", 210, 297, (), later=later, week=week)


def test_what_is_for_no_week_is_printed_with_the_first_later_one() -> None:
    sheets = (
        sheet(SheetKind.WEEK, "Week 1", later=False),
        sheet(SheetKind.WEEK, "Week 2"),
        sheet(SheetKind.WORKSHEET, "Week 3"),
        sheet(SheetKind.WORKSHEET, "Week 2"),
        sheet(SheetKind.LESSON, ""),
    )
    assert weekly(sheets, 10) == (("Week 2", "11, 13–14"), ("Week 3", "12"))
    assert later_weeks(sheets) == 2
    assert later_weeks(sheets[:2]) == 1


@pytest.mark.parametrize(("language", "named"), [("en-GB", "Week"), ("es", "Semana")])
def test_a_cover_lists_later_weeks(language: str, named: str, tmp_path: Path) -> None:
    typed = ["kit", "--weeks", "4", "--only", "week", "--words", language, "--out", str(tmp_path)]
    done = CliRunner().invoke(main, typed)
    assert done.exit_code == 0, done.output
    pages = page_texts(tmp_path / "kit.pdf")
    listed = re.search(rf"{named} 3: (\d+)–(\d+)", pages[0])
    assert listed
    of_week = pages[int(listed[1]) - 1 : int(listed[2])]
    assert len(of_week) > 2
    assert all(f"{named} 3".lower() in text.lower() for text in of_week)
