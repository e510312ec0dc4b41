"""Pasted tables: what spreadsheets give is read, and each wrong row is told by its number."""

import re
from collections.abc import Callable
from contextlib import suppress
from functools import partial

import hypothesis
import pytest
from hypothesis import strategies as st

from kitbuilder.design.saying import LANGUAGES
from kitbuilder.errors import RefusedError, Said
from kitbuilder.page import refusal
from kitbuilder.page.answers_shown import read_marks
from kitbuilder.page.contract import Engine
from kitbuilder.page.refusal import RefusedRowsError
from kitbuilder.page.screen_words import screen_words
from kitbuilder.page.table.pasted import pasted_answers, read_pupils
from kitbuilder.page.table.shape import table


def told(text: str) -> list[tuple[str, list[str]]]:
    return [(p.name, [str(task.sum) for task in p.tasks]) for p in read_pupils(text, "pieces")]


@pytest.mark.parametrize(
    "text",
    [
        "Ada\t53 − 27\nBen\t71-48",
        "Ada;53 - 27\r\nBen;71 - 48\r\n",
        "Ada, 53 − 27\nBen, 71 − 48",
        "name,sum\nAda,53 - 27\nBen,71 - 48",
        "Nombre\tResta\nAda\t53 – 27\n\nBen\t71 - 48\t",
        "Ada\t53 — 27 = ?\nBen\t71 - 48 = ____",
        "No.;Name;Sum 1\n1;Ada;53-27\n2;Ben;71-48",
        "1,Ada,53-27\n2,Ben,71-48",
    ],
)
def test_what_spreadsheets_give_is_read(text: str) -> None:
    assert told(text) == [("Ada", ["53 − 27"]), ("Ben", ["71 − 48"])]


def test_several_sums_in_a_row_are_one_pupils() -> None:
    tabbed = ("Ada\t53 − 27\t71 − 48", "Ada\t53-27\t\t71-48")
    for text in (*tabbed, "Ada\t53-27; 71-48", "Ada\t53-27, 71-48"):
        assert told(text) == [("Ada", ["53 − 27", "71 − 48"])]


def test_rows_that_cannot_be_read_are_told_by_number() -> None:
    with pytest.raises(RefusedRowsError) as refused:
        read_pupils("Ada\t53 − 27\nBen\nCleo\t36 − 90", "pieces")
    found = [(error.row, error.code) for error in refused.value.refusals]
    assert found == [(2, "pupil.no-sum"), (3, "sum.too-much")]


def test_a_first_row_with_a_sum_is_no_heading() -> None:
    assert [number for number, _ in table("Ada\t53 − 27\nBen\t71 − 48", "pupils", []).rows] == [
        1,
        2,
    ]


def test_a_name_with_a_comma_in_quotes_stays_whole() -> None:
    assert told('"Ada, the first",53 - 27') == [("Ada, the first", ["53 − 27"])]


@pytest.mark.parametrize("typed", ["53 − 27", "\t53 − 27"])
def test_a_row_without_a_name_says_so(typed: str) -> None:
    with pytest.raises(RefusedRowsError) as refused:
        read_pupils(f"Ada\t53 − 27\n{typed}", "pieces")
    assert [(error.row, error.code) for error in refused.value.refusals] == [(2, "pupil.no-name")]


def test_three_rows_are_told_and_how_many_more() -> None:
    with pytest.raises(RefusedRowsError) as refused:
        read_pupils("\n".join(f"Ada\t{n}" for n in range(5)), "pieces")
    *rows, further = refused.value.refusals
    assert [error.row for error in rows] == [1, 2, 3]
    assert (further.code, further.slots, further.field) == (
        "screen.further",
        {"count": 2, "lines": 2, "rows": ("4", "5")},
        "pupils",
    )
    assert str(further) == "And 2 more, in rows 4 and 5."


def test_what_is_wrong_in_each_row_is_told() -> None:
    with pytest.raises(RefusedRowsError) as refused:
        read_pupils("Ada\t53 − 27\tten\t27 − 53\nBen\t63 − 27", "pieces")
    assert [error.code for error in refused.value.refusals] == ["sum.unreadable", "sum.too-much"]
    assert [one.name for one in refused.value.others] == ["Ben"]
    with pytest.raises(RefusedRowsError) as refused:
        pasted_answers("\t53 − 27\t64 − 38\t71 − 48\nAda\tten\t26\tone\nBen\t26\tsix")
    assert [(error.row, error.slots["given"]) for error in refused.value.refusals] == [
        (2, "ten"), (3, "six"),
    ]  # fmt: skip


def answered(text: str) -> list[tuple[str, list[tuple[str, int | None]]]]:
    papers = pasted_answers(text)
    return [(paper.name, [(str(c.sum), c.answer) for c in paper.cells]) for paper in papers]


@pytest.mark.parametrize(
    "text",
    [
        "Ada\t53 − 27\t34\nBen\t71 − 48",
        "Ada\t53 − 27\t34\nBen\t71 − 48\tabsent",
        "name,sum,answer\nAda,53 - 27,34\nBen,71 - 48,",
        "answer;name;sum\n34;Ada;53 - 27\n;Ben;71 - 48",
    ],
)
def test_an_answer_may_be_blank_or_missing(text: str) -> None:
    assert answered(text) == [("Ada", [("53 − 27", 34)]), ("Ben", [("71 − 48", None)])]


@pytest.mark.parametrize(
    "text",
    [
        "Ada\t53 − 27\nBen\t71 − 48\t23\nCem",  # no table of one sum
        "Ada, 53 − 27 =\nBen, 71 − 48 = 23\nCem",
        "name,sum,answer\nAda,53 − 27\nBen,71 − 48,23\nCem,,away",
    ],
)
def test_a_name_without_an_answer_is_told_to_be_not_tried(text: str) -> None:
    notes = list[Said]()
    ada, ben, cem = pasted_answers(text, notes=notes)
    assert [(str(c.sum), c.answer) for c in ada.cells] == [("53 − 27", None)]
    assert (ben.cells[0].answer, cem.name, cem.cells) == (23, "Cem", ())
    assert [str(note) for note in notes] == [
        "Note: read as not tried, for no answer follows: 'Ada 53 − 27' and 'Cem'."
        " Take out any that is a heading."
    ]


@pytest.mark.parametrize("row", ["34", "Ben\t\t34"])
def test_an_answer_without_a_sum_is_no_child(row: str) -> None:
    with pytest.raises(RefusedRowsError, match=r"pupil\.no-sum"):
        pasted_answers(f"Ada\t53 − 27\n{row}\nBen\t53 − 27\t26")


@pytest.mark.parametrize("text", ["53 − 27\t34\n71 − 48\t23", "\t53 − 27\t34\n\t71 − 48\t23"])
def test_answers_without_any_name_are_of_one_child(text: str) -> None:
    assert answered(text) == [("1", [("53 − 27", 34), ("71 − 48", 23)])]
    (child,) = read_marks(text, "es").children
    assert child.name == "Estudiante"


FIRST, SECOND = [("52 − 27", 35), ("41 − 19", 38)], [("52 − 27", 25), ("41 − 19", 22)]


@pytest.mark.parametrize(
    "text",
    [
        "{0}\t52-27\t35\n\t41-19\t38\n{1}\t52-27\t25\n\t41-19\t22",
        "{0}: 52-27=35\n41-19=38\n{1}: 52-27=25\n41-19=22",
        "{0}\n1. 52-27=35\n2. 41-19=38\n{1}\n1. 52-27=25\n2. 41-19=22",
        "{0}:\na) 52-27=35\nc) 41-19=38\n{1}:\na) 52-27=25\nc) 41-19=22",
        "{0}\nA. 52-27=35\nB. 41-19=38\n{1}\nA. 52-27=25\nB. 41-19=22",
        "{0}\nMonday: 52-27=35\nmartes 41-19=38\n{1}\nMonday: 52-27=25\nmartes 41-19=22",
        "{0}\t\t\n1\t52-27\t35\n2\t41-19\t38\n{1}\t\t\n1\t52-27\t25\n2\t41-19\t22",
        "{0}\t\t\nSum 1:\t52-27\t35\nB:\t41-19\t38\n{1}:\t52-27\t25\nLun:\t41-19\t22",
        "{0}\n52-27=35\n41-19=38\n{1}\n52-27=25\n41-19=22",
        "1. {0}\n52-27=35\n41-19=38\n2. {1}\n52-27=25\n41-19=22",
        "name\tsum\tanswer\n{0}\t52-27\t35\n\t41-19\t38\n{1}\t52-27\t25\n\t41-19\t22",
        "sum,answer,name\n52-27,35,{0}\n41-19,38\n52-27,25,{1}\n41-19,22,",
    ],
)
def test_rows_without_a_name_are_of_the_child_above(text: str) -> None:
    notes = list[Said]()
    assert answered(text.format("Hugo", "Ana")) == [("Hugo", FIRST), ("Ana", SECOND)]
    pasted_answers(text.format("Hugo", "Ana"), notes=notes)
    assert "as of the child above: Hugo 2 and Ana 2." in " ".join(map(str, notes))


@pytest.mark.parametrize(
    ("text", "rows"),
    [
        ("53 − 27\t34\n71 − 48\t23\nAda\t53 − 27\t34", [1, 2]),
        ("Ada 53-27=34\n53-27=26\nBen 53-27=34", [2]),  # another child's: the sum comes again
        ("Hugo\n1: 53-27=34\n2: 53-27=26", [3]),
        ("Ada\tabsent\n\t53-27\t34\nBen\t53-27\t34", [2]),
    ],
)
def test_rows_that_may_be_of_another_child_than_the_one_above_are_refused(
    text: str, rows: list[int]
) -> None:
    with pytest.raises(RefusedRowsError) as refused:
        pasted_answers(text)
    found = [(error.row, error.code) for error in refused.value.refusals]
    assert found == [(row, "pupil.no-name") for row in rows]


def test_a_name_alone_whose_next_row_has_a_name_is_not_tried() -> None:
    for eva in ("Eva, absent", "Eva,"):
        rows = answered(f"Hugo, absent\nAna\n52-27=35\n{eva}\nBen 52-27=35")
        assert [(name, len(given)) for name, given in rows[1:3]] == [("Ana", 1), ("Eva", 0)]
    assert answered("Eva\nBen\t52-27\t35")[0] == ("Eva", [])
    assert answered("Eva\t52-27\nBen") == [("Eva", [("52 − 27", None)]), ("Ben", [])]
    classes = "Class\tName\tSum\tAnswer\n3A\tAda\t52-27\t35\n3A\t\t41-19\t38\n"
    rows = answered(f"{classes}3B\tBen\t52-27\t25\n3B\t\t41-19\t22")
    assert [(name, len(given)) for name, given in rows] == [("Ada", 2), ("Ben", 2)]
    first = [("52 − 27", None), ("41 − 19", 38)]
    assert answered("Hugo\t\t\n\t52-27\t\n\t41-19\t38") == [("Hugo", first)]


@pytest.mark.parametrize(
    ("one", "two", "name"),
    [
        *(("Resta 1: ", "Resta 2: ", "1"), ("Question 1 ", "Question 2 ", "1")),
    ],
)
def test_numbers_and_days_beside_a_word_are_no_children(one: str, two: str, name: str) -> None:
    notes = list[Said]()
    (child,) = pasted_answers(f"{one}52-27=35\n{two}41-19=38", notes=notes)
    assert (child.name, [note.code for note in notes]) == (name, ["screen.labels"])
    given = answered(f"{one}52-27=35\n{two}52-27=38")  # a class by its numbers
    assert [name for name, _ in given] == [one.strip(" :"), two.strip(" :")]


@pytest.mark.parametrize(
    "text", ["\t53 − 27\t71 − 48\nAda\t34\t23", "\t53 − 27\t71 − 48\t\nAda\t34\t23"]
)
def test_sums_may_stand_in_the_first_row(text: str) -> None:
    assert answered(text) == [("Ada", [("53 − 27", 34), ("71 − 48", 23)])]


def test_sums_alone_in_the_first_row_keep_the_first_of_them() -> None:
    first = "71 − 48\t634 − 258\n"
    assert answered(f"{first}37\t424") == [("1", [("71 − 48", 37), ("634 − 258", 424)])]
    assert answered(f"{first}Ada\t37\t424")[0] == ("Ada", [("71 − 48", 37), ("634 − 258", 424)])


WIDE = "Ada\t34\t23\t2\nBen\t36\t23\t1"


def asked(text: str, field: str = "answers") -> RefusedError:
    """Return the one sentence that is said of a table whose rows do not fit its first."""
    with pytest.raises(RefusedError) as refused:
        (pasted_answers if field == "answers" else partial(read_pupils, stage="pieces"))(text)
    assert (refused.value.field, refused.value.row) == (field, None)
    return refused.value


@pytest.mark.parametrize(
    ("text", "column", "row"),
    [
        ("Sum\tAda\tBen\nGrade\tA\tB\n63-29\t34\t46", 0, "Grade, A, B"),
        ("No\tSum\tKey\tAda\tBen\n1\t63-29\t34\t34\t46", 1, ""),
        ("\tAda\tBen\nCard 1\t63-29\t52-27\nCard 2\t71-48\t80-36", 1, ""),
        ("Pupil\tQuestion\tSum\tAnswer\nAda\t1\t63-29\t34\nBen\t1\t63-29\t46", 2, ""),
        ("Name\tDate\tSum\nAda\t23-11\t52-27\nBen\t23-11\t63-29", 2, ""),
        ("Restas\t52-27\t63-29\nRespuestas\t35\t34", 1, ""),
        ("Ada\nPágina 1, ej. 3\n52-27=35\nBen\nPágina 1, ej. 3\n52-27=25", 0, "Página 1, ej. 3"),
        ("Hugo, lunes\n52-27=35\nAna, martes\n52-27=25", 2, ""),
        ("Name\t52-27\t63-29\tQ3\nAda\t34\t23\t2\nBen\t36\t23\t1", 4, ""),
        ("Name\t53-27\t\t64-38\nBen\t26\t26\t26", 3, ""),
        ("\nClass 3B, week 4\nAda,53-27", 0, "Class 3B, week 4"),
        ("2\tMark\t63-29\t35\n5\tAda\t63-29\t34", 1, ""),
        ("Sums like 63-29\nName\t63-29\t52-27\nAda\t34\t25", 0, "Sums like 63-29"),
        ("Sum\tAda\tBen\n63-29\t34\t46\nSet\tA\tB\n52-27\t25\t35", 0, "Set, A, B"),
        ("Term 2026-27\tWeek 3\nName\t53-27\t61-34\nAda\t26\t27", 0, "Term 2026-27, Week 3"),
        ("Week 3\t24-3\nName\tSum\tAnswer\nAda\t53-27\t26", 0, "Week 3, 24-3"),
        (
            "Name\tSum\tAnswer\tSum\tAnswer\nAda\t63-29\t34\t52-27\t25",
            0,
            "Name, Sum, Answer, Sum, Answer",
        ),
        ("24-3\tWeek 3\n\t53-27\t61-34\nAda\t26\t27", 0, "24-3, Week 3"),
        (
            "Name\t" + 12 * "9-3\t" + "Q13\nAda\t" + 12 * "6\t" + "2\nBen\t" + 12 * "3\t" + "1",
            14,
            "",
        ),
    ],
)
def test_the_row_or_column_without_which_a_table_is_read_is_told(
    text: str, column: int, row: str
) -> None:
    error = asked(text)
    assert error.code == ("screen.row-out" if row else "screen.column-out")
    assert error.slots["given" if row else "column"] == (row or column)
    lines = [line.split("\t") if "\t" in text else line.split(",") for line in text.split("\n")]
    kept = [line for line in lines if not row or ", ".join(map(str.strip, line)) != row]
    left = [line[: column - 1] + line[column:] if column else line for line in kept]
    pasted_answers("\n".join(("\t" if "\t" in text else ",").join(line) for line in left))


@pytest.mark.parametrize(
    "text",
    [
        "Cleo\t34\t23\t2\n" + WIDE,
        "\tAda\tBen\nCard 1\t34\t46\nCard 2\t25\t35",
        "Sum\t202601\t202602\n63-29\t34\t46",
        "\t1\t2\t3\n63-29\t34\t46\t34",
        "Ada\nRestas\t52-27\t63-29\nRespuestas\t35\t34\nBen\nRestas\t52-27\t63-29",
        "Name;Sum;Answer;Pupil\nAda;63-29;34;46\nBen;63-29;34;44",  # which are the child's?
    ],
)
def test_of_a_table_that_fits_no_other_way_it_is_said_what_is_read(text: str) -> None:
    error = asked(text)
    first = text.strip("\t").partition("\n")[0].replace("\t", ", ").replace(";", ", ")
    assert (error.code, error.slots) == ("screen.shape-answers", {"given": first})


@pytest.mark.parametrize(
    "text",
    [
        "Sum\tAnswer\tAda\n63-29\t34\t46\n52-27\t35\t25",  # no key
        "63-29\tAda\t46\n63-29\tBen\t34",
        "Q1\t63-29\tAda\t34\nQ1\t63-29\tBen\t46",
        "Cem\tDev\nBen\t53-27\t26",
        "Class\tCy\n3A\t304-58\t246",
        "Hill\tAda\t63-29\t34\nHall\tBen\t63-29\t46",
        "Name\t63-29\t52-27\nAda\t\t34\t25\nBen\t\t46\t35",  # to the right of theirs
    ],
)
def test_neither_a_child_nor_an_answer_is_ever_told_to_be_taken_out(text: str) -> None:
    assert asked(text).code == "screen.shape-answers"


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("Ada\t53-27\t26\nBen\t53-27\t34", "screen.column-out"),
        ("Name\t23-11\t24-11\nAda\t52-27\t63-29", "screen.row-out"),
        ("Nombre\tResta 1\tResta 2\nAna\t35\t27\nHugo\t57\t14", "screen.no-sums"),
        ("Week 4\nClass\tAda\tP01\n3A\t63-29\t71-48", "screen.shape-pupils"),
        ("Week 3\t24-3\nName\tSum 1\tSum 2\nAda\t53-27\t61-34", "screen.row-out"),
    ],
)
def test_packs_whose_rows_do_not_fit_the_first_are_asked_about(text: str, code: str) -> None:
    assert asked(text, "pupils").code == code


