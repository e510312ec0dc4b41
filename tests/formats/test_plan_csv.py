"""A plan's table: written, read back, and refused by line where it cannot be right."""

from datetime import date
from itertools import product

import pytest
from grids import some
from hypothesis import given, settings
from hypothesis import strategies as st

from kitbuilder.errors import RefusedError
from kitbuilder.formats import plan_csv as plan_file
from kitbuilder.formats.plan_csv import COLUMNS, plan_table, read_plan
from kitbuilder.number.course.course_outline import Span
from kitbuilder.number.course.rungs import LADDER
from kitbuilder.number.course.schedule import PlanWish, Task, plan
from kitbuilder.number.course.stages import STAGES, Stage
from kitbuilder.number.sums import Sum

MONDAY = date(2027, 1, 11)
WISH = PlanWish(Span(start=MONDAY))

WISHES = st.builds(
    PlanWish,
    span=st.builds(
        Span,
        weeks=st.integers(1, 8),
        days=st.integers(1, 7),
        start=st.none() | st.dates(date(2020, 1, 1), date(2030, 1, 1)),
    ),
    rungs=st.integers(0, 4).map(lambda k: LADDER[k:]),
    first=st.sampled_from(STAGES),
)


HEAD = "date,week,day,phase,kind,whole,part\n"
GOOD = "2027-01-11,1,1,practice,pieces,634,258\n"


def test_a_row_may_have_no_date_if_none_has() -> None:
    bare = GOOD.replace("2027-01-11", "")
    later = bare.replace(",1,1,", ",1,2,")
    assert [task.when for task in read_plan(HEAD + bare + later)] == [None, None]
    with pytest.raises(RefusedError, match=r"line 3: .*give every row a date, or none of them"):
        read_plan(HEAD + bare + GOOD)
    for rows, says in (
        (later + bare, "sort the rows by day, or give 2 or more"),
        (bare.replace(",1,1,", ",2,1,") + later, "sort the rows by week, or give 2 or more"),
        (bare + bare.replace("practice", "check"), "phase practice: give both the same"),
    ):
        with pytest.raises(RefusedError, match=f"The plan, line 3: .*{says}"):
            read_plan(HEAD + rows)


def test_the_table_can_be_read_back_and_holds_no_formula() -> None:
    text = plan_table(plan(WISH, 1).tasks)
    assert text.partition("\n")[0] == ",".join(COLUMNS)
    for line in text.splitlines()[1:]:
        for cell in line.split(","):
            assert not cell or cell[0].isalnum()
    assert "2027-01-11,1,1,practice,pieces," in text
    assert ",fact,11,2,,1,1\n" in text


def test_a_table_from_a_spreadsheet_is_read() -> None:
    shuffled = "kind;part;whole;note;date;week;day;phase\r\n"
    row = "written;258;634;went well;2027-01-11;1;1;practice\r\n;;;;;;;;\r\n"
    assert read_plan(shuffled + row) == (Task(MONDAY, 1, 1, "practice", "written", Sum(634, 258)),)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "lacks the column 'date'"),
        ("date,week\n", "lacks the column 'day'"),
        (HEAD, "holds no task"),
        (HEAD + GOOD + GOOD.replace("2027-01-11", "11.1.2027"), "The plan, line 3: date"),
        (HEAD + GOOD.replace("2027-01-11", "2027-02-30"), "The plan, line 2: date"),
        (HEAD + GOOD.replace("pieces", "=1+1"), "kind is '=1\\+1'"),
        (HEAD + GOOD.replace("practice", ""), "phase is ''"),
        (HEAD + GOOD.replace("634", "12345"), "whole is '12345'"),
        (HEAD + GOOD.replace("634", "-634"), "whole is '-634'"),
        (HEAD + GOOD.replace("634", "٦٣٤"), "whole is"),
        (HEAD + GOOD.replace("634", "134"), "134 − 258 is no subtraction"),
        (HEAD + GOOD.replace("pieces", "fact"), "634 − 258 is no small fact"),
        (
            HEAD + GOOD.replace("634", "16340"),
            "whole is '16340'; write a whole number from 1 to 9999",
        ),
        (HEAD + GOOD.replace("634", "634.0"), "whole is '634.0'.* digits alone"),
        (HEAD + GOOD.replace(",1,1,", ",0,1,"), "week is '0'; write a whole number from 1 to 200"),
        (HEAD + GOOD.replace(",1,1,", ",1,0,"), "day is '0'; write a whole number from 1 to 7"),
        (HEAD + GOOD.replace("2027-01-11", "11/01/2027"), "'11/01/2027'; .* as 2027-01-11"),
        (HEAD + GOOD.replace("2027-01-11", "0027-01-11"), "date is '0027-01-11'"),
        (HEAD.replace("day", "week"), "the column 'week' twice"),
        (HEAD + "2027-01-11\n", "kind is ''"),
        (HEAD + '"2027', "The plan, line 2: this is not a row of a table"),
        (HEAD + " " * 8_000_000, "larger than 8000 kB"),
    ],
)
def test_a_bad_table_is_refused_by_line(text: str, says: str) -> None:
    with pytest.raises(RefusedError, match=says):
        read_plan(text)


FULL = "date,week,day,phase,kind,whole,part,exchange,to_ten,then\n"


