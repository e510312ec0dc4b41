"""The practice plan: what comes when, checked from its tasks alone; and its table."""

from collections import Counter, defaultdict
from datetime import date, timedelta
from itertools import groupby, pairwise
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitbuilder.errors import RefusedError
from kitbuilder.formats import plan_csv as plan_file
from kitbuilder.formats.plan_csv import COLUMNS, plan_table, read_plan
from kitbuilder.number.choice.patterns import PATTERNS, pattern
from kitbuilder.number.choice.pool import Pool, Wish
from kitbuilder.number.course.ladder import WEEK, Ladder, Rung, rungs
from kitbuilder.number.course.schedule import Pace, Plan, PlanTooSmallError, PlanWish, Task, plan
from kitbuilder.number.course.spacing import RETURN_GAPS, FactDay, fact_days
from kitbuilder.number.facts import TEN_AND_CROSSING, Fact
from kitbuilder.number.mistakes.telling import tells
from kitbuilder.number.sums import Sum

MONDAY = date(2027, 1, 11)
WISH = PlanWish(4, 5, 10, MONDAY)


def days_of(tasks: tuple[Task, ...]) -> list[list[Task]]:
    return [list(day) for _, day in groupby(tasks, lambda task: task.when)]


def gaps_of(tasks: tuple[Task, ...]) -> dict[Fact, list[int]]:
    met: dict[Fact, list[date]] = defaultdict(list)
    for task in tasks:
        if isinstance(task.item, Fact):
            met[task.item].append(task.when)
    return {fact: [(b - a).days for a, b in pairwise(dates)] for fact, dates in met.items()}


def check(made: Plan, wish: PlanWish) -> None:
    """Check what must hold in every plan."""
    tasks = made.tasks
    assert [t.when for t in tasks] == sorted(t.when for t in tasks)
    assert tasks[0].when == wish.start
    for day in days_of(tasks):
        assert sum(task.seconds for task in day) <= wish.minutes * 60
        assert len({task.item for task in day}) == len(day)
    # Gaps of a fact always grow, in days of the calendar.
    for fact, gaps in gaps_of(tasks).items():
        assert all(a < b for a, b in pairwise(gaps)), fact
    # No sum twice in seven days.
    last: dict[Sum, date] = {}
    for task in tasks:
        if isinstance(task.item, Sum):
            assert task.when - last.get(task.item, date.min) >= timedelta(days=7)
            last[task.item] = task.when
            assert pattern(task.item).exchanges
    # Kinds of sums are met from easy to hard, each with pieces first.
    sums = [(t.kind, t.item) for t in tasks if isinstance(t.item, Sum)]
    first = dict.fromkeys((s.places, PATTERNS.index(pattern(s).name)) for _, s in sums)
    assert list(first) == sorted(first)
    for places, index in first:
        kinds = [k for k, s in sums if (s.places, pattern(s).name) == (places, PATTERNS[index])]
        assert kinds[0] == "pieces"
    # The readiness check: ten written sums that tell, up to ten facts, after all practice.
    checks = [t for t in tasks if t.phase == "check"]
    assert Counter(t.kind for t in checks)["written"] == 10
    assert Counter(t.kind for t in checks)["fact"] <= 10
    assert all(tells(t.item.whole, t.item.part) for t in checks if isinstance(t.item, Sum))
    phases = list(dict.fromkeys(t.phase for t in tasks))
    assert phases == ["practice", "check", "return"]


def test_the_plan_of_four_weeks() -> None:
    made = plan(WISH, 1)
    check(made, WISH)
    assert made.rungs_left == () and made.facts_left == ()
    gaps = gaps_of(made.tasks)
    assert set(gaps) == set(TEN_AND_CROSSING)
    assert min(len(those) for those in gaps.values()) >= 3  # each of the 45 comes back
    within = gaps_of(tuple(t for t in made.tasks if t.phase == "practice"))
    assert min(len(those) for those in within.values()) >= 2
    checks = Counter(t.kind for t in made.tasks if t.phase == "check")
    assert checks == {"written": 10, "fact": 10}
    dates = [day[0].when for day in days_of(made.tasks)]
    assert dates[0] == MONDAY and all(d.weekday() < 5 for d in dates)
    # From the last day: 1 week, then 5, then 25, each a fifth of the next (Cepeda et al. 2008).
    back = [d for d in dates if d > date(2027, 2, 5)]
    assert back == [date(2027, 2, 12), date(2027, 3, 19), date(2027, 9, 10)]
    assert [gap * 5 for gap in RETURN_GAPS[:-1]] == list(RETURN_GAPS[1:])