@pytest.mark.parametrize(
    "text",
    [
        "Ada\t53-27\tten\nBen\t71-48\nCy\t9-3",
        "Ada\nBen\nCy\t53-27",
        "Ada 53+27\nBen 71+48",
        "Ada\t53-27\nName\tSum\nBen\t71-48",
        "Pupil 1\t53/27\nBen\t71-48\nCy\t61-34",
        "Name\tSum\nAda (Year 4)\t53/27\nBen\t71-48\nCy\t61-34",
        "Year 4 Ada\t53-\nBen\t71-48\nCy\t61-34",
    ],
)
def test_where_each_row_tells_what_is_wrong_with_it_this_is_told(text: str) -> None:
    with pytest.raises(RefusedRowsError):
        read_pupils(text, "pieces")


def test_what_is_wrong_with_a_sum_of_the_first_row_is_told_once() -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers(f"Name\t53-27\t48-71\t90-36\n{WIDE}")
    assert (refused.value.code, refused.value.row) == ("sum.too-much", 1)


def test_a_column_of_scores_beside_the_answers_is_left_out() -> None:
    ada, _ = answered(f"Name\t53 − 27\t71 − 48\tScore\n{WIDE}")
    assert ada == ("Ada", [("53 − 27", 34), ("71 − 48", 23)])


def test_rows_of_answers_that_cannot_be_read_are_told_by_number() -> None:
    rows = ["Ada\t53 − 27\t34", "\t53 − 27\t34", "Ben\t7148\t3", "Cleo\t53 − 27\tten", "Dov\t1\t2"]
    rows += [f"Eli{k}\t53 − 27\t34" for k in range(2)]
    with pytest.raises(RefusedRowsError) as refused:
        pasted_answers("\n".join(rows))
    found = [(error.field, error.row, error.code) for error in refused.value.refusals]
    assert found == [
        ("answers", 2, "pupil.no-name"),
        ("answers", 3, "sum.unreadable"),
        ("answers", 4, "answers.unreadable"),
        ("answers", None, "screen.further"),
    ]


@pytest.mark.parametrize("read", [partial(read_pupils, stage="pieces"), pasted_answers])
def test_a_cell_far_too_long_is_refused_by_its_row(read: Callable[[str], object]) -> None:
    with pytest.raises(RefusedError, match="a cell is too long") as refused:
        read("Ada\t53 − 27\n" + 140_000 * "B" + "\t71 − 48")
    assert refused.value.row == 2


@pytest.mark.parametrize("typed", ["Ada\t4 002 - 1 768", "Ada\t4\u202f002\t1\u202f768"])
def test_thousands_may_be_grouped_by_a_space(typed: str) -> None:
    assert told(typed) == [("Ada", ["4002 − 1768"])]


def test_a_sum_in_two_columns_is_one_sum() -> None:
    (ada,) = read_pupils("Ada\t53\t27", "pieces")
    assert [str(task.sum) for task in ada.tasks] == ["53 − 27"]
    (bo,) = read_pupils("Bo\t5,3\t2,7", "pieces")
    assert [task.sum.typed for task in bo.tasks] == ["5.3 - 2.7"]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("53-27 34", "1"),
        ("53 - 27 = 34", "1"),
        ("Ada 53-27 34", "Ada"),
        ("Ada: 53 − 27 = 34", "Ada"),
        ("Ada\t53-27 34", "Ada"),
        ("Ada 53-27\t34", "Ada"),
        ("Ada, 53-27=34", "Ada"),
    ],
)
def test_name_sum_and_answer_may_stand_in_one_cell(text: str, name: str) -> None:
    assert answered(text) == [(name, [("53 − 27", 34)])]


@pytest.mark.parametrize(
    ("text", "given"),
    [
        ("304-58 246", ("304 − 58", 246)),
        ("4 002 - 1 768 2 234", ("4002 − 1768", 2234)),
        ("4 002 - 1 768\t2234", ("4002 − 1768", 2234)),
        ("53-27 absent", ("53 − 27", None)),
        ("53-27", ("53 − 27", None)),
    ],
)
def test_what_follows_a_sum_is_its_answer_and_no_thousands(
    text: str, given: tuple[str, int | None]
) -> None:
    assert answered(text) == [("1", [given])]


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_the_screen_says_to_type_is_read(language: str) -> None:
    typed = re.search(r"Ada, [^.]*", screen_words(language)["wrong.how"])
    assert typed
    assert answered(typed[0]) == [("Ada", [("53 − 27", 34)])]


@pytest.mark.parametrize("text", ["Ada 53-27", "Ada 53 − 27\nBen 71-48", "Ada\t53-27 71-48"])
def test_a_name_and_its_sums_may_stand_in_one_cell(text: str) -> None:
    assert told(text)[0] == ("Ada", ["53 − 27", "71 − 48"] if "\t" in text else ["53 − 27"])


def test_a_date_is_no_sum_with_its_answer() -> None:
    with pytest.raises(RefusedRowsError) as refused:
        pasted_answers("Ada\t53-27\t34\nBen\t2027-01-11\t3")
    assert [(error.row, error.code) for error in refused.value.refusals] == [(2, "sum.unreadable")]


@pytest.mark.parametrize(
    ("typed", "sums"),
    [
        ("Ada,3,5-1,25", ["3.5 − 1.25"]),
        ("Ada, 6 - 1,5", ["6 − 1.5"]),
        ("Ada,53-27,71-48", ["53 − 27", "71 − 48"]),
        ("1,53-27", ["53 − 27"]),  # a number for a name
    ],
)
def test_commas_within_numbers_and_between_cells_are_read(typed: str, sums: list[str]) -> None:
    ((_, found),) = told(typed)
    assert found == sums


@pytest.mark.parametrize(
    ("read", "typed"),
    [
        (partial(read_pupils, stage="pieces"), "Ada,3,5-1,25,2-1"),  # 25 may belong to either sum
        (partial(read_pupils, stage="pieces"), "Ada,3,5,1,25"),
        (partial(read_pupils, stage="pieces"), "Ada,3,5-1,25,4,2-1,7"),
        (pasted_answers, "Ada,3,5-1,25,2,25"),
        (pasted_answers, "Ada,3,5-1,25,2"),  # 1 or 1,25 taken out
        (pasted_answers, ",3,5-1,25,4,2-1,7\nAda,2,25,2,5"),
    ],
)
def test_commas_that_may_part_cells_or_decimals_are_told(
    read: Callable[[str], object], typed: str
) -> None:
    with pytest.raises(RefusedError) as refused:
        read(f"\n{typed}")
    assert (refused.value.code, refused.value.row) == ("screen.commas", 2)


def test_commas_with_spaces_part_sums() -> None:
    for text in ("Ben: 81 - 46, 72 - 38", "Ben, 81 - 46, 72 - 38", "Ben 81-46 = ?, 72-38 = ?"):
        found = told(f"Ada: 53 - 27, 61 - 34\n{text}")
        assert found == [("Ada", ["53 − 27", "61 − 34"]), ("Ben", ["81 − 46", "72 − 38"])]
    with pytest.raises(RefusedError) as refused:
        told("Ada: 53 - 27, 61 - 34\nBen: 81 - 46,72 - 38")
    assert refused.value.code == "screen.commas"


@pytest.mark.parametrize("text", ["Ada 4,002 - 1,768", "Ada, 4,002 − 1,768", "4,002-1,768"])
def test_commas_of_thousands_are_told_at_once(text: str) -> None:
    with pytest.raises(RefusedError) as refused:
        answered(f"Ben 52-27\n{text}")
    assert (refused.value.code, refused.value.row) == ("sum.thousandths", 2)
    assert str(refused.value.slots["sum"]).replace("−", "-").replace(" ", "") == "4002-1768"


@pytest.mark.parametrize(
    ("text", "point"),
    [
        ("Ada 4,002 - 1,768", "."),
        ("Ada: 4,002-1,768, 6,100−842", "."),
        ('Name,Sum\nAda,"4,002 - 1,768"', "."),
        ("Ada\t4,002-1,768 =\nBen\t1,250 - 125", "."),
        ("Ana\t4.002-1.768", ","),
    ],
)
def test_marks_of_thousands_are_read_with_a_note(text: str, point: str) -> None:
    notes = list[Said]()
    one, *_ = read_pupils(text, "pieces", point, notes)
    assert str(one.tasks[0].sum) == "4002 − 1768"
    assert [note.code for note in notes] == ["screen.thousands"]


def test_marks_of_thousands_in_sum_and_answer_are_read() -> None:
    for text in ("Ada\n5,003-2,748=2,255", "Ada: 5,003-2,748=2,255", "Ada 5,003 - 2,748 = 2,255"):
        assert answered(text) == [("Ada", [("5003 − 2748", 2255)])]


def test_no_mark_is_of_thousands_where_it_may_part_decimals_or_cells() -> None:
    for text in ("Ada\t4,002-1,768\nBen\t3,5-1,25", "Ada 4,253-127\nBen 5,111-99"):
        with pytest.raises((RefusedError, RefusedRowsError)):
            told(text)
    (ada,) = read_pupils("Ada\t4.002-1.768", "written")
    assert str(ada.tasks[0].sum) == "4.002 − 1.768"
    with pytest.raises(RefusedRowsError) as refused:
        told("Ada\t12 000 - 3 456")
    assert [one.code for one in refused.value.refusals] == ["sum.five-places"]


@pytest.mark.parametrize(
    "table",
    [
        "Name\tStudent ID\tSum 1\tSum 2\nAda\t1023-4\t53-27\t61-34\nBen\t1042-17\t81-46",
        "Student ID\tName\tDay 1\tDay 2\n1023-4\tAda\t53-27\t61-34\n1042-17\tBen\t81-46",
        "Name\tAges\tSum 1\tSum 2\nAda\t7-8\t53-27\t61-34\nBen\t8-9\t81-46",
        "Date\tName\tSum 1\tSum 2\n12-11-2026\tAda\t53-27\t61-34\n12-11-2026\tBen\t81-46",
        "Code\tName\tSum 1\tSum 2\nA1\tAda\t53-27\t61-34\nB2\tBen\t81-46",
        "Date\tName\tSum 1\tSum 2\n12-11\tAda\t53-27\t61-34\n13-11\tBen\t81-46",
        "Class\tName\tMonday\tTuesday\n3B\tAda\t53-27\t61-34\n3B\tBen\t81-46",
        "Name\tTable\tDay 1\tDay 2\nAda\tRed\t53-27\t61-34\nBen\tBlue\t81-46",
        "Name\tMail\tEasy\tHard\nAda\ta-12-3@home.example\t53-27\t61-34\nBen\tb\t81-46",
    ],
)
def test_a_column_with_a_head_of_its_own_holds_no_sums(table: str) -> None:
    assert told(table) == [("Ada", ["53 − 27", "61 − 34"]), ("Ben", ["81 − 46"])]


def test_what_may_be_sums_below_a_head_of_its_own_is_asked_about() -> None:
    for heads in ("Reading\tSum 1", "Maths\tReading", "Reading\tMonday", "Reading\tMy own"):
        refused = asked(f"Name\t{heads}\nAda\t53-27\t61-34\nBen\t31-18\t81-46", "pupils")
        assert (refused.code, refused.slots["head"]) == ("screen.own-head", "Reading")


@pytest.mark.parametrize(
    "text",
    [
        'Ada\t"1. 53-27\n2. 61-34"\nBen\t"1) 81-46"',
        "Ada\t53-27/61-34\nBen\t81 subtract 46",
    ],
)
def test_sums_may_be_numbered_or_close_together_in_a_cell(text: str) -> None:
    assert told(text) == [("Ada", ["53 − 27", "61 − 34"]), ("Ben", ["81 − 46"])]


def test_where_a_comma_is_of_decimals_such_numbers_are_thousandths() -> None:
    with pytest.raises(RefusedError) as refused:
        read_pupils("Ben 52-27\nAna 4,002 - 1,768", "pieces", ",")
    assert refused.value.code == "screen.commas"  # which says how to write it
    for text in ("Ana; 4,002 - 1,768", "Ana, 4,002 - 1,768"):
        (ana,) = read_pupils(text, "written", ",")
        assert str(ana.tasks[0].sum) == "4,002 − 1,768"


@pytest.mark.parametrize("line", ["Ana 6,5-2,8", "Ana: 6,5 - 2,8", "Ana\n6,5-2,8", "Ana;6,5−2,8"])
def test_decimals_close_behind_a_name_are_not_cut_in_two(line: str) -> None:
    """5 - 2.8 would be Ana 6's; Ana 2 has 53 - 27, which no decimals can be."""
    for text in (line, f"Leo 52-27\n{line}"):
        assert told(text)[-1] == ("Ana", ["6.5 − 2.8"])
    with pytest.raises(RefusedError) as refused:
        read_pupils("Ana 12,4-3", "pieces", ",")
    assert refused.value.code == "screen.commas"
    assert told("Ana 2,53-27") == [("Ana 2", ["53 − 27"])]
    assert told("Ana, 6,5-2,8") == [("Ana", ["6.5 − 2.8"])]


def test_a_number_before_whole_numbers_is_a_name() -> None:
    (one,) = pasted_answers("7,53-27,34")
    assert (str(one.cells[0].answer), one.name) == ("34", "7")


@pytest.mark.parametrize(
    ("typed", "name", "sum_", "answer"),
    [
        ("5,3 - 2,7 = 3,4", "1", "5.3 − 2.7", "3.4"),
        ("Ada, 5,3 - 2,7 = 3,4", "Ada", "5.3 − 2.7", "3.4"),
        ("Ada 4 - 1,5 = 2,5", "Ada", "4 − 1.5", "2.5"),
        ("Ada, 53 - 27 = 34", "Ada", "53 − 27", "34"),
        ("7, 53 - 27 = 34", "7", "53 − 27", "34"),
        ("7,53-27=34", "7", "53 − 27", "34"),
        ("Ada, 12,4-3=9,4", "Ada", "12.4 − 3", "9.4"),
        ("6,5-2=4,5", "1", "6.5 − 2", "4.5"),
    ],
)
def test_a_row_with_an_equals_sign_may_have_decimal_commas(
    typed: str, name: str, sum_: str, answer: str
) -> None:
    (one,) = pasted_answers(typed)
    ((cell,), found) = one.cells, one.name
    assert (found, str(cell.sum), str(cell.answer)) == (name, sum_, answer)


def test_names_may_stand_across_the_head() -> None:
    given = "\tMaya\tTom\n1\t63-27\t402-158\n2\t54-38\t"
    assert told(given) == [("Maya", ["63 − 27", "54 − 38"]), ("Tom", ["402 − 158"])]
    maya, tom = pasted_answers("\tMaya\tTom\n63-27\t36\t44\n54-38\t\t16")
    assert [(str(c.sum), str(c.answer)) for c in maya.cells if c.answer] == [("63 − 27", "36")]
    assert [str(c.answer) for c in tom.cells] == ["44", "16"]
    _, absent = pasted_answers("\tMaya\tNia\n63-27\t36\t\n54-38\t16")
    assert (absent.name, [cell.answer for cell in absent.cells]) == ("Nia", [None, None])
    commas = "sum,Maya,Nia\n63-27,36,\n54-38,16"
    assert [one.name for one in pasted_answers(commas)] == ["Maya", "Nia"]
    assert [str(cell.answer) for cell in pasted_answers(commas)[0].cells] == ["36", "16"]
    bare = "Maya\tTom\n63-27\t402-158\n54-38\t"
    assert told(bare) == told(given)
    assert told("Maya,Tom,Nia\n63-27,402-158,71-48") == [
        ("Maya", ["63 − 27"]), ("Tom", ["402 − 158"]), ("Nia", ["71 − 48"]),
    ]  # fmt: skip
    assert told("\tSum 1\tSum 2\nMaya\t63-27\t54-38") == [("Maya", ["63 − 27", "54 − 38"])]
    assert told("Code\tMonday\tTuesday\n1\t63-27\t402-158") == [("1", ["63 − 27", "402 − 158"])]


@pytest.mark.parametrize(
    "rows",
    [
        "53-27\t26\t34",
        "53-27\t26\t34\t25\n64-38\t26\t24",  # whose answer is missing?
        "\n53-27\t26\t34\t",
        "53-27\t26\t34\t25\n64-38\t\t26\t24",
    ],
)
def test_whether_the_first_head_is_a_childs_is_asked_where_the_rows_do_not_tell(rows: str) -> None:
    end = "\t" if rows.startswith("\n") else ""  # a spreadsheet's column that is empty
    with pytest.raises(RefusedError) as refused:
        pasted_answers(f"Ana\tBen\tDev{end}\n{rows}")
    assert (refused.value.code, refused.value.row) == ("screen.corner", 1)


@pytest.mark.parametrize(
    "text",
    [
        "No\tSum\tAda\tBen\n1\t53-27\t34\t26\n2\t64-38\t26\t",
        "Sum\tAda\tBen\n1\t53-27\t34\t26\n2\t64-38\t26\t",  # no head above the numbers
        "\tNombre\t53-27\t64-38\n1.\tAda\t34\t26\n2.\tBen\t26",
        "Name,Sum,Answer\n1,Ada,53-27,34\n2,Ada,64-38,26\n3,Ben,53-27,26\n4,Ben,64-38,",
        "Sum,Ada,Ben,\n53-27,34,26,\n64-38,26,,",
        "Names\tAda\tBen\tTotal\n53-27\t34\t26\t1\n64-38\t26\t\t",
    ],
)
def test_running_numbers_and_empty_columns_are_left_out(text: str) -> None:
    assert answered(text) == [
        ("Ada", [("53 − 27", 34), ("64 − 38", 26)]), ("Ben", [("53 − 27", 26), ("64 − 38", None)]),
    ]  # fmt: skip


def test_a_child_may_be_called_mark() -> None:
    given = ("Mark", [("53 − 27", 26)])
    assert answered("\t53 − 27\nMark\t26\nTotal\t0") == [given]
    assert answered("No\tSum\tMark\n1\t53 − 27\t26\n") == [given]
    assert answered("Mark\t\t\n1\tAda\t53 − 27\n")[0] == ("Mark", [])


@pytest.mark.parametrize("first", ["No.\tSum\tAnswer\n", "No.\tSum\tResult\n", ""])
def test_children_may_be_called_by_numbers(first: str) -> None:
    given = answered(f"{first}1\t53-27\t34\n2\t53-27\t26")
    assert given == [("1", [("53 − 27", 34)]), ("2", [("53 − 27", 26)])]


