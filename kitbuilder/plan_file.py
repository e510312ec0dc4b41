"""Turns a practice plan into a table of comma-separated values, and such a table into its tasks."""

import csv
import io
from datetime import date
from typing import TypeVar, get_args

from kitbuilder.errors import RefusedError
from kitbuilder.number.facts import Fact
from kitbuilder.number.patterns import pattern
from kitbuilder.number.plan import Kind, Phase, Task
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
    "seconds",
)
"""``date`` is written 2027-01-11; ``phase`` is practice, check or return; ``kind`` is fact,
pieces or written; ``exchange`` names a sum's pattern; ``to_ten`` and ``then`` are the two steps
of a fact that crosses ten. No cell can be taken for a formula or, but for the first, a date."""

REQUIRED = tuple(name for name in COLUMNS if name not in ("exchange", "to_ten", "then"))

LARGEST_PLAN = 8_000_000
"""Bytes a plan file may have."""

MOST_ROWS = 100_000
"""The largest plan has fewer: 367 days of at most 240 sums of half a minute and 9 facts."""

MOST = {"week": 200, "day": 7, "whole": LARGEST, "part": LARGEST, "seconds": 3600}
"""The largest number each column may hold."""


def plan_table(tasks: tuple[Task, ...]) -> str:
    """Return ``tasks`` as lines of comma-separated values under a line of ``COLUMNS``."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    writer.writerows(_row(task) for task in tasks)
    return out.getvalue()


def _row(task: Task) -> tuple[object, ...]:
    item = task.item
    steps: tuple[object, object] = ("", "")
    if isinstance(item, Fact) and item.crosses_ten:
        steps = item.through_ten
    exchange = pattern(item).name if isinstance(item, Sum) else ""
    head = (task.when.isoformat(), task.week, task.day, task.phase, task.kind)
    return (*head, item.whole, item.part, exchange, *steps, task.seconds)


def read_plan(text: str) -> tuple[Task, ...]:
    """Return the tasks in ``text``, a table as ``plan_table`` writes it, in the order of its rows.

    Columns are found by name, in any order; those not required may be missing and others are
    passed over. Semicolons will do for commas, as some spreadsheets write them. Raises
    ``RefusedError`` naming the line that cannot be read.
    """
    if len(text) > LARGEST_PLAN:
        raise RefusedError(f"The plan is larger than {LARGEST_PLAN // 1_000_000} MB; split it.")
    first = text.partition("\n")[0]
    delimiter = ";" if first.count(";") > first.count(",") else ","
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    tasks: list[Task] = []
    try:
        header = [name.strip().lower() for name in next(rows, [])]
        missing = [name for name in REQUIRED if name not in header]
        if missing:
            raise RefusedError(
                f"The plan lacks the column {missing[0]!r} in its first line; "
                "make it with: kitbuilder plan --csv FILE."
            )
        for row in rows:
            if any(cell.strip() for cell in row):
                cells = dict(zip(header, (cell.strip() for cell in row), strict=False))
                tasks.append(_task(cells, rows.line_num))
            if len(tasks) > MOST_ROWS:
                raise RefusedError(f"The plan has more than {MOST_ROWS} rows; split it.")
    except csv.Error as error:
        raise RefusedError(
            f"Line {rows.line_num} of the plan cannot be read ({error}); mend it, or make the plan "
            "anew with: kitbuilder plan --csv FILE."
        ) from None
    if not tasks:
        raise RefusedError("The plan holds no task; make one with: kitbuilder plan --csv FILE.")
    return tuple(tasks)


def _task(cells: dict[str, str], line: int) -> Task:
    kind = _one_of("kind", cells, get_args(Kind), line)
    numbers = {name: _number(name, cells, line) for name in MOST}
    try:
        item = (Fact if kind == "fact" else Sum)(numbers["whole"], numbers["part"])
    except ValueError:
        raise RefusedError(
            f"Line {line} of the plan: {numbers['whole']} − {numbers['part']} is no "
            f"{'small fact' if kind == 'fact' else 'subtraction'}; correct whole and part."
        ) from None
    return Task(
        when=_date(cells, line),
        week=numbers["week"],
        day=numbers["day"],
        phase=_one_of("phase", cells, get_args(Phase), line),
        kind=kind,
        item=item,
        seconds=numbers["seconds"],
    )


def _date(cells: dict[str, str], line: int) -> date:
    typed = cells.get("date", "")
    try:
        return read_date(typed)
    except ValueError:
        raise RefusedError(
            f"Line {line} of the plan: date is {typed[:40]!r}; write it as 2027-01-11."
        ) from None


def read_date(typed: str) -> date:
    """Return the date typed as year, month and day (2027-01-11), else raise ``ValueError``."""
    if len(typed) != 10 or not typed.isascii():
        raise ValueError(typed)
    return date.fromisoformat(typed)


def _number(name: str, cells: dict[str, str], line: int) -> int:
    typed = cells.get(name, "")
    good = typed.isascii() and typed.isdigit() and len(typed) <= 6
    if not (good and int(typed) <= MOST[name]):
        raise RefusedError(
            f"Line {line} of the plan: {name} is {typed[:40]!r}; "
            f"it must be a whole number up to {MOST[name]}."
        )
    return int(typed)


def _one_of(name: str, cells: dict[str, str], known: tuple[T, ...], line: int) -> T:
    typed = cells.get(name, "")
    for value in known:
        if typed == value:
            return value
    raise RefusedError(
        f"Line {line} of the plan: {name} is {typed[:40]!r}; it must be {' or '.join(known)}."
    )
