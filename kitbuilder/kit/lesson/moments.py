"""The moments of a sum as scenes of the mat: what lay there, what changed, and which way."""

from collections.abc import Sequence
from dataclasses import replace

from kitbuilder.design.load import Words
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.mat_scenes import MatScene, Move, Pile, ZoneScene
from kitbuilder.kit.mat_needs import Arrangement, Role, bands, roles
from kitbuilder.number import PLACES, Pieces, Sum, digits
from kitbuilder.number.steps import Step


@frozen
class Mat:
    """The mat that a lesson is shown on: its arrangement, its columns' names, its language.

    ``part`` is how many pieces of each column are to come out, ones first.
    """

    arrangement: Arrangement
    columns: tuple[str, ...]
    words: Words
    part: tuple[int, ...]

    @classmethod
    def of(cls, sum_: Sum, arrangement: Arrangement, words: Words) -> "Mat":
        """Return the mat for ``sum_``."""
        names = tuple(words(f"place.{place}") for place in PLACES[: sum_.places])
        return cls(arrangement, names, words, digits(sum_.part, sum_.places))

    @property
    def apart(self) -> bool:
        """Whether what is left has a zone of its own."""
        return "rest" in roles(self.arrangement)

    def name(self, role: Role, part: Sequence[Pile]) -> str:
        """Return the name over the zone of ``role`` where ``part`` lies in that of the part.

        The whole is what is left from the step on in which the last of the part comes out, unless
        that has a zone of its own.
        """
        out = any(self.part) and tuple(pile.here + pile.new for pile in part) == self.part
        is_left = role == "rest" or (role == "whole" and out and not self.apart)
        return self.words("scene.left" if is_left else f"scene.{role}")

    def scene(self, piles: dict[Role, tuple[Pile, ...]], *moves: Move) -> MatScene:
        """Return the scene of ``piles``; a zone that is not named is empty."""
        empty = (Pile(),) * len(self.columns)
        part = piles.get("part", empty)
        zones = tuple(
            ZoneScene(role, self.name(role, part), piles.get(role, empty))
            for role in roles(self.arrangement)
        )
        return MatScene(self.arrangement, zones, self.columns, moves)


def counts(held: Pieces, mat: Mat) -> tuple[int, ...]:
    """Return the counts of ``held`` in the mat's columns."""
    return held.counts[: len(mat.columns)]


def lying(now: Sequence[int]) -> tuple[Pile, ...]:
    """Return piles that lie as they lay before."""
    return tuple(Pile(here=n, count=n) for n in now)


def changed(before: Sequence[int], now: Sequence[int]) -> tuple[Pile, ...]:
    """Return piles that gained or lost pieces: the number before is struck out."""
    return tuple(
        Pile(min(b, n), max(0, n - b), max(0, b - n), count=n, before=b if b != n else None)
        for b, n in zip(before, now, strict=True)
    )


def _written(held: Sequence[int], mat: Mat) -> tuple[int | None, ...]:
    """Return the digits under piles of a part: as its number is written, 207 or 0.07."""
    most = max((place for place, n in enumerate(held) if n), default=None)
    first = -1 if most is None else max(most, mat.words.scale.decimals)
    return tuple(n if place <= first else None for place, n in enumerate(held))


def arrived(before: Sequence[int], now: Sequence[int], mat: Mat) -> tuple[Pile, ...]:
    """Return the part's piles after a taking, nothing struck."""
    return tuple(
        Pile(min(b, n), max(0, n - b), max(0, b - n), count=digit)
        for b, n, digit in zip(before, now, _written(now, mat), strict=True)
    )


def building(whole: Sequence[int], mat: Mat) -> MatScene:
    """Return the whole as it was just laid."""
    return mat.scene({"whole": tuple(Pile(new=n, count=n) for n in whole)})


def short(whole: Sequence[int], part: Sequence[int], place: int, need: int, mat: Mat) -> MatScene:
    """Return the moment at which ``need`` pieces of ``place`` are wanted and some lack."""
    wanted = list(arrived(part, part, mat))
    wanted[place] = replace(wanted[place], needed=need)
    piles = {"whole": lying(whole), "part": tuple(wanted)}
    return mat.scene(piles, Move(("whole", place), ("part", place), asks=True))  # type: ignore[arg-type]


def exchanging(before: Step, now: Step, mat: Mat) -> MatScene:
    """Return an exchange: one piece gone, looped, and ten new ones; the part lies as it did."""
    place = now.place or 0
    piles = list(changed(counts(before.table.whole, mat), counts(now.table.whole, mat)))
    source = piles[place + 1]
    piles[place + 1] = Pile(
        source.here, gone=1, looped=True, count=source.count, before=source.before
    )
    part = counts(now.table.part, mat)
    held: dict[Role, tuple[Pile, ...]] = {"whole": tuple(piles), "part": arrived(part, part, mat)}
    return mat.scene(held, Move(("whole", place + 1), ("whole", place)))