def test_names_across_without_a_sum_or_of_one_name_are_told_by_name() -> None:
    with pytest.raises(RefusedRowsError) as below:
        read_pupils("Ana\tBen\tCem\tDev\n53-27\t\t\t71-48", "pieces")
    (error,) = below.value.refusals
    assert str(error).startswith("No sum stands below Ben and Cem;")
    assert [one.name for one in below.value.others] == ["Ana", "Dev"]
    with pytest.raises(RefusedError) as twice:
        pasted_answers("\tAda\tBen\tAda\n53-27\t26\t34\t25")
    assert (twice.value.code, twice.value.slots) == ("screen.same-name", {"name": "Ada"})


@pytest.mark.parametrize("title", ["Class 3B\n\nWeek 4;;\n", "Clase 3b\t\t\n", "12 May\n3B\n"])
def test_a_line_above_the_table_is_passed_over_and_told(title: str) -> None:
    notes = list[Said]()
    (ada,) = pasted_answers(f"{title}Ada;53 − 27;26", notes=notes)
    assert (ada.name, str(ada.cells[0].answer)) == ("Ada", "26")
    assert str(notes[0]).startswith("Note: not used, as no child's: ")
    (pack,) = read_pupils(f"{title}Ada;53 − 27", "pieces")
    assert pack.tasks[0].line == title.count("\n") + 1


@pytest.mark.parametrize("first", ["Ada 1", "Ada 2 53 − 27 = 26", "26", "Ben three"])
def test_a_child_a_sum_and_a_number_alone_are_no_title(first: str) -> None:
    notes = list[Said]()
    with suppress(RefusedRowsError):
        pasted_answers(f"{first}\nAda 1\t53 − 27\t26", notes=notes)
    assert "screen.title" not in [note.code for note in notes]


@pytest.mark.parametrize("title", ["Group A", "Class 3B, week 4", "Tutoring\nClass 3B, week 4"])
@pytest.mark.parametrize(
    "rows",
    [
        "Name{0}Sum{0}Answer\nAda{0}53-27{0}26",
        "{0}53-27{0}64-38\nAda{0}26{0}",
        "53-27{0}64-38\nAda{0}26{0}26",
        "{0}Ada{0}Ben\n53-27{0}26{0}34",
    ],
)
def test_a_title_above_heads_is_passed_over_whatever_it_holds(title: str, rows: str) -> None:
    for mark in ("\t", ",", ";"):
        notes = list[Said]()
        ada, *_ = pasted_answers(f"{title}\n{rows.format(mark)}", notes=notes)
        assert (ada.name, str(ada.cells[0].answer)) == ("Ada", "26")
        assert [note.code for note in notes] == ["screen.title"]
    assert told(f"{title}\nAda,Ben\n53-27,71-48") == [("Ada", ["53 − 27"]), ("Ben", ["71 − 48"])]
    if "\n" not in title:
        assert told(f"{title}\nAda\t53-27") == [("Ada", ["53 − 27"])]


def test_whoever_is_named_first_is_told_of() -> None:
    notes = list[Said]()
    ada, ben = pasted_answers("Ada\tabsent\nBen\t53-27\t26", notes=notes)
    assert (ada.name, ada.cells, ben.name) == ("Ada", (), "Ben")
    assert [note.code for note in notes] == ["answers.untried"]


@pytest.mark.parametrize(
    ("text", "row"),
    [
        ("1\tAda\t53-27\n2\tBen\t71-48\n3\tAda\t82-35", 3),
        ("Name\tSum 1\tSum 2\nAda\t53-27\t71-48\nAda\t82-35", 3),
    ],
)
def test_a_name_again_is_asked_about_where_each_row_may_be_a_pupils(text: str, row: int) -> None:
    with pytest.raises(RefusedError) as refused:
        read_pupils(text, "pieces")
    assert (refused.value.code, refused.value.row) == ("screen.name-again", row)
    plain = "Ada\t53-27\nBen\t71-48\t90-36\nAda\t82-35"
    assert told(plain)[0] == ("Ada", ["53 − 27", "82 − 35"])


@pytest.mark.parametrize(
    "heads", ["Surname\tName", "Apellidos\tNombre", "last name\tFirst name", "Last\tFirst"]
)
def test_two_of_one_name_are_told_apart_by_their_surnames(heads: str) -> None:
    lee, ray = "Lee\tBen", "Ray\tBen"
    long = f"{heads}\tSum\tAnswer\n{lee}\t53-27\t26\n{ray}\t53-27\t34"
    wide = f"{heads}\t53-27\t64-38\n{lee}\t26\t\n{ray}\t34\t"
    for text in (
        long,
        f"Group A\n{wide}",
        f"No\t{long}".replace("\nL", "\n1\tL").replace("\nR", "\n2\tR"),
    ):
        found = [(one.name, str(one.cells[0].answer)) for one in pasted_answers(text)]
        assert found == [("Ben Lee", "26"), ("Ben Ray", "34")]
    assert told(f"{heads}\tSum\n{lee}\t53-27\n{ray}\t71-48") == [
        ("Ben Lee", ["53 − 27"]), ("Ben Ray", ["71 − 48"]),
    ]  # fmt: skip


@pytest.mark.parametrize(
    "text",
    [
        "\tAda\tBen\tSum of marks\n53-27\t26\t34\t1",
        "Sum\tAda\tBen\tTotal\n53-27\t26\t34\t1",
        "Tutoring\n\tAda\tBen\n53-27\t26\t34\nTotal\t1\t0",
        "\tAda\tBen\n53-27\t26\t34\nTotal marks\t1\t0",
        "No\tName\t53-27\n1\tAda\t26\n2\tBen\t34\n\tClass average\t0.5",
    ],
)
def test_totals_are_no_children(text: str) -> None:
    assert answered(text) == [("Ada", [("53 − 27", 26)]), ("Ben", [("53 − 27", 34)])]
    assert told("Name\tSum\tTotal\nAda\t53-27\t1\nTotal\t\t1") == [("Ada", ["53 − 27"])]


def test_names_across_may_have_digits() -> None:
    found = [("Ben 1", [("53 − 27", 26)]), ("Ben 2", [("53 − 27", 34)])]
    assert answered("Sum\tBen 1\tBen 2\n53-27\t26\t34") == found


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("No\tAda\tBen\n1\t53-27\t26\t34", "screen.corner"),
        ("Class\tName\tSum\tAnswer\n3A\tBen\t53-27\t26\n3B\tBen\t53-27\t34", "screen.two-beside"),
    ],
)  # fmt: skip
def test_heads_that_do_not_tell_whose_answers_stand_below_are_refused(text: str, code: str) -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers(text)
    assert refused.value.code == code


def test_a_child_with_two_rows_is_told_of_both_by_their_numbers() -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers("Group A\n\nName\t53-27\t64-38\nAda\t26\t26\nAda\t34\t34")
    assert (refused.value.row, refused.value.slots) == (5, {"name": "Ada", "line": 4})
    bens = "Ben\t63-29\t34\n\t\t\nBen\t52-27\t25\nBen\t63-29\t46\nBen\t52-27\t"
    with pytest.raises(RefusedError) as refused:
        pasted_answers(f"Name\tSum\tAnswer\nAda\t63-29\t34\n{bens}")
    assert (refused.value.code, refused.value.row) == ("answers.same-sums", 6)
    assert refused.value.slots["line"] == 3
    twice = "63-29\t34\t46\n52-27\t25\t35\n"
    for text in (f"Sum\tAda\tBen\n{twice}{twice}", f"{bens}".replace("Ben\t", "")):
        pasted_answers(text)  # every child tried twice


def test_a_cell_beyond_the_last_column_is_named() -> None:
    with pytest.raises(RefusedRowsError) as refused:
        pasted_answers("Ada\t53-27\t26\t1")
    (error,) = refused.value.refusals
    assert (error.code, error.slots["given"]) == ("screen.beyond", "1")


def test_packs_of_names_across_are_in_the_order_of_the_names() -> None:
    assert [name for name, _ in told("\tAda\tBen\n1\t\t53-27\n2\t71-48\t")] == ["Ada", "Ben"]


@pytest.mark.parametrize("first", ["P01\tabsent", "Ben 1\tabsent", "Ada 3B\tausente"])
def test_a_first_child_with_a_digit_that_is_away_is_no_title(first: str) -> None:
    notes: list[Said] = []
    found = pasted_answers(f"{first}\nP02\t63-29\t46\nP03\t63-29\t44\n", notes=notes)
    assert [one.name for one in found] == [first.split("\t")[0], "P02", "P03"]
    assert not found[0].cells and notes


def test_a_first_name_with_a_digit_and_nothing_beside_it_is_no_title() -> None:
    notes: list[Said] = []
    ada, ben = pasted_answers("Ada 3B\nBen\t63-29\t46", notes=notes)
    assert (ada.name, ada.cells, ben.name) == ("Ada 3B", (), "Ben")
    assert [note.code for note in notes] == ["answers.untried"]
    assert answered("3b1\n3c2\t63-29\t46")[0] == ("3b1", [])
    with pytest.raises(RefusedRowsError) as refused:
        read_pupils("Ada 3B\nBen\t63-29", "pieces")
    assert [(error.row, error.code) for error in refused.value.refusals] == [(1, "pupil.no-sum")]


@pytest.mark.parametrize(
    ("text", "given"),
    [
        ("Ben\tKing\t63-29\t46", "King"),
        ("Ada 53-27=26 64-38", "64-38"),
        ("Ada 53-27 64-38", "64-38"),
    ],
)
def test_what_is_too_much_in_one_row_is_quoted(text: str, given: str) -> None:
    with pytest.raises(RefusedRowsError) as refused:
        pasted_answers(text)
    (error,) = refused.value.refusals
    assert (error.code, error.slots["given"]) == ("screen.beyond", given)


@pytest.mark.parametrize(
    "text",
    [
        "No\tName\tSum\n2\tAda\t63-29\n5\tBen\t71-48",
        "Sum\tClass\tPupil\n63-29\t3B\tAda\n71-48\t3A\tBen",
        "name,sum,stage\nAda,63-29,pieces\nBen,71-48,",
    ],
)
def test_a_head_tells_the_columns_of_packs(text: str) -> None:
    assert told(text) == [("Ada", ["63 − 29"]), ("Ben", ["71 − 48"])]


@pytest.mark.parametrize(("first", "second"), [("", "2"), ("1.", "")])
def test_a_running_number_may_be_missing(first: str, second: str) -> None:
    rows = f"{first}\tAda\t63-29\t34\n{second}\tBen\t63-29\t46\n3\tCem\t63-29\t44"
    assert [name for name, _ in answered(rows)] == ["Ada", "Ben", "Cem"]


def test_labels_of_sums_are_no_children_but_where_a_sum_comes_again() -> None:
    for one, two in (("a)", "b)"), ("Q1", "Q2")):
        rows = f"{one}\t63-29\t34\n{two}"
        assert answered(f"{rows}\t71-48\t23") == [("1", [("63 − 29", 34), ("71 − 48", 23)])]
        assert [name for name, _ in answered(f"{rows}\t63-29\t23")] == [one, two]


@pytest.mark.parametrize("count", ["a)", "1.", "1)", "Q1", "Q1:"])
@pytest.mark.parametrize(
    "text",
    [
        "Sum\tAda\tBen\tCy\n# 63-29\t34\t46\t34",
        "Class 3B\n\tAda\tBen\tCy\n# 63-29\t34\t46\t34",
        "No\tSum\tAda\tBen\tCy\n1\t# 63-29\t34\t46\t34",
        "Name\t# 63-29\nAda\t34\nBen\t46\nCy\t34",
        "Ada\t# 63-29\t34\nBen\t# 63-29 = 46\nCy\t63-29\t34",
    ],
)
def test_what_counts_a_sum_in_its_cell_is_left_out(text: str, count: str) -> None:
    given = {name: answers for name, (answers,) in answered(text.replace("#", count))}
    assert given == {
        name: ("63 − 29", 46 if name == "Ben" else 34) for name in ("Ada", "Ben", "Cy")
    }
    packs = f"Ada\t{count} 63-29\t71-48\nBen\t{count} 82-35".replace("71", f"{count} 71")
    assert told(packs) == [("Ada", ["63 − 29", "71 − 48"]), ("Ben", ["82 − 35"])]


def test_what_counts_a_sum_is_a_name_where_names_stand() -> None:
    assert [name for name, _ in answered("Q1 63-29\t34\nQ2 63-29\t46")] == ["Q1", "Q2"]
    both = [("63 − 29", 34), ("52 − 27", 25)]
    assert answered("a) 63-29\tb) 52-27\nAda\t34\t25") == [("Ada", both)]


def test_a_column_of_numbers_and_a_list_of_who_was_away_are_no_children() -> None:
    assert answered("Sum\tNo\tAda\n63-29\t1\t34\n71-48\t2\t23") == [
        ("Ada", [("63 − 29", 34), ("71 − 48", 23)])
    ]
    no = [("63 − 29", 1), ("71 − 48", 3)]  # a child, whose answers count nothing
    assert ("No", no) in answered("Sum\tNo\tAda\n63-29\t1\t34\n71-48\t3\t23")
    assert answered("No\t63-29\t34") == [("No", [("63 − 29", 34)])]
    for last in ("Absent: Cy, Dan", "Ausentes: Cy", "Average: 0.5"):
        notes: list[Said] = []
        (ada,) = pasted_answers(f"Ada\t63-29\t34\n{last}", notes=notes)
        assert (ada.name, [note.code for note in notes]) == ("Ada", ["screen.title"])


def test_names_that_differ_in_capitals_alone_are_told() -> None:
    for read in (partial(read_pupils, stage="pieces"), pasted_answers):
        notes: list[Said] = []
        assert len(read("ben\t63-29\nBen\t71-48\nAda\t53-27", notes=notes)) == 3
        (note,) = (note for note in notes if note.code == "answers.alike")
        assert str(note).startswith("Note: 'ben' and 'Ben' count as several children.")


def test_of_many_rows_that_are_wrong_the_first_are_named_and_the_rest_counted() -> None:
    with pytest.raises(RefusedRowsError) as refused:
        read_pupils("\n".join(f"Ada\t{n}" for n in range(9)), "pieces")
    assert str(refused.value.refusals[-1]) == "And 6 more, in rows 4, 5, 6, 7 and 2 more."


def test_a_first_row_of_words_that_name_no_column_is_never_passed_over() -> None:
    assert asked("\tCy\t\nQ1\t402-158\t501").slots["column"] == 1
    assert told("\tCy\nQ1\t63-29") == [("Cy", ["63 − 29"])]
    assert asked("\tSum\tAda\nQ1\t63-29\t34").slots["column"] == 1
    assert asked("Kid\tTask\tGiven\nAda\t63-29\t34").code == "screen.shape-answers"
    assert told("Kid\tSum\nAda\t63-29") == [("Ada", ["63 − 29"])]


@pytest.mark.parametrize(
    "name", ["P1", "P01", "Ana 2", "12 May", "Mar", "Ana 2026-01-12", "Ada 3B", "7"]
)
def test_a_name_before_a_sum_may_have_digits(name: str) -> None:
    for between in (" ", ": ", ", ", "\t"):
        assert answered(f"{name}{between}53-27=34") == [(name, [("53 − 27", 34)])]
    assert told(f"{name} 53-27")[0][0] == name
    hugo = answered("Hugo 52-27=35\nHugo 1 41-19=38")
    assert hugo == [("Hugo", [("52 − 27", 35)]), ("Hugo 1", [("41 − 19", 38)])]
    (ana,) = pasted_answers("Ana 2, 5,3-2,7=3,4")
    assert (ana.name, str(ana.cells[0].sum), str(ana.cells[0].answer)) == (
        "Ana 2", "5.3 − 2.7", "3.4",
    )  # fmt: skip


LISTED = [("53 − 27", 34), ("71 − 48", 23), ("162 − 79", 117)]


@pytest.mark.parametrize(
    "labels",
    [
        *("1. |2. |3. ", "1) |2) |3) ", "1)|2)|3)", "1: |2: |3: ", "1 |2 |3 ", "1, |2, |3, "),
        *("a) |b) |c) ", "a |b |c ", "a. |b. |c. ", "b) |d) |g) ", "|2. |", "1\t|2\t|3\t"),
        *("Lunes: |Martes: |Miércoles: ", "Mon |Tue |Wed ", "Día 1: |Día 2 |Día 3: ", "|Week 2 |"),
        *("12/1: |13/1: |14/1: ", "2027-01-12 |2027-01-13 |2027-01-14 ", "Lun. |Mar. |Mié 14: "),
    ],
)
def test_running_numbers_letters_and_days_are_no_children(labels: str) -> None:
    one, two, three = labels.split("|")
    notes: list[Said] = []
    text = f"{one}53-27=34\n{two}71-48=23\n{three}162-79=117"
    (child,) = pasted_answers(text, notes=notes)
    assert [(str(cell.sum), cell.answer) for cell in child.cells] == LISTED
    assert (child.name, [note.code for note in notes]) == ("1", ["screen.labels"])


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("A: 53-27=34\nB: 71-48=23", ["A", "B"]),
        ("Mar: 53-27=34\nDomingo: 71-48=23", ["Mar", "Domingo"]),
        ("1: 53-27=34\n2: 53-27=26", ["1", "2"]),  # the sums of a class
        ("3: 53-27=34\n7: 71-48=23", ["3", "7"]),
        ("Ana: 53-27=34\nLunes: 71-48=23", ["Ana"]),
        ("Ana: 53-27=34\nMar: 71-48=23", ["Ana", "Mar"]),
        ("Mar:\nLunes: 53-27=34\nMartes: 71-48=23\nDom\nLunes: 53-27=26", ["Mar", "Dom"]),
        ("Mar:\n1. 53-27=34\n2. 71-48=23\nDom\n1. 53-27=26", ["Mar", "Dom"]),
        ("Lunes: Ana 53-27=34\nMartes: Ben 71-48=23", ["Ana", "Ben"]),
        ("Ben\nLun 53-27=34\nMar\nLun 53-27=26", ["Ben", "Mar"]),
        ("1) Ana 53-27=34\n2) Ana 71-48=23\n3) Ben 53-27=26", ["Ana", "Ben"]),
        ("1) 53-27=34\n2)", ["1"]),
        ("Day\tSum\tAnswer\nMonday\t53-27\t34\nTuesday\t71-48\t23", ["1"]),
        ("71-48\t63-25\n2\t38", ["1"]),  # 2 is an answer
        ("name, sum, answer\n1. 53-27=34\n2, 71-48=23", ["1.", "2"]),
        ("name\tsum\tanswer\n1\t53-27\t34\n2\t71-48\t23", ["1", "2"]),
    ],
)
def test_what_may_be_children_stays_so(text: str, names: list[str]) -> None:
    assert [name for name, _ in answered(text)] == names


