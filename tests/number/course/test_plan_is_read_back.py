"""What the planner writes, a kit reads: no plan is made that kit --plan refuses."""

from datetime import date

import pytest
from grids import WHOLE, pairs

from kitbuilder.formats.plan_csv import plan_table, read_plan
from kitbuilder.number.course.course_outline import Span
from kitbuilder.number.course.rungs import LADDER
from kitbuilder.number.course.schedule import PlanWish, plan
from kitbuilder.number.course.stages import STAGES
from kitbuilder.number.sums import Sum

STARTS = (None, date(1900, 1, 1), date(2999, 12, 31))
SPANS = ((1, 1), (1, 7), (4, 5), (52, 1), (52, 7))
RUNGS = (LADDER, LADDER[-1:], LADDER[:1])


@pytest.mark.parametrize(
    ("place", "span", "start", "rungs"),
    [(n, *found) for n, found in enumerate(pairs(SPANS, STARTS, RUNGS))],
)
def test_every_plan_is_read_back(
    place: int, span: tuple[int, int], start: date | None, rungs: tuple[object, ...]
) -> None:
    ends = (STAGES[0], STAGES[-1])
    for first in ends if WHOLE else (ends[place % 2],):  # each span begins at either
        wish = PlanWish(Span(*span, start), rungs, first)  # type: ignore[arg-type]
        tasks = plan(wish, 1).tasks
        assert read_plan(plan_table(tasks)) == tasks
        assert len({t.item for t in tasks if isinstance(t.item, Sum)}) <= 2000
