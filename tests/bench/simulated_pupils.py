"""Classes drawn from the model of the papers: how often their mistake is named, rightly or not.

    python tests/bench/simulated_pupils.py [PUPILS]

A pupil works every sum on paper (``tests/paper.py``, crossing out digits) with one habit or none.
A habit is followed in every sum, or in 85 of 100. Each fact that is worked out is one out with the
chance of a slip. Nothing here is shared with the model but the sums and the answers.

Measured with 100 pupils a habit, eleven habits, and 400 right ones (three minutes); named, and the
habit named least often; wrong names 0.1 % at most in six sums, none seen in nine and twelve; no
right child was accused:

| telling sums | slips | followed always | in 85 of 100 |
|---|---|---|---|
| 6 | 5 % | 98.3, least 91 | 89.0, least 52 |
| 6 | 10 % | 96.9, least 81 | 87.7, least 56 |
| 9 | 5 % | 99.2, least 95 | 96.4, least 80 |
| 9 | 10 % | 98.9, least 93 | 95.9, least 81 |
| 12 | 5 % | 99.9, least 99 | 98.8, least 93 |
| 12 | 10 % | 99.2, least 92 | 97.1, least 85 |

Asked one by one 2.9 sums on average at 5 and at 10 % slips, 93 of 100 within six. In one column
alone, twelve sums, 5 % slips: no hand-in in the ones 100 %, in the tens 94 %; smaller from larger
100 % in both. Of the eight published sums 73 - 58 is right most often and 507 - 49 least, as
published, but from 63 to 76 in 100, where the pupils were from 57 to 90; 253 - 178 is too easy.
"""

import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[1]))

from paper import Paper

from kitbuilder.number import Sum
from kitbuilder.number.choice.pool import Wish
from kitbuilder.number.choice.telling_pack import candidates, telling_pack
from kitbuilder.number.mistakes.asking import most_telling
from kitbuilder.number.mistakes.habits import HABITS as MODEL
from kitbuilder.number.mistakes.posterior import Answered
from kitbuilder.number.mistakes.reading import Reading, Verdict, read

HABITS = (
    "turned",
    "not-lowered",
    "zero-becomes-nine",
    "zero-becomes-ten",
    "zero-skipped",
    "zero-top-bottom",
    "zero-top-zero",
    "empty-not-lowered",
    "from-leftmost",
    "zero-when-short",
    "added",
)


@dataclass(frozen=True)
class Child:
    """A habit (none: all right; with a column: only there), how steady it is, and slips."""

    habit: str = ""
    steady: float = 1.0
    slips: float = 0.1
    column: int | None = None

    def answer(self, sum_: Sum, random: Random) -> int | None:
        habit = self.habit if random.random() < self.steady else ""
        found = Paper(sum_.whole, sum_.part, habit, self.column).answer()
        if found is None:
            return None
        digits = [int(c) for c in str(found).zfill(sum_.places)]
        below = str(sum_.part).rjust(sum_.places)
        for k, under in enumerate(below[::-1]):
            if under not in " 0" and random.random() < self.slips:
                at = len(digits) - 1 - k
                near = [d for d in (digits[at] - 1, digits[at] + 1) if 0 <= d <= 9]
                digits[at] = random.choice(near)
        return int("".join(map(str, digits)))


def marked(child: Child, sums: Sequence[Sum], random: Random) -> Reading:
    given = [(s, child.answer(s, random)) for s in sums]
    return read([Answered(s, a, k) for k, (s, a) in enumerate(given) if a is not None])


@dataclass
class Tally:
    pupils: int = 0
    named: int = 0
    wrong: int = 0

    def count(self, child: Child, reading: Reading) -> None:
        named = reading.named if reading.verdict is Verdict.HABIT else ()
        self.pupils += 1
        self.named += child.habit in named
        self.wrong += any(key != child.habit for key in named)

    def __str__(self) -> str:
        return (
            f"named {100 * self.named / self.pupils:5.1f} %, "
            f"wrongly {100 * self.wrong / self.pupils:4.2f} %"
        )