@pytest.mark.parametrize(
    "text",
    [
        "1 152-27=125",
        "José 1 152-27=125",
        "Lunes 1 152-27=125",
        "Ana 1 152-27 125",
        "1) Ana 1 152-27=125",
    ],
)
def test_thousands_that_may_end_a_name_are_asked_about(text: str) -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers(f"\n{text}")
    assert (refused.value.code, refused.value.row) == ("screen.two-ways", 2)
    for way in ("sum", "other"):
        assert answered(str(refused.value.slots[way]))
    assert answered("1 152-27=125\n2 241-19=222")[0][1][1] == ("241 − 19", 222)
    for cells in ("Ana\t1 152-27=125", "Ana;1 152-27;125", "Ana: 1 152-27=125"):
        assert answered(cells) == [("Ana", [("1152 − 27", 125)])]
    assert answered("\t1 152-27=125") == [("1", [("1152 − 27", 125)])]
    assert answered("Ana 1 152-27=1125") == [("Ana", [("1152 − 27", 1125)])]


@pytest.mark.parametrize("text", ["52-27=3,5", "Ana 52-27=35 41-19", "52-27=35; 41-19"])
def test_several_sums_in_a_line_are_told_to_be_one_a_line(text: str) -> None:
    with pytest.raises(RefusedRowsError) as refused:
        pasted_answers(text)
    assert "Write one sum with its answer a line" in str(refused.value.refusals[0])


def test_of_many_wrong_rows_the_screen_gets_a_list_of_words() -> None:
    rows = "\n".join(f"Ada{k}\t27-6{k}" for k in range(9))
    with pytest.raises(RefusedRowsError) as refused:
        read_pupils(rows, "pieces")
    last = refusal.told(refused.value.refusals[-1], "en-GB")
    assert last["slots"]["rows"] == ["4", "5", "6", "7", "2 more"]
    assert last["says"] == "And 6 more, in rows 4, 5, 6, 7 and 2 more."


@pytest.mark.parametrize(
    "row",
    ["Number right\t2\t2", "Answer\t34\t25", "Answer key\t34\t25", "Respuestas correctas\t2\t2"],
)
def test_answers_and_how_many_were_right_are_no_child(row: str) -> None:
    for rows in ((row, "Ada\t34\t35"), ("Ada\t34\t35", row)):
        notes: list[Said] = []
        read = pasted_answers("\n".join(("\t63-29\t52-27", *rows, "Ben\t46\t25")), notes=notes)
        assert [one.name for one in read] == ["Ada", "Ben"]
        assert [note.code for note in notes] == ["screen.title"]


def test_one_name_of_two_children_is_told_where_one_was_away() -> None:
    head = "Name\tSum\tAnswer\nAda\t63-29\t34\nBen\t63-29\t34\nBen\t52-27\t25\n"
    ticket = "Name\tSum\tAnswer\nAda\t63-29\t34\nBen\t63-29\t34\nCy\t63-29\t34\nBen\t63-29\t46"
    with pytest.raises(RefusedError, match="Ben"):
        pasted_answers(ticket)
    for other in ("Ben\tabsent\t", "Ben\t\t", "Ben\t63-29\t\nBen\t52-27\t\nCy\t63-29\t34"):
        with pytest.raises(RefusedError) as refused:
            pasted_answers(head + other)
        assert refused.value.row == 5
        assert refused.value.code in ("answers.also-away", "answers.same-sums")


def test_right_answers_beside_names_across_are_passed_over() -> None:
    notes: list[Said] = []
    rows = "Sum\tAnswer\tAda\tBen\n63-29\t34\t34\t46\n52-27\t25\t35\tabsent"
    read = pasted_answers(rows, notes=notes)
    assert [(one.name, len(one.cells)) for one in read] == [("Ada", 2), ("Ben", 2)]
    assert notes[0] == Said("screen.title", lines=(Said("answers.typed", typed="Answer"),))
    for text in (
        "Sum\tAnswer\tAda\n63-29\t34\t46\n52-27\t25\t25",
        "Sum\tAda\tBen\tAnswer\n63-29\t46\t46\t34\n52-27\t25\t25\t25",
        "No\tSum\tAnswer\tAda\n1\t63-29\t34\t46\n2\t52-27\t25\t25",
        "No\tSum\tAnswer\tAda\tBen\n1\t63-29\t34\t46\t\n2\t52-27\t25\t25\t25",
    ):
        assert answered(text)[0] == ("Ada", [("63 − 29", 46), ("52 − 27", 25)])


@pytest.mark.parametrize(
    "head", ["Mistakes", "Errors", "Number right", "Errores", "Nº de aciertos"]
)
def test_a_count_at_the_right_of_names_is_left_out_with_a_note(head: str) -> None:
    notes: list[Said] = []
    read = pasted_answers(
        f"Name\t63-29\t52-27\t{head}\nAda\t34\t25\t0\nBen\t46\t25\t1", notes=notes
    )
    assert [(one.name, len(one.cells)) for one in read] == [("Ada", 2), ("Ben", 2)]
    assert [note.code for note in notes] == ["answers.beside"]


def test_a_date_above_a_table_is_a_title() -> None:
    for day in ("12/11/2026", "12-11-2026"):
        read = pasted_answers(f"Class 3B\n{day}\n\t63-29\t52-27\nAda\t34\t25")
        assert [one.name for one in read] == ["Ada"]


@pytest.mark.parametrize("marks", ["1.- 2.-", "1- 2-", "1ª 2ª", "- -", "• *", "(1) (2)", "A.- B.-"])
def test_marks_of_lists_below_a_name_are_no_child(marks: str) -> None:
    one, two = marks.split()
    text = f"Hugo\n{one} 52-27=35\n{two} 41-19=38\nAna\n{one} 52-27=25\n{two} 42-9=33"
    read = pasted_answers(text, notes=[])
    assert [(child.name, len(child.cells)) for child in read] == [("Hugo", 2), ("Ana", 2)]
    tabs = "Hugo\n•\t52-27=35\n•\t41-19=38\nAna\n-52-27=25\n•42-9=33"
    assert pasted_answers(tabs, notes=[]) == read
    (alone,) = pasted_answers("12- 5 = 7\n13 - 7 = 6")
    assert [str(cell.sum) for cell in alone.cells] == ["12 − 5", "13 − 7"]


def test_what_is_left_out_of_a_line_is_told_as_it_was_typed() -> None:
    notes: list[Said] = []
    pasted_answers("Hugo\n1ª 52-27=35\n2.- 41-19=38\n(3) 63-29=34\nc- 42-9=33", notes=notes)
    assert notes[0].slots["lines"] == tuple(
        Said("answers.typed", typed=mark) for mark in ("1ª", "2.-", "(3)", "c-")
    )


def test_dashes_behind_names_and_numbers_before_them_are_no_part_of_them() -> None:
    ana, ben = [("52 − 27", 25)], [("52 − 27", 35)]
    for text in (
        "Ana - 52-27=25\nBen – 52-27=35",
        "Ana -\n52-27=25\nBen:\n52-27=35",
        "\t52-27\n1. Ana\t25\n2. Ben\t35",
        "1) Ana\t52-27\t25\n2) Ben\t52-27\t35",
        "1. Ana 52-27=25\n2. Ben 52-27=35",
    ):
        assert answered(text) == [("Ana", ana), ("Ben", ben)]
    packs = [("Ana", ["52 − 27"]), ("Ben", ["71 − 48"])]
    assert told("1. Ana 52-27\n2. Ben - 71-48") == packs
    assert told("Name\tSum\n1.- Ana\t52-27\n2.- Ben\t71-48") == packs
    assert told("1. Ana\t52-27\n4. Ben\t71-48")[1][0] == "4. Ben"


TITLES = (
    *("Worksheet", "Homework", "Deberes", "Maths homework", "Restas", "Ficha de restas", "Sums"),
    *("Subtraction (practice)", "Week 3", "Lunes deberes", "Monday 9 May", "Test"),
)


@pytest.mark.parametrize("title", TITLES)
def test_a_title_in_known_words_between_a_name_and_its_sums_is_no_child(title: str) -> None:
    for text in (
        f"Hugo\n{title}\n52-27=35\n41-19=38\nAna\n52-27=25\n41-19=22",
        f"Hugo\n52-27=35\n41-19=38\n{title}\nAna\n{title}\n52-27=25\n41-19=22",
        f"{title}\nHugo\n52-27=35\n{title}\n41-19=38\n\nAna\n52-27=25\n41-19=22",
    ):
        assert answered(text) == [("Hugo", FIRST), ("Ana", SECOND)]
    notes: list[Said] = []
    (hugo,) = pasted_answers(f"Hugo\n{title}\n52-27=35", notes=notes)
    assert (hugo.name, [note.code for note in notes]) == (
        "Hugo",
        ["screen.labels", "screen.carried"],
    )
    assert answered(f"{title}: 52-27=35") == [("1", FIRST[:1])]


@pytest.mark.parametrize(
    ("text", "given"),
    [
        ("Hugo\nOwls practice\n52-27=35", ("Hugo", "Owls practice")),
        ("Hugo\nAbsent\n52-27=35", ("Hugo", "Absent")),
        ("Hugo\nOwls\n52-27=35\nAna\nOwls\n52-27=25", ("Hugo", "Owls")),
        ("Hugo\n52-27=35\nOwls\nWeek 2\nAna\n52-27=25", ("Owls", "Ana")),
        ("Hugo\nPrimera resta: 52-27=35", ("Hugo", "Primera resta")),
        ("Hugo homework\n52-27=35\nAna homework\n52-27=25", ("Hugo homework",)),
        ("Tutoring\nClass 3B\nAda\t53-27\t26", ("Tutoring", "Class 3B")),
        ("1 53-27=34\n2 53-27=26\nCem\n4 53-27=26", ("Cem", "4")),
        ("name;sum;answer\nHugo\n1;52-27;35\n2;41-19;38", ("Hugo", "1")),
        ("Eva\nBen 52-27=35", ("Eva", "Ben")),
        ("Hugo\n52-27=35\nno sabe llevar\n41-19=38", ("no sabe llevar",)),
        ("Hugo\nOwl 1: 52-27=35\nAna\nOwl 1: 52-27=25", ("Hugo", "Owl 1")),
    ],
)
def test_of_words_alone_above_sums_it_is_asked_who_is_a_child(
    text: str, given: tuple[str, ...]
) -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers(text)
    assert refused.value.code == "screen.who"
    assert refused.value.slots["given"] == tuple(Said("answers.typed", typed=one) for one in given)


LIST = "Hugo\n52-27=35\n41-19=38\nAna\n52-27=25\n41-19=22"


def test_a_day_and_month_above_a_table_or_below_a_name_is_no_sum() -> None:
    rows = [("Ada", [("52 − 27", 25)]), ("Ben", [("52 − 27", 35)])]
    for day in ("9-11", "9-23", "04-05"):
        assert answered(f"{day}\n{LIST}") == [("Hugo", FIRST), ("Ana", SECOND)]
        assert answered(LIST.replace("Ana", f"Ana\n{day}")) == [("Hugo", FIRST), ("Ana", SECOND)]
        assert answered(f"{day}\t\nName\t52-27\nAda\t25\nBen\t35") == rows
    notes: list[Said] = []
    pasted_answers(f"9-11\n{LIST}", notes=notes)
    assert [note.code for note in notes] == ["screen.title", "screen.carried"]
    for text in (f"11-9\n{LIST}", LIST.replace("Ana", "Ana\n11-9"), "11-9\nName\t52-27\nAda\t25"):
        with pytest.raises(RefusedError) as refused:
            pasted_answers(text)
        assert (refused.value.code, refused.value.slots["given"]) == ("screen.day-or-sum", "11-9")
        assert refused.value.row == text.split("\n").index("11-9") + 1
    read = answered(LIST.replace("Ana", "Ana\n11-9 ="))
    assert read[1] == ("Ana", [("11 − 9", None), *SECOND])
    assert answered("11-9\n12-5")[0][1] == [("11 − 9", None), ("12 − 5", None)]
    assert answered("Hugo\n11-9=2\n52-27=35")[0][1] == [("11 − 9", 2), ("52 − 27", 35)]


def test_a_refusal_tells_of_its_own_row_and_beside_it_each_note_stands_once() -> None:
    text = "Class 3B\n\nAda\t53-27\t26 x\nBen\t53-27\t26x\nCy\t53-27\tabsent"
    notes: list[Said] = []
    with pytest.raises(RefusedRowsError) as refused:
        pasted_answers(text, notes=notes)
    assert str(refused.value.refusals[0]).startswith("The pasted table, line 4: '26x' for 53 − 27")
    assert [note.code for note in notes] == ["screen.title"]
    answer = Engine().ask({"job": "wrong", "answers": text})
    assert [(one["row"], "line" in one["says"]) for one in answer["refusals"]] == [(4, False)]
    pasted_answers(text.replace("26x", "26"), notes=notes)
    codes = [note.code for note in notes]
    assert codes == ["screen.title", "screen.title", "answers.blank", "answers.marked"]


@pytest.mark.parametrize("marks", ["---", "-", "•", "***", "+", "\t\t-", "____", "·\t"])
def test_a_line_of_marks_alone_holds_nothing(marks: str) -> None:
    assert answered(LIST.replace("Ana", f"{marks}\nAna")) == [("Hugo", FIRST), ("Ana", SECOND)]
    assert answered(f"{marks}\n\t52-27\nAda\t25\n{marks}")[0] == ("Ada", [("52 − 27", 25)])
    assert told(f"Ada\t53-27\n{marks}\nBen\t71-48") == told("Ada\t53-27\nBen\t71-48")


PARTS = (
    "- • * + 1 34 52-27 63\u202f-\u202f29 = , ; : Ada Ben x ? 1. a) Total Week name sum answer 9-11"
    " Group Maths Reading and & | ( ) 5,003-2,748 Everyone absent yes"
)


@hypothesis.example("\tx\n52-27;34;Ada;absent\n\t;\t-\nReading,@,Score,,")
@hypothesis.example("|,?,Cy,\n34\t\tSum\tname\tx\nBen;;;;1.\n;sum;")
@hypothesis.example("Time|\tname\t\t52-27\t63-29\nTotal")
@hypothesis.settings(max_examples=300, deadline=None)
@hypothesis.given(
    st.lists(st.sampled_from([*PARTS.split(" "), *" \t\n\t\n"]), max_size=24).map("".join)
)
def test_whatever_is_pasted_is_read_or_refused(text: str) -> None:
    for read in (partial(read_pupils, stage="pieces"), pasted_answers):
        with suppress(RefusedError, RefusedRowsError):
            read(text)


@pytest.mark.parametrize(
    "text",
    [
        "Restas, 52-27, 41-19\nHugo: 35, 38\nAna: 25, 22",
        "Restas: 52-27, 41-19\nHugo, 35, 38\nAna: 25, 22",
        "Restas 52-27, 41-19\nHugo 35, 38\nAna: 25, 22",
        "52-27\t41-19\nHugo: 35\t38\nAna: 25\t22",
    ],
)
def test_a_name_and_its_first_answer_in_one_cell_are_taken_apart(text: str) -> None:
    assert answered(text) == [("Hugo", FIRST), ("Ana", SECOND)]


@pytest.mark.parametrize(
    ("text", "given"),
    [
        ("Nombre, 52-27, 41-19, 63-29\nHugo 35, 38\nAna, 25, 22, 34", "Hugo 35"),
        ("Nombre, 52-27, 41-19\nHugo 35, 38\nAna, 25, 22", "Hugo 35"),
        ("Name\t52-27\t41-19\nEve 2\t35\nAna\t25\t22", "Eve 2"),
        ("Nombre, 52-27, 41-19\nHugo: 35, 38, 34", "Hugo: 35"),
        ("Ana 52-27, 41-19\n35, 38", "35"),
    ],
)
def test_a_cell_that_may_be_a_name_or_end_in_an_answer_is_asked_about(
    text: str, given: str
) -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers(text)
    assert (refused.value.code, refused.value.row) == ("screen.name-answer", 2)
    assert refused.value.slots["given"] == given
    assert answered("Name\t52-27\t41-19\nBen 1\t35\t")[0][0] == "Ben 1"
    assert answered("Name\t52-27\t41-19\nBen 1\tabsent\nAda\t25\t22")[0][0] == "Ben 1"


def test_a_child_named_as_columns_are_is_not_taken_for_heads() -> None:
    assert asked("Pupil 1\tno sum\tno answer\nBen\t61-34\t33").code == "screen.shape-answers"


@pytest.mark.parametrize("corner", ["Test 1", "Week 3", "Year 4", "Quiz 2", "Prueba 2"])
def test_a_title_with_a_number_in_the_corner_is_no_day(corner: str) -> None:
    two = answered(f"{corner}\t53 - 27\t61 - 34\nAda\t26\t33")
    assert two == [("Ada", [("53 − 27", 26), ("61 − 34", 33)])]
    assert answered(f"{corner}\t53 - 27\nAda\t26\nBen\t34")[1] == ("Ben", [("53 − 27", 34)])


