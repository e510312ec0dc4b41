"""Small facts as a short list, runs of parts joined."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from kitbuilder.errors import Said

if TYPE_CHECKING:
    from kitbuilder.number.facts import Fact


def facts_listed(facts: "Sequence[Fact]") -> tuple[str | Said, ...]:
    """Return facts by their wholes: "11 − 2 to 11 − 9, 12 − 3", runs of parts joined."""
    runs: list[list[Fact]] = []
    for fact in facts:
        last = runs[-1][-1] if runs else None
        if last and fact.whole == last.whole and fact.part == last.part + 1:
            runs[-1].append(fact)
        else:
            runs.append([fact])
    return tuple(
        Said("list.run", first=r[0], last=r[-1]) if len(r) > 1 else str(r[0]) for r in runs
    )
