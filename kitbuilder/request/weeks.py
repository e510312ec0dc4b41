"""Typed weeks, kinds and stages into a checked wish for a practice plan."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from datetime import date
from itertools import islice

from kitbuilder.errors import RefusedError, Said, out_of_range
from kitbuilder.formats.plan_csv import read_date
from kitbuilder.number import Sum
from kitbuilder.number.choice.fives import short_by_five
from kitbuilder.number.course.course_outline import Span
from kitbuilder.number.course.rungs import LADDER, RUNG_KEYS, Rung, rung_of
from kitbuilder.number.course.schedule import LESSONS, READY_PIECES, PlanWish, Task, plan
from kitbuilder.number.course.stages import STAGES
from kitbuilder.number.course.suitable_sums import LEAST_REST
from kitbuilder.number.scale import MOST_DECIMALS, WHOLE, Scale
from kitbuilder.number.stock import stock
from kitbuilder.number.sums import in_tenths

MOST_WEEKS = 52
"""Weeks that a plan may take."""

_MOST = 999
"""Hundredths that pieces show."""

ONLY_FIRST = {"plan.by-five", "plan.small-rest"}
"""Why a sum can only be the first of the weeks."""

Wishing = Callable[[tuple[Sum, ...]], PlanWish]
"""What weeks are wished for, whichever sums open them."""


def plan_wish(
    sums: tuple[Sum, ...] = (),
    *,
    weeks: int,
    days: int = 5,
    start: str | None = None,
    skip: str | None = None,
    first: str | None = None,
) -> PlanWish:
    """Return what was asked for, checked; each refusal names the option and what it may be.

    ``skip`` names kinds with commas; ``sums`` open theirs. The plan begins with the kind of the
    first that is on the ladder; with decimals or thousands, with all of ``sums`` of that kind.
    Decimals are planned as their hundredths are, tenths alone as their tenths: they have one kind.
    """
    scale, less = _scale(sums), _less(sums)
    sums = tuple(_counted(sum_, scale).per(less) for sum_ in sums)
    for option, value, most in (("weeks", weeks, MOST_WEEKS), ("days", days, 7)):
        if not 1 <= value <= most:
            raise out_of_range(option, value, 1, most)
    if first is not None and first not in STAGES:
        raise RefusedError("option.choice", option="from", given=first, known=STAGES)
    taught = {rung_of(sum_) for sum_ in sums}
    rungs = _rungs(skip, sums, LADDER if less == 1 else LADDER[:1])
    apart = scale.decimals or rungs[0].places > 3
    begin = next((stage for stage in STAGES if stage == first), STAGES[0])
    return PlanWish(
        span=Span(weeks, days, _start(start)),
        rungs=rungs,
        first=begin,
        pieces=(READY_PIECES if less == 1 else READY_PIECES.moved).most(stock(sums)),
        lessons=(*sums, *(lesson for lesson in LESSONS if rung_of(lesson) not in taught)),
        own=tuple(sum_ for sum_ in sums if apart and rung_of(sum_) == rungs[0]),
    )


def planned(wishing: Wishing, sums: tuple[Sum, ...]) -> tuple[Task, ...]:
    """Return the tasks of a plan that ``sums`` open, all of which it asks.

    Raises ``RefusedError`` where some of ``sums`` are not asked: it names each.
    """
    tasks = tasks_of(wishing(sums), sums)
    if refused := [*not_asked(wishing, sums, tasks)]:
        raise refused[0].with_others([error.said for error in refused[1:]])
    return tasks


def tasks_of(wish: PlanWish, sums: tuple[Sum, ...]) -> tuple[Task, ...]:
    """Return the tasks of a plan for ``wish`` and ``sums``: with decimals, if one has any."""
    scale, less = _scale(sums), _less(sums)
    forms = {s.counted(WHOLE): s.scale for s in (sum_.on(scale) for sum_ in sums)}
    return tuple(
        replace(task, item=(more := task.item.times(less)).counted(forms.get(more, scale)))
        if isinstance(task.item, Sum)
        else task
        for task in plan(wish).tasks
    )


def not_asked(
    wishing: Wishing, sums: tuple[Sum, ...], tasks: Iterable[Task]
) -> Iterator[RefusedError]:
    """Yield why each of ``sums`` that none of the ``tasks`` asks cannot come: none is left out
    unsaid.

    One of them at most is to be put first, where no other is lost by that. Of those that can only
    be first, one stays.
    """
    scale, less = _scale(sums), _less(sums)
    asked, later = {task.item for task in tasks}, None
    held = {sum_ for sum_ in sums if sum_.on(scale) in asked}

    def never(sum_: Sum, advice: Said) -> RefusedError:
        return _never(sum_, _counted(sum_, scale).per(less), advice)

    another = Said("plan.give-another")
    opens = (sum_ for sum_ in sums[:1] if sum_ in held)
    first = next((sum_ for sum_ in opens if never(sum_, another).code in ONLY_FIRST), None)
    for sum_ in dict.fromkeys(sums):
        if sum_ in held:
            continue
        why = never(sum_, another)
        if why.code == "plan.other-kind":
            later = later or _in_time(wishing(sums), sums)
            if sum_.on(scale) in later:
                yield RefusedError("plan.no-room", sum=sum_, field="sums")
                continue
        if not first and _asked_first(sum_, wishing, sums, held):
            first, why = sum_, never(sum_, Said("plan.put-first"))
        elif first and {why.code, never(first, another).code} <= ONLY_FIRST:
            why = never(sum_, Said("plan.one-first", other=first))
        yield why


def _asked_first(sum_: Sum, wishing: Wishing, sums: tuple[Sum, ...], held: Iterable[Sum]) -> bool:
    """Say whether ``sum_`` is asked when it is put first, and those ``held`` still are."""
    others = (other for other in sums if other != sum_)
    moved, scale = (sum_, *others), _scale(sums)
    try:
        asked = {task.item for task in tasks_of(wishing(moved), moved)}
    except RefusedError:  # its kind is skipped
        return False
    return asked >= {one.on(scale) for one in (sum_, *held)}


def _in_time(wish: PlanWish, sums: tuple[Sum, ...]) -> set[object]:
    """Return what a plan like that for ``wish`` asks in as many weeks as there may be."""
    longer = replace(wish, span=replace(wish.span, weeks=MOST_WEEKS))
    return {task.item for task in tasks_of(longer, sums)}


def _never(typed: Sum, sum_: Sum, advice: Said) -> RefusedError:
    """Return why no plan asks ``sum_``, which was ``typed``, but for one that it opens."""
    if rung_of(sum_) is None:
        return RefusedError("plan.no-exchange", sum=typed, field="sums")
    if short_by_five(sum_.whole, sum_.part):
        return RefusedError("plan.by-five", sum=typed, advice=advice, field="sums")
    if sum_.rest < LEAST_REST:
        return RefusedError("plan.small-rest", sum=typed, advice=advice, field="sums")
    return RefusedError("plan.other-kind", sum=typed, advice=advice, field="sums")


def _scale(sums: Iterable[Sum]) -> Scale:
    return next((sum_.scale for sum_ in sums if sum_.scale.decimals), WHOLE)


def _less(sums: Iterable[Sum]) -> int:
    """Return how many hundredths are counted as one: of tenths alone, ten."""
    return 10 if in_tenths(sums) else 1


def _counted(sum_: Sum, scale: Scale) -> Sum:
    """Return ``sum_`` as the whole number of its hundredths, up to 9.99, if ``scale`` has them."""
    if sum_.scale.decimals == MOST_DECIMALS:
        raise RefusedError("decimals.thousandths", sum=sum_, option="stage", field="sums")
    if scale.decimals and sum_.whole * 10 ** (scale.decimals - sum_.scale.decimals) > _MOST:
        raise RefusedError("decimals.planned", sum=sum_, option="weeks", field="sums")
    return sum_.on(scale).counted(WHOLE)


def _rungs(
    skipped: str | None, sums: tuple[Sum, ...], ladder: tuple[Rung, ...]
) -> tuple[Rung, ...]:
    skip = tuple(name.strip() for name in skipped.split(",")) if skipped else ()
    for name in skip:
        if name not in RUNG_KEYS:
            raise RefusedError("option.choice", option="skip", given=name, known=RUNG_KEYS)
    opening = next((rung for rung in map(rung_of, sums) if rung), ladder[0])
    above = ladder[ladder.index(opening) :] if opening in ladder else ()
    thousands = (rung for rung in map(rung_of, sums) if rung and rung.places > 3)
    above += (*islice(thousands, 1),)
    rungs = tuple(rung for rung in above if rung.key not in skip)
    if not rungs:
        raise RefusedError("plan.skips-all", option="skip")
    return rungs


def _start(typed: str | None) -> date | None:
    if typed is None:
        return None
    try:
        start = read_date(typed.strip())
        if 1900 <= start.year <= 2999:
            return start
    except ValueError:
        pass
    raise RefusedError("plan.start", option="start", given=typed)
