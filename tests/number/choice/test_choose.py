"""Pools, choosing and covering, against sums counted and covered another way."""

from functools import cache
from itertools import combinations, islice
from random import Random

import pytest
from grids import pairs

from kitbuilder.number import Sum
from kitbuilder.number.choice.difficulty import easy_to_hard
from kitbuilder.number.choice.fact_cover import NoSumHoldsError, cover
from kitbuilder.number.choice.patterns import PATTERNS, pattern, pattern_of
from kitbuilder.number.choice.pick import TooFewError, choose, shuffled, stream_of, widen
from kitbuilder.number.choice.pool import Pool, Wish
from kitbuilder.number.facts import CROSSING_TEN, TEN_AND_CROSSING, Fact, facts, facts_of
from kitbuilder.number.mistakes.telling import reach, tells

ANY = PATTERNS[1:]


@cache
def all_sums(wish: Wish) -> frozenset[Sum]:
    """Return the sums of ``wish`` by going through all numbers."""
    return frozenset(
        Sum(whole, part)
        for whole in range(10 ** (wish.places - 1), min(wish.below, 10**wish.places))
        for part in range(10 ** (wish.places - 2), whole)
        if not (whole < 20 and part < 10)
        and pattern_of(whole, part).name in wish.patterns
        and (not wish.telling or tells(whole, part))
        and not fives(whole, part)
    )


def fives(whole: int, part: int) -> bool:
    """Say whether a column is short by exactly 5, read from the numbers as they are written."""
    lower = str(part).rjust(len(str(whole)), "0")
    return any(int(b) == int(a) + 5 for a, b in zip(str(whole), lower, strict=True))


def drawn_from(wish: Wish) -> frozenset[Sum]:
    """Return the sums that may be drawn: no column that handed one in is then short by 5."""
    return frozenset(s for s in all_sums(wish) if not fives_worked(s.whole, s.part))


def fives_worked(whole: int, part: int) -> bool:
    """Say whether a column, not 0, has handed one in to the right and is then short by 5."""
    return any(
        0 < whole // 10**n % 10 == part // 10**n % 10 - 4 and whole % 10**n < part % 10**n
        for n in range(1, 4)
    )


WISHES = [
    Wish(2),
    Wish(2, ("none",)),
    Wish(3, below=307),
    Wish(3, ("across-zero", "tens"), below=210),
    Wish(3, ("none", "both"), below=240),
    Wish(4, below=1006),
    Wish(4, ("across-zero",), below=1012, telling=True),
    Wish(3, ("hundreds",), below=210),
    Wish(2, below=20),
]


@pytest.mark.parametrize("wish", WISHES, ids=str)
def test_a_pool_numbers_every_sum_once(wish: Wish) -> None:
    pool = Pool(wish)
    listed = [Sum(*pool.at(number)) for number in range(pool.count())]
    assert len(set(listed)) == len(listed)
    assert {s for s in listed if not wish.telling or tells(s.whole, s.part)} == all_sums(wish)
    assert {pattern(s) for s in listed} == set(pool.patterns())
    with pytest.raises(ValueError, match="number"):
        pool.at(pool.count())


def test_a_pool_narrowed_to_facts() -> None:
    pool = Pool(Wish(3, below=420))
    wants = (Fact(13, 5), Fact(11, 4))
    listed = {Sum(*pool.at(n, wants)) for n in range(pool.count(wants))}
    assert listed == {s for s in all_sums(Wish(3, below=420)) if facts(s)[:2] == wants}


@pytest.mark.parametrize("wish", (*WISHES[:7], WISHES[-1]), ids=str)
def test_a_stream_gives_every_sum_once(wish: Wish) -> None:
    listed = list(stream_of(wish, Random(4)))
    assert len(listed) == len(set(listed))
    assert set(listed) == drawn_from(wish)


def test_sums_are_drawn_evenly() -> None:
    # 2,000 draws: no sum may be off its expected number by five standard deviations.
    wish = Wish(3, ("ones",), below=113)
    sums, pool = drawn_from(wish), Pool(wish)
    drawn = [Sum(*next(shuffled(pool, wish, Random(seed)))) for seed in range(2000)]
    mean = 2000 / len(sums)
    assert all(abs(drawn.count(s) - mean) < 5 * mean**0.5 for s in sums)


@pytest.mark.parametrize("telling", [False, True])
def test_chosen_sums_fit_the_wish_from_easy_to_hard(telling: bool) -> None:
    wish = Wish(3, ("both", "across-zero"), below=400, telling=telling)
    sums = choose(wish, 40, seed=3)
    assert len(set(sums)) == 40
    assert easy_to_hard(sums) == sums
    assert set(sums) <= all_sums(wish)
    assert choose(wish, 40, seed=3) == sums
    assert choose(wish, 40, seed=4) != sums


def test_all_kinds_may_be_wished_for_at_once() -> None:
    # Of two places: those without an exchange, and those short of ones; no other kind is there.
    pools = [Pool(Wish(2, those)).count() for those in (PATTERNS, ("none",), ("ones",))]
    assert pools[0] == pools[1] + pools[2]


def test_without_being_asked_every_sum_has_an_exchange() -> None:
    assert all(pattern(s).exchanges for s in choose(Wish(), 2000, seed=1))


def test_a_telling_pack_shows_every_mistake_it_can() -> None:
    assert reach(choose(Wish(telling=True), 10, seed=7)).hides == ()
    # Of two places a zero on top never tells, and nothing lies between ones and leftmost.
    shows = {key for s in all_sums(Wish(2, telling=True)) for key in reach([s]).shows}
    assert set(reach(choose(Wish(2, telling=True), 8, seed=7)).shows) == shows


