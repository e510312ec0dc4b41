"""A practice plan as a table of comma-separated values, written and read."""

import csv
import io
from collections.abc import Sequence
from datetime import date
from itertools import takewhile
from typing import NoReturn, TypeVar, get_args

from kitbuilder.errors import RefusedError, Said, Where
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.course.course_outline import Phase
from kitbuilder.number.course.schedule import Kind, Task
from kitbuilder.number.facts import Fact
from kitbuilder.number.sums import LARGEST, Sum

T = TypeVar("T", bound=str)

COLUMNS = (
    "date",
    "week",
    "day",
    "phase",
    "kind",
    "whole",
    "part",
    "exchange",
    "to_ten",
    "then",
)
"""``date`` is written 2027-01-11, or empty in all rows; ``phase`` is practice, check or return;
``kind`` is fact, or a sum's stage: pieces, both, drawn or written; ``exchange`` names a sum's
pattern; ``to_ten`` and ``then`` are the two steps of a fact that crosses ten. No cell can be
taken for a formula or, but for the first, a date."""

FOLLOWS = ("exchange", "to_ten", "then")
"""What whole and part settle: these cells may be empty or missing, but not say otherwise."""

PLAN = Said("where.plan")

REQUIRED = tuple(name for name in COLUMNS if name not in FOLLOWS)

LARGEST_PLAN = 8_000_000
"""Bytes a plan file may have."""

MOST_ROWS = 100_000
"""The largest plan has fewer: 367 days of at most ten sums and ten facts."""

BOUNDS = {
    "week": (1, 200),
    "day": (1, 7),
    "whole": (1, LARGEST),
    "part": (0, LARGEST),
}
"""The least and the largest number each column may hold."""


