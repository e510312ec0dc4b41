"""Where the pieces of a pile lie, in units: hundreds step, tens stand, ones fill frames of ten."""

from collections.abc import Iterable
from functools import lru_cache

from kitbuilder.kit.lesson.mat_scenes import Pile
from kitbuilder.layout.mat.lying import FRAME_ACROSS, FRAME_DOWN, PILE_STEP
from kitbuilder.layout.model import Rect
from kitbuilder.layout.parts.contents import State

TEN_GAPS = (0.56, 0.4, 0.3, 0.22)
"""Gaps in units between tens, the widest that there is room for."""

FIVE, _FIVE = 0.5, 0.2
# How many units more lie between fives, and at least where new tens lie apart in a full column.

APART = 1
"""How many more steps hundreds or thousands that are gone, or new, lie from others, to be seen."""

_SEEN = 3.5
# How many units are seen of a thousand under one that is exchanged, where the zone holds that.

LAYERS = 1.0
"""How high in units the layers of a folded thousand are drawn below its top."""

ONE_GAP, FRAME_GAP = 0.24, 0.36

_EXCHANGED = 10
# How many ones or tens are brought for one ten or hundred, and handed in.

_HARDLY = 1e-6
# How much wider than its room a pile may be reckoned, in units.


@lru_cache(1024)
def spots(
    place: int,
    count: int,
    *,
    under: bool,
    gap: float = TEN_GAPS[0],
    old: int = 0,
    five: float = FIVE,
) -> tuple[Rect, ...]:
    """Return where ``count`` pieces of ``place`` lie, in units from the pile's top left.

    With ``under`` a second frame of ones stands under the first, else beside it. ``gap``
    parts the tens, with ``five`` units more after five. The first ``old`` of tens and more lie
    apart from the others.
    """
    if place >= 2:
        deep = LAYERS if place > 2 else 0.0
        down = PILE_STEP if place == 2 else LAYERS + PILE_STEP / 2
        across = (k + (APART if 0 < old <= k else 0) for k in range(count))
        return tuple(Rect(PILE_STEP * x, down * k, 10, 10 + deep) for k, x in enumerate(across))
    if place == 1:
        fives = (-(-old // 5) + (k - old) // 5 if old <= k else k // 5 for k in range(count))
        return tuple(Rect(k * (1 + gap) + f * five, 0, 1, 10) for k, f in enumerate(fives))
    found = []
    for k in range(count):
        frame, inside = divmod(k, FRAME_DOWN * FRAME_ACROSS)
        x = inside // FRAME_DOWN * (1 + ONE_GAP)
        y = inside % FRAME_DOWN * (1 + ONE_GAP)
        if under:
            y += frame * (FRAME_DOWN * (1 + ONE_GAP) + FRAME_GAP)
        else:
            x += frame * (FRAME_ACROSS * (1 + ONE_GAP) + FRAME_GAP)
        found.append(Rect(x, y, 1, 1))
    return tuple(found)


@lru_cache(1024)
def extent(place: int, count: int, *, under: bool, gap: float = TEN_GAPS[0]) -> tuple[float, float]:
    """Return how wide and high a pile of ``count`` pieces is, in units; none takes no room."""
    found = spots(place, count, under=under, gap=gap)
    return (
        max((rect.right for rect in found), default=0.0),
        max((rect.bottom for rect in found), default=0.0),
    )


def steps(pile: Pile, place: int) -> int:
    """Return for how many pieces ``pile`` has room; more where what is gone lies beside."""
    return pile.shown + (APART if _beside(pile, place) else 0)


def laid(
    pile: Pile, place: int, *, under: bool, gap: float, room: float = 0.0, high: float = 0.0
) -> tuple[tuple[State, tuple[Rect, ...]], ...]:
    """Return the runs of ``pile`` in the order they are laid, in units.

    Hundreds and thousands that stay lie over those gone, the furthest of them lowest. Ten ones or
    tens that are exchanged or brought come first, so that a loop goes round them alone, and their
    arrow ends at them and crosses no others. New ones, and a hundred or thousand in a loop, lie
    apart from others where a ``room`` so wide holds that; for tens fives lie closer in it. A
    thousand in a loop lies lower where its zone is so ``high``.
    """
    beside = _beside(pile, place)
    found = states(pile, _ten(pile) if place < 2 else None)
    every = spots(place, steps(pile, place), under=under, gap=gap)
    if not beside and 0 < (old := _old(pile, place, found)) < len(every):
        apart = spots(place, len(every), under=under, gap=gap, old=old)
        over = max(0.0, apart[-1].right - room)
        if over and place == 1:
            five = FIVE - over / (-(-old // 5) + (len(every) - old - 1) // 5) - _HARDLY
            apart = spots(place, len(every), under=under, gap=gap, old=old, five=max(five, _FIVE))
        every = apart if apart[-1].right < room + _HARDLY else every
        if place > 2 and pile.looped:
            *others, last = every
            down = min(others[-1].y + _SEEN, high - last.height) - last.y
            every = (*others, last.moved(0, max(0.0, down)))
    if not beside:
        return tuple((state, every[a:b]) for state, a, b in found)
    kept = pile.here + pile.new
    gone = every[kept + APART : kept + APART + pile.gone]
    stay = tuple((s, every[a:b]) for s, a, b in states(pile) if s in ("here", "new"))
    return (("gone", gone[::-1]), *stay)


def _beside(pile: Pile, place: int) -> bool:
    """Return whether what is taken out lies beside hundreds or thousands that stay.

    One exchanged lies on top.
    """
    return place >= 2 and not pile.looped and bool(pile.gone and (pile.here or pile.new))


def _old(pile: Pile, place: int, found: Iterable[tuple[State, int, int]]) -> int:
    """Return how many pieces lie before those that are to lie apart, of the runs ``found``."""
    ends = {state: (first, end) for state, first, end in found}
    if pile.passing:
        return ends["gone"][1] - pile.passing
    if pile.new:
        return ends["new"][0] or ends["new"][1]
    if place < 2 or not pile.looped:
        return 0
    return ends["gone"][0] if pile.gone else pile.here - 1


def _ten(pile: Pile) -> State | None:
    """Return the state of the ten pieces in ``pile`` that are exchanged, or brought for one."""
    if pile.looped and pile.gone == _EXCHANGED:
        return "gone"
    return "new" if pile.new == _EXCHANGED else None


def states(pile: Pile, ahead: State | None = None) -> tuple[tuple[State, int, int], ...]:
    """Return the runs of one state in ``pile``: the state, and the first and the end of its run.

    Those of one state may lie ``ahead`` of all others.
    """
    found: list[tuple[State, int, int]] = []
    runs: tuple[tuple[State, int], ...] = (
        ("here", pile.here),
        ("new", pile.new),
        ("gone", pile.gone),
        ("needed", pile.needed),
    )
    first = dict(runs).get(ahead, 0) if ahead else 0
    for state, count in runs:
        start = 0 if state == ahead else first
        if count:
            found.append((state, start, start + count))
        first += 0 if state == ahead else count
    return tuple(found)