@pytest.mark.parametrize("part", ["\t", ",", ";"])
@pytest.mark.parametrize("name", ["Ada", "Pupil 1"])
@pytest.mark.parametrize(
    "corner",
    [
        *("Curso 2026-27", "2026-27", "24-3", "24 - 3", "30 – 11", "9-11", "Lunes 9-11"),
        *("Test 24-3", "Ana 52-27", "100 - 80", "61 - 34", "53-27"),
    ],
)
def test_a_corner_that_may_be_a_sum_or_a_day_is_asked_about(
    corner: str, name: str, part: str
) -> None:
    rows = [[corner, "53 - 27", "61 - 34"], [name, "26", "33"], ["Ben", "34", "27"]]
    with pytest.raises(RefusedError) as refused:
        pasted_answers("\n".join(map(part.join, rows)))
    assert (refused.value.code, refused.value.row) == ("screen.corner-sum", 1)
    assert refused.value.slots["given"] == corner
    rows[0][0] = "Name"  # as it says
    assert answered("\n".join(map(part.join, rows)))[0][1][0] == ("53 − 27", 26)
    heads = part.join(["Name", "24 - 3", "53 - 27", "61 - 34"])  # or this
    below = [part.join([*row, "-"]) for row in rows[1:]]
    first = answered("\n".join([heads, *below]))[0][1]
    assert first[:2] == [("24 − 3", 26), ("53 − 27", 33)]


@pytest.mark.parametrize("title", ["", "Term 2026-27\n", "Maths 24-3\n", "Week 3\t24-3\n"])
@pytest.mark.parametrize(
    ("corner", "mark"),
    [("24 - 3", ""), ("2026-27", "\t2"), ("Term 2026-27", "\t2"), ("Ages 7-8", "\t2")],
)
def test_a_corner_is_asked_about_below_titles_and_beside_marks(
    title: str, corner: str, mark: str
) -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers(f"{title}{corner}\t53-27\t61-34\nAda\t26\t27{mark}\nBen\t34\t33{mark}")
    assert refused.value.code == "screen.corner-sum"


def test_a_column_of_marks_makes_no_room_for_names() -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers("53-27\t61-34\tMark\nAda\t26\t2\nBen\t34\t0")
    assert refused.value.code == "screen.corner-sum"


TWO_TITLES = ["Class 4B\tMs. Rowe", "24-3\tWeek 3"]


@pytest.mark.parametrize("field", ["answers", "pupils"])
@pytest.mark.parametrize("heads", ["Name\tSum\tAnswer", "\tSum\tAnswer", ""])
def test_a_table_below_two_titles_is_read_without_them(heads: str, field: str) -> None:
    rows = ["Ada\t53-27\t26", "Ben\t61-34\t27"]
    text = "\n".join([*TWO_TITLES, *filter(None, [heads]), *rows])
    found = asked(
        text.replace("\t26", "").replace("\t27", "") if field == "pupils" else text, field
    )
    given = "Class 4B, Ms. Rowe; 24-3, Week 3" if field == "answers" else found.slots["given"]
    assert (found.code, found.slots["given"]) == ("screen.row-out", given)
    assert found.slots["rows"] in ((1, 2), (2,))
    dated = text.replace("Class 4B", "Maths\t3B\n24 March 2026\nClass 4B")
    if field == "answers":
        assert asked(dated).slots["rows"] == (1, 2, 3, 4)


HEADS = ["What is 53 - 27?\tWhat is 61 - 34?", "Q1 (53-27)\tQ2 (61-34)", "53-27\t61-34"]
WRONG = [("Ada", [("53 − 27", 34), ("61 − 34", 27)]), ("Ben", [("53 − 27", 26), ("61 − 34", 33)])]


@pytest.mark.parametrize("name", ["Name", "Full name", "What is your name?", "Pupil name (first)"])
@pytest.mark.parametrize("heads", HEADS)
def test_answers_of_a_form_are_read(heads: str, name: str) -> None:
    at = ("9/11/2026 9:10:12", "9/11/2026 9:12:40")
    form = f"Timestamp\t{name}\t{heads}\n{at[0]}\tAda\t34\t27\n{at[1]}\tBen\t26\t33"
    assert answered(form) == WRONG
    first, second = heads.split("\t")
    scored = f"{name}\t{first}\t{first} [Score]\t{second}\t{second} [Score]"
    points = f"{name}\t{first}\tPoints - {first}\t{second}\tFeedback - {second}"
    for quiz in (scored, points):
        notes = list[Said]()
        rows = "Ada\t34\t0.00 / 1\t27\t1.00 / 1\nBen\t26\t1\t33\t0"
        read = pasted_answers(f"{quiz}\n{rows}", notes=notes)
        assert [(one.name, [cell.answer for cell in one.cells]) for one in read] == [
            ("Ada", [34, 27]),
            ("Ben", [26, 33]),
        ]
        assert notes[0].code == "answers.beside"


@pytest.mark.parametrize("heads", ["Year 4: 53-27\tYear 4: 61-34", "Shop: 53-27\tBus 61-34 = ?"])
def test_heads_beside_that_of_names_may_have_words_each(heads: str) -> None:
    assert answered(f"Name\t{heads}\nAda\t34\t27\nBen\t26\t33") == WRONG
    assert answered(f"Timestamp\tName\t{heads}\n9:10\tAda\t34\t27\n9:12\tBen\t26\t33") == WRONG


def test_a_head_that_may_hold_a_day_is_a_sum_among_others_alike_alone() -> None:
    pages = "Name\tShop: 53-27\tBus 24-3\nAda\t34\t21"
    assert asked(pages).code == "screen.shape-answers"
    alike = "First name\tWhat is 53-27?\tWhat is 13-6?\nAda\t34\t7"
    assert answered(alike) == [("Ada", [("53 − 27", 34), ("13 − 6", 7)])]
    assert asked(alike.replace("53-27", "12-7")).code == "screen.shape-answers"


def test_sums_with_answers_below_names_across_are_read() -> None:
    rows = ["53-27=34\t53-27=26", "61-34 = 27 ✓\t61-34 = 33"]
    lists = "\n".join(["Ada\tBen", *rows])
    assert answered(lists) == answered(lists.replace("\t", ";")) == WRONG
    assert (
        answered("\n".join(["\tAda\tBen", *(f"{n}.\t{row}" for n, row in enumerate(rows, 1))]))
        == WRONG
    )
    assert answered(f"Ada\tBen\n{rows[0]}\n61-34=27\t") == [WRONG[0], ("Ben", WRONG[1][1][:1])]
    with pytest.raises(RefusedError, match="Ada"):
        answered(f"Ada\tAda\n{rows[0]}")
    assert asked(f"Ada\tBen\n{rows[0]}\t80-36=44").code == "screen.shape-answers"


@pytest.mark.parametrize(
    "corner", ["24/3", "24.3.2026", "24 March 2026", "Curso 2026-27", "Week 3"]
)
def test_a_day_or_a_title_may_stand_in_the_corner_of_a_blank_grid(corner: str) -> None:
    given = [("Ada", ["53 − 27", "61 − 34"]), ("Ben", ["53 − 27", "61 − 34"])]
    assert told(f"{corner}\t53-27\t61-34\nAda\nBen") == given
    with pytest.raises(RefusedError, match="above the names"):
        told("24-3\t53-27\t61-34\nAda\nBen")


@pytest.mark.parametrize(
    "table",
    [
        "Name\t53-27 (1)\t61-34 (2)\nAda\t34\t27\nBen\t26\t33",
        "Sum\tAda\t\tBen\t\n53-27\t34\t✗\t26\t✓\n61-34\t27\t✓\t33\t✗",
        "Sum\tAda\tMark\tBen\tMark\n53-27\t34\t0\t26\t1\n61-34\t27\t1\t33\t0",
        "Ada\nSum\tAnswer\n53-27\t34\n61-34\t27\nBen\nSum\tAnswer\n53-27\t26\n61-34\t33",
        "Name\t53-27\t\t61-34\t\nAda\t34\tx\t27\t✓\nBen\t26\t✓\t33\tx",
        "Ada\t53-27\t34\tx\nAda\t61-34\t27\t✓\nBen\t53-27\t26\t✓\nBen\t61-34\t33\tx",
        "Ada\n1ª) 53-27 = 34\n2ª) 61-34 = 27\nBen\n1ª) 53-27 = 26\n2ª) 61-34 = 33",
    ],
)
def test_marks_beside_answers_and_heads_below_names_are_passed_over(table: str) -> None:
    assert answered(table) == WRONG


def test_no_empty_column_is_told_to_be_taken_out() -> None:
    with pytest.raises(RefusedError) as refused:
        answered("\tdback - 24-3\n\tdback - \n\tdback - ")
    assert "dback" in str(refused.value)


def test_a_row_of_which_nothing_is_left_is_no_childs() -> None:
    heads = "SEN\tName\t53-27\t61-34\tTotal"
    assert answered(f"{heads}\nK\tAda\t34\t27\t1\nK\t\t\t\t0\nK\tBen\t26\t33\t1") == WRONG


def test_ticks_below_a_sum_to_their_left_are_answers() -> None:
    for mark, answer in (("✓", 27), ("x", None)):
        found = answered(f"53-27\t61-34\nAda\t34\t{mark}\nBen\t26\t{mark}")
        assert found[0] == ("Ada", [("53 − 27", 34), ("61 − 34", answer)])


def test_times_are_no_names_and_addresses_are_where_no_others_stand() -> None:
    for one in ("12/11/2026 9:10", "9:10"):
        assert asked(f"Sent\t53-27\t61-34\tWho\n{one}\t34\t27\tAda").code == "screen.shape-answers"
    form = "Timestamp\tEmail\t53-27\t61-34\n9:10\t{0}@a.example\t34\t27\n9:12\t{1}\t26\t33"
    assert answered(form.format("Ada", "Ben@a.example")) == WRONG
    same = answered(form.format("Ada", "Ada@b.example"))  # each called by the whole address
    assert [name for name, _ in same] == ["Ada@a.example", "Ada@b.example"]


def test_names_with_answers_below_a_sum_are_read() -> None:
    lists = "53-27\nAda 34\nBen: 26\n61 - 34 =\nAda 27\nBen 33"
    assert answered(lists) == WRONG
    assert answered(lists.replace("a ", "a\t").replace("n ", "n\t").replace(": ", "\t")) == WRONG
    assert answered("53-27\n- Ada absent\n- Ben 26\n- Cy 34")[0] == ("Ada", [("53 − 27", None)])
    for mark in (" - ", " = ", " – "):
        assert answered(lists.replace(": ", " ").replace("a ", f"a{mark}")) == WRONG
    assert answered("53-27 61-34\nAda 34 27\nBen: 26 33") == WRONG
    for unclear in ("11-9\nAda 2\nBen 3", "53-27\nQ 1\nQ 2", "53-27\n61-34\nAda 2\nBen 3"):
        with pytest.raises((RefusedError, RefusedRowsError)):
            answered(unclear)
    with pytest.raises((RefusedError, RefusedRowsError)):
        answered("53-27 61-34\nAda 34\nBen 26 33")  # whose is the sum that was not tried


@pytest.mark.parametrize(
    "tables",
    [
        "Name\t52-37\t61-28\t\tName\t52-37\t61-28\nAda\t15\t33\t\tBen\t15\t43",
        "4W\t\t\t4H\nPupil\t52-37\t61-28\tPupil\t71-48\t80-36\nAda\t15\t33\tBen\t15\t",
        "Name\tSum\tAnswer\tName\tSum\tAnswer\nAda\t52-37\t15\tBen\t52-37\t25",
        "Ada\t\t\tBen\n52-37\t15\t\t52-37\t25\n61-28\t33\t\t61-28\t47",
    ],
)
def test_tables_side_by_side_are_pasted_one_at_a_time(tables: str) -> None:
    for read in (answered, told):
        with pytest.raises(RefusedError, match="side by side"):
            read(tables)


@pytest.mark.parametrize("heads", ["Class\tName\tSum\tAnswer", "Name\tClass\tSum\tAnswer"])
def test_one_name_in_two_classes_may_be_two_children(heads: str) -> None:
    first, second = heads.split("\t")[:2]
    rows = [("Ada", "4W", "34"), ("Ben", "4W", "26"), ("Ada", "4H", "26")]
    lines = [heads]
    for name, class_, answer in rows:
        beside = {"Name": name, "Class": class_}
        lines.append(f"{beside[first]}\t{beside[second]}\t53-27\t{answer}")
    with pytest.raises(RefusedError, match="4H"):
        answered("\n".join(lines))
    assert answered("\n".join(lines[:3])) == [(n, [("53 − 27", int(a))]) for n, _, a in rows[:2]]


def test_answers_before_their_sums_go_behind_them() -> None:
    with pytest.raises(RefusedError, match="before each sum"):
        answered("Ada\t34\t53-27\nBen\t26\t53-27")
    assert asked("Ada\t1\t53-27\nBen\t2\t53-27").code == "screen.shape-answers"  # a count
    assert answered("Name\tAnswer\tSum\nAda\t34\t53-27") == [("Ada", [("53 − 27", 34)])]


@pytest.mark.parametrize(
    "form",
    [
        "Timestamp\t53-27\t61-34\tName\n9:10\t34\t27\tAda\n9:12\t26\t33\tBen",
        "53-27\t61-34\tName\tSurname\n34\t27\tAda\t\n26\t33\tBen",
        "ID\tName\tWhat is your name?\t53-27\t61-34\n1\tguest\tAda\t34\t27\n2\tguest\tBen\t26\t33",
        "Full name\tName\t53-27\t61-34\nguest\tAda\t34\t27\nme\tBen\t26\t33",
        "Name\tCode\t53-27\t61-34\nAda\tA1\t34\t27\nBen\tB2\t26\t33",
        "Timestamp\tFirst and Last Name\t53-27\t61-34\n9\tAda\t34\t27\n9\tBen\t26\t33",
        "Marca\t53-27\t61-34\tTu nombre\tCurso\n9/9\t34\t27\tAda\t4B\n9/9\t26\t33\tBen\t4B",
        "Name\tYour first name\t53-27\t61-34\n\tAda\t34\t27\n\tBen\t26\t33",
        "Quiz name\tLearner\t53-27\t61-34\nWeek 3\tAda\t34\t27\nWeek 3\tBen\t26\t33",
        "Your name\tName\t53-27\t61-34\nAda\tguest\t34\t27\nBen\tguest\t26\t33",
    ],
)
def test_names_of_a_form_may_stand_anywhere_and_twice(form: str) -> None:
    assert answered(form) == WRONG


def test_one_sum_beside_a_head_of_names_is_asked_of_all() -> None:
    for heads in ("Name\tWhat is 53-27?", "Your name\tQ1. 53-27"):
        assert answered(f"{heads}\nAda\t34\nBen\t26") == [
            ("Ada", [("53 − 27", 34)]),
            ("Ben", [("53 − 27", 26)]),
        ]
    assert told("Name\t53-27\nAda\nBen") == [("Ada", ["53 − 27"]), ("Ben", ["53 − 27"])]


@pytest.mark.parametrize(
    "heads", ["Ada 53-27\tBen 61-34", "Homework 24-3\tHomework 25-3", "53-27 again\t53-27"]
)
def test_a_head_with_other_words_or_a_day_is_no_sum_of_all(heads: str) -> None:
    assert asked(f"\t{heads}\nCy\t26\t27").code == "screen.shape-answers"


def test_columns_of_points_are_no_answers_where_no_cell_stands_above_names() -> None:
    with pytest.raises((RefusedError, RefusedRowsError)):
        answered("53-27\t53-27 [Score]\t61-34\t61-34 [Score]\nAda\t34\t0\t27\t1")


def test_answers_marked_with_x_are_read_from_a_list() -> None:
    typed = "Ada: 53-27=34 x, 61-34=27 ✓\nBen: 53-27=26 ✓, 61-34=33 x"
    assert answered(typed) == WRONG
    assert answered(typed.replace(": ", "\t").replace(", ", "\t")) == WRONG


def test_several_sums_of_a_child_each_with_its_answer_beside_it_are_read() -> None:
    rows = "Ada\t53-27\t34\t61-34\t27\nBen\t53-27\t26\t61-34\t33"
    assert answered(rows) == answered(rows.replace("\t", ",")) == WRONG
    assert answered(f"Name\tSum 1\tAnswer 1\tSum 2\tAnswer 2\n{rows}") == WRONG
    untried = answered(rows.replace("\t34\t", "\t\t"))
    assert untried == [("Ada", [("53 − 27", None), ("61 − 34", 27)]), WRONG[1]]
    assert asked("Ada\t53-27\t61-34\nBen\t53-27\t26").code == "screen.shape-answers"


@pytest.mark.parametrize(
    ("line", "given"),
    [
        ("Ada 53/27=26", "53/27"),
        ("Year 4 Ada: 5327 = 26", "5327"),
        ("1. Ada 53 + 27=80", "53 + 27"),
    ],
)
def test_a_slip_in_a_line_of_a_list_is_told_of_itself(line: str, given: str) -> None:
    for text in (f"{line}\nBen 81-46=45\nCy 62-38=24", f"Ben 81-46=45\n{line}"):
        with pytest.raises(RefusedError) as refused:
            pasted_answers(text)
        assert (refused.value.code, refused.value.slots["given"]) == ("sum.unreadable", given)
        assert refused.value.row == text.split("\n").index(line) + 1
    assert answered("Ben 81-46=45\nScore 3/4 = 75") == [("Ben", [("81 − 46", 45)])]


GRID = "Name\t53-27\t61-34\nAda\t\t\nBen\t\t"


def test_sums_across_are_each_childs_in_packs_while_nothing_stands_below() -> None:
    both = [("Ada", ["53 − 27", "61 − 34"]), ("Ben", ["53 − 27", "61 − 34"])]
    for text in (GRID, "Week 3\n,53-27,61-34\nAda,,\nBen,,"):
        assert told(text) == both
    for corner in ("Pupils", "Class 3B", "Year 4", "Maths"):
        assert told(GRID.replace("Name", corner)) == both
    assert told(f"Maths test\t24 March\n{GRID}") == both
    with pytest.raises(RefusedError) as refused:
        read_pupils(GRID.replace("Name", "24 - 3"), "pieces")
    assert (refused.value.code, refused.value.field) == ("screen.corner-sum", "pupils")
    assert told("Name; 24 - 3\t53 - 27\nAda") == [("Ada", ["24 − 3", "53 − 27"])]  # as it says
    for text in ("\t53-27\t61-34\nAda\tx\t\nBen", "Cy\t53-27\t61-34\nAda\nBen"):
        with pytest.raises((RefusedError, RefusedRowsError)):
            read_pupils(text, "pieces")


def test_answers_below_sums_across_are_no_sums_of_packs() -> None:
    notes = list[Said]()
    (ada, ben) = read_pupils("Name\t53-27\t61-34\nAda\t26\t27\nBen\t34\t", "pieces", notes=notes)
    assert [str(task.sum) for task in ada.tasks] == [str(task.sum) for task in ben.tasks]
    assert [note.code for note in notes] == ["screen.answers-out"]


