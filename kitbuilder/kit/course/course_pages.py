"""The pages of a course: weeks to tick, worksheets with their keys, and how to go on."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import groupby
from types import MappingProxyType

from kitbuilder.design.load import Words
from kitbuilder.kit import phrases
from kitbuilder.kit.course.course_records import Asked, SheetWords, WeekDay, WeekPage, Worksheet
from kitbuilder.kit.course.plan_words import day_said, later_said, rung_said, stage_of
from kitbuilder.number import Pieces, Sum
from kitbuilder.number.course.going_on import sums_before_going_on
from kitbuilder.number.course.rungs import Rung, rung_of
from kitbuilder.number.course.schedule import Task
from kitbuilder.number.course.stages import STAGES, Stage
from kitbuilder.number.course.suitable_sums import covers
from kitbuilder.number.facts import Fact
from kitbuilder.number.rounded import estimate
from kitbuilder.number.scale import WHOLE

CELLS = 8
"""Sums on one worksheet."""


def week_pages(
    plan: Sequence[Task],
    words: Words,
    lessons: Mapping[tuple[int, str], str] = MappingProxyType({}),
    *,
    alike: bool = False,
) -> tuple[WeekPage, ...]:
    """Return a page for each week of ``plan``.

    Where all are ``alike`` its sums are one road, of whatever kinds a family's own are.
    ``lessons`` are the titles of those in which kinds of sums are taught.
    """
    weeks = groupby(plan, lambda t: 0 if t.phase == "return" else t.week)
    opening = next((rung for task in plan if (rung := _rung(task))), None)
    begun = {_rung(task): task.week for task in reversed(plan)}
    checked = next((t.week for t in plan if t.phase == "check"), None)
    found = []
    for tasks in (list(week) for _, week in weeks):
        days = groupby(tasks, lambda t: (t.week, t.day))
        phase = tasks[-1].phase
        found.append(
            WeekPage(
                name=_week_name(tasks[0], words),
                title=_week_title(tasks[0], words),
                days=tuple(_day(tuple(day), checked, words) for _, day in days),
                on=tuple(_on(tasks, opening, words, alike=alike)),
                stop=words(f"week.stop_{phase}"),
                back=words("road.back_told") if phase != "return" else "",
                passed=words("week.passed") if phase == "check" else "",
                later=phase == "return",
                lessons=tuple(_lessons(tasks, begun, lessons)),
            )
        )
    return tuple(found)


def _lessons(
    tasks: Iterable[Task], begun: Mapping[Rung | None, int], titles: Mapping[tuple[int, str], str]
) -> dict[str, None]:
    """Return the ``titles`` of the lessons on the kinds of sums taught in ``tasks``, each once.

    A kind that is ``begun`` in their week is taught too, though it is only written: below the
    last on the ladder there are some that no week before has asked.
    """
    kinds = ((task, _rung(task)) for task in tasks)
    taught = (r for task, r in kinds if task.kind != "written" or begun[r] == task.week)
    named = (titles.get((rung.places, rung.pattern)) for rung in taught if rung)
    return dict.fromkeys(title for title in named if title)


def _rung(task: Task) -> Rung | None:
    return rung_of(task.item.counted(WHOLE)) if isinstance(task.item, Sum) else None


def _on(
    tasks: Sequence[Task], opening: Rung | None, words: Words, *, alike: bool
) -> Iterator[tuple[Stage, str]]:
    """Yield when each stage of the kinds taught in ``tasks`` is done, but for the last stage.

    Where several kinds are taught, each has its own count, its name beside it, and a line.
    """
    if opening is None:
        return
    kinds = [(t, opening if alike else _rung(t)) for t in tasks if isinstance(t.item, Sum)]
    taught = dict.fromkeys(rung for task, rung in kinds if task.kind != "written" and rung)
    for stage in STAGES[:-1]:
        counts = []
        for rung in taught:
            if any((task.kind, kind) == (stage, rung) for task, kind in kinds):
                number = sums_before_going_on(rung, opening)[stage]
                said = words.count("week.sums", number)
                said = words("week.days", sums=said) if rung == opening else said
                of = {"sums": said, "kind": _kind(rung, taught, words)}
                counts.append(words("week.of_kind", **of) if len(taught) > 1 else said)
        if counts:
            listed = counts[0] if len(taught) == 1 else "\n" + "\n".join(counts)
            yield stage, words(f"week.on_{stage}", sums=listed)


def _kind(rung: Rung, taught: Iterable[Rung], words: Words) -> str:
    """Return what the page of how far a child is calls ``rung``, or more where two share that."""
    if [other.key for other in taught].count(rung.key) > 1:
        return rung_said(rung, words)
    name = words(f"road.{rung.key}")
    return name[0].lower() + name[1:]


def _week_name(task: Task, words: Words) -> str:
    if task.phase == "return":
        return words("plan.return")
    return words("plan.week", week=task.week)


def _week_title(task: Task, words: Words) -> str:
    if task.phase == "return":
        return words("plan.return")
    return words("week.title", week=task.week)


def _day(tasks: Sequence[Task], checked: int | None, words: Words) -> WeekDay:
    """Return a day of a week; one later in the year is told from the week that was ``checked``."""
    sums = [t for t in tasks if isinstance(t.item, Sum)]
    title = day_said(tasks[0], words)
    facts = ", ".join(str(t.item).replace(" ", "\xa0") for t in tasks if isinstance(t.item, Fact))
    note = ""
    if tasks[0].phase == "check":
        note = words("week.no_clock", check=words("plan.check"))
    if tasks[0].phase == "return":
        week = words("plan.week", week=tasks[0].week)
        later = later_said(tasks[0].week - checked, words) if checked else week
        count = words.count("week.sums", len(sums))
        if tasks[0].when is None:
            title, note = later, words("week.one_day", week=week, sums=count)
        else:
            note = later
    return WeekDay(title, tuple(asked(t, words) for t in sums), facts, note)


def asked(task: Task, words: Words) -> Asked:
    """Return the sum of ``task`` with its estimate in words."""
    if not isinstance(task.item, Sum):
        raise TypeError(f"{task.item} is no sum")
    day = words("plan.check") if task.phase == "check" else day_said(task, words)
    if task.phase == "return" and task.when is None:
        day = words("plan.week", week=task.week)
    return Asked(task.item, stage_of(task), str(estimate(task.item)), day)


def worksheets(
    plan: Sequence[Task], words: Words, *, daily: bool, pieces: Pieces | None = None
) -> tuple[tuple[Worksheet, ...], tuple[Worksheet, ...]]:
    """Return the worksheets of ``plan`` and their keys: one a day, or as few a week as can be.

    A key says what to do where the kit's ``pieces`` are too few for one of its sums.
    """
    sheets: list[Worksheet] = []
    keys: list[Worksheet] = []
    for _, tasks in groupby(plan, lambda t: (t.week, t.phase == "return", t.day if daily else 0)):
        held = [task for task in tasks if isinstance(task.item, Sum)]
        sheets += _sheets(held, words, daily=daily, key=False)
        keys += [
            _short_of(one, pieces, words) for one in _sheets(held, words, daily=daily, key=True)
        ]
    return tuple(sheets), tuple(keys)


def _short_of(key: Worksheet, pieces: Pieces | None, words: Words) -> Worksheet:
    """Return the ``key`` with another foot where ``pieces`` do not show one of its sums."""
    if pieces is None or all(covers(pieces, asked.sum) for asked in key.asked):
        return key
    return replace(key, foot=words("worksheet.key_foot_few"))


def _sheets(tasks: Sequence[Task], words: Words, *, daily: bool, key: bool) -> Iterator[Worksheet]:
    written: list[Asked] = []
    spoken: list[tuple[int, Task]] = []  # each with how many are written before it
    for task in tasks:
        if daily or task.kind != "pieces":  # a day has few: all have places of their own
            written.append(asked(task, words))
        else:
            spoken.append((len(written), task))
    first = words("plan.week", week=tasks[0].week)
    if daily:
        first = words("plan.beside", first=first, then=day_said(tasks[0], words))
    each = -(-len(written) // max(1, -(-len(written) // CELLS))) or CELLS  # pages filled alike
    starts = range(0, max(1, len(written)), each)
    for start in starts:
        here = tuple(written[start : start + each])
        beside = [t for before, t in spoken if min(before, starts[-1]) // each == start // each]
        yield Worksheet(
            week=_week_name(tasks[0], words),
            title=words("worksheet.key" if key else "worksheet.title"),
            day=first,
            asked=here,
            spoken=_spoken(beside, words, key=key),
            foot=words("worksheet.key_foot" if key else _foot(here)),
            words=_sheet_words(words),
            key=key,
            lead=words("worksheet.key_lead") if key else "",
            before=start,
            most=each if written else 0,
        )


def _foot(here: Sequence[Asked]) -> str:
    """Return the key of what a child reads below a worksheet: each move is written at once
    only where pieces and pencil go together."""
    stages = {one.stage for one in here}
    if not stages - {"pieces"}:
        return "worksheet.pieces_foot"
    return "worksheet.foot" if "both" in stages else "worksheet.written_foot"


def _spoken(tasks: Sequence[Task], words: Words, *, key: bool) -> str:
    if not tasks:
        return ""
    said = []
    for task in tasks:
        found = asked(task, words)
        rest = f" = {found.sum.rest}" if key else ""
        said.append(f"{found.sum}{rest}".replace(" ", "\xa0"))
    return words("worksheet.spoken", sums=phrases.in_row(said))


def _sheet_words(words: Words) -> SheetWords:
    return SheetWords(
        name=words("worksheet.name"),
        date=words("worksheet.date"),
        about=words("worksheet.about"),
        check=words("worksheet.check"),
        stages=tuple(words(f"stages.{stage}") for stage in STAGES),
        framed=words("worksheet.framed"),
        own=words("worksheet.own_sum"),
    )
