"""Children who need the same thing, so that they may be taught together."""

from collections.abc import Sequence

from kitbuilder.frozen import frozen
from kitbuilder.number.mistakes.decimal import OF_DECIMALS, POINT
from kitbuilder.number.mistakes.habits import ALL_HABITS
from kitbuilder.number.mistakes.one_out import IN_ANY_SUM
from kitbuilder.number.mistakes.reading import Reading, Verdict


@frozen
class HabitGroup:
    """Children with one habit: its ``key``, and their indices among the readings."""

    key: str
    children: tuple[int, ...]


@frozen
class Groups:
    """A class by what each child needs next; indices among the readings.

    ``together``: one habit each. ``told``: slips, of which sums on paper tell more first.
    ``again``: slips, one sum again alone. ``watch``: no known mistake, to be watched with the
    pieces. ``more``: too little to say. ``ready``: all right.
    """

    together: tuple[HabitGroup, ...]
    told: tuple[int, ...]
    again: tuple[int, ...]
    watch: tuple[int, ...]
    more: tuple[int, ...]
    untried: tuple[int, ...]
    ready: tuple[int, ...]

    @property
    def others(self) -> tuple[tuple[str, tuple[int, ...]], ...]:
        """Those who are not taught together, under the name of what they need."""
        return (
            ("told", self.told),
            ("again", self.again),
            ("watched", self.watch),
            ("more", self.more),
            ("untried", self.untried),
            ("ready", self.ready),
        )


def groups(readings: Sequence[Reading]) -> Groups:
    """Return the groups of a class; a child with two habits stands with the likelier."""
    held: dict[str, list[int]] = {}
    for at, reading in enumerate(readings):
        if reading.verdict is Verdict.HABIT:
            held.setdefault(reading.named[0], []).append(at)
    order = [*(habit.key for habit in ALL_HABITS), *IN_ANY_SUM, *OF_DECIMALS, POINT]
    together = sorted(held.items(), key=lambda item: (-len(item[1]), order.index(item[0])))

    def those(verdict: Verdict) -> tuple[int, ...]:
        return tuple(at for at, reading in enumerate(readings) if reading.verdict is verdict)

    slips = those(Verdict.SLIPS)
    return Groups(
        tuple(HabitGroup(key, tuple(children)) for key, children in together),
        tuple(at for at in slips if readings[at].told_first),
        tuple(at for at in slips if not readings[at].told_first),
        those(Verdict.UNKNOWN),
        those(Verdict.MORE),
        those(Verdict.UNTRIED),
        those(Verdict.RIGHT),
    )