def test_a_row_of_no_name_that_says_absent_is_told() -> None:
    with pytest.raises((RefusedError, RefusedRowsError)):
        told("Week 3\tMiss Rowe\nName\t53-27\nAda\t\n\tabsent\n\tabsent")


def test_sums_across_may_change_from_group_to_group() -> None:
    groups = "Level 1\t53-27\t61-34\nAda\nBen\t-\t-\nLevel 2\t702-368\nCy\t\n"
    both = ["53 − 27", "61 − 34"]
    assert told(groups) == [("Ada", both), ("Ben", both), ("Cy", ["702 − 368"])]
    assert told(groups.replace("Level 1", "Blue group").replace("Level 2", "Monday"))[2][0] == "Cy"
    with pytest.raises(RefusedRowsError):
        told(groups.replace("Level 1", "Mar"))  # a child, though a day as well
    with pytest.raises(RefusedRowsError) as refused:
        told(f"{groups}Dan\tabsent")
    assert [(one.code, one.row) for one in refused.value.refusals] == [("pupil.no-sum", 6)]


def test_children_may_stand_side_by_side_in_a_line_each_with_a_sum() -> None:
    assert told("Ada 53-27, Ben: 61-34; Cy 80-36".replace(";", ",")) == [
        ("Ada", ["53 − 27"]),
        ("Ben", ["61 − 34"]),
        ("Cy", ["80 − 36"]),
    ]
    line = "Ada 53-27=34, Ben 53-27 = 26"
    first = [(name, sums[:1]) for name, sums in WRONG]
    assert answered(line) == answered(line.replace(",", ";")) == first
    assert told("Ada 53-27, 61-34\nBen, 53-27, 61-34")[0] == ("Ada", ["53 − 27", "61 − 34"])


def test_sums_of_a_pupil_may_stand_in_lines_of_a_cell_and_have_words_between() -> None:
    given = [("Ada", ["53 − 27", "61 − 34"]), ("Ben", ["80 − 36"])]
    assert told('Name\tSums\nAda\t"53-27\n61-34"\nBen\t80-36\t-') == given
    assert told("Ada 53-27 and 61-34\nBen 80-36") == told("Ada: 53-27 y 61-34\nBen: 80-36") == given
    assert answered('Ada\t"53-27=34\n61-34=27"\nBen\t"53-27=26\n61-34=33"') == WRONG


@pytest.mark.parametrize("line", ["Pupil 2\t35\t22", "Pupil 2, 35, 22", "Pupil 2; 35; 22"])
def test_a_numbered_name_keeps_its_number_where_an_answer_is_missing(line: str) -> None:
    found = answered(f"Name\t52-27\t41-19\t63-29\nPupil 1\t25\t22\t34\n{line}")
    assert found[1] == ("Pupil 2", [("52 − 27", 35), ("41 − 19", 22), ("63 − 29", None)])


@pytest.mark.parametrize("head", ["Name\t52-27\t41-19", "Name\t52-27"])
@pytest.mark.parametrize("line", ["Fay, 52-27=25", "Fay 25/34", "Fay, 25, 34,", "Week 3", "Fay 5."])
def test_a_line_of_one_cell_below_sums_that_may_hold_answers_is_asked_about(
    head: str, line: str
) -> None:
    rows = "Ada\t25\t22\nBen\t35\t22" if "41" in head else "Ada\t25\nBen\t35"
    with pytest.raises(RefusedError) as refused:
        pasted_answers(f"{head}\n{rows}\n{line}")
    assert (refused.value.code, refused.value.row) == ("screen.name-answer", 4)
    assert refused.value.slots["given"] == line
    untried = ("1", [("52 − 27", None), ("63 − 29", None)])
    assert answered("1) 52-27\n2) 63-29") == [untried]
    coded = answered("Name\t52-27\nAda 1\t25\nBen\t35\nFay 2")
    assert [name for name, _ in coded] == ["Ada 1", "Ben", "Fay 2"]


@pytest.mark.parametrize(
    "heads",
    ["Answer\tWrote", "Child's answer\tAnswer", "Correct answer\tWrote", "Result\tRespuesta"],
)
def test_of_two_columns_of_answers_it_is_asked_which_the_children_wrote(heads: str) -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers(f"Name\tSum\t{heads}\nAda\t63-29\t34\t46\nBen\t63-29\t34\t44")
    typed = tuple(Said("answers.typed", typed=one) for one in heads.split("\t"))
    assert (refused.value.code, refused.value.slots["given"]) == ("screen.two-answers", typed)
    known = "No\tClass\tName\tSum\tAnswer\tKey\tDate\n1\t3\tAda\t63-29\t46\t34\t9/11"
    assert answered(known) == [("Ada", [("63 − 29", 46)])]


def test_a_column_of_right_answers_in_spanish_is_no_child() -> None:
    for key in ("Correcto", "Correcta", "Resultado correcto"):
        text = f"Resta\t{key}\tAda\tBen\n63-29\t34\t46\t34\n52-27\t25\t35\t25"
        assert [name for name, _ in answered(text)] == ["Ada", "Ben"]


@pytest.mark.parametrize(
    "labels",
    [
        *("Ej 1: |Ej 2: ", "ejer. 1: |Ejer. 2: ", "1ª resta: |2ª resta: ", "Resta: |Resta: "),
        *("tarjeta 1: |tarjeta 2: ", "card 1: |Card 2: "),
        *("Resta nº 1: |Ex. 2: ", "Act. 1: |nº2 "),
        *("[ ] |[x] ", "✓ |✗ ", "ok |x ", "□ |→ "),
    ],
)
def test_what_names_a_sum_below_a_name_is_no_child(labels: str) -> None:
    one, two = labels.split("|")
    text = f"Hugo\n{one}52-27=35\n{two}41-19=38\nAna\n{one}52-27=25\n{two}41-19=22"
    assert answered(text) == [("Hugo", FIRST), ("Ana", SECOND)]


@pytest.mark.parametrize(
    ("one", "two"),
    [
        *(("Trial 1", "Trial 2"), ("Ada 1)", "Ada 2)"), ("Ada Monday", "Ada Tuesday")),
        ("Ada card 1", "Ada card 2"),
    ],
)
def test_names_with_numbers_and_sums_of_their_own_are_asked_about(one: str, two: str) -> None:
    rows = f"{one}: 52-27=35\n{two}: 41-19=38"
    with pytest.raises(RefusedError) as refused:
        pasted_answers(rows)
    assert (refused.value.code, refused.value.row) == ("screen.names-or-not", 1)
    assert [name for name, _ in answered(f"name, sum, answer\n{rows}")] == [one, two]
    tabs = rows.replace(": ", "\t")
    assert [name for name, _ in answered(f"name, sum, answer\n{tabs}")] == [one, two]
    with pytest.raises(RefusedError, match="Mal"):
        pasted_answers("Ada: 52-27=35\nMal: 41-19=38")
    assert answered("Hugo\n52-27=35\nmal\n41-19=38\nbien") == [("Hugo", FIRST)]
    with pytest.raises(RefusedError, match="Hugo martes"):
        pasted_answers("Hugo lunes\n52-27=35\nHugo martes\n41-19=38")
    assert len(answered("P1: 52-27=35\nP2: 52-27=38")) == 2  # a class


WHOLE = "Name\t63-29\t52-27\nAda\t34\t25\nBen\t46\t35"
OF_WHOLE = [
    ("Ada", [("63 − 29", 34), ("52 − 27", 25)]),
    ("Ben", [("63 − 29", 46), ("52 − 27", 35)]),
]


@pytest.mark.parametrize(
    "row",
    [
        *("Totals", "Class totals", "Averages", "Median", "Mode", "Correct /6", "Out of 29"),
        *("Mistakes (total)", "No. of pupils", "Marks available", "Remarks", "Group", "Grade"),
        *("Totales", "Medias", "N.º de errores", "Porcentaje"),
    ],
)
def test_rows_and_columns_of_totals_are_no_children(row: str) -> None:
    sums_down = "Sum\tAda\tBen\n63-29\t34\t46\n52-27\t25\t35"
    for text in (f"{WHOLE}\n{row}\t2\t2", f"{sums_down}\n{row}\t2\t2"):
        notes: list[Said] = []
        pasted_answers(text, notes=notes)
        assert (answered(text), [note.code for note in notes]) == (OF_WHOLE, ["screen.title"])
    assert answered(WHOLE.replace("\n", "\t2\n").replace("27\t2", f"27\t{row}")) == OF_WHOLE
    for name in ("Mark", "An", "Max", "La Toya", "Ann Marks"):
        assert answered(f"{WHOLE}\n{name}\t46\t25")[2][0] == name


def test_numbers_of_sums_and_heads_again_are_passed_over() -> None:
    head, *rows = WHOLE.split("\n")
    for first in ("", "Q no.", "Question number", "Ejercicio", "Pregunta", "Nº"):
        numbers = f"{first}\t1)\t2)"
        assert answered("\n".join((numbers, head, *rows))) == OF_WHOLE
        assert answered("\n".join((head, numbers, *rows))) == OF_WHOLE
    for above in ("\t#1\t#2", "Points\t1\t2", "Key\t34\t25"):
        assert answered("\n".join((above, head, *rows))) == OF_WHOLE
    assert answered("\n".join((head, rows[0], head, rows[1]))) == OF_WHOLE
    assert answered("Name\t4-3\t5-3\nAda\t1\t2")[0][0] == "Ada"


def test_a_row_without_any_answer_is_told_of() -> None:
    notes: list[Said] = []
    pasted_answers(f"{WHOLE}\nBen needs help", notes=notes)
    assert [note.code for note in notes] == ["answers.untried"]


@pytest.mark.parametrize("mark", [", mal", " bien", " ok", ", ✅", " ❌", " (wrong)"])
def test_a_word_or_sign_beside_an_answer_is_left_out_with_a_note(mark: str) -> None:
    notes: list[Said] = []
    text = f"Hugo\n52-27=35{mark}\n41-19=38"
    pasted_answers(text, notes=notes)
    assert (answered(text), notes[-1].code) == ([("Hugo", FIRST)], "answers.marked")


@pytest.mark.parametrize(
    ("text", "code", "row", "given"),
    [
        ("Name\t52-27\t41-19\n20-1\t35\t38", "screen.code", 2, "20-1"),
        ("2026-01 52-27=35", "screen.code", 1, "2026-01"),
        ("2026-01\n52-27=35\n2026-02\n52-27=25", "screen.code", 1, "2026-01"),
        ("Ada 52-27=35\nHomework 11-9", "screen.day-or-sum", 2, "Homework 11-9"),
        ("52-27=35\ngracias", "screen.who", None, (Said("answers.typed", typed="gracias"),)),
    ],
)
def test_what_stands_astray_is_quoted(text: str, code: str, row: int | None, given: object) -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers(text)
    assert (refused.value.code, refused.value.row) == (code, row)
    assert refused.value.slots["given"] == given


def test_a_name_that_cannot_be_printed_is_told_of_in_its_own_row() -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers("Hugo\n52-27=35\nAna 👦\n52-27=25")
    assert (refused.value.code, refused.value.row) == ("pupil.no-letter", 3)


@pytest.mark.parametrize(
    "title", ["Year 2026-27", "Pages 14-12", "Year 4 (ages 8-9)", "Maths 9-11"]
)
def test_years_and_pages_above_a_table_are_no_sums(title: str) -> None:
    assert answered(f"{title}\n{WHOLE}") == OF_WHOLE
    assert answered(f"{LIST}\n{title}") == [("Hugo", FIRST), ("Ana", SECOND)]


def test_a_word_of_titles_before_sums_of_decimals_is_no_day() -> None:
    given = answered("Restas: 5,2-2,7; 6,3-2,9\nHugo: 3,5; 3,4")
    assert [name for name, _ in given] == ["Hugo"]


@pytest.mark.parametrize("between", ["\t", " ", ": ", "; "])
def test_an_initial_before_a_surname_stays(between: str) -> None:
    rows = ("A. Hill#52-27=35", "A. Hill#41-19=38", "B. Hill#52-27=25", "B. Hill#41-19=22")
    read = answered("\n".join(rows).replace("#", between))
    assert read == [("A. Hill", FIRST), ("B. Hill", SECOND)]
    twins = "J-Paul#52-27=35\nM-Paul#52-27=25".replace("#", between)
    assert [name for name, _ in answered(twins)] == ["J-Paul", "M-Paul"]
    with pytest.raises(RefusedError, match="a-Ben"):
        answered("a-Ben#52-27=35\nb-Ben#41-19=38".replace("#", between))


def test_a_dash_for_an_answer_is_not_tried() -> None:
    read = answered("Hugo\n1) 52-27=-\n2) 41-19=38\nAna\n1) 52-27=25\n2) 41-19= –")
    assert read == [
        ("Hugo", [("52 − 27", None), FIRST[1]]), ("Ana", [SECOND[0], ("41 − 19", None)]),
    ]  # fmt: skip


def test_packs_may_have_names_above_their_sums() -> None:
    for text in ("Ada\n53-27\n64-38\nBen\n53-27", "Homework\nAda:\n- 53-27; 64-38\nBen:\n- 53-27"):
        assert told(text) == [("Ada", ["53 − 27", "64 − 38"]), ("Ben", ["53 − 27"])]


def test_labels_of_sums_below_a_pupils_name_are_no_pupils() -> None:
    notes = list[Said]()
    table = "Ada\n1) 52-27\nCard 2: 63-29\nBen\nHomework Monday\nEj 1: 71-38\n"
    given = read_pupils(table, "pieces", notes=notes)
    assert [(one.name, len(one.tasks)) for one in given] == [("Ada", 2), ("Ben", 1)]
    assert "'Card 2'" in " ".join(map(str, notes))
    for unsure in (
        "Ej 1: 52-27\nEj 2: 63-29\n",
        "Ada 52-27\n1) 63-29\n2) 71-38\n",
        "1 53-27\n2 53-27\nCem\n4 53-27\n",
    ):
        with pytest.raises(RefusedError, match="Pupils or not"):
            read_pupils(unsure, "pieces")
    assert len(read_pupils("Name\tSum\nEj 1\t52-27\nEj 2\t63-29\n", "pieces")) == 2


def test_a_column_or_row_of_what_answers_should_be_is_no_child() -> None:
    for given in (
        "\tAda\tAnswer\n63-29\t46\t34\n",
        "Sum\tAda\tShould be\n63-29\t46\t34\n",
        "Name\t63-29\nAda\t46\nAvg\t40\nNot tried\t1\nDebería ser\t34\n",
        "\t63-29\nAda\t46\nShould be\t34\n",
    ):
        (child,) = pasted_answers(given)
        assert (child.name, [cell.answer for cell in child.cells]) == ("Ada", [46])


def test_capital_letters_count_the_sums_of_one_child_or_are_names() -> None:
    (child,) = pasted_answers("A. 63-29=34\nB. 52-27=25\n")
    assert [cell.answer for cell in child.cells] == [34, 25]
    two = answered("A. 63-29=34\nB. 52-27=25\nA. 41-19=38\nB. 71-38=33\n")
    assert [name for name, _ in two] == ["A.", "B."]


@pytest.mark.parametrize("title", ["9-13 November", "2026-2027", "p. 14-15", "10:00-10:45"])
def test_what_stands_above_and_is_no_sum_is_a_title(title: str) -> None:
    assert [one.name for one in pasted_answers(f"{title}\nName\t63-29\nAda\t34\n")] == ["Ada"]
    with pytest.raises(RefusedRowsError, match="too-much"):
        pasted_answers("29-63 34\n52-27 25\n")


def test_one_name_twice_above_the_same_sums_is_told_apart() -> None:
    with pytest.raises(RefusedError, match="tell two of one name apart"):
        pasted_answers("Ben\n63-29=34\nAda\n63-29=46\nBen\n63-29=46\n")
    (ben,) = pasted_answers("Ben\n63-29=34\nBen\n52-27=25\n")
    assert [cell.answer for cell in ben.cells] == [34, 25]


def test_what_follows_a_sum_in_packs_is_never_taken_for_its_decimals() -> None:
    for given in ("Hugo\n52-27=35 ✓\n63-29 = 34\n", "Hugo 52-27=35\nHugo 63-29=34\n"):
        (hugo,) = read_pupils(given, "pieces")
        assert [str(task.sum) for task in hugo.tasks] == ["52 − 27", "63 − 29"]
    for unsure in ("Hugo\n52-27 35\n63-29\n", "Hugo, 52-27, 35\n", "Ana\n6,5-2\n5,2-1\n"):
        with pytest.raises((RefusedError, RefusedRowsError)):
            read_pupils(unsure, "pieces", ",")


def test_one_sum_beside_a_name_is_that_childs_where_no_answer_stands_below() -> None:
    assert [one.name for one in pasted_answers("Ada\t52-27\nBen\tabsent\n")] == ["Ada", "Ben"]


@pytest.mark.parametrize(
    ("given", "code"),
    [
        ("1) 6,5-2,8\n2) 7,8-3,6\n", "screen.commas"),
        ("Ana\n12,4-3=9", "screen.commas"),
        ("Hugo\n7,5-2\n8,25-3\n", "screen.commas"),
        ("Hugo\nDeberes 23-11\n52-27=35\n", "screen.day-or-sum"),
    ],
)
def test_commas_and_days_that_may_be_otherwise_are_asked_about_everywhere(
    given: str, code: str
) -> None:
    for read in (pasted_answers, lambda text: read_pupils(text, "pieces")):
        with pytest.raises(RefusedError) as refused:
            read(given)
        assert refused.value.code == code


def test_no_sum_of_several_in_a_line_of_packs_is_lost() -> None:
    with pytest.raises(RefusedError, match="two ways"):
        read_pupils("Ana\nJosé 1 152-27=125", "pieces")
    for read in (pasted_answers, lambda text: read_pupils(text, "pieces")):
        with pytest.raises(RefusedError, match="'3 304-58'"):
            read("Ana\n1 52-27\n2 63-29\n3 304-58")
    assert told("Ana\n1) 52-27\n2) 3 304-58") == [("Ana", ["52 − 27", "3304 − 58"])]
    (hugo,) = read_pupils("Hugo 52-27= 63-29=\n", "pieces")
    assert [str(task.sum) for task in hugo.tasks] == ["52 − 27", "63 − 29"]
    with pytest.raises(RefusedError, match="Pupils or not"):
        read_pupils("1) 52-27\n2) 63-29\n", "pieces")


