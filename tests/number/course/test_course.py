"""The course, read from its table alone: what must hold of every plan, whoever made it."""

import csv
import io
from collections.abc import Iterator
from datetime import date, timedelta
from itertools import groupby

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitbuilder.formats.plan_csv import plan_table
from kitbuilder.number.course.course_outline import Span
from kitbuilder.number.course.rungs import LADDER, Rung, rung_of
from kitbuilder.number.course.schedule import READY_WEEK, Plan, PlanWish, Task, plan, week
from kitbuilder.number.course.stages import STAGES
from kitbuilder.number.course.suitable_sums import NoSumError, suiting
from kitbuilder.number.rounded import estimate
from kitbuilder.number.stock import stock
from kitbuilder.number.sums import Pieces, Sum

MONDAY = date(2027, 1, 11)
Row = dict[str, str]


def rows_of(made: Plan) -> list[Row]:
    return list(csv.DictReader(io.StringIO(plan_table(made.tasks))))


def days_of(rows: list[Row]) -> Iterator[list[Row]]:
    for _, day in groupby(rows, lambda row: (row["week"], row["day"], row["phase"])):
        yield list(day)


def kind_of(row: Row) -> str:
    """Return the kind of a row's sum by how many places are short, worked as a child would."""
    top = [int(c) for c in reversed(row["whole"])]
    bottom = [int(c) for c in reversed(row["part"].rjust(len(top), "0"))]
    short = ""
    for k, (a, b) in enumerate(zip(top, bottom, strict=True)):
        if a < b:
            short += "oth"[k]
            above = next(j for j in range(k + 1, len(top)) if top[j] > 0)
            if above > k + 1:
                return "across-zero"
            top[above] -= 1
    return {2: {"o": "two"}, 3: {"o": "ones", "t": "tens", "ot": "both"}}[len(top)].get(short, "?")


def crossing_of(row: Row) -> set[tuple[int, int]]:
    """Return the facts above ten of a row's sum, found column by column."""
    found, lent = set(), 0
    for a, b in zip(
        reversed(row["whole"]), reversed(row["part"].rjust(len(row["whole"]), "0")), strict=True
    ):
        held = int(a) - lent
        lent = held < int(b)
        if lent and held + 10 > 10:
            found.add((held + 10, int(b)))
    return found


def pieces_cover(pieces: Pieces, row: Row) -> bool:
    """Say whether ``pieces`` do for a row's sum, ones first or any other order (brute force)."""
    whole, part = int(row["whole"]), int(row["part"])
    for k, have in enumerate(pieces.counts):
        step = 10 ** (k + 1)
        ten = 10 if whole % step < part % step else 0
        if whole // 10**k % 10 + ten > have:
            return False
    return True


def short_by_5(upper: str, lower: str) -> bool:
    """Say whether a column is short by 5, as printed or once it handed a piece in.

    A zero has nothing to hand in until ten came.
    """
    columns = list(zip(map(int, reversed(upper)), map(int, reversed(lower)), strict=True))
    below = [(0, 0), *columns]
    gave = False
    for (top, bottom), (above, under) in zip(columns, below, strict=False):
        gave = above - gave < under
        if bottom - top == 5 or (gave and top > 0 and bottom - (top - 1) == 5):
            return True
    return False


