"""The bank of thousands that a class shares: each takes minutes to fold, so not all have some."""

from dataclasses import replace

from kitbuilder.design.load import Words
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.kit.records import CutWish
from kitbuilder.number import PLACES, Pieces

IN_TURN = 3
"""Of so many kits one is used with thousands at a time; at the others children draw or write."""


@frozen
class Bank:
    """What lies in each bag, and the ``thousands`` to fold in all.

    They serve ``at_once`` kits; that is 0 where no bank is shared: for one kit, and where bags
    are taken home.
    """

    in_bag: Pieces
    thousands: int
    at_once: int = 0

    @classmethod
    def of(cls, pieces: Pieces, cutting: CutWish) -> "Bank":
        """Return the bank of a class set, of whose kits each uses ``pieces``."""
        if cutting.kits == 1 or cutting.home or not pieces.thousands:
            return cls(pieces, pieces.thousands * cutting.kits)
        at_once = -(-cutting.kits // IN_TURN)
        return cls(replace(pieces, thousands=0), pieces.thousands * at_once, at_once)

    def counted(self, words: Words) -> str:
        """Return how many thousands there are in all."""
        return phrases.count(words, PLACES.index("thousands"), self.thousands)

    def told(self, words: Words, kits: int) -> str:
        """Return how the bank works for ``kits`` in a sentence, empty where there is none."""
        if not self.at_once:
            return ""
        thousands = self.counted(words)
        return words("bank.how", thousands=thousands, at_once=self.at_once, kits=kits)
