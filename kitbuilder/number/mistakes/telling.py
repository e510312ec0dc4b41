"""What sums can tell: whether each habit that shows gives an answer of its own."""

from collections.abc import Iterable

from kitbuilder.frozen import frozen
from kitbuilder.number.facts import Fact
from kitbuilder.number.mistakes.foreseen import shown
from kitbuilder.number.mistakes.habits import HABITS, outcomes
from kitbuilder.number.mistakes.profiles import answer_of
from kitbuilder.number.sums import Sum


def tells(whole: int, part: int) -> bool:
    """Say whether all habits that show in ``whole`` − ``part`` give different wrong answers.

    143 − 28 does not tell: turned digits and a column not lowered both give 125, as they do
    wherever each column short as written is short by exactly 5 (Brown & Burton 1978,
    Cognitive Science 2:155-192). Slips and swapped digits do not count.
    """
    rest = whole - part
    wrong = [given for given in outcomes(whole, part) if given != rest]  # one may be stuck: None
    return len(set(wrong)) == len(wrong)


def alike(sum_: Sum) -> int | None:
    """Return the wrong answer that turned digits and a column not lowered both give to ``sum_``.

    None where they give two, as 365 and 345 for 403 − 168, though its ones are short by 5.
    """
    turned, kept = (answer_of(key, None, sum_) for key in ("turned", "not-lowered"))
    return turned if turned == kept != sum_.rest else None


def tells_alone(fact: Fact) -> bool:
    """Say whether a sum in which only the column of ``fact`` is short can tell.

    Every other column is then done alike by all habits that lower nothing, so this column
    decides: short by 5, turned digits and a column not lowered agree; under a zero, turned
    digits and the bottom digit written for the answer agree.
    """
    return fact.whole > 10 and fact.rest != 5


@frozen
class Reach:
    """The habits a pack of sums can show, and those it cannot; keys, most likely first."""

    shows: tuple[str, ...]
    hides: tuple[str, ...]


def reach(sums: Iterable[Sum]) -> Reach:
    """Return which habits show in at least one of ``sums``."""
    seen = {key for sum_ in sums for key, _ in shown(sum_.whole, sum_.part)}
    keys = [habit.key for habit in HABITS]
    return Reach(
        tuple(key for key in keys if key in seen), tuple(key for key in keys if key not in seen)
    )
