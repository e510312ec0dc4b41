"""Classes drawn from replayed papers (``tests/pupils.py``): how often their mistake is named.

    python tests/bench/simulated_pupils.py [PUPILS A HABIT]

What it prints is in the README beside it.
"""

import sys
from itertools import product
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[1]))

from pupils import HABITS, Child, asked_tally, tally

from kitbuilder.number import Sum
from kitbuilder.number.choice.pool import Wish
from kitbuilder.number.choice.telling_pack import candidates, telling_pack
from kitbuilder.number.mistakes.habits import HABITS as MODEL
from kitbuilder.number.mistakes.separation import least_apart

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
Discrete Mathematics 42:41-48; read)."""


def published(pupils: int) -> None:
    """Print the shares right in a class drawn by the model, beside the published ones."""
    random = Random(8)
    shares = {habit.key: habit.per_cent for habit in MODEL}
    weights = [100 - sum(shares.values()), *shares.values()]
    rights = dict.fromkeys(PUBLISHED, 0)
    for key in random.choices(["", *shares], weights, k=pupils):
        child = Child(key, random.choice((1.0, 0.85)), random.choice((0.02, 0.05)))
        for whole, part in PUBLISHED:
            rights[whole, part] += child.answer(Sum(whole, part), random) == whole - part
    for (whole, part), share in PUBLISHED.items():
        print(f"| {whole} - {part} | {share} | {100 * rights[whole, part] / pupils:.1f} |")


def packs(pupils: int) -> None:
    """Print what telling packs of several sizes name."""
    for count in (2, 3, 4, 6, 9, 12):
        sums = telling_pack(Wish(3), count, 1)
        print(f"{count} sums tell single habits and pairs apart {least_apart(sums)} times")
        for slips, steady in product((0.05, 0.1), (1.0, 0.85)):
            found = tally([Child(h, steady, slips) for h in HABITS], pupils, sums, count)
            right = tally([Child(slips=slips)], 5 * pupils, sums, count)
            least = min(found.shares, key=lambda habit: found.shares[habit])
            print(
                f"| {count} | {slips:.0%} | {steady:.0%} | {found.average:.1f} | "
                f"{found.shares[least]:.1f} ({least}) | {found.wrongly:.2f} | {right.wrongly:.2f} |"
            )
            if count == 9 and slips == 0.1:
                named = found.shares[least]
                held(f"nine sums, {least} named", named, least=95 if steady == 1 else 93)
                held("nine sums: wrong names", found.wrongly, most=0.5)
                held("nine sums: right pupils accused", right.wrongly, most=0.5)


def asked(pupils: int) -> None:
    """Print how many sums are asked one by one, and what they name."""
    hand = candidates(Wish(3), 1)
    for slips, steady in product((0.05, 0.1), (1.0, 0.85)):
        mean, found = asked_tally([Child(h, steady, slips) for h in HABITS], pupils, hand, 3)
        rightly, right = asked_tally([Child(slips=slips)], 5 * pupils, hand, 3)
        mean = (mean * len(HABITS) + rightly) / (len(HABITS) + 1)
        least = min(found.shares, key=lambda habit: found.shares[habit])
        print(
            f"| asked | {slips:.0%} | {steady:.0%} | {mean:.2f} sums | {found.average:.1f} | "
            f"{found.shares[least]:.1f} ({least}) | {found.wrongly:.2f} | {right.wrongly:.2f} |"
        )
        held("asked: mean of sums", mean, most=3.0 if steady == 1 else 3.2)
        held("asked: named", found.average, least=97)
        held("asked: wrong names", found.wrongly, most=0.5)
        held("asked: right pupils accused", right.wrongly, most=0.5)


MISSED: list[str] = []


def held(what: str, found: float, least: float = 0.0, most: float = 100.0) -> None:
    """Note a limit that is missed; the run then ends with status 1."""
    if not least <= found <= most:
        MISSED.append(f"{what}: {found:.2f}, allowed {least} to {most}")


def columns(pupils: int) -> None:
    """Print how often a habit in one column alone is named from twelve sums."""
    sums = telling_pack(Wish(3), 12, 1)
    for slips, habit, column in product((0.05, 0.1), ("not-lowered", "turned"), (0, 1)):
        found = tally([Child(habit, 1.0, slips, column)], pupils, sums, 4)
        print(f"slips {slips:.0%}: {habit} in column {column} alone: {found.average:.1f} %")


if __name__ == "__main__":
    PUPILS = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    published(20 * PUPILS)
    packs(PUPILS)
    asked(PUPILS)
    columns(PUPILS)
    if MISSED:
        sys.exit("\n".join(MISSED))