@pytest.mark.parametrize(
    ("weeks", "practice", "new"),
    [
        # Ten written sums and ten facts at 130 s each are two days of ten minutes and a bit over:
        # three days. Of the 45 facts three a day would take 15 days, more than three fifths of
        # 17 (10) and of 22 (13): five and four a day. Three will do from 25 days on.
        (4, 17, 5),
        (5, 22, 4),
        (6, 27, 3),
    ],
)
def test_all_facts_are_met_in_three_fifths_of_the_days(weeks: int, practice: int, new: int) -> None:
    tasks = [t for t in plan(PlanWish(weeks, 5, 10, MONDAY), 1).tasks if t.phase == "practice"]
    days = days_of(tuple(tasks))
    assert len(days) == practice
    known: set[Sum | Fact] = set()
    found = []
    for day in days:
        facts = {task.item for task in day if task.kind == "fact"}
        found.append(len(facts - known))
        known |= facts
    full = 45 // new
    assert found[:full] == [new] * full and sum(found) == 45
    assert sum(found[: practice * 3 // 5]) == 45


def test_facts_take_a_third_of_a_day_at_most() -> None:
    # Of 600 seconds a third holds six facts of 30; without that bound nine would come, three
    # times the three new ones.
    wish = PlanWish(6, 5, 10, MONDAY, pace=Pace(pieces=60, fact=30))
    tasks = [t for t in plan(wish, 1).tasks if t.phase == "practice"]
    assert max(sum(t.kind == "fact" for t in day) for day in days_of(tuple(tasks))) == 6


def test_kinds_of_sums_are_mixed_after_the_climb() -> None:
    made = plan(PlanWish(6, 5, 20, MONDAY), 2)
    later = [t for t in made.tasks if t.phase == "practice" and t.week == 5]
    kinds = {(t.item.places, pattern(t.item).name) for t in later if isinstance(t.item, Sum)}
    assert len(kinds) == 5


def test_the_same_seed_gives_the_same_plan() -> None:
    assert plan(WISH, 5) == plan(WISH, 5)
    assert plan(WISH, 5) != plan(WISH, 6)


WISHES = st.builds(
    PlanWish,
    weeks=st.integers(1, 8),
    days=st.integers(1, 7),
    minutes=st.integers(6, 60),
    start=st.dates(date(2020, 1, 1), date(2030, 1, 1)),
    places=st.integers(2, 3),
    pace=st.builds(
        Pace,
        pieces=st.integers(60, 600),
        written=st.integers(30, 300),
        fact=st.integers(3, 30),
    ),
)


@settings(max_examples=25, deadline=None)
@given(WISHES, st.integers(0, 99))
def test_every_plan_keeps_the_rules(wish: PlanWish, seed: int) -> None:
    try:
        made = plan(wish, seed)
    except PlanTooSmallError as error:
        assert error.least > (wish.minutes if error.name == "minutes" else wish.weeks * wish.days)
        return
    check(made, wish)
    assert read_plan(plan_table(made.tasks)) == made.tasks


@pytest.mark.parametrize(
    ("weeks", "days", "minutes"),
    [(2, 5, 10), (8, 5, 10), (8, 5, 15), (12, 5, 30), (30, 2, 20), (52, 5, 10), (52, 7, 10)],
)
def test_every_fact_comes_back_later_in_the_year(weeks: int, days: int, minutes: int) -> None:
    made = plan(PlanWish(weeks, days, minutes, MONDAY), 1)
    back = {task.item for task in made.tasks if task.phase == "return" and task.kind == "fact"}
    assert back == set(TEN_AND_CROSSING) and made.not_back == ()
    gaps = gaps_of(made.tasks)
    assert all(a < b for those in gaps.values() for a, b in pairwise(those))


@pytest.mark.parametrize(("weeks", "days", "minutes"), [(2, 5, 6), (40, 5, 6), (52, 7, 6)])
def test_a_fact_that_does_not_come_back_is_said(weeks: int, days: int, minutes: int) -> None:
    made = plan(PlanWish(weeks, days, minutes, MONDAY), 1)
    back = {task.item for task in made.tasks if task.phase == "return" and task.kind == "fact"}
    missing = set(TEN_AND_CROSSING) - back
    assert missing and missing == {*made.not_back, *made.facts_left}


def test_a_short_plan_says_what_it_leaves_out() -> None:
    made = plan(PlanWish(1, 4, 25, MONDAY), 1)
    assert [(r.places, r.pattern) for r in made.rungs_left] == [(3, "both"), (3, "across-zero")]
    made = plan(PlanWish(2, 2, 11, MONDAY, pace=Pace(600, 60, 10)), 1)
    assert made.facts_left


@pytest.mark.parametrize(
    ("wish", "name", "least"),
    [
        # One sum with pieces takes 5 minutes and six facts one more.
        (PlanWish(4, 5, 5, MONDAY), "minutes", 6),
        # Ten sums and facts of the check take 1,300 s: three days of ten minutes.
        (PlanWish(1, 5, 10, MONDAY), "days", 6),
    ],
)
def test_too_little_time(wish: PlanWish, name: str, least: int) -> None:
    with pytest.raises(PlanTooSmallError) as caught:
        plan(wish, 1)
    assert (caught.value.name, caught.value.least) == (name, least)


@pytest.mark.parametrize(
    ("days", "start", "expected"),
    [
        (5, MONDAY, "Mon Tue Wed Thu Fri"),
        (3, MONDAY, "Mon Wed Fri"),
        (2, MONDAY, "Mon Thu"),
        (5, date(2027, 1, 13), "Wed Thu Fri Mon Tue"),  # no weekend unless it is needed
        (7, MONDAY, "Mon Tue Wed Thu Fri Sat Sun"),
        (1, date(2027, 1, 16), "Sat"),
    ],
)
def test_days_of_a_week(days: int, start: date, expected: str) -> None:
    made = plan(PlanWish(8, days, 30, start), 1)
    first = [day[0].when for day in days_of(made.tasks) if day[0].week == 1]
    assert " ".join(d.strftime("%a") for d in first) == expected


def test_a_full_day_makes_facts_wait_longer() -> None:
    days = [FactDay(MONDAY + timedelta(days=k), most=2, new=2) for k in range(12)]
    found = fact_days(days, TEN_AND_CROSSING[:6], Random(1))
    assert all(len(those) <= 2 for those in found)
    assert [set(those) for those in found[:3]] == [
        set(TEN_AND_CROSSING[k : k + 2]) for k in (0, 2, 4)
    ]


@pytest.mark.parametrize(
    "change", [{"weeks": 0}, {"days": 8}, {"minutes": 0}, {"places": 4}, {"weeks": 53}]
)
def test_a_wish_is_checked(change: dict[str, int]) -> None:
    with pytest.raises(ValueError, match=next(iter(change))):
        PlanWish(**{"weeks": 1, "days": 1, "minutes": 9, "start": MONDAY, **change})  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="written"):
        Pace(written=0)


def test_a_fact_is_no_sum() -> None:
    with pytest.raises(ValueError, match="item"):
        Task(MONDAY, 1, 1, "practice", "fact", Sum(34, 18), 10)


HEAD = "date,week,day,phase,kind,whole,part,seconds\n"
GOOD = "2027-01-11,1,1,practice,pieces,634,258,300\n"


def test_the_table_can_be_read_back_and_holds_no_formula() -> None:
    text = plan_table(plan(WISH, 1).tasks)
    assert text.partition("\n")[0] == ",".join(COLUMNS)
    for line in text.splitlines()[1:]:
        for cell in line.split(","):
            assert not cell or cell[0].isalnum()
    assert "2027-01-11,1,1,practice,pieces," in text
    assert ",fact,11,2,,1,1,10" in text


def test_a_table_from_a_spreadsheet_is_read() -> None:
    shuffled = "kind;part;whole;note;date;week;day;phase;seconds\r\n"
    row = "written;258;634;went well;2027-01-11;1;1;practice;120\r\n;;;;;;;;\r\n"
    assert read_plan(shuffled + row) == (
        Task(MONDAY, 1, 1, "practice", "written", Sum(634, 258), 120),
    )


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "lacks the column 'date'"),
        ("date,week\n", "lacks the column 'day'"),
        (HEAD, "holds no task"),
        (HEAD + GOOD + GOOD.replace("2027-01-11", "11.1.2027"), "Line 3 of the plan: date"),
        (HEAD + GOOD.replace("2027-01-11", "2027-02-30"), "Line 2 of the plan: date"),
        (HEAD + GOOD.replace("pieces", "=1+1"), "kind is '=1\\+1'"),
        (HEAD + GOOD.replace("practice", ""), "phase is ''"),
        (HEAD + GOOD.replace("634", "12345"), "whole is '12345'"),
        (HEAD + GOOD.replace("634", "-634"), "whole is '-634'"),
        (HEAD + GOOD.replace("634", "٦٣٤"), "whole is"),
        (HEAD + GOOD.replace("634", "134"), "134 − 258 is no subtraction"),
        (HEAD + GOOD.replace("pieces", "fact"), "634 − 258 is no small fact"),
        (HEAD + GOOD.replace("634", "1634"), "whole is '1634'; write a whole number from 1 to 999"),
        (
            HEAD + GOOD.replace("300", "300,0").replace(",0", ".0"),
            "seconds is '300.0'.* digits alone",
        ),
        (HEAD + GOOD.replace("300", "0"), "seconds is '0'; write a whole number from 1 to 3600"),
        (HEAD + GOOD.replace(",1,1,", ",0,1,"), "week is '0'; write a whole number from 1 to 200"),
        (HEAD + GOOD.replace(",1,1,", ",1,0,"), "day is '0'; write a whole number from 1 to 7"),
        (HEAD + GOOD.replace("2027-01-11", "11/01/2027"), "'11/01/2027'; .* as 2027-01-11"),
        (HEAD + GOOD.replace("2027-01-11", "0027-01-11"), "date is '0027-01-11'"),
        (HEAD.replace("day", "week"), "the column 'week' twice"),
        (HEAD + "2027-01-11\n", "kind is ''"),
        (HEAD + '"2027', "Line 2 of the plan cannot be read"),
        (HEAD + " " * 8_000_000, "larger than 8 MB"),
    ],
)
def test_a_bad_table_is_refused_by_line(text: str, says: str) -> None:
    with pytest.raises(RefusedError, match=says):
        read_plan(text)


