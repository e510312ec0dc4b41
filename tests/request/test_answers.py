"""Tables of children's answers: long and wide, as pasted, and what is refused."""

import pytest

from kitbuilder.design.saying import say
from kitbuilder.errors import RefusedError, Said
from kitbuilder.number import Sum
from kitbuilder.request.answer_cells import ChildAnswers, Told, read_answer
from kitbuilder.request.answers import MOST_OF_ONE, read_answers

LONG = "name,sum,answer\nAda,42 - 17,35\nBen,42 - 17,25\nAda,61 - 34,\n"
WIDE = ",42 - 17,61 - 34\nAda,35,\nBen,25\n"


def cells(text: str) -> dict[str, list[tuple[str, int | None]]]:
    return {
        paper.name: [(str(cell.sum), cell.answer) for cell in paper.cells]
        for paper in read_answers(text, "a.csv")
    }


def test_a_row_an_answer_and_a_row_a_child_say_the_same() -> None:
    both = {"Ada": [("42 − 17", 35), ("61 − 34", None)], "Ben": [("42 − 17", 25)]}
    assert cells(LONG) == both
    assert cells(WIDE) == {**both, "Ben": [("42 − 17", 25), ("61 − 34", None)]}


def test_sums_alone_in_the_first_line_stand_above_answers_or_above_names_and_answers() -> None:
    first = "71 - 48,634 - 258,\n"  # as a spreadsheet fills up a shorter row
    found = {
        name: list(zip(("71 − 48", "634 − 258"), given, strict=True))
        for name, given in {
            "1": (37, 424),
            "2": (None, 376),
            "4": (23, None),
        }.items()
    }
    assert cells(f"{first}37,424\n,376\n\n23\n") == found
    named = {"Ada": found["1"], "Ben": found["4"]}
    assert cells(f"{first}Ada,37,424\nBen,23\n") == named
    assert cells(f"{first}17,37,424\n") == {"17": found["1"]}  # codes for names
    for doubtful in ("37,424,9\n23,376", "Ada,37,424,1", "37,424\nBen,23", "17,37,424\n18,23"):
        with pytest.raises(RefusedError, match="put name before the sums"):
            cells(first + doubtful)


@pytest.mark.parametrize("mark", [";", "\t"])
def test_other_marks_part_the_cells(mark: str) -> None:
    assert cells(LONG.replace(",", mark)) == cells(LONG)
    assert cells(WIDE.replace(",", mark)) == cells(WIDE)


def test_what_spreadsheets_add_is_read() -> None:
    assert cells("sep=;\r\nname;sum;answer\r\nAda;'42-17;25,0\r\n") == {"Ada": [("42 − 17", 25)]}
    assert cells("respuesta;nombre;resta\n25;Ada;42−17 =\n") == {"Ada": [("42 − 17", 25)]}
    assert cells("\n\nNombre,42-17,,\nAda,25,,\n\n") == {"Ada": [("42 − 17", 25)]}
    assert cells('name,sum,answer,note\nAda,42-17,25,"a, b"\nBen,42-17\n') == {
        "Ada": [("42 − 17", 25)],
        "Ben": [("42 − 17", None)],
    }


@pytest.mark.parametrize(
    ("typed", "answer"),
    [
        ("25", 25),
        (" 025 ", 25),
        ("25,0", 25),
        ("25.00", 25),
        ("1.234", 1234),
        ("1,234", 1234),
        ("1 234", 1234),
        ("", None),
        ("–", None),
        ("?", None),
        ("46?", 46),
        ("(46)", 46),
        ("1,234 !", 1234),
        ("46 x", 46),
        ("46 ✗", 46),
        ("x", None),
        ("a", None),
        ("Abs", None),
        ("Falta", None),
        ("-", None),
        ("✓", 25),
        (" ✔\ufe0f", 25),
    ],
)
def test_answers_as_they_are_written(typed: str, answer: int | None) -> None:
    assert read_answer(typed, Sum(42, 17)) == answer


@pytest.mark.parametrize("typed", ["325,335", "325 335", "✗", "✓✗"])
def test_two_answers_or_a_cross_alone_are_none(typed: str) -> None:
    with pytest.raises(RefusedError) as refused:
        read_answer(typed, Sum(42, 17))
    assert refused.value.code == "answers.unreadable"


