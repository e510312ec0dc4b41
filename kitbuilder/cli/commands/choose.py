"""Turns the words after ``kitbuilder choose`` into sums, one a line."""

from typing import TYPE_CHECKING

import click

from kitbuilder.cli.facts_listed import facts_listed
from kitbuilder.cli.options import WHOLE
from kitbuilder.counting import counted
from kitbuilder.errors import RefusedError

if TYPE_CHECKING:
    from kitbuilder.number import Sum
    from kitbuilder.number.choice.pool import Wish

MOST = 50_000
SEED = 1
COUNT = 12
COVERS = ("crossing-ten", "ten-and-crossing")


@click.command()
@click.option("--count", type=WHOLE, metavar="N", help=f"How many sums; {COUNT} unless covering.")
@click.option(
    "--exchange",
    multiple=True,
    metavar="KINDS",
    help="ones, tens, hundreds: only that column is short; both: more than one is; across-zero; "
    "none. Several with commas. Any but none, unless asked.",
)
@click.option("--places", type=WHOLE, metavar="N", help="Places of the whole: 2, 3 or 4.")
@click.option("--below", type=WHOLE, metavar="N", help="Every whole is below this number.")
@click.option("--telling", is_flag=True, help="Each foreseen mistake gives its own wrong answer.")
@click.option(
    "--cover",
    metavar="FACTS",
    help="Few sums that hold every small fact of crossing-ten (36) or ten-and-crossing (45).",
)
@click.option(
    "--seed", type=WHOLE, default=SEED, show_default=True, help="Another seed, other sums."
)
def choose(
    count: int | None,
    exchange: tuple[str, ...],
    places: int | None,
    below: int | None,
    telling: bool,
    cover: str | None,
    seed: int,
) -> None:
    """Choose sums that teach, one a line, easy to hard; made to be piped into kit --sums -."""
    if count is not None and not 1 <= count <= MOST:
        raise RefusedError(f"--count was {count}; ask for 1 to {MOST} sums.")
    if seed < 0:
        raise RefusedError(f"--seed was {seed}; give 0 or a larger whole number.")
    wish = _wish(exchange, places, below, telling)
    if cover is None:
        sums = _chosen(wish, COUNT if count is None else count, seed)
    else:
        sums = _covering(wish, cover, count, seed)
    for sum_ in sums:
        click.echo(f"{sum_.whole} - {sum_.part}")
    if telling:
        _say_reach(sums)
    click.echo(f"Seed {seed}: the same seed gives the same sums.", err=True)


def _wish(
    exchange: tuple[str, ...], places: int | None, below: int | None, telling: bool
) -> "Wish":
    """Return the checked wish; refuse kinds of sums that cannot occur, saying which can."""
    from kitbuilder.number.choice.patterns import PATTERNS
    from kitbuilder.number.choice.pool import Pool, Wish

    asked = [name.strip() for names in exchange for name in names.split(",")]
    for name in asked:
        if name not in PATTERNS:
            raise RefusedError(
                f"--exchange was {name[:40]!r}; choose from {', '.join(PATTERNS[1:])}, none."
            )
    if places is None:
        places = 2 if below is not None and below <= 100 else 3
    if not 2 <= places <= 4:
        raise RefusedError(f"--places was {places}; choose 2, 3 or 4.")
    least = 10 ** (places - 1) + 1
    if below is not None and below < least:
        raise RefusedError(
            f"--below was {below}; wholes of {places} places start at {least - 1}, "
            f"so give {least} or more."
        )
    if telling and "none" in asked:
        raise RefusedError(
            "--telling cannot go with --exchange none, for a sum without an exchange shows "
            "none of the mistakes in exchanging; choose another kind."
        )
    limit = 10**places if below is None else min(below, 10**places)
    possible = [name for name in PATTERNS if Pool(Wish(places, (name,), limit)).count()]
    impossible = [name for name in asked if name not in possible]
    if impossible or not set(possible) & set(asked or PATTERNS[1:]):
        lacking = f"--exchange {impossible[0]}" if impossible else "an exchange"
        more = " (--places 4 has all kinds)" if "hundreds" in impossible and places < 4 else ""
        named = ", ".join(f"--exchange {name}" for name in possible)
        raise RefusedError(
            f"No sum of {places} places with a whole below {limit} has {lacking}{more}; "
            + (f"there are sums for {named}." if possible else "give a larger --below.")
        )
    return Wish(places, tuple(dict.fromkeys(asked)) or PATTERNS[1:], limit, telling)


def _chosen(wish: "Wish", count: int, seed: int) -> "tuple[Sum, ...]":
    from kitbuilder.number.choice.pick import TooFewError, choose

    try:
        return choose(wish, count, seed)
    except TooFewError as error:
        raise _too_few(count, error.available) from None


def _too_few(count: int, available: int) -> RefusedError:
    if not available:
        return RefusedError(
            "No sum of this kind tells its mistakes apart; leave out --telling or allow other "
            "exchanges, places or wholes."
        )
    return RefusedError(
        f"--count was {count}, but at most {counted(available, 'such sum')} can be chosen; "
        "ask for so many, or allow more kinds."
    )


def _covering(wish: "Wish", name: str, count: int | None, seed: int) -> "tuple[Sum, ...]":
    """Return sums that hold every fact of the cover called ``name``; say how few is proven."""
    from kitbuilder.number.choice.cover import NoSumHoldsError, cover
    from kitbuilder.number.choice.pick import TooFewError, widen
    from kitbuilder.number.facts import CROSSING_TEN, TEN_AND_CROSSING

    if name not in COVERS:
        raise RefusedError(f"--cover was {name[:40]!r}; choose {' or '.join(COVERS)}.")
    facts = CROSSING_TEN if name == COVERS[0] else TEN_AND_CROSSING
    try:
        found = cover(wish, facts, seed)
    except NoSumHoldsError as error:
        raise RefusedError(
            f"No sum of the kind asked for holds {facts_listed(error.facts)}; "
            "ask for other exchanges or larger wholes."
        ) from None
    size = len(found.sums)
    if count is not None and count < size:
        raise RefusedError(f"--count was {count}, but the cover takes {size} sums; ask for more.")
    try:
        sums = widen(found.sums, wish, count or size, seed)
    except TooFewError as error:
        raise _too_few(count or size, error.available) from None
    gap = size - found.least
    proof = f"up to {gap} fewer might do" if gap else "fewer is impossible"
    click.echo(f"{size} sums hold all {len(facts)} facts; {proof}.", err=True)
    return sums


def _say_reach(sums: "tuple[Sum, ...]") -> None:
    from kitbuilder.design import load as designs
    from kitbuilder.number.mistakes.telling import reach

    words = designs.words()
    found = reach(sums)
    for said, keys in (("can show", found.shows), ("cannot show", found.hides)):
        names = "; ".join(words(f"mistakes.{key}.name") for key in keys) or "none"
        click.echo(f"Mistakes these sums {said}: {names}.", err=True)
