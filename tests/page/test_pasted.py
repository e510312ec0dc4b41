"""Pasted tables: what spreadsheets give is read, and each wrong row is told by its number."""

import pytest

from kitbuilder.page.pasted import cell_rows, read_pupils
from kitbuilder.page.refusal import RefusedRowsError


def told(text: str) -> list[tuple[str, list[str]]]:
    return [(p.name, [str(task.sum) for task in p.tasks]) for p in read_pupils(text)]


@pytest.mark.parametrize(
    "text",
    [
        "Ada\t53 − 27\nBen\t71-48",
        "Ada;53 - 27\r\nBen;71 - 48\r\n",
        "Ada, 53 − 27\nBen, 71 − 48",
        "name,sum\nAda,53 - 27\nBen,71 - 48",
        "Nombre\tResta\nAda\t53 – 27\n\nBen\t71 - 48\t",
    ],
)
def test_what_spreadsheets_give_is_read(text: str) -> None:
    assert told(text) == [("Ada", ["53 − 27"]), ("Ben", ["71 − 48"])]


def test_several_sums_in_a_row_are_one_pupils() -> None:
    assert told("Ada\t53 − 27\t71 − 48") == [("Ada", ["53 − 27", "71 − 48"])]


def test_rows_that_cannot_be_read_are_told_by_number() -> None:
    with pytest.raises(RefusedRowsError) as refused:
        read_pupils("Ada\t53 − 27\nBen\nCleo\t36 − 90")
    found = [(error.row, error.code) for error in refused.value.refusals]
    assert found == [(2, "sum.unreadable"), (3, "sum.too-much")]


def test_a_first_row_with_a_sum_is_no_heading() -> None:
    assert [number for number, _ in cell_rows("Ada\t53 − 27\nBen\t71 − 48")] == [1, 2]


def test_a_name_with_a_comma_in_quotes_stays_whole() -> None:
    assert told('"Ada, the first",53 - 27') == [("Ada, the first", ["53 − 27"])]