def plan_table(tasks: tuple[Task, ...]) -> str:
    """Return ``tasks`` as lines of comma-separated values under a line of ``COLUMNS``."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    writer.writerows(_row(task) for task in tasks)
    return out.getvalue()


def _row(task: Task) -> tuple[object, ...]:
    item = task.item
    when = task.when.isoformat() if task.when else ""
    head = (when, task.week, task.day, task.phase, task.kind)
    return (*head, item.whole, item.part, *_following(item))


def _following(item: Sum | Fact) -> tuple[str, str, str]:
    """Return the cells of ``FOLLOWS`` for ``item``."""
    if isinstance(item, Sum):
        return pattern(item).name, "", ""
    to_ten, then = item.through_ten if item.crosses_ten else ("", "")
    return "", str(to_ten), str(then)


def read_plan(text: str, where: Where = PLAN) -> tuple[Task, ...]:
    """Return the tasks in ``text``, a table as ``plan_table`` writes it, in the order of its rows.

    Columns are found by name, in any order; those not required may be missing and others are
    passed over. Semicolons will do for commas, as some spreadsheets write them. Raises
    ``RefusedError`` naming the line that cannot be read, or that does not go with those above it;
    ``where`` names the file in it.
    """
    if len(text) > LARGEST_PLAN:
        raise RefusedError("file.too-large", where=where, most=LARGEST_PLAN // 1000)
    first = text.partition("\n")[0]
    delimiter = ";" if first.count(";") > first.count(",") else ","
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    tasks: list[Task] = []
    try:
        header = _header(next(rows, []), where)
        for row in rows:
            if any(cell.strip() for cell in row):
                cells = dict(zip(header, (cell.strip() for cell in row), strict=False))
                task = _task(cells, rows.line_num)
                _check_days(tasks, task, rows.line_num)
                tasks.append(task)
            if len(tasks) > MOST_ROWS:
                raise RefusedError("table.too-many-rows", where=where, most=MOST_ROWS, field="plan")
    except csv.Error:
        raise RefusedError("table.no-row").at(PLAN, rows.line_num, field="plan") from None
    if not tasks:
        raise RefusedError("plan.no-task", where=where, field="plan")
    return tuple(tasks)


def _header(row: list[str], where: Where) -> list[str]:
    header = [name.strip().lower() for name in row]
    twice = [name for name in COLUMNS if header.count(name) > 1]
    if twice:
        raise RefusedError("plan.column-twice", where=where, column=twice[0], field="plan")
    missing = [name for name in REQUIRED if name not in header]
    if missing:
        raise RefusedError("plan.lacks-column", where=where, column=missing[0], field="plan")
    return header


def _refuse(line: int, name: str, typed: object, advice: Said) -> NoReturn:
    wrong = RefusedError("plan.cell", column=name, given=str(typed), advice=advice)
    raise wrong.at(PLAN, line, field="plan")


def _task(cells: dict[str, str], line: int) -> Task:
    kind = _one_of("kind", cells, get_args(Kind), line)
    numbers = {name: _number(name, cells, line) for name in BOUNDS}
    try:
        item = (Fact if kind == "fact" else Sum)(numbers["whole"], numbers["part"])
    except ValueError:
        whole, part = numbers["whole"], numbers["part"]
        if kind == "fact":
            wrong = RefusedError("plan.no-fact", whole=whole, part=part)
        else:
            wrong = RefusedError("plan.no-sum", whole=whole, part=part)
        raise wrong.at(PLAN, line, field="plan") from None
    for name, right in zip(FOLLOWS, _following(item), strict=True):
        if cells.get(name, "") not in ("", right):
            needs = Said("plan.needs", item=item, right=right)
            _refuse(line, name, cells[name], needs if right else Said("plan.has-none", item=item))
    return Task(
        when=_date(cells, line),
        week=numbers["week"],
        day=numbers["day"],
        phase=_one_of("phase", cells, get_args(Phase), line),
        kind=kind,
        item=item,
    )


def _check_days(above: Sequence[Task], task: Task, line: int) -> None:
    """Refuse a row whose date, week, day and phase do not go with those of the rows ``above``.

    Days may have been left out, moved, or put off for a holiday, so a week may come later than
    its number tells; but it cannot come sooner, and its days lie within seven.
    """
    if not above:
        return
    last = above[-1]
    if (last.when is None) != (task.when is None):
        _refuse(line, "date", task.when or "", Said("plan.all-dates"))
    if task.when is None or last.when is None:
        _check_order(last, task, line)
        return
    when = task.when
    if when < last.when:
        _refuse(line, "date", when, Said("plan.sort", least=last.when))
    if when == last.when:
        for name in ("week", "day", "phase"):
            said, before = getattr(task, name), getattr(last, name)
            if said != before:
                _refuse(line, name, said, Said("plan.same-date", column=name, before=before))
        return
    most = last.week + -(-(when - last.when).days // 7)
    if not last.week <= task.week <= most:
        _refuse(line, "week", task.week, Said("plan.week", when=when, least=last.week, most=most))
    if task.week > last.week:
        return
    *_, first = (o.when for o in takewhile(lambda o: o.week == task.week, reversed(above)))
    if first and (when - first).days > 6:
        _refuse(line, "week", task.week, Said("plan.week-began", first=first, when=when))
    if task.day <= last.day:
        _refuse(line, "day", task.day, Said("plan.later-day", last=last.day))


def _check_order(last: Task, task: Task, line: int) -> None:
    """Refuse a row without a date whose week, day and phase do not go with the ``last`` row's."""
    if task.week < last.week:
        _refuse(line, "week", task.week, Said("plan.sort-weeks", least=last.week))
    if task.week > last.week:
        return
    if task.day < last.day:
        _refuse(line, "day", task.day, Said("plan.sort-days", least=last.day))
    if task.day == last.day and task.phase != last.phase:
        advice = Said("plan.same-day", before=last.phase)
        _refuse(line, "phase", task.phase, advice)


def _date(cells: dict[str, str], line: int) -> date | None:
    typed = cells.get("date", "")
    if not typed:
        return None
    try:
        return read_date(typed)
    except ValueError:
        _refuse(line, "date", typed, Said("plan.write-date"))


def read_date(typed: str) -> date:
    """Return the date typed as year, month and day (2027-01-11), else raise ``ValueError``."""
    if len(typed) != 10 or not typed.isascii() or typed < "1900":
        raise ValueError(typed)
    return date.fromisoformat(typed)


def _number(name: str, cells: dict[str, str], line: int) -> int:
    typed, (least, most) = cells.get(name, ""), BOUNDS[name]
    good = typed.isascii() and typed.isdigit() and len(typed) <= 6
    if not (good and least <= int(typed) <= most):
        _refuse(line, name, typed, Said("plan.write-number", least=least, most=most))
    return int(typed)


def _one_of(name: str, cells: dict[str, str], known: tuple[T, ...], line: int) -> T:
    typed = cells.get(name, "")
    for value in known:
        if typed == value:
            return value
    _refuse(line, name, typed, Said("plan.write-one-of", known=known))