def test_ticks_are_told() -> None:
    told = Told()
    assert [told.answer(one, Sum(42, 17)) for one in ("✓", "35", "✔")] == [25, 35, 25]
    (note,) = (say(note, "en-GB") for note in told.notes([ChildAnswers("Ada", ())]))
    assert note == "Note: read as the right answer: '✓' and '✔'."


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "a.csv is empty; its first line must be name,sum,answer"),
        ("name,sum,answer\n", "a.csv holds no answer; write a row such as"),
        (
            "name,sum,answer\nAda,42 - 17,ten\n",
            "a.csv, line 2: 'ten' for 42 − 17 is no answer; write",
        ),
        ("name,sum,answer\nAda,42 - 17,-3\n", "line 2: '-3' for 42 − 17 is no answer"),
        ("name,sum,answer\nAda,42 - 17,2.5\n", "line 2: '2.5' for 42 − 17 is no answer"),
        ("name,sum,answer\n\nAda,17 - 42,3\n", "line 3: '17 - 42' takes out more than the whole"),
        ("name,sum,answer\n,42 - 17,25\n", "line 2: the name is missing"),
        ("name,sum,answer\nA\u202eda,42 - 17,25\n", "line 2: the name holds the hidden character"),
        ("name,sum,answer\nAda,42 - 17,25,1\n", "line 2: the row has 4 cells; give it 3 at most."),
        ("name,sum,answer\nAda,0 - 0,0\n", "line 2: 0 − 0 has nothing to build"),
        ("name,sum,answer,sum\nAda,42 - 17,25,1\n", "has a column twice"),
        (",42 - 17,forty\nAda,25,1\n", "line 1: 'forty' is not a subtraction"),
        (
            "Ada,61 - 34,27\nBen,80 - 36,44\n",
            "begin with name,sum,answer and a line an answer such as",
        ),
        ("Ada;27;44\nBen;27;44\n", "has no first line that says what stands below"),
        ("name,61 - 34,2\nAda,27,1\n", "line 1: '2' is not a subtraction"),
        (",42 - 17\nAda,25,1\n", "line 2: the row has 3 cells; give it 2 at most."),
        (
            "Ada\n",
            "begins with 'Ada'; its first line must be name,sum,answer and then a line an answer",
        ),
        ('name,sum,answer\n"Ada,42 - 17,25\n', "line 2: this is not a row of a table"),
        (
            "name,sum,answer\n" + "Ada,42 - 17,25\n" * (MOST_OF_ONE + 1),
            f"line 202: 'Ada' has more than {MOST_OF_ONE} answers",
        ),
    ],
)
def test_refusals_name_the_line(text: str, says: str) -> None:
    with pytest.raises(RefusedError) as error:
        read_answers(text, "a.csv")
    assert says in str(error.value)


def noted(text: str) -> list[str]:
    notes: list[Said] = []
    read_answers(text, "a.csv", notes)
    return [str(note) for note in notes]


def test_tables_as_teachers_have_them_are_read_and_told() -> None:
    table = "name,Class,42 - 17,61 - 34,Total\nAda,3b,46?,x,1\nBen,3b,25,abs,1\naverage,,30.5,,1\n"
    assert cells(table) == {
        "Ada": [("42 − 17", 46), ("61 − 34", None)],
        "Ben": [("42 − 17", 25), ("61 − 34", None)],
    }
    assert noted(table) == [
        "Note: left out, for no answers stand there: 'Class', 'Total' and 'average'.",
        "Note: read as not tried: 'x' and 'abs'.",
        "Note: '46?' was read as 46.",
    ]
    assert noted("name,sum,answer,mark\nAda,42 - 17,25,1\n") == [
        "Note: left out, for no answers stand there: 'mark'."
    ]
    assert noted(LONG) == []


def test_a_sum_tried_again_counts_once_with_the_last_answer() -> None:
    table = "name,sum,answer\nAda,42 - 17,35\nAda,61 - 34,27\nAda,42-17,25\nAda,42 - 17,\n"
    assert cells(table) == {"Ada": [("42 − 17", 25), ("61 − 34", 27)]}
    assert noted(table) == [
        "Note: answered more than once, and only the last answer counts: 'Ada 42 − 17'."
    ]