def check(made: Plan, pieces: Pieces, opening: Sum | None = None) -> None:
    """Check what must hold in every plan; the ``opening`` lesson may have any digits."""
    rows = rows_of(made)
    known: set[tuple[int, int]] = set()
    first: dict[str, list[str]] = {}
    rests: dict[str, set[int]] = {}
    for day in days_of(rows):
        facts = [(int(r["whole"]), int(r["part"])) for r in day if r["kind"] == "fact"]
        sums = [r for r in day if r["kind"] != "fact"]
        assert len(facts) == len(set(facts))
        assert sum(fact not in known for fact in facts) <= 5
        assert sum(fact in known for fact in facts) <= 5
        known |= set(facts)
        assert len(sums) in ((2, 3) if day[0]["phase"] == "practice" else (5, 10))
        for row in sums:
            kind, stage, rest = kind_of(row), row["kind"], int(row["whole"]) - int(row["part"])
            assert kind != "?"  # an exchange, always
            drawn = Sum(int(row["whole"]), int(row["part"])) != opening
            lower = row["part"].rjust(len(row["whole"]), "0")
            assert not drawn or not short_by_5(row["whole"], lower), row
            assert pieces_cover(pieces, row), row
            assert not drawn or rest >= 10
            assert rest not in rests.setdefault(row["week"], set())
            rests[row["week"]].add(rest)
            if stage != "written" and drawn:
                said = row["whole"]
                if kind == "across-zero":
                    said = said[0] + said[2]
                assert "0" not in f"{said}{row['part']}{rest}", row
            if stage != "pieces":
                assert crossing_of(row) <= known, row
            if row["phase"] != "practice":
                assert stage == "written"
            if (row["week"], row["day"]) and stage not in first.setdefault(kind, []):
                first[kind].append(stage)
    order: list[str] = list(STAGES)
    for kind, stages in first.items():
        # Each stage is met in order, and none but those before the first is left out.
        assert stages == order[order.index(stages[0]) :][: len(stages)], (kind, stages)


def tasks_of(made: Plan, phase: str) -> list[Task]:
    return [t for t in made.tasks if t.phase == phase and t.kind != "fact"]


def test_every_kind_goes_through_the_stages_in_order() -> None:
    made = plan(PlanWish())
    check(made, PlanWish().pieces)
    seen: dict[str, list[str]] = {}
    for row in rows_of(made):
        if row["kind"] != "fact":
            stages = seen.setdefault(kind_of(row), [])
            stages += [row["kind"]] * (row["kind"] not in stages)
    assert list(seen) == ["two", "ones", "tens", "both", "across-zero"]
    assert all(stages == ["pieces", "both", "drawn", "written"] for stages in seen.values())
    assert made.rungs_left == () and made.facts_left == ()


@pytest.mark.parametrize("rung", LADDER, ids=lambda rung: rung.key)
def test_no_sum_that_a_plan_can_choose_is_short_by_five(rung: Rung) -> None:
    chosen = list(suiting(rung, "written", Pieces(19, 19, 3)))  # no hundred can be short
    assert len(chosen) > 300
    for sum_ in chosen:
        lower = str(sum_.part).rjust(sum_.places, "0")
        assert not short_by_5(str(sum_.whole), lower), sum_
    assert short_by_5("321", "064") and short_by_5("042", "017")
    assert not short_by_5("305", "148")


def test_the_first_week_is_the_ready_made_one() -> None:
    # The sums and stages as the course lists them.
    listed = "P43-17 P52-24 P61-34 J54-38 J72-39 J64-27 J85-47 D41-12 D53-29 W75-28"
    stages = dict(zip("PJDW", STAGES, strict=True))
    for made in (plan(PlanWish()), week(Sum(43, 17), stock([Sum(43, 17), Sum(305, 148)]))):
        found = [(t.kind, str(t.item)) for t in made.tasks if t.week == 1 and t.kind != "fact"]
        assert found == [(stages[s[0]], s[1:].replace("-", " − ")) for s in listed.split()]
    assert [s for s in READY_WEEK if not pieces_cover(Pieces(15, 13, 4), as_row(s))] == []


def as_row(sum_: Sum) -> Row:
    return {"whole": str(sum_.whole), "part": str(sum_.part)}


def test_four_weeks_day_by_day() -> None:
    # Two places five days; ones two, tens three; both four; across a zero five; then the check.
    # A written sum of an earlier kind comes with each day after the first week.
    days = list(days_of(rows_of(plan(PlanWish()))))
    said = []
    for day in days[:20]:
        sums = [r for r in day if r["kind"] != "fact"]
        said.append([(kind_of(r), r["kind"][0]) for r in sums])
    a, o, t, b, z = "two", "ones", "tens", "both", "across-zero"
    assert said[:5] == [
        [(a, "p")] * 2, [(a, "p"), (a, "b")], [(a, "b")] * 2,
        [(a, "b"), (a, "d")], [(a, "d"), (a, "w")],
    ]  # fmt: skip
    assert said[5:10] == [
        [(o, "p"), (o, "b"), (a, "w")], [(o, "d"), (o, "w"), (a, "w")],
        [(t, "p"), (t, "p"), (o, "w")], [(t, "b"), (t, "b"), (a, "w")],
        [(t, "d"), (t, "w"), (o, "w")],
    ]  # fmt: skip
    assert [len(day) for day in said[10:19]] == [3] * 9
    assert [day[:2] for day in said[10:19]] == [
        [(b, "p")] * 2, [(b, "b")] * 2, [(b, "b"), (b, "d")], [(b, "d"), (b, "w")],
        [(z, "p")] * 2, [(z, "p"), (z, "b")], [(z, "b")] * 2, [(z, "b"), (z, "d")],
        [(z, "d"), (z, "w")],
    ]  # fmt: skip
    assert [day[2] for day in said[10:19]] == [
        (t, "w"), (a, "w"), (o, "w"), (t, "w"), (b, "w"), (a, "w"), (o, "w"), (t, "w"), (z, "w"),
    ]  # fmt: skip
    assert sorted(said[19]) == sorted([(kind, "w") for kind in (a, o, t, b, z)] * 2)


