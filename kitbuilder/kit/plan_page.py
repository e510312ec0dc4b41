"""Turns a practice plan into its page to tick off, day by day, and its cards in order."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from kitbuilder.design.load import Words
from kitbuilder.kit.card_packs import answer, task_card
from kitbuilder.kit.card_records import CardWishes, Pack
from kitbuilder.kit.card_records import Task as CardTask
from kitbuilder.kit.records import Block, Say, Ticked
from kitbuilder.number import Sum
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.course.rungs import Rung
from kitbuilder.number.course.schedule import Task
from kitbuilder.number.course.stages import STAGES, Stage
from kitbuilder.number.facts import Fact


def plan_sums(plan: Sequence[Task]) -> tuple[Sum, ...]:
    """Return the sums of ``plan``, each once, in order."""
    return tuple(dict.fromkeys(task.item for task in plan if isinstance(task.item, Sum)))


def stage_of(task: Task) -> Stage:
    """Return the stage of a sum in a plan."""
    return next(stage for stage in STAGES if stage == task.kind)


def plan_pack(plan: Sequence[Task], wishes: CardWishes, words: Words) -> Pack:
    """Return a card for each sum of ``plan``, in its order, with the day on it."""
    cards = []
    for task in plan:
        if isinstance(task.item, Sum):
            asked = CardTask(task.item, stage_of(task))
            cards.append(task_card(asked, wishes, words, card_day(task, words)))
    return Pack(tasks=tuple(cards), answers=tuple(answer(sum_, words) for sum_ in plan_sums(plan)))


def plan_page(plan: Sequence[Task], words: Words) -> tuple[Block, ...]:
    """Return the page of ``plan``: under each week its days, each with a box to tick."""
    blocks: list[Block] = [
        Say("title", words("title.plan")),
        Say("body", words("plan.before")),
        Say("body", words("plan.day_is")),
        Say("body", words("plan.legend")),
    ]
    for (week, later), tasks in groupby(plan, lambda task: (task.week, task.phase == "return")):
        heading = words("plan.week", week=week)
        if later:
            heading = words("plan.beside", first=heading, then=words("plan.return"))
        blocks.append(Say("heading", heading))
        for _, day in groupby(tasks, lambda task: task.day):
            blocks.append(_day(tuple(day), words))
    blocks.append(Say("heading", words("plan.check")))
    blocks += (
        Say("step", line, f"{n}.") for n, line in enumerate(words.lines("plan.check_steps"), 1)
    )
    return tuple(blocks)


def _day(tasks: Sequence[Task], words: Words) -> Ticked:
    title = day_said(tasks[0], words)
    if tasks[0].phase == "check":
        title = words("plan.beside", first=title, then=words("plan.check"))
    return Ticked(title, tuple(_lines(tasks, words)))


def _lines(tasks: Sequence[Task], words: Words) -> Iterator[str]:
    for kind, those in groupby(tasks, lambda task: task.kind):
        listed = ", ".join(item_said(task.item, words).replace(" ", "\xa0") for task in those)
        yield words("plan.line", kind=words(f"plan.{kind}"), items=listed)


def day_said(task: Task, words: Words) -> str:
    """Return the day of ``task`` as words: weekday and date, or which of the week's it is."""
    if task.when is None:
        return words("plan.number", number=task.day)
    weekday = words.lines("plan.weekdays")[task.when.weekday()]
    return words("plan.day", weekday=weekday, date=task.when.isoformat())


def card_day(task: Task, words: Words) -> str:
    """Return what a card says of its day: the date, or its week and day."""
    if task.when is None:
        return words("plan.card_day", week=task.week, day=task.day)
    return day_said(task, words)


def item_said(item: Sum | Fact, words: Words) -> str:
    """Return a sum, or a small fact with its two steps through ten if it has them."""
    if isinstance(item, Fact) and item.crosses_ten:
        first, second = item.through_ten
        return words("plan.steps", fact=item, first=first, second=second)
    return str(item)


def kind_said(sum_: Sum, words: Words) -> str:
    """Return the kind of a sum: how many places it has and where it exchanges."""
    return _kind(sum_.places, pattern(sum_).name, words)


def rung_said(rung: Rung, words: Words) -> str:
    """Return a kind of sum of the ladder, as ``kind_said`` does."""
    return _kind(rung.places, rung.pattern, words)


def _kind(places: int, name: str, words: Words) -> str:
    return words("plan.kind", places=places, pattern=words(f"patterns.{name}"))
