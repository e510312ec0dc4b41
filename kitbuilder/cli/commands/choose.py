"""``kitbuilder choose``: sums that teach, one a line."""

from typing import TYPE_CHECKING

import click

from kitbuilder.cli.options import WHOLE, words_option
from kitbuilder.cli.told.facts_listed import facts_listed
from kitbuilder.cli.voice import tell
from kitbuilder.errors import RefusedError, Said

if TYPE_CHECKING:
    from kitbuilder.design.load import Words
    from kitbuilder.number import Sum
    from kitbuilder.number.choice.pool import Wish

MOST = 50_000
SEED = 1
COUNT = 12
COVERS = ("crossing-ten", "ten-and-crossing")

SURE = (67, 94, 97, 98, 98, 99)
"""Of 100 simulated children with one of the mistakes, and a slip in 10 of 100 small facts, how many
are named by a pack that tells every two apart once, twice and so on (tests/bench)."""


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
@click.option("--telling", is_flag=True, help="Every two mistakes give other answers.")
@click.option(
    "--cover",
    metavar="FACTS",
    help="Few sums that hold every small fact of crossing-ten (36) or ten-and-crossing (45).",
)
@click.option(
    "--seed", type=WHOLE, default=SEED, show_default=True, help="Another number, other sums."
)
@words_option
def choose(
    count: int | None,
    exchange: tuple[str, ...],
    places: int | None,
    below: int | None,
    telling: bool,
    cover: str | None,
    seed: int,
    words: "Words",
) -> None:
    """Choose sums that teach, one a line, easy to hard; made to be piped into kit --sums -."""
    if count is not None and not 1 <= count <= MOST:
        raise RefusedError("option.range", option="count", given=count, least=1, most=MOST)
    if seed < 0:
        raise RefusedError("option.seed", option="seed", given=seed)
    wish = _wish(exchange, places, below, telling)
    if telling and cover is None:
        sums = _telling(wish, COUNT if count is None else count, seed, words)
    elif cover is None:
        sums = _chosen(wish, COUNT if count is None else count, seed)
    else:
        sums = _covering(wish, cover, count, seed)
    for sum_ in sums:
        click.echo(f"{sum_.whole} - {sum_.part}")
    if telling:
        _say_reach(sums, words)


def _wish(
    exchange: tuple[str, ...], places: int | None, below: int | None, telling: bool
) -> "Wish":
    """Return the checked wish; refuse kinds of sums that cannot occur, saying which can."""
    from kitbuilder.number.choice.patterns import PATTERNS
    from kitbuilder.number.choice.pool import Pool, Wish

    asked = [name.strip() for names in exchange for name in names.split(",")]
    for name in asked:
        if name not in PATTERNS:
            known = (*PATTERNS[1:], "none")
            raise RefusedError("option.choice", option="exchange", given=name, known=known)
    if places is None:
        places = 2 if below is not None and below <= 100 else 3
    if not 2 <= places <= 4:
        raise RefusedError("option.range", option="places", given=places, least=2, most=4)
    least = 10 ** (places - 1) + 1
    if below is not None and below < least:
        raise RefusedError(
            "choose.below", option="below", given=below, places=places, first=least - 1, least=least
        )
    if telling and "none" in asked:
        raise RefusedError("choose.telling-none", option="telling", other="exchange")
    limit = 10**places if below is None else min(below, 10**places)
    possible = [name for name in PATTERNS if Pool(Wish(places, (name,), limit)).count()]
    impossible = [name for name in asked if name not in possible]
    if impossible or not set(possible) & set(asked or PATTERNS[1:]):
        raise _impossible(places, limit, impossible, possible)
    return Wish(places, tuple(dict.fromkeys(asked)) or PATTERNS[1:], limit, telling)