def test_the_check_and_the_days_it_comes_back() -> None:
    made = plan(PlanWish(Span(start=MONDAY)))
    (when,) = {t.when for t in tasks_of(made, "check")}
    assert when == date(2027, 2, 5)  # the twentieth weekday
    back: dict[date | None, int] = {}
    for task in tasks_of(made, "return"):
        back[task.when] = back.get(task.when, 0) + 1
    assert when is not None
    assert back == {when + timedelta(days=d): n for d, n in ((7, 10), (42, 5), (182, 5))}
    facts = [t for t in made.tasks if t.phase == "return" and t.kind == "fact"]
    assert len(facts) == 15
    for later in back:
        kinds = [rung_of(t.item) for t in tasks_of(made, "return")
                 if t.when == later and isinstance(t.item, Sum)]  # fmt: skip
        assert {kinds.count(rung) for rung in LADDER} == {len(kinds) // 5}


@pytest.mark.parametrize(("weeks", "left"), [(1, 4), (2, 2), (3, 1)])
def test_fewer_weeks_are_the_first_of_four(weeks: int, left: int) -> None:
    made = plan(PlanWish(Span(weeks)))
    whole = plan(PlanWish())
    check(made, PlanWish().pieces)
    days, all_days = (list(days_of(rows_of(p))) for p in (made, whole))
    same = 14 if weeks == 3 else 5 * weeks
    assert days[:same] == all_days[:same]
    assert len(days) == 5 * weeks and not tasks_of(made, "check") + tasks_of(made, "return")
    assert len(made.rungs_left) == left
    if weeks == 3:  # no kind begins on the last day: three mixed written sums
        last = [r for r in days[-1] if r["kind"] != "fact"]
        assert [r["kind"] for r in last] == ["written"] * 3
        assert len({kind_of(r) for r in last}) == 3


def test_more_weeks_are_mixed_before_the_check() -> None:
    made = plan(PlanWish(Span(6)))
    check(made, PlanWish().pieces)
    days = list(days_of(rows_of(made)))
    for day in days[19:29]:
        sums = [r for r in day if r["kind"] != "fact"]
        assert [r["kind"] for r in sums] == ["written"] * 3
        assert len({kind_of(r) for r in sums}) == 3
    assert days[29][0]["phase"] == "check"


def test_a_plan_begins_at_a_stage_and_skips_kinds() -> None:
    made = plan(PlanWish(Span(4), LADDER[3:], "drawn"))
    check(made, PlanWish().pieces)
    sums = [(t.kind, rung_of(t.item)) for t in made.tasks if isinstance(t.item, Sum)]
    first = [(kind, rung) for kind, rung in sums if rung in LADDER[3:]]
    assert first[:4] == [("drawn", LADDER[3])] * 2 + [("written", LADDER[3])] * 2
    assert first[4] == ("pieces", LADDER[4])  # the next kind begins with pieces again
    assert {rung for kind, rung in sums if kind == "written"} == set(LADDER)


@settings(max_examples=40, deadline=None)
@given(
    st.builds(
        PlanWish,
        span=st.builds(Span, st.integers(1, 9), st.integers(1, 7), st.none() | st.just(MONDAY)),
        rungs=st.sets(st.sampled_from(LADDER), min_size=1).map(
            lambda found: tuple(rung for rung in LADDER if rung in found)
        ),
        first=st.sampled_from(STAGES),
    ),
    st.integers(0, 99),
)
def test_every_plan_keeps_the_rules(wish: PlanWish, seed: int) -> None:
    made = plan(wish, seed)
    check(made, wish.pieces)
    assert plan(wish, seed) == made
    dated = {(t.week, t.day): t.when for t in made.tasks}
    assert len(dated) == len({t.when for t in made.tasks}) or wish.span.start is None


@settings(max_examples=40, deadline=None)
@given(st.integers(21, 999), st.integers(1, 999))
def test_a_week_for_any_sum(whole: int, part: int) -> None:
    if part >= whole or rung_of(Sum(whole, part)) is None:
        return
    lesson = Sum(whole, part)
    made = week(lesson, stock([lesson]))
    sums = [t.item for t in made.tasks if isinstance(t.item, Sum)]
    assert len(set(sums)) == 10 and {rung_of(s) for s in sums} == {rung_of(lesson)}
    check(made, stock(sums), lesson)
    assert sums[0] == lesson  # 30 − 4, 62 − 58 and 42 − 17 too, though no such sum is drawn


@pytest.mark.parametrize(("whole", "part"), [(52, 27), (53, 27), (61, 25)])
def test_the_ones_of_neighbouring_sums_are_other_facts(whole: int, part: int) -> None:
    lesson = Sum(whole, part)
    made = week(lesson, stock((lesson, Sum(305, 148))))
    ones = [(t.item.whole % 10, t.item.part % 10) for t in made.tasks if t.kind != "fact"]
    assert len(ones) == 10
    assert all(len({*three}) == 3 for three in zip(ones, ones[1:], ones[2:], strict=False))


def test_no_week_without_an_exchange() -> None:
    with pytest.raises(NoSumError):
        week(Sum(48, 15), stock([Sum(48, 15)]))


def test_a_checker_that_finds_fault() -> None:
    made = plan(PlanWish())
    check(made, PlanWish().pieces)
    with pytest.raises(AssertionError):
        check(made, Pieces(15, 12, 4))  # a ten too few
    for wrong in (Sum(42, 17), Sum(48, 15), Sum(32, 27), Sum(60, 34)):
        first = next(k for k, t in enumerate(made.tasks) if t.item == Sum(52, 24))
        task = made.tasks[first]
        bent = Task(task.when, task.week, task.day, task.phase, task.kind, wrong)
        tasks = (*made.tasks[:first], bent, *made.tasks[first + 1 :])
        with pytest.raises(AssertionError):
            check(Plan(tasks, (), ()), PlanWish().pieces)
    late = tuple(t for t in made.tasks if str(t.item) != "14 − 8")
    with pytest.raises(AssertionError):
        check(Plan(late, (), ()), PlanWish().pieces)


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
    made = plan(PlanWish(Span(2, days, start)))
    dates = dict.fromkeys(t.when for t in made.tasks if t.week == 1)
    assert " ".join(d.strftime("%a") for d in dates if d) == expected


@pytest.mark.parametrize(
    ("sum_", "about"),
    [
        # Both numbers as a child rounds them, halves up, worked by hand: to hundreds, to tens
        # where one part is below 100, to ones where nothing would be left.
        (Sum(53, 28), 20),
        (Sum(61, 34), 30),
        (Sum(82, 8), 70),
        (Sum(45, 17), 30),
        (Sum(305, 148), 200),
        (Sum(153, 137), 10),
        (Sum(84, 79), 5),
        (Sum(350, 349), 1),
        (Sum(254, 38), 210),
        (Sum(549, 172), 300),
        (Sum(4231, 1864), 2300),
    ],
)
def test_an_estimate(sum_: Sum, about: int) -> None:
    assert estimate(sum_) == about


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: Span(0), "weeks"),
        (lambda: Span(53), "weeks"),
        (lambda: Span(4, 8), "days"),
        (lambda: PlanWish(rungs=()), "rungs"),
        (lambda: PlanWish(rungs=LADDER[::-1]), "rungs"),
        (lambda: Task(None, 1, 1, "practice", "fact", Sum(34, 18)), "item"),
    ],
)
def test_records_are_checked(make: object, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        make()  # type: ignore[operator]
