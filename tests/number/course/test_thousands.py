"""Weeks and plans of sums of four places, and of decimals."""

from functools import partial
from pathlib import Path

import pytest
from click.testing import CliRunner

from kitbuilder.cli import main
from kitbuilder.design.load import words as words_of
from kitbuilder.errors import RefusedError
from kitbuilder.kit.course.road import road
from kitbuilder.number import Sum
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.course import suitable_sums
from kitbuilder.number.course.rungs import LADDER, rung_of
from kitbuilder.number.course.schedule import week
from kitbuilder.number.course.suitable_sums import covers
from kitbuilder.number.scale import HUNDREDTHS, WHOLE
from kitbuilder.number.stock import stock
from kitbuilder.request.weeks import plan_wish, planned

OPENING = (Sum(5304, 1648), Sum(4003, 1758), Sum(5342, 1685), Sum(9421, 3810), Sum(1000, 1))


@pytest.mark.parametrize("opening", OPENING, ids=str)
def test_a_week_of_thousands_is_of_the_sum_s_own_kind(opening: Sum) -> None:
    sums = [task.item for task in week(opening, stock([opening])).tasks if task.kind != "fact"]
    assert len(sums) == len({*sums}) == 10
    assert {(s.places, pattern(s).name) for s in sums if isinstance(s, Sum)} == {
        (4, pattern(opening).name)
    }


def test_of_a_million_sums_none_is_listed(monkeypatch: pytest.MonkeyPatch) -> None:
    def listed(*_: object) -> None:
        pytest.fail("all sums of four places were looked at")

    monkeypatch.setattr(suitable_sums, "suiting", listed)
    for sum_ in (Sum(7431, 5622), Sum(7775, 3906)):
        assert week(sum_, stock([sum_])).tasks


def test_a_week_begins_with_its_sum_and_needs_only_its_pieces() -> None:
    tasks = week(OPENING[0], stock(OPENING[:1])).tasks
    sums = [task.item for task in tasks if isinstance(task.item, Sum)]
    assert sums[0] == OPENING[0]
    assert all(covers(stock(OPENING[:1]), sum_) for sum_ in sums)


def test_a_plan_teaches_thousands_after_the_kinds_before_them() -> None:
    sums = (Sum(305, 148), OPENING[0])
    tasks = planned(partial(plan_wish, weeks=4), sums)
    kinds = [task.item.places for task in tasks if isinstance(task.item, Sum)]
    assert kinds[0] == 3
    assert 4 in kinds
    alone = planned(partial(plan_wish, weeks=2), OPENING[:1])
    held = [task.item for task in alone if isinstance(task.item, Sum)]
    assert held[0] == OPENING[0]
    assert {rung_of(sum_) for sum_ in held} >= {*LADDER}  # earlier kinds come back in writing


def test_a_plan_of_decimals_is_that_of_their_hundredths() -> None:
    sums = (Sum(300, 147, HUNDREDTHS), Sum(500, 62, HUNDREDTHS))
    bare = (Sum(305, 147), Sum(502, 64))
    tasks = planned(partial(plan_wish, weeks=2), sums)
    held = [task.item for task in tasks if isinstance(task.item, Sum)]
    assert {sum_.scale for sum_ in held} == {HUNDREDTHS}
    assert held[:2] == list(sums)
    kinds = {rung_of(sum_.counted(WHOLE)) for sum_ in held}
    plain = [t.item for t in planned(partial(plan_wish, weeks=2), bare) if isinstance(t.item, Sum)]
    assert kinds == {rung_of(sum_) for sum_ in plain}


def test_a_whole_number_too_large_beside_decimals_is_named_as_typed() -> None:
    with pytest.raises(RefusedError, match=r"^43 − 17 passes 9\.99"):
        plan_wish((Sum(43, 17), Sum(320, 147, HUNDREDTHS)), weeks=2)


def test_the_way_on_ends_with_thousands_where_they_come_first() -> None:
    words = words_of("en-GB")
    rows = road(OPENING[:1], (), stock(OPENING[:1]), words).rows
    assert (rows[-1].kind, rows[-1].opening, len(rows)) == ("thousands", OPENING[0], len(LADDER))
    assert [row.kind for row in road((), (), stock(OPENING[:1]), words).rows][-1] == "across-zero"


TWO_WEEKS = ("--weeks", "2", "--only", "week,progress")


@pytest.mark.parametrize("sum_", ["5304-1648", "3.2-1.47"])
def test_weeks_of_thousands_and_decimals_print(sum_: str, tmp_path: Path) -> None:
    made = CliRunner().invoke(main, ["kit", sum_, *TWO_WEEKS, "--out", str(tmp_path)])
    assert made.exit_code == 0, made.output
    record = (tmp_path / "kit.json").read_text()
    assert record.count('"kind": "week"') >= 2
    assert '"kind": "worksheet"' in record


def test_weeks_are_planned_where_a_sum_s_own_pieces_give_no_other_of_its_kind() -> None:
    sum_ = Sum(6603, 5539)
    tasks = planned(partial(plan_wish, weeks=8), (sum_,))
    assert tasks[-1].week > 8  # and its returns after them
    assert sum_ in {task.item for task in tasks}
