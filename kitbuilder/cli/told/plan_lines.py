"""A practice plan as lines of plain text: a block a week, under each day what to do."""

import re
import textwrap
from collections.abc import Iterator
from itertools import groupby
from typing import get_args

from kitbuilder.design.load import Words
from kitbuilder.kit import phrases
from kitbuilder.kit.course.plan_words import day_said, item_said, kind_name, kind_said
from kitbuilder.number.course.schedule import Kind, Plan, Task
from kitbuilder.number.sums import Sum

WIDTH = 100
INDENT = 4


def plan_lines(made: Plan, words: Words) -> Iterator[str]:
    """Yield the lines of the plan, and after it how the readiness check is done."""
    yield words("plan.before")
    parts = any(isinstance(t.item, Sum) and t.item.scale.decimals for t in made.tasks)
    guess = (words.decimal if parts else words)("script.guess")
    yield from textwrap.wrap(words("plan.day_is", guess=guess), WIDTH)
    yield words("plan.legend")
    coming = _taught(made, words)
    for (number, phase), tasks in groupby(made.tasks, _week):
        yield ""
        later = f" – {words('plan.return')}" if phase == "return" else ""
        yield words("plan.week", week=number) + later
        for _, day in groupby(tasks, lambda task: task.day):
            yield from _day(tuple(day), words, coming)
    yield ""
    yield words("plan.check")
    for number, line in enumerate(words.lines("plan.check_steps"), 1):
        yield f"{number}. {line}"


def _week(task: Task) -> tuple[int, str]:
    return task.week, "return" if task.phase == "return" else "practice"


def _taught(made: Plan, words: Words) -> set[str]:
    """Return the kinds of sums that are new in the plan: its first, and all not only written.

    A kind that was skipped comes back in writing alone.
    """
    sums = [(task.item, task.kind) for task in made.tasks if isinstance(task.item, Sum)]
    return {kind_said(s, words) for k, (s, kind) in enumerate(sums) if not k or kind != "written"}


def _day(tasks: tuple[Task, ...], words: Words, coming: set[str]) -> Iterator[str]:
    """Yield the lines of one day; the kinds of sums said to be new leave those ``coming``."""
    check = f" – {words('plan.check')}" if tasks[0].phase == "check" else ""
    yield f"  {day_said(tasks[0], words)}{check}"
    kinds = {kind_said(t.item, words): None for t in tasks if isinstance(t.item, Sum)}
    new = [kind for kind in kinds if kind in coming]
    coming.difference_update(new)
    if new:
        yield from _wrapped("", words("plan.kinds", kinds="; ".join(new)))
    width = max(len(kind_name(kind, words)) for kind in get_args(Kind)) + 2
    for kind, those in groupby(tasks, lambda task: task.kind):
        listed = phrases.in_row([item_said(task.item, words) for task in those])
        yield from _wrapped(kind_name(kind, words).ljust(width), listed)


def _wrapped(label: str, text: str) -> list[str]:
    """Return ``text`` after ``label``, on lines that end with a whole item."""
    solid = re.sub(r"(?<![,;]) ", "\N{NO-BREAK SPACE}", text)
    lines = textwrap.wrap(
        solid if label else text,
        WIDTH,
        initial_indent=" " * INDENT + label,
        subsequent_indent=" " * (INDENT + len(label)),
        break_on_hyphens=False,
    )
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in lines]