def test_a_telling_pack_is_no_larger_than_asked_for() -> None:
    # One sum of three places does not show every mistake, so a second would show more.
    pack = choose(Wish(telling=True), 1, seed=7)
    assert len(pack) == 1 and reach(pack).hides


def test_all_sums_there_are_and_no_more() -> None:
    wish = Wish(3, ("across-zero",), below=110)
    there = drawn_from(wish)
    assert set(choose(wish, len(there), 1)) == there
    with pytest.raises(TooFewError) as caught:
        choose(wish, len(there) + 1, 1)
    assert caught.value.available == len(there)
    with pytest.raises(TooFewError):
        widen(tuple(there), wish, len(there) + 1, 1)
    few = tuple(islice(there, 3))
    assert set(few) < set(widen(few, wish, 9, 1)) <= there


@pytest.mark.parametrize(
    ("change", "says"),
    [({"places": 5}, "places"), ({"patterns": ("odd",)}, "patterns"), ({"below": -1}, "below")],
)
def test_a_wish_is_checked(change: dict[str, object], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        Wish(**change)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("wanted", "wish", "least"),
    [
        # A three-place sum holds two of these facts at most, in any pairing (computed). A fact
        # that leaves 5 then needs a column that was handed in from, one that leaves 4 another.
        (CROSSING_TEN, Wish(3), 18),
        (TEN_AND_CROSSING, Wish(3), 23),
        # As above with three columns: 36 / 3, 45 / 3.
        (CROSSING_TEN, Wish(4), 12),
        (TEN_AND_CROSSING, Wish(4), 15),
    ],
)
def test_the_fewest_sums_that_hold_all_facts(
    wanted: tuple[Fact, ...], wish: Wish, least: int
) -> None:
    found = cover(wish, wanted, 1)
    held = {fact for s in found for fact in facts(s)}
    assert set(wanted) <= held
    assert len(found) == least
    assert cover(wish, wanted, 1) == found
    assert not any(fives(s.whole, s.part) for s in found)


def test_of_two_places_a_fact_that_leaves_five_needs_a_column_short_by_five() -> None:
    # 10 + t − b = 5 where b − t = 5, and nothing was handed in from the ones.
    with pytest.raises(NoSumHoldsError) as caught:
        cover(Wish(2), TEN_AND_CROSSING, 1)
    assert set(caught.value.facts) == {f for f in TEN_AND_CROSSING if f.rest == 5}


def test_no_three_place_sum_holds_three_and_any_two_share_one() -> None:
    # The argument for 18 and 23, by going through all sums.
    pairs = set()
    for whole in range(200, 300):  # more hundreds on top, or below, change no other column
        for part in range(100, whole):
            held = {fact for fact in facts_of(whole, part) if fact[0] >= 10}
            assert len(held) <= 2
            pairs.add(frozenset(held))
    keys = [(fact.whole, fact.part) for fact in TEN_AND_CROSSING]
    assert {frozenset(pair) for pair in combinations(keys, 2)} <= pairs


def fewest_by_search(groups: set[frozenset[Fact]], left: frozenset[Fact], most: int) -> int:
    """Return the size of a smallest cover of ``left``, by trying; ``most`` is one that works."""
    if not left:
        return 0
    if most <= 0:
        return 10**6
    hardest = min(left, key=lambda fact: (sum(fact in g for g in groups), fact))
    best = most
    for group in {g & left for g in groups if hardest in g}:
        best = min(best, 1 + fewest_by_search(groups, left - group, best - 1))
    return best


@pytest.mark.parametrize(
    ("below", "patterns", "telling"),
    pairs((130, 260), (ANY, ("both",), ("ones", "across-zero")), (False, True)),
    ids=str,
)
def test_covers_under_other_wishes_are_least(
    below: int, patterns: tuple[str, ...], telling: bool
) -> None:
    wish = Wish(3, patterns, below, telling)
    wanted = CROSSING_TEN[::4]
    groups = {frozenset(facts(s)) & frozenset(wanted) for s in all_sums(wish)}
    lost = {fact for fact in wanted if not any(fact in g for g in groups)}
    if lost:
        with pytest.raises(NoSumHoldsError) as caught:
            cover(wish, wanted, 1)
        assert set(caught.value.facts) == lost
        return
    found = cover(wish, wanted, 1)
    assert set(found) <= all_sums(wish)
    least = fewest_by_search(groups, frozenset(wanted), len(wanted))
    assert len(found) == least


@pytest.mark.parametrize("below", [1200, 1250, 2500])
def test_covers_of_four_places_are_few_where_hundreds_are_scarce(below: int) -> None:
    wish = Wish(4, below=below)
    found = cover(wish, CROSSING_TEN, 1)
    assert set(CROSSING_TEN) <= {fact for s in found for fact in facts(s)}
    assert all(s.whole < below for s in found)
    # Below 1200 the hundreds hold 10 at most once the tens are short: pairs only. Below 1250
    # they hold 11 at most: some facts are in pairs. Below 2500 three fit in one sum.
    assert len(found) == {1200: 18, 1250: 15, 2500: 12}[below]


def test_facts_that_cannot_occur_are_named() -> None:
    with pytest.raises(NoSumHoldsError) as caught:
        cover(Wish(2, telling=True), TEN_AND_CROSSING, 1)
    # Alone, a column short by 5 or under a zero never tells.
    assert set(caught.value.facts) == {f for f in TEN_AND_CROSSING if f.rest == 5 or f.whole == 10}
    with pytest.raises(NoSumHoldsError):
        cover(Wish(3, ("none",)), CROSSING_TEN, 1)
