"""Turns the number of kits into the spare pieces of a class set."""

from kitbuilder.number import Pieces


def spare_pieces(bag: Pieces, kits: int, percent: float) -> Pieces:
    """Return the pieces to add to ``kits`` bags: ``percent`` of all of them, rounded up.

    Small pieces are lost most, so they are ones, as many as there are; then tens; then
    hundreds. ``percent`` is 0 to 100.
    """
    have = [count * kits for count in bag.counts]
    left = -int(-sum(have) * percent // 100)
    spare = []
    for count in have:
        spare.append(min(count, left))
        left -= spare[-1]
    return Pieces.by_place(tuple(spare))