@pytest.mark.parametrize(
    "second", ["Ben,42 - 17,31\nBen,61 - 34,27\n", "Ben,42 - 17,31\nBen,61 - 34,\n"]
)
def test_a_name_with_several_sums_again_may_be_two_childrens(second: str) -> None:
    """Two of one name were read as one: the first child was gone."""
    first = "Ben,42 - 17,25\nBen,61 - 34,33\n"
    with pytest.raises(RefusedError) as refused:
        read_answers(f"{LONG}{first}{second}".replace("Ben,42 - 17,25\nAda", "Ada"), "a.csv")
    assert str(refused.value).startswith(
        "a.csv, line 6: 'Ben' has 42 − 17 in line 4 already; "
        "tell two of one name apart, as Ada B, or"
    )
    both = first + second
    assert cells(f"name,sum,answer\n{both}{both.replace('Ben', 'Ada')}")  # all tried twice
    assert noted(f"name,sum,answer\n{first}Ben,42 - 17,31\nAda,42 - 17,25\n")


def test_a_sum_without_an_exchange_is_told() -> None:
    note, _ = noted("name,87 - 23,42 - 17\nAda,64,25\n")
    assert note == "Note: these need no exchange and so tell little: 87 − 23."


def test_all_bad_rows_are_told_at_once() -> None:
    rows = "".join(f"Ada,42 - 17,ten {n}\n" for n in range(7))
    with pytest.raises(RefusedError) as error:
        read_answers("name,sum,answer\nBen,42 - 17,25\n" + rows, "a.csv")
    said = str(error.value).splitlines()
    assert said[0].startswith("a.csv, line 3: 'ten 0' for") and len(said) == 6
    assert said[4].startswith("Line 7: 'ten 4' for") and said[5] == "And 2 more."
    with pytest.raises(RefusedError) as error:
        read_answers("name,42 - 17,61 - 34\nAda,ten,five\n,1,2\nAda,25,27\n", "a.csv")
    said = str(error.value).splitlines()
    assert [line.split(":")[0] for line in said] == ["a.csv, line 2", "Line 3", "Line 4"]


@pytest.mark.parametrize(
    ("table", "line"),
    [
        ("name,sum,answer\nAda,3.125 - 1.5,1.625\nBen,3.2 - 1.475,2\nAda,40.2 - 17.68,22\n", 4),
        ("name,40.2 - 17.68,3.125 - 1.5\nAda,22,1.625\nBen,22,2\n", 1),
    ],
)
def test_a_sum_too_large_beside_thousandths_is_named_with_its_line(table: str, line: int) -> None:
    with pytest.raises(RefusedError) as refused:
        read_answers(table, "class.csv")
    assert str(refused.value) == (
        f"class.csv, line {line}: 40.2 − 17.68 is too large beside sums with thousandths; "
        "put it into a table of its own."
    )
    assert read_answers(table.replace("40.2 - 17.68", "6.1 - 2"), "class.csv")


@pytest.mark.parametrize(
    ("table", "said"),
    [
        (
            "name,sum,answer\nAna,52 - 27,35\nBruno,3.4 - 1.75,2.35\nDev,4002 - 1768,2234\n",
            ": These have decimals and the others are whole numbers: Bruno 3.4 − 1.75; ",
        ),
        (
            "name,sum,answer\nAna,5.2 - 2.7,3.5\nBruno,5 - 2.36,3.64\nDev,43 - 17,36\n",
            ": These are whole numbers and the others have decimals: Dev 43 − 17; ",
        ),
        (
            "name,52 - 27,5 - 2.36,43 - 17\nAna,35,3.64,36\nDev,25,2.64,26\n",
            ", line 1: These have decimals and the others are whole numbers: 5 − 2.36; ",
        ),
        (
            "name,sum,answer\n"
            + "".join(f"P{n},{n}.4 - 1.7,1\nQ{n},{n}3 - 17,1\n" for n in range(2, 9)),
            ": These have decimals and the others are whole numbers: P2 2.4 − 1.7, P3 3.4 − 1.7, "
            "P4 4.4 − 1.7, P5 5.4 − 1.7 and 3 more; ",
        ),
    ],
)
def test_whole_numbers_and_decimals_in_one_table_are_refused(table: str, said: str) -> None:
    """Read together, 52 − 27 became 52.00 − 27.00, and so did the sums that came next."""
    with pytest.raises(RefusedError) as refused:
        read_answers(table, "class.csv")
    assert str(refused.value) == f"class.csv{said}put them into a table of their own."