def classes(sums: Sequence[Sum], pupils: int, slips: float, steady: float, seed: int) -> Tally:
    """Print the shares for each habit with these sums, and for children who work rightly."""
    random = Random(seed)
    whole, worst = Tally(), 101.0
    for habit in HABITS:
        tally = Tally()
        for _ in range(pupils):
            child = Child(habit, steady, slips)
            reading = marked(child, sums, random)
            tally.count(child, reading)
            whole.count(child, reading)
        worst = min(worst, 100 * tally.named / tally.pupils)
        print(f"    {habit:20} {tally}")
    right = Tally()
    for _ in range(4 * pupils):
        right.count(Child(slips=slips), marked(Child(slips=slips), sums, random))
    print(
        f"  all {whole}; worst habit {worst:.1f} %; "
        f"right children accused {right.wrong / right.pupils:.2%}"
    )
    return whole


def asked(child: Child, hand: Sequence[Sum], random: Random, most: int = 12) -> tuple[int, Reading]:
    """Return how many sums were asked one by one until it was sure, and what was read."""
    answered: list[Answered] = []
    sums: list[Sum] = []
    reading = read(answered)
    while len(sums) < most and not reading.sure:
        (sum_,) = most_telling(reading.after, hand, 1, sums)
        sums.append(sum_)
        answer = child.answer(sum_, random)
        if answer is not None:
            answered.append(Answered(sum_, answer, len(sums)))
        reading = read(answered)
    return len(sums), reading


PUBLISHED = {
    (73, 58): 90.1,
    (317, 94): 83.0,
    (784, 693): 82.3,
    (156, 68): 82.3,
    (2245, 418): 79.6,
    (3642, 753): 76.5,
    (253, 178): 75.9,
    (507, 49): 56.8,
}
"""Shares right of 294 pupils mostly 8 to 9 (de Chiusole & Stefanutti 2013, Electronic Notes in
Discrete Mathematics 42:41-48; the data set ``subtraction13`` of the R package ``pks`` has who was
right, not what was written, and is in none of the registries reached)."""


def published(pupils: int) -> None:
    """Print the shares right in a class drawn by the model, beside the published ones."""
    random = Random(8)
    shares = {habit.key: habit.per_cent for habit in MODEL}
    keys = ["", *shares]
    weights = [100 - sum(shares.values()), *shares.values()]
    rights = dict.fromkeys(PUBLISHED, 0)
    for key in random.choices(keys, weights, k=pupils):
        child = Child(key, random.choice((1.0, 0.85)), random.choice((0.02, 0.05)))
        for whole, part in PUBLISHED:
            rights[whole, part] += child.answer(Sum(whole, part), random) == whole - part
    for (whole, part), share in PUBLISHED.items():
        ours = 100 * rights[whole, part] / pupils
        print(f"  {whole} - {part}: right {ours:.1f} %, published {share} %")


def main(pupils: int) -> None:
    """Print every figure."""
    print("eight sums, a class by the shares of the model")
    published(20 * pupils)
    for count in (6, 9, 12):
        sums = telling_pack(Wish(3), count, 1)
        for slips, steady in ((0.05, 1.0), (0.1, 1.0), (0.05, 0.85), (0.1, 0.85)):
            print(f"{count} telling sums, slips {slips:.0%}, followed {steady:.0%}")
            classes(sums, pupils, slips, steady, count)
    hand = candidates(Wish(3), 1)
    for slips in (0.05, 0.1):
        random, steps, tally = Random(3), [], Tally()
        for habit in ("", *HABITS):
            for _ in range(max(1, pupils // 4)):
                child = Child(habit, 1.0, slips)
                number, reading = asked(child, hand, random)
                steps.append(number)
                if habit:
                    tally.count(child, reading)
        within = sum(number <= 6 for number in steps) / len(steps)
        print(
            f"asked one by one, slips {slips:.0%}: {sum(steps) / len(steps):.2f} sums, "
            f"{within:.0%} within 6; {tally}"
        )
    sums = telling_pack(Wish(3), 12, 1)
    for habit in ("not-lowered", "turned"):
        for column in (0, 1):
            random, tally = Random(4), Tally()
            for _ in range(pupils):
                child = Child(habit, 1.0, 0.05, column)
                tally.count(child, marked(child, sums, random))
            print(f"12 telling sums, {habit} in column {column} alone: {tally}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)
