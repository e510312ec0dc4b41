"""Turns a list of days into the facts of each day, every fact coming back at growing gaps.

Sources: Cepeda et al. 2008, Psychological Science 19:1095-1102 (the best gap is about a fifth
of the delay until it is needed for some weeks, about a twentieth for a year; adults, verbal
facts); IES 2007, practice guide NCER 2007-2004 (meet an idea again after weeks to months).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from random import Random

from kitbuilder.number.facts import Fact

RETURN_GAPS = (timedelta(weeks=1), timedelta(weeks=5), timedelta(weeks=25))
"""From the last day of practice to the first return, and on to the next two.

Each is a fifth of the next, so that each return lies at the gap found best for the wait that
follows it; the last serves a year, of which five weeks and twenty-five are a tenth and a half.
So no single fact meets all three: the returns share out the facts, and each comes back on one of
them at most. Its own gap is the time since it was last met.
"""


@dataclass(frozen=True, slots=True)
class FactDay:
    """How many facts a day has room for: ``most`` in all, ``new`` of them at most for the first
    time. On a day of the check, or of a return later in the year (``back``), any fact may come
    whose gap grows, however little; the returns share out all facts between them."""

    when: date
    most: int
    new: int
    check: bool = False
    back: bool = False


@dataclass(slots=True)
class _Memory:
    """When a fact was last met, and after how many days."""

    last: date
    gap: int = 0

    @property
    def due(self) -> date:
        return self.last + timedelta(days=max(1, 2 * self.gap))

    def grows(self, when: date) -> bool:
        return (when - self.last).days > self.gap


def fact_days(
    days: Sequence[FactDay], facts: Sequence[Fact], random: Random
) -> tuple[tuple[Fact, ...], ...]:
    """Return the facts of each of ``days`` (in order of date): new ones, then those come back.

    Facts are met for the first time in the order given, and come back shuffled: the next day
    at the soonest, then each time after a gap twice as long as the last, or longer when a day
    is full. So the gaps of a fact always grow, in days of the calendar.
    """
    memories: dict[Fact, _Memory] = {}
    waiting = list(facts)
    owed = dict.fromkeys(facts)  # facts that no return has brought back yet
    found = []
    for number, day in enumerate(days):
        new = tuple(waiting[: min(day.new, day.most)])
        waiting = waiting[len(new) :]
        if day.back:
            returns = sum(later.back for later in days[number:])
            share = min(day.most, -(-len(owed) // returns))
            again = _again(day, {f: memories[f] for f in owed if f in memories}, share, random)
            owed = {fact: None for fact in owed if fact not in again}
        else:
            again = _again(day, memories, day.most - len(new), random)
        for fact in again:
            memory = memories[fact]
            memory.gap, memory.last = (day.when - memory.last).days, day.when
        memories |= {fact: _Memory(day.when) for fact in new}
        found.append(new + again)
    return tuple(found)


def _again(
    day: FactDay, memories: dict[Fact, _Memory], room: int, random: Random
) -> tuple[Fact, ...]:
    """Return the facts whose time has come, those that have waited longest picked first."""
    ready = [
        fact
        for fact, memory in memories.items()
        if (memory.grows(day.when) if day.check or day.back else memory.due <= day.when)
    ]
    random.shuffle(ready)
    chosen = sorted(ready, key=lambda fact: memories[fact].due)[:room]
    random.shuffle(chosen)
    return tuple(chosen)