def _impossible(places: int, limit: int, lacking: list[str], possible: list[str]) -> RefusedError:
    """Return the refusal of kinds of sums that are ``lacking`` below ``limit``."""
    from kitbuilder.number.sums import LEAST_WITH_EXCHANGE

    if limit <= LEAST_WITH_EXCHANGE:
        return RefusedError(
            "choose.small-facts", option="below", given=limit, least=LEAST_WITH_EXCHANGE + 1
        )
    option = Said("choose.an-exchange")
    if lacking:
        option = Said("option.with", option="exchange", value=lacking[0])
    if "hundreds" in lacking and places < 4:
        option = Said("choose.needs-four", lacking=option, option="places")
    there = [Said("option.with", option="exchange", value=name) for name in possible]
    advice = Said("choose.there-are", kinds=there) if there else Said("choose.larger-below")
    return RefusedError(
        "choose.impossible",
        field="exchange",
        places=places,
        limit=limit,
        lacking=option,
        advice=advice,
    )


def _chosen(wish: "Wish", count: int, seed: int) -> "tuple[Sum, ...]":
    from kitbuilder.number.choice.pick import TooFewError, choose

    try:
        return choose(wish, count, seed)
    except TooFewError as error:
        raise _too_few(count, error.available) from None


def _telling(wish: "Wish", count: int, seed: int, words: "Words") -> "tuple[Sum, ...]":
    """Return sums that tell every two mistakes apart; say how often, and how sure that is."""
    from dataclasses import replace

    from kitbuilder.number.choice.difficulty import easy_to_hard
    from kitbuilder.number.choice.pick import TooFewError, widen
    from kitbuilder.number.choice.telling_pack import hidden, telling_pack
    from kitbuilder.number.mistakes.separation import least_apart

    if lost := hidden(wish.places):
        names = [words(f"mistake.{key}.name") for key in lost]
        raise RefusedError(
            "choose.telling-hides", option="telling", places=wish.places, names=names
        )
    pack = telling_pack(replace(wish, telling=False), count, seed)
    try:
        sums = widen(pack, wish, count, seed) if len(pack) < count else pack
    except TooFewError as error:
        raise _too_few(count, error.available) from None
    apart, _ = least_apart(pack)
    if apart:
        tell(Said("told.apart", count=apart, sure=SURE[min(apart, len(SURE)) - 1]), err=True)
    return easy_to_hard(sums)


def _too_few(count: int, available: int) -> RefusedError:
    if not available:
        return RefusedError("choose.none-telling", option="telling")
    return RefusedError("choose.too-few", option="count", given=count, count=available)


def _covering(wish: "Wish", name: str, count: int | None, seed: int) -> "tuple[Sum, ...]":
    """Return sums that hold every fact of the cover called ``name``; say how many do."""
    from kitbuilder.number.choice.fact_cover import NoSumHoldsError, cover
    from kitbuilder.number.choice.pick import TooFewError, widen
    from kitbuilder.number.facts import CROSSING_TEN, TEN_AND_CROSSING

    if name not in COVERS:
        raise RefusedError("option.choice", option="cover", given=name, known=COVERS)
    facts = CROSSING_TEN if name == COVERS[0] else TEN_AND_CROSSING
    try:
        found = cover(wish, facts, seed)
    except NoSumHoldsError as error:
        raise RefusedError(
            "choose.no-cover", field="cover", facts=facts_listed(error.facts)
        ) from None
    size = len(found)
    if count is not None and count < size:
        raise RefusedError("choose.cover-takes", option="count", given=count, count=size)
    try:
        sums = widen(found, wish, count or size, seed)
    except TooFewError as error:
        raise _too_few(count or size, error.available) from None
    tell(Said("told.cover", sums=size, facts=len(facts)), err=True)
    return sums


def _say_reach(sums: "tuple[Sum, ...]", words: "Words") -> None:
    from kitbuilder.number.mistakes.telling import reach

    found = reach(sums)
    shows, hides = (
        "; ".join(words(f"mistake.{key}.name") for key in keys) or Said("list.none")
        for keys in (found.shows, found.hides)
    )
    tell(Said("told.shows", names=shows), err=True)
    tell(Said("told.hides", names=hides), err=True)