def test_a_first_line_of_days_or_hours_above_packs_is_a_title() -> None:
    for title in ("9-13 November", "10:00-10:45"):
        assert told(f"{title}\nAda\t53-27\nBen\t71-48")[0] == ("Ada", ["53 − 27"])
    assert told("Name\tDate\tSum\nAda\t23-11\t53-27") == [("Ada", ["53 − 27"])]


def test_what_stands_beside_a_sum_below_a_pupils_name_is_told_in_its_row() -> None:
    assert told("Ada\n53-27, 64-38\nBen\n53-27")[0] == ("Ada", ["53 − 27", "64 − 38"])
    with pytest.raises(RefusedRowsError) as refused:
        read_pupils("Ada\na) 53-27 not done\nb) 64-38\nBen\na) 53-27", "pieces")
    (error,) = refused.value.refusals
    assert (error.row, error.slots["given"]) == (2, "not done")


def test_a_name_that_stands_apart_is_told_of_but_where_all_do() -> None:
    def codes(text: str) -> list[str]:
        notes = list[Said]()
        read_pupils(text, "pieces", notes=notes)
        pasted_answers(text, notes=notes)
        return [note.code for note in notes if note.code == "screen.apart"]

    assert len(codes("Ben\t53-27\nAda\t53-27\nBen\t64-38")) == 2
    assert len(codes("Ben\n53-27\nAda\n53-27\nBen\n64-38")) == 2
    assert not codes("Ben\t53-27\nAda\t53-27\nBen\t64-38\nAda\t64-38")


def test_several_sums_below_a_name_are_that_pupils() -> None:
    pairs = [("Ana Paz", ["52 − 27", "80 − 36"]), ("Ben Gil", ["71 − 38", "63 − 29"])]
    assert told("Ana Paz\n52-27 80-36\nBen Gil\n71-38 63-29") == pairs
    assert told("Ana Paz\n52-27; 80-36") == told("Ana Paz; 52-27; 80-36") == pairs[:1]
    assert told("1. Ana\n52-27\n80-36\n2. Ben\n71-38")[0] == ("Ana", ["52 − 27", "80 − 36"])


@pytest.mark.parametrize(
    "text",
    [
        "Ada 52-27=35 63-29=34\nBen 52-27=25 63-29=",
        "Ada: 52-27=35, 63-29=34\nBen: 52-27=25, 63-29=",
        "Ada; 52-27=35; 63-29=34\nBen; 52-27=25; 63-29=-",
        "Ada\t52-27=35\t63-29=34\nBen\t52-27=25\t63-29=absent",
    ],
)
def test_several_sums_with_answers_in_a_row_are_read_one_by_one(text: str) -> None:
    given = [
        ("Ada", [("52 − 27", 35), ("63 − 29", 34)]),
        ("Ben", [("52 − 27", 25), ("63 − 29", None)]),
    ]
    assert answered(text) == given
    assert told(text) == [("Ada", ["52 − 27", "63 − 29"]), ("Ben", ["52 − 27", "63 − 29"])]


def test_sums_with_answers_below_names_across_stay_below_them() -> None:
    assert told("Ada\tBen\n52-27=35\t52-27=25") == [("Ada", ["52 − 27"]), ("Ben", ["52 − 27"])]
    with pytest.raises(RefusedRowsError):  # two children in a line
        read_pupils("Ada 52-27=35 Ben 52-27=25", "pieces")


def test_sums_across_with_equals_signs_stay_sums_across() -> None:
    assert answered("\t52-27=\t63-29=\nAda\t35\t34") == [
        ("Ada", [("52 − 27", 35), ("63 − 29", 34)])
    ]


def test_two_of_one_name_that_are_numbered_are_asked_about() -> None:
    for read in (pasted_answers, lambda text: read_pupils(text, "pieces")):
        with pytest.raises(RefusedError) as refused:
            read("1. Ben\n52-27=35\n63-29=34\n2. Ben\n71-38=33")
        assert (refused.value.code, refused.value.row) == ("screen.name-again", 4)


@pytest.mark.parametrize("last", ["Cy absent", "Cy: absent", "- Cy - no vino", "Cy (away)"])
def test_a_name_with_a_word_for_away_is_the_childs(last: str) -> None:
    for text in (f"Ada 52-27=35\nBen 52-27=25\n{last}", f"\t52-27\t63-29\nAda\t35\t34\n{last}"):
        name, given = answered(text)[-1]
        assert name == "Cy"
        assert {answer for _, answer in given} <= {None}


@pytest.mark.parametrize(
    "empty",
    [
        "\tName\t52-27\t63-29\n\tAda\t35\t34\n\tBen\t25\t46",
        "Name\t\t52-27\t63-29\nAda\t\t35\t34\nBen\t\t25\t46",
        "Name\t52-27\t\t63-29\t\tTotal\nAda\t35\t\t34\t\t1\nBen\t25\t\t46\t\t1",
        "Sum\t\tAda\tBen\n52-27\t\t35\t25\n63-29\t\t34\t46",
        "\tAda\t52-27\t35\n\tAda\t63-29\t34\n\tBen\t52-27\t25\n\tBen\t63-29\t46",
        "Name;;52-27;63-29\nAda;;35;34\nBen;;25;46",
    ],
)
def test_columns_without_anything_are_passed_over(empty: str) -> None:
    ben = [("52 − 27", 25), ("63 − 29", 46)]
    assert answered(empty) == [("Ada", [("52 − 27", 35), ("63 − 29", 34)]), ("Ben", ben)]


@pytest.mark.parametrize("beside", ["SEN", "Mark /10", "Result", "Rank", "Test score", "Group"])
def test_a_column_of_its_own_beside_sums_across_is_left_out_with_a_note(beside: str) -> None:
    notes = list[Said]()
    table = f"UPN\tName\t52-27\t63-29\t{beside}\nA1\tAda\t35\t34\t5\nA2\tBen\t25\t46\t7"
    assert [(one.name, len(one.cells)) for one in pasted_answers(table, notes=notes)] == [
        ("Ada", 2),
        ("Ben", 2),
    ]
    said = [refusal.note_told(note, "en-GB") for note in notes]
    assert said[0] == f"Note: left out, for no answers stand there: “UPN” and “{beside}”."


def test_a_line_below_a_column_that_is_left_out_stays() -> None:
    table = "Class\tName\t52-27\t63-29\n3A\tAda\t35\t34\n"
    assert [one.name for one in pasted_answers(f"{table}Zoe absent")] == ["Ada", "Zoe"]
    assert [one.name for one in pasted_answers(f"{table}Absent: Zoe")] == ["Ada"]


@pytest.mark.parametrize("count", ["Q2", "Sum 2", "b"])
def test_a_column_that_may_be_of_a_sum_is_asked_about(count: str) -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers(f"Name\t52-27\t63-29\t{count}\nAda\t35\t34\t5\nBen\t25\t46\t7")
    assert refused.value.code == "screen.column-out"


def test_questions_without_sums_and_marks_are_asked_about() -> None:
    for text, code in (
        ("Name\tQ1\tQ2\nAda\t34\t23\nBen\t34\t23", "screen.no-sums"),
        ("Name\t52-27\t63-29\nAda\t1\t0\nBen\t1\t1", "screen.marks-only"),
    ):
        with pytest.raises(RefusedError) as refused:
            pasted_answers(text)
        assert refused.value.code == code
    assert answered("Name\t52-27\t63-29\nAda\t1\t0\nBen\t1\t34")


def test_packs_may_have_a_name_once_before_its_sums() -> None:
    for text in (
        "Ada 53-27\n64-38\nBen 53-27",
        "Ada\n53-27\n64-38\nBen 53-27",
        "Ada\t53-27\n\t64-38\nBen\t53-27",
        "Name\tSum\nAda\t53-27\n\t64-38\nBen\t53-27",
    ):
        assert told(text) == [("Ada", ["53 − 27", "64 − 38"]), ("Ben", ["53 − 27"])]
    for listed, row in (
        ("Tutoring\nAda\n53-27\nBen\n53-27", 1),
        ("Ada\n53-27\nBlue group\nBen\n53-27", 3),
        ("Ada\n53-27\n64-38\n\nBen", 5),
    ):
        with pytest.raises(RefusedRowsError) as several:
            read_pupils(listed, "pieces")
        (error,) = several.value.refusals
        assert (error.code, error.row) == ("pupil.no-sum", row)


def test_two_of_one_name_in_lines_of_their_own_are_asked_about() -> None:
    for read in (pasted_answers, lambda text: read_pupils(text, "pieces")):
        with pytest.raises(RefusedError) as refused:
            read("Ella: 46-18=28, 71-46=25\nElla: 84-29=55")
        assert (refused.value.code, refused.value.row) == ("screen.name-again", 2)
    with pytest.raises(RefusedError) as refused:  # the name once, beside the first of its sums
        pasted_answers(
            "Name\tSum\tAnswer\nElla\t46-18\t28\n\t71-46\t25\nElla\t46-18\t38\n\t71-46\t35"
        )
    assert (refused.value.code, refused.value.row) == ("answers.same-sums", 5)


def test_two_of_one_name_one_below_the_other_are_told_of() -> None:
    for read in (pasted_answers, lambda text, notes: read_pupils(text, "pieces", notes=notes)):
        notes = list[Said]()
        (ella,) = read("Ella\n46-18\n71-46\nElla\n84-29", notes=notes)
        assert ella.name == "Ella" and "screen.apart" in [note.code for note in notes]


@pytest.mark.parametrize("line", ["Cy, 26, 38", "Cy; 26; 38", "Cy, 26, -"])
def test_a_line_may_be_typed_below_a_table_of_a_spreadsheet(line: str) -> None:
    name, given = answered(f"Name\t53-27\t64-38\nAda\t26\t26\n{line}")[-1]
    assert (name, given[0]) == ("Cy", ("53 − 27", 26))


@pytest.mark.parametrize(
    "line",
    [
        *("Cy,26, 38", "Cy, 325,335", "Cy,26,38", "Cy, 1,335", "Cy, 2,5, 3,4"),
        *("Cy,26x, 38", "Cy,26 ok, 38"),  # 38 is no answer to the first
    ],
)
def test_commas_close_to_numbers_below_such_a_table_are_asked_about(line: str) -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers(f"Name\t53-27\t64-38\nAda\t26\t26\n{line}")
    assert (refused.value.code, refused.value.row) == ("screen.commas", 3)


def test_an_arrow_before_an_answer_is_read_as_an_equals_sign() -> None:
    assert answered("43-17 -> 34\n85-29→64\n62-38 => 36") == [
        ("1", [("43 − 17", 34), ("85 − 29", 64), ("62 − 38", 36)])
    ]


@pytest.mark.parametrize(
    "line", ["72-45-33", "43-17-34", "12-7-5", "Ada 72 - 45 - 33", "- 72-45-33"]
)
def test_a_minus_before_an_answer_is_told(line: str) -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers(f"62-38=36\n{line}\n54-38=16")
    assert (refused.value.code, refused.value.row) == ("screen.two-signs", 2)


@pytest.mark.parametrize(
    ("lines", "first"),
    [("1-52-27=35\n2-63-29=34", "52 − 27"), ("2026-11-09\n52-27=35\n63-29=34", "52 − 27")],
)
def test_what_counts_a_sum_and_days_have_two_signs_as_well(lines: str, first: str) -> None:
    assert str(pasted_answers(lines)[0].cells[0].sum) == first


def test_one_digit_after_a_comma_may_be_of_a_decimal() -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers("Ana, 7-2,8")
    assert refused.value.code == "screen.commas"
    assert answered("Ana; 7-2; 8") == [("Ana", [("7 − 2", 8)])]


def test_sums_of_decimals_with_their_rests_are_read_in_packs() -> None:
    assert told("Ana\n12,4-3=9,4\n8-3,5=4,5") == [("Ana", ["12.4 − 3", "8 − 3.5"])]
    for text in ("Hugo\n6,5-2,8=4,3\nAna\n5,2-1,7=3,5", "Hugo: 6,5-2,8=4,3\nAna, 5,2-1,7=3,5"):
        assert told(text) == [("Hugo", ["6.5 − 2.8"]), ("Ana", ["5.2 − 1.7"])]


@pytest.mark.parametrize(
    "text", ["*{0}*\n{1}", "**{0}**\n{1}", "*{0}*: {1}", "_{0}_: *{1}*", "{0}\n* {1}"]
)
def test_marks_of_bold_letters_are_no_part_of_a_name(text: str) -> None:
    assert answered(text.format("Hugo", "52-27=35")) == [("Hugo", FIRST[:1])]


def test_an_answer_is_no_part_of_the_sum_after_it() -> None:
    sums = [("63 − 49", 14), ("72 − 63", 9), ("345 − 107", 238)]
    assert answered("Ben 63-49 = 14 72-63 = 9 345-107 = 238") == [("Ben", sums)]
    assert answered("Ben: 63-49=14. 72-63=9. 345-107=238.") == [("Ben", sums)]
    assert answered("Ben 3 345-107 = 3238") == [("Ben", [("3345 − 107", 3238)])]


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("Week 3\t24-3\n61-34\nAda\t27\nBen\t33", "screen.shape-answers"),  # a day
        ("Child 3 832-283=1115", "screen.two-ways"),
        ("53-27 61-34\nPupil 1 26 27\nPupil 2 34", "screen.who"),  # the second lacks one
        ("53-27 61-34\nAda 26 27 2\nBen 34 27 1", "screen.who"),
    ],
)
def test_what_may_be_a_day_a_number_or_an_answer_is_asked_about(text: str, code: str) -> None:
    with pytest.raises(RefusedError) as refused:
        pasted_answers(text)
    assert refused.value.code == code


@pytest.mark.parametrize(
    "text",
    [
        "\t53-27\t61-34\nAda\t34\t27\n\t53-27\t61-34\nBen\t26\t33",
        "Group A\n\t53-27\t61-34\nAda\t34\t27\nTotal\t0\t1\nGroup B\n\t53-27\t61-34\nBen\t26\t33",
        "Name\t53-27\nAda\t34\nBen\t26\nName\t61-34\nAda\t27\nBen\t33",
        "Sum\tAda\n53-27\t34\n61-34\t27\nSum\tBen\n53-27\t26\n61-34\t33",
        "Question\tAda\tBen\n1. 53-27=\t34\t26\nQuestion\tAda\tBen\n2. 61-34=\t27\t33",
        "Class 4B\tAda\tBen\n53-27\t34\t26\n61-34\t27\t33",
        "Teacher: Mrs Hill\nResults\n53-27\nAda - 34\nBen - 26\n61-34\nAda: 27\nBen 33",
        "Spring term\n53-27 61-34\nAda: 34 27\nBen 26 33",
        "Pupil\tProblem\tResponse\nAda\t53-27\t34\n\t61-34\t27\nBen\t53-27\t26\n\t61-34\t33",
        "No.\tTheir answer\tSum\tPupil\n1\t34\t53-27\tAda\n2\t27\t61-34\tAda\n"
        "3\t26\t53-27\tBen\n4\t33\t61-34\tBen",
        "Time\tEmail\tName\t53-27\t61-34\n9:10\ta@x.example\tAda\t34\t27\n"
        "9:12\tb@x.example\tBen\t26\t33\nTotal\t\t\t0\t1",
        "Sum\tName\tAnswer\n53-27\tAda\t34\n\tBen\t26\n61-34\tAda\t27\n\tBen\t33",
        "Name\tQ1\tQ2\nAda\t53-27=34\t61-34=27\nBen\t53-27=26\t61-34=33",
        "Name\t\t53-27\t61-34\nAda\t2/2\t34\t27\nBen\t0/2\t26\t33",
        "Ada: 53 minus 27 = 34 and 61 take away 34 = 27\nBen: 53 menos 27 = 26 y 61-34=33",
        ";What is 53-27?;What is 61-34?\nAda;34;27\nBen;26;33",
        "Name\t53-27=\t61-34=\tRight\nAda\t34\t27\t1\nBen\t26\t33\t0",
    ],
)
def test_tables_of_two_children_and_two_sums_are_read(text: str) -> None:
    children = {name: sorted(sums) for name, sums in answered(text)}
    assert children == {name: sorted(sums) for name, sums in WRONG}


def test_a_number_behind_a_name_is_no_part_of_its_sum() -> None:
    sums = [("72 − 63", 9), ("550 − 452", 102)]
    for text in ("Child 1 - 72-63=9; 550-452 = 102", "Child 1: 72-63=9  550-452=102"):
        assert answered(text) == [("Child 1", sums)]
    text = "Child 1 550-452=102  72-63=9\nChild 2 550-452=1002  72-63=9"  # 550 + 452
    assert [(name, given[0]) for name, given in answered(text)] == [
        ("Child 1", sums[1]),
        ("Child 2", ("550 − 452", 1002)),
    ]


def test_numbers_below_a_head_of_names_are_children_whatever_follows_the_sums() -> None:
    table = "Child,Sum,Answer\n1,15-7 = ___,9\n2,81-26 = ___,55\n3,341-306 = ___,35"
    assert [name for name, _ in answered(table)] == ["1", "2", "3"]


def test_thousands_in_lines_are_no_numbers_of_names() -> None:
    sums = [("4748 − 4004", 754), ("8785 − 249", 8536)]
    line = "Ben 4 748-4 004=754; 8 785-249=8 536"
    assert answered(line) == [("Ben", sums)]
    assert answered("Ben 8 785 - 249=8 536 4 748 - 4 004=754") == [("Ben", sums[::-1])]
    for text in ("Ben: 8,259-242", "Ben 8,259-242", "Ben 8,259-242\nAda 3,863-334"):
        for read in (partial(read_pupils, stage="pieces"), pasted_answers):
            with pytest.raises(RefusedError) as refused:
                read(text)
            assert refused.value.code == "screen.commas"
    assert told("Pupil 1,259-242\nPupil 2,863-334")[1] == ("Pupil 2", ["863 − 334"])


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("Name\tAda\tBen\n1\t63-29\t52-27\n2\t71-48\t80-36", ["screen.corner"]),
        ("Spring term\n1\t63-29\t52-27\n2\t71-48", ["screen.pupils-or-not"]),
        ("Pupil 1 540-503\nPupil 2 63-29", ["screen.two-ways"]),
        ("Week 3\t24-3\nAda: 53-27, 61-34\nBen: 81-46", ["screen.shape-pupils", "screen.row-out"]),
    ],
)
def test_packs_that_may_be_meant_in_two_ways_are_asked_about(text: str, codes: list[str]) -> None:
    with pytest.raises(RefusedError) as refused:
        read_pupils(text, "pieces")
    assert refused.value.code in codes