def taking(before: Step, taken: Sequence[Step], mat: Mat) -> MatScene:
    """Return one or more takings in a row, their arrows numbered where there are several."""
    start, end = before.table, taken[-1].table
    held: dict[Role, tuple[Pile, ...]] = {
        "whole": changed(counts(start.whole, mat), counts(end.whole, mat)),
        "part": arrived(counts(start.part, mat), counts(end.part, mat), mat),
    }
    places = [step.place or 0 for step in taken]
    moves = (
        Move(("whole", place), ("part", place), order=n if len(places) > 1 else 0)
        for n, place in enumerate(places, 1)
    )
    return mat.scene(held, *moves)


def wanting(scene: MatScene, place: int, need: int) -> MatScene:
    """Return ``scene`` with ``need`` pieces of ``place`` wanted in the part, and some lacking."""
    zones = tuple(
        replace(
            zone,
            piles=tuple(
                replace(pile, needed=need) if k == place else pile
                for k, pile in enumerate(zone.piles)
            ),
        )
        if zone.role == "part"
        else zone
        for zone in scene.zones
    )
    asked = Move(("whole", place), ("part", place), asks=True)
    return replace(scene, zones=zones, moves=(*scene.moves, asked))


def settled(scene: MatScene) -> MatScene:
    """Return ``scene`` without what is only looked for: no question, nothing wanted."""
    zones = tuple(
        replace(zone, note="", piles=tuple(replace(p, needed=0) for p in zone.piles))
        for zone in scene.zones
    )
    return replace(scene, zones=zones, moves=tuple(m for m in scene.moves if not m.asks))


def counted(scene: MatScene) -> MatScene:
    """Return ``scene`` with the part as numbers alone: what happens to the whole is to be seen."""
    zones = tuple(
        replace(zone, piles=tuple(Pile(count=pile.count) for pile in zone.piles))
        if zone.role == "part"
        else zone
        for zone in scene.zones
    )
    return replace(scene, zones=zones)


def both_parts(left: Sequence[int], part: Sequence[int], mat: Mat) -> MatScene:
    """Return both parts; where what is left has a zone of its own, it was just moved there."""
    if not mat.apart:
        return mat.scene({"whole": lying(left), "part": arrived(part, part, mat)})
    held: dict[Role, tuple[Pile, ...]] = {
        "whole": tuple(Pile(gone=n) for n in left),
        "part": arrived(part, part, mat),
        "rest": arrived([0] * len(left), left, mat),
    }
    return mat.scene(held)


def _along(mat: Mat) -> bool:
    """Say whether both parts lie beside each other, along the whole."""
    return any({"part", "rest"} <= {*row} and "whole" not in row for row in bands(mat.arrangement))


def together(left: Sequence[int], part: Sequence[int], mat: Mat) -> MatScene:
    """Return both parts pushed together in the zone of the whole.

    Where what is left has a zone of its own, arrows have room if it lies beside the part.
    """
    every = [a + b for a, b in zip(left, part, strict=True)]
    moves = [Move(("part", k), ("whole", k)) for k, n in enumerate(part) if n]
    gone = tuple(Pile(gone=n) for n in part)
    if not mat.apart:
        return mat.scene({"whole": changed(left, every), "part": gone}, *moves)
    held: dict[Role, tuple[Pile, ...]] = {
        "whole": tuple(Pile(new=n, count=n) for n in every),
        "part": gone,
        "rest": tuple(Pile(gone=n) for n in left),
    }
    row = next((row for row in bands(mat.arrangement) if {"part", "rest"} <= {*row}), ())
    if _along(mat):
        sides: tuple[tuple[Role, Sequence[int]], ...] = (("part", part), ("rest", left))
        moves = [
            Move((role, k), ("whole", k), every=True)
            for role, some in sides
            if any(some)
            for k in [max(k for k, n in enumerate(some) if n)]
        ]
    return mat.scene(held, *(moves if row else ()))


def back(before: Step, done: Sequence[Step], mat: Mat) -> MatScene:
    """Return the exchanges back, ones first: ten gone from each column, one new in the next.

    Where that one makes ten it passes: it is exchanged too.
    """
    start = list(counts(before.table.whole, mat))
    end = counts(done[-1].table.whole, mat)
    most = list(start)
    for step in done:
        most = list(map(max, most, counts(step.table.whole, mat)))
    piles = list(changed(start, end))
    for step in done:
        place = step.place or 0
        came = most[place] - start[place]  # of the exchange before it
        new = min(end[place], came)
        ten = Pile(end[place] - new, new, 10, looped=True, passing=came - new)
        between = most[place] if came else None
        piles[place] = replace(ten, count=end[place], before=start[place], between=between)
    moves = (
        Move(("whole", s.place or 0), ("whole", (s.place or 0) + 1), order=k if done[1:] else 0)
        for k, s in enumerate(done, 1)
    )
    return mat.scene({"whole": tuple(piles)}, *moves)