FULL = "date,week,day,phase,kind,whole,part,exchange,to_ten,then,seconds\n"


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
    with pytest.raises(RefusedError, match=f"Line 2 of the plan: {says}"):
        read_plan(f"{FULL}2027-01-11,1,1,practice,{row},120\n")
    whole, part = row.split(",")[1:3]
    kind = row.split(",")[0]
    left_empty = f"{FULL}2027-01-11,1,1,practice,{kind},{whole},{part},,,,120\n"
    assert str(read_plan(left_empty)[0].item) == f"{whole} − {part}"


def days_typed(*days: str) -> str:
    """A table with a sum on each of ``days``, written as date, week, day and phase."""
    return HEAD + "".join(f"2027-{day},written,71,48,120\n" for day in days)


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
    with pytest.raises(RefusedError, match=f"Line {len(days) + 1} of the plan: .*{says}"):
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
    try:
        made = plan(wish, seed)
    except PlanTooSmallError:
        return
    assert read_plan(plan_table(made.tasks)) == made.tasks


def test_a_table_of_too_many_rows_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(plan_file, "MOST_ROWS", 20)
    assert len(read_plan(HEAD + GOOD * 20)) == 20
    with pytest.raises(RefusedError, match="more than 20 rows"):
        read_plan(HEAD + GOOD * 21)