@pytest.mark.parametrize(
    "text",
    [
        "Name\tDay 1\tDay 2\nAda\t53-27\t61-34\nBen\t81-46",
        "\tClass\tQ1\tQ2\nAda\t4B\t53-27\t61-34\nBen\t4B\t81-46",
        "Pupil\tWeek 1\tWeek 2\tNotes\nAda\t53-27\t61-34\tslow\nBen\t81-46",
        "Day\tAda\tBen\nDay 1\t53-27\t81-46\nDay 2\t61-34",
        "Name\tAda\tBen\nMonday\t53-27\t81-46\nTuesday\t61-34",
        "Spring term\nUnit 3: exchange\n1. Ada 53-27 / 61-34\n2. Ben 81-46",
        "Mrs Smith\tMaths\tMonday\nAda: 53-27 and 61-34\nBen: 81-46",
        "No.\t\t1\t2\n1\tAda\t53-27\t61-34\n2\tBen\t81-46",
        "1\tAda\t53-27\n2\t\t61-34\n3\tBen\t81-46",
    ],
)
def test_plans_of_two_pupils_are_read(text: str) -> None:
    assert told(text) == [("Ada", ["53 − 27", "61 − 34"]), ("Ben", ["81 − 46"])]


def test_children_across_a_table_above_another_stand_in_one_place_each() -> None:
    notes = list[Said]()
    table = "Sum\tAda\tBen\n53-27\t34\t26\n61-34\t27\t33\nSum\tCy\tDi\n53-27\t26\t26\n61-34\t27\t27"
    assert [one.name for one in pasted_answers(table, notes=notes)] == ["Ada", "Ben", "Cy", "Di"]
    assert [note.code for note in notes if note.code == "screen.apart"] == []


def test_commas_between_cells_that_heads_name_are_asked_about_no_more() -> None:
    table = "Answer,Sum,Name\n104,86 - 18 =,Ada\n8,16 - 8 =,Ada\n9,71-62,Ben"
    assert [(name, len(given)) for name, given in answered(table)] == [("Ada", 2), ("Ben", 1)]
    with pytest.raises(RefusedError) as refused:
        pasted_answers("Name,Sum,Answer\nAna,6,5-2")
    assert refused.value.code == "screen.commas"


def test_sums_behind_a_groups_title_are_all_read() -> None:
    plan = "Group A: 53-27, 61-34\nAda\nCy\nGroup B: 81-46\nBen"
    sums = ["53 − 27", "61 − 34"]
    assert told(plan) == [("Ada", sums), ("Cy", sums), ("Ben", ["81 − 46"])]
    assert told("Grupo A\t53-27\t61-34\nAda\nGrupo B\t81-46\nBen")[0] == ("Ada", sums)
    assert asked("Set 1 53-27, 61-34\nAda\nCy", "pupils").code == "screen.shape-pupils"
    table = "4A\n\t53-27\t61-34\nAda\t34\t27\n4B\n\t53-27\t61-34\nBen\t26\t33"
    assert answered(table) == WRONG


@pytest.mark.parametrize(
    "plan",
    [
        "Name\tAda\tBen\nSum 1\t53-27\t81-46\nSum 2\t61-34",
        "Child\tAda\tBen\nSum A\t53-27\t81-46\nSum B\t61-34",
        "Sums\tAda\tBen\n1\t53-27\t81-46\n2\t61-34",
        "Name\tAda\tBen\n\t53-27\t81-46\n\t61-34",
        "Name\tDue\tSum 1\tSum 2\nAda\t12-05\t53-27\t61-34\nBen\t12-05\t81-46",
        "Name\tScore\tSum 1\tSum 2\nAda\t18-5\t53-27\t61-34\nBen\t17-9\t81-46",
        "Name\tSchool year\tSum 1\tSum 2\nAda\t2026-27\t53-27\t61-34\nBen\t2026-27\t81-46",
        "Name\tRoom\tSum 1\tSum 2\nAda\t12-3\t53-27\t61-34\nBen\t5-1\t81-46",
        "Name\tDOB\tSum 1\tSum 2\nAda\t2018-03\t53-27\t61-34\nBen\t2018-11\t81-46",
        "Ada\nWeek 1: 53-27\nWeek 2: 61-34\nBen\nWeek 1: 81-46",
        "Ada\nEasy\t53-27\t61-34\nBen\nEasy\t81-46",
        "Monday\tAda\t53-27\t61-34\nTuesday\tBen\t81-46",
        "Ada\tBen\n53-27\t81-46\n26\t35\n61-34\n27",
    ],
)
def test_what_counts_or_dates_the_sums_of_a_plan_is_no_pupil_and_no_sum(plan: str) -> None:
    assert told(plan) == [("Ada", ["53 − 27", "61 − 34"]), ("Ben", ["81 − 46"])]


@pytest.mark.parametrize(
    "plan",
    [
        "Ada\tBen\n53-27, 61-34\t81-46",
        "\tAda\tBen\nMonday\t53-27, 61-34\t81-46\n",
        "Ada\tBen\n53-27\t81-46\nDay\tAda\tCy\nMonday\t61-34\t90-17",
        "Group A\n53-27\n61-34\nAda\nGroup B\n81-46\nBen",
        "Group A\tGroup B\nAda\tBen\n53-27\t81-46\n61-34",
        "Name\t53-27\t61-34\t81-46\nAda\tx\tx\nBen\t\t\tx",
        "Name\tMonday\tTuesday\nAda\t53-27\t61-34\nBen\tabsent\t81-46",
        "Name\tSum 1\tSum 2\nAda\t53-27\t61-34\nBen\t81-46\tn/a",
        "Ada\tBen\n53-27\tabsent\nabsent\t81-46\n61-34\t-",
    ],
)
def test_plans_of_groups_and_of_who_was_away_are_read(plan: str) -> None:
    assert told(plan)[:2] == [("Ada", ["53 − 27", "61 − 34"]), ("Ben", ["81 − 46"])]


@pytest.mark.parametrize(
    "plan",
    [
        "Monday\nAda\t53-27\nBen\t81-46\nTuesday\nAda\t61-34",
        "Red group:\nAda 53-27, 61-34\nBlue group:\nBen 81-46",
        "Ada\t53-27\tBen\t81-46\nAda\t61-34\tDi\t90-17\nCy\t90-17",
        "53-27\tAda\n61-34\tAda\n81-46\tBen",
        "Date\tAda\tBen\n12 Jan\t53-27\t81-46\n13 Jan\t61-34",
        "Name\tMon 11/1\tTue 12/1\nAda\t53-27\t61-34\nBen\t81-46",
        "Sum\tPupil\n53-27\tAda\n61-34\tAda\n\tCy\n81-46\tBen",
        "Group 1 (Ada, Cy): 53-27, 61-34\nGroup 2 (Ben, Di): 81-46",
        "Sum\tAda\tBen\n53-27\tx\t\n61-34\tx\t\n81-46\t\tx",
        "Name\t53-27\t61-34\t81-46\nAda\t1\t1\t0\nBen\t0\t0\t1",
        "Name\t53-27\t61-34\t81-46\nAda\tTRUE\tTRUE\tFALSE\nBen\tabsent\tabsent\tTRUE",
        "Name\tMaths\tDate\nAda\t53-27\t12-03\nAda\t61-34\t12-04\nBen\t81-46\t12-03",
        "Name\tTest\nAda\t53-27\nAda\t61-34\nBen\t81-46",
        "Group 1: Ada, Cy\n53-27\n61-34\nGroup 2: Ben, Di\n81-46",
        "Group A: Ada, Cy\nGroup B: Ben\nGroup A: 53-27, 61-34\nGroup B: 81-46",
        "Pupils\tAda\tBen\nSums\t53-27, 61-34\t81-46",
        "Name\tWeek 1\t\n\tMon\tTue\nAda\t53-27\t61-34\nBen\t81-46",
        "Name\t53-27\t61-34\t81-46\nAda\tyes\tyes\tno\nBen\tno\tno\tyes",
        "Group A\tGroup B\nAda\tBen\nCy\tDi\n53-27\t81-46\n61-34",
        "| Name | 1 | 2 |\n|---|:-:|--|\n| Ada | 53-27 | 61-34 |\n| Ben | 81-46 | |",
        "Ada (53-27, 61-34)\nBen (81-46)",
        "Ada a) 53-27 b) 61-34\nBen 81-46",
        "1 Ada 53-27, 61-34\n2 Ben 81-46",
        "P13 – 12 - 9\nAda 53-27\nAda 61-34\nBen 81-46",
        "Name\tAge\tTop\tBottom\nAda\t8\t53\t27\nAda\t8\t61\t34\nBen\t9\t81\t46",
    ],
)
def test_more_plans_of_two_pupils_are_read(plan: str) -> None:
    given = {name: sums for name, sums in told(plan) if name in ("Ada", "Ben")}
    assert given == {"Ada": ["53 − 27", "61 − 34"], "Ben": ["81 − 46"]}


@pytest.mark.parametrize(
    ("plan", "code"),
    [
        ("Group A: 53-27\nGroup B: 61-34\nAda\nBen", "screen.shape-pupils"),
        ("53-27\t61-34\n81-46\t90-17\nAda\nBen", "screen.shape-pupils"),
        ("Red: 53-27, 61-34\nAda\nBen\nBlue: 81-46\nCy", "screen.group-or-child"),
        ("Red\tBlue\nAda\tCy\nBen\tDi\n53-27\t81-46\n61-34", "screen.shape-pupils"),
        ("Red\tBlue\n53-27\t81-46\n61-34\t\nAda\tCy\nBen\tDi", "screen.shape-pupils"),
        ("Red\tAda\t53-27\nRed\tBen\t81-46\nBlue\tCy\t61-34", "screen.column-out"),
        ("For next week, please:\nAda: 53-27, 61-34\nBen: 81-46\nThanks!", "screen.row-out"),
    ],
)
def test_of_plans_that_may_hold_other_names_it_is_asked(plan: str, code: str) -> None:
    assert asked(plan, "pupils").code == code
    with pytest.raises(RefusedError) as refused:
        told("Name\tClass\tSum\nAda\t4A\t53-27\nAda\t4B\t61-34")
    assert (refused.value.code, refused.value.row) == ("screen.two-beside", 3)


def test_marks_below_maths_are_never_the_whole_of_a_sum() -> None:
    sums = [("Ada", ["53 − 27"]), ("Ben", ["81 − 46"])]
    for whole in ("From", "First", "Top"):
        marked = f"Name\tMaths\t{whole}\tTake away\nAda\t102\t53\t27\nBen\t95\t81\t46"
        assert told(marked) == sums
        assert told(f"Name\t{whole}\tTake away\nAda\t53\t27\nBen\t81\t46") == sums


def test_two_words_before_sums_are_a_name_and_a_surname() -> None:
    given = [("Hill Ada", ["53 − 27"]), ("Moss Ada", ["71 − 48"])]
    assert told("Hill, Ada, 53-27\nMoss, Ada, 71-48") == given
    assert told("Ada\tHill\t53-27\nBen\tWood\t71-48")[1] == ("Ben Wood", ["71 − 48"])


def test_words_before_sums_are_left_out_where_no_child_is_called_so() -> None:
    with pytest.raises((RefusedError, RefusedRowsError)):
        told("Homework\nAda\t53-27\nBen\t61-34\nExtra\nAda\t81-46\nBen\t90-17")
    with pytest.raises(RefusedRowsError):
        told("Name\tAge\tLevel\nAda\t9\t3\nBen\t8\t2")


def test_everyone_gets_what_stands_above_all() -> None:
    for word in ("Everyone", "Todos", "For all"):
        assert told(f"{word}: 53-27, 61-34\nAda\nBen")[1] == ("Ben", ["53 − 27", "61 − 34"])
    every = ["53 − 27", "61 − 34"]
    assert told("All: 53-27, 61-34\nAda: 71-48\nBen") == [
        ("Ada", ["71 − 48", *every]),
        ("Ben", every),
    ]
    assert told("Monday: 53-27\nTuesday: 61-34\nAda\nBen")[1] == ("Ben", every)
    assert told("Sums: 53-27, 61-34\nChildren: Ada, Ben, Cy")[2] == ("Cy", every)
    assert told("Name\tMon\tTue\nAda\t71-48\t80-26\nEveryone\t53-27\t61-34")[0][1][2:] == every
    for sums in ("Sums\t53-27\t61-34\nAda\t\t\n81\t46", "Sums: 53-27"):
        with pytest.raises((RefusedError, RefusedRowsError)):
            told(sums)
    with pytest.raises((RefusedError, RefusedRowsError)):  # marks of two kinds
        told("Name\t53-27\t61-34\nAda\tx\t\nBen\tx\t✓")
    with pytest.raises(RefusedRowsError) as refused:
        told("Name\tMonday\tTuesday\nAda\t53-27\t61-34\nBen\tabsent\tabsent")
    (error,) = refused.value.refusals
    assert (error.code, error.row) == ("pupil.no-sum", 3)


@pytest.mark.parametrize(
    ("text", "names", "code"),
    [
        ("Ada and Ben: 53-27, 61-34", ["Ada", "Ben"], "screen.each"),
        ("Ada, Ben, Cy: 53-27, 61-34", ["Ada", "Ben", "Cy"], "screen.each"),
        ("Names\tSum\nAda & Ben\t53-27\t61-34", ["Ada", "Ben"], "screen.each"),
        ('"Ada\nBen"\t53-27\t61-34', ["Ada", "Ben"], "screen.each"),
        ('"Ada Hill\nBen\n"\t"53-27\n61-34"', ["Ada Hill", "Ben"], "screen.each"),
        ('Sum\tNames\n53-27\t"Ada\nBen"\n61-34\t"Ada\nBen"', ["Ada", "Ben"], "screen.each"),
        ("Pupil 1\tPupil 2\tSum\nAda\tBen\t53-27, 61-34", ["Ada", "Ben"], "screen.each"),
        ("Ada, Ben, and Cy: 53-27, 61-34", ["Ada", "Ben", "Cy"], "screen.each"),
        ("Group A: 53-27; 61-34\nAda, Ben, Cy", ["Ada", "Ben", "Cy"], "screen.each"),
        ("Group A: 53-27, 61-34\nAda, Ben y Cy", ["Ada", "Ben", "Cy"], "screen.each"),
        ("Hill, Ada\t53-27\t61-34", ["Hill, Ada"], "screen.one-child"),
        ("Hill, Ada and Reed, Ben\t53-27\t61-34", ["Hill, Ada", "Reed, Ben"], "screen.each"),
        ("Ruiz y Cano, Ana\t53-27\t61-34", ["Ruiz y Cano, Ana"], "screen.one-child"),
        ("Table 1 and 2\t53-27\t61-34", ["Table 1 and 2"], ""),
    ],
)
def test_children_in_one_cell_are_told_of(text: str, names: list[str], code: str) -> None:
    notes = list[Said]()
    given = read_pupils(text, "pieces", notes=notes)
    assert [(one.name, len(one.tasks)) for one in given] == [(name, 2) for name in names]
    assert [note.code for note in notes] == [code][: bool(code)]
    assert [name for name, _ in told('"Ada\nBen"\n53-27\n61-34')] == ["Ada", "Ben"]


@pytest.mark.parametrize(
    "plan",
    [
        "Pupils\tAda\tBen\nA\t53-27\t81-46\nB\t61-34",
        "Name\tAda\tBen\nClass\t4A\t4B\nSum 1\t53-27\t81-46",
    ],
)
def test_names_in_a_head_are_never_taken_for_heads_of_sums(plan: str) -> None:
    with pytest.raises(RefusedError):
        told(plan)


def test_names_above_a_remark_are_not_passed_over() -> None:
    with pytest.raises((RefusedError, RefusedRowsError)):
        told("Ada\tBen\nChecked\n53-27\t81-46\n61-34")


@pytest.mark.parametrize("title", ["Week 3", "27 November", "Monday", "5 de mayo"])
def test_a_day_among_the_sums_of_a_child_takes_none_of_them(title: str) -> None:
    notes = list[Said]()
    table = f"Name\tSum\tAnswer\nAda\t53-27\t34\n{title}\n\t61-34\t27\nBen\t53-27\t26"
    (ada, _) = pasted_answers(table, notes=notes)
    assert (ada.name, len(ada.cells)) == ("Ada", 2)
    assert "screen.title" in [note.code for note in notes]
    plan = f"Ada\tBen\n{title}\n53-27\t81-46\n61-34"
    with suppress(RefusedError, RefusedRowsError):
        assert [name for name, _ in told(plan)] == ["Ada", "Ben"]


def test_surnames_in_two_columns_are_joined_to_the_name() -> None:
    table = "Nombre\tPrimer apellido\tSegundo apellido\t53-27\nEva\tRuiz\tSol\t26\nEva\tMar\t\t34"
    assert [name for name, _ in answered(table)] == ["Eva Ruiz Sol", "Eva Mar"]


def test_a_column_without_a_head_among_names_across_is_asked_about() -> None:
    refused = asked("Sum\t\tAda\tBen\n53-27\t26\t26\t34\n61-34\t27\t33\t27")
    assert (refused.code, refused.slots["column"]) == ("screen.column-out", 2)
    for text in ("Ada\t53-27\t26\t\tCai\t61-34\t33", "Ada\t53-27\t26\tCai\t61-34"):
        assert asked(f"{text}\n{text}").code == "screen.two-tables"


def test_names_across_again_are_never_offered_to_be_left_out() -> None:
    table = "Sum\tAda\tBen\n53-27\t26\t34\nSum\tCai\tQ7\n84-39\t45\t55"
    with pytest.raises(RefusedError) as refused:
        pasted_answers(table)
    assert refused.value.code != "screen.row-out"