@pytest.mark.parametrize(
    ("row", "says"),
    [
        # 634 − 258 is short of ones and of tens: both. 13 − 5 is 3 to ten, then 2. 10 − 4 has
        # no step before ten, and a fact no pattern of exchanges.
        ("pieces,634,258,ones,,", "exchange is 'ones'; 634 − 258 needs both: write that, or leave"),
        ("written,634,258,both,3,", "to_ten is '3'; 634 − 258 has none: leave the cell empty"),
        ("fact,13,5,,2,2", "to_ten is '2'; 13 − 5 needs 3: write that, or leave"),
        ("fact,13,5,,3,5", "then is '5'; 13 − 5 needs 2"),
        ("fact,13,5,,3.0,2", "to_ten is '3.0'"),
        ("fact,10,4,,,4", "then is '4'; 10 − 4 has none"),
        ("fact,13,5,ones,3,2", "exchange is 'ones'; 13 − 5 has none"),
    ],
)
def test_what_whole_and_part_settle_cannot_be_said_otherwise(row: str, says: str) -> None:
    with pytest.raises(RefusedError, match=f"The plan, line 2: {says}"):
        read_plan(f"{FULL}2027-01-11,1,1,practice,{row}\n")
    whole, part = row.split(",")[1:3]
    kind = row.split(",")[0]
    left_empty = f"{FULL}2027-01-11,1,1,practice,{kind},{whole},{part},,,\n"
    assert str(read_plan(left_empty)[0].item) == f"{whole} − {part}"


def days_typed(*days: str) -> str:
    """A table with a sum on each of ``days``, written as date, week, day and phase."""
    return HEAD + "".join(f"2027-{day},written,71,48\n" for day in days)


@pytest.mark.parametrize(
    ("days", "says"),
    [
        # A day has one week, one number and one phase: its page has one title.
        (("01-11,1,1,practice", "01-11,2,1,practice"), "week is '2'; the row above .* week 1"),
        (("01-11,1,1,practice", "01-11,1,2,practice"), "day is '2'; the row above .* day 1"),
        (("01-11,1,1,practice", "01-11,1,1,check"), "phase is 'check'; .* phase practice"),
        # Days are printed in the order of the rows.
        (("01-12,1,2,practice", "01-11,1,1,practice"), "'2027-01-11'; sort .* give 2027-01-12"),
        (("01-11,1,2,practice", "01-12,1,2,practice"), "day is '2'; give a later day than 2"),
        (("01-11,1,2,practice", "01-12,1,1,practice"), "day is '1'; give a later day than 2"),
        # From Monday the 11th: the 17th is the last of seven days, the 18th the next week at the
        # soonest, and the 19th (eight days on) may begin a third week but no fourth.
        (
            ("01-11,1,1,practice", "01-18,1,2,practice"),
            "week is '1'; that week began on 2027-01-11",
        ),
        (
            ("01-11,1,1,practice", "01-14,1,2,practice", "01-18,1,3,practice"),
            "week is '1'; that week began on 2027-01-11: give 2027-01-18 a later one",
        ),
        (("01-11,1,1,practice", "01-12,3,1,practice"), "week is '3'; for 2027-01-12 give 1 to 2"),
        (("01-11,1,1,practice", "01-18,3,1,practice"), "week is '3'; for 2027-01-18 give 1 to 2"),
        (("01-11,1,1,practice", "01-19,4,1,practice"), "week is '4'; for 2027-01-19 give 1 to 3"),
        (("01-11,2,1,practice", "01-18,1,1,practice"), "week is '1'; for 2027-01-18 give 2 to 3"),
    ],
)
def test_days_that_do_not_go_together_are_refused(days: tuple[str, ...], says: str) -> None:
    with pytest.raises(RefusedError, match=f"The plan, line {len(days) + 1}: .*{says}"):
        read_plan(days_typed(*days))


def test_days_may_be_left_out_moved_and_put_off() -> None:
    # A plan that begins in its third week, a day left out, the last of seven days, a day moved
    # forward into the week before, and a week put off for two weeks of holidays.
    text = days_typed(
        "01-25,3,1,practice",
        "01-29,3,4,practice",
        "01-31,3,5,practice",
        "02-01,4,1,practice",
        "02-22,5,1,check",
    )
    assert [(task.week, task.day) for task in read_plan(text)] == [
        (3, 1), (3, 4), (3, 5), (4, 1), (5, 1),
    ]  # fmt: skip


@settings(max_examples=25, deadline=None)
@given(WISHES, st.integers(0, 9))
def test_every_plan_made_is_read_back(wish: PlanWish, seed: int) -> None:
    made = plan(wish, seed)
    assert read_plan(plan_table(made.tasks)) == made.tasks


def test_a_table_of_too_many_rows_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(plan_file, "MOST_ROWS", 20)
    assert len(read_plan(HEAD + GOOD * 20)) == 20
    with pytest.raises(RefusedError, match="more than 20 rows"):
        read_plan(HEAD + GOOD * 21)


@settings(max_examples=25)
@given(st.text() | st.text(alphabet=',;"\r\n\x000123456789-aefpctiw').map(lambda t: HEAD + t))
def test_noise_is_refused(text: str) -> None:
    with pytest.raises(RefusedError):
        read_plan(text)


@pytest.mark.parametrize(
    ("skipped", "first"), some(product(range(len(LADDER)), ("both", "drawn", "written")), 2)
)
def test_a_plan_may_begin_at_any_stage_of_any_kind(skipped: int, first: Stage) -> None:
    made = plan(PlanWish(Span(1), LADDER[skipped:], first=first), seed=skipped)
    assert any(isinstance(task.item, Sum) for task in made.tasks)