@settings(max_examples=80)
@given(st.text() | st.text(alphabet=',;"\r\n\x000123456789-aefpctiw').map(lambda t: HEAD + t))
def test_noise_is_refused(text: str) -> None:
    with pytest.raises(RefusedError):
        read_plan(text)


def test_the_ladder_climbs_evenly_for_three_fifths_of_the_days() -> None:
    # Five kinds in 15 of 25 days: three days each, then every kind mixed; pieces while climbing
    # and on every other day after that.
    kinds = rungs(3)
    ladder = Ladder(kinds, 25, Random(1))
    firsts = [
        ladder.sums(day, date(2027, 1, 4) + day * WEEK, 1, tell=False)[0] for day in range(15)
    ]
    assert [(s.places, pattern(s).name) for s in firsts] == [
        (kind.places, kind.pattern) for kind in kinds for _ in range(3)
    ]
    assert [day for day in range(25) if not ladder.with_pieces(day)] == [16, 18, 20, 22, 24]
    assert ladder.left_out == ()


def test_a_sum_may_come_again_on_the_seventh_day() -> None:
    # All sums of the kind are drawn, the first of them on Tuesday and all others on Monday; then
    # they come round in the same order. The next Tuesday the first is seven days old and comes;
    # the next Monday it is six and is passed over.
    for day, which in ((8, 0), (7, 1)):
        ladder = Ladder((Rung(2, "ones"),), 5, Random(1))
        every = Pool(Wish(2, ("ones",))).count()
        first = ladder.sums(0, MONDAY + timedelta(days=1), 1, tell=False)
        drawn = (*first, *ladder.sums(0, MONDAY, every - 1, tell=False))
        assert len(set(drawn)) == every
        again = ladder.sums(0, MONDAY + timedelta(days=day), 1, tell=False)
        assert again == (drawn[which],)


def test_a_short_plan_climbs_a_kind_a_day_and_says_what_it_leaves_out() -> None:
    assert Ladder(rungs(3), 3, Random(1)).left_out == rungs(3)[3:]
