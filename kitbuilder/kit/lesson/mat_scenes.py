"""What a picture of the mat shows at one moment: piles, what changed in them, and the moves."""

from kitbuilder.frozen import frozen
from kitbuilder.kit.mat_needs import Arrangement, Role, roles


@frozen
class Pile:
    """One column of one zone, in the order its pieces are laid.

    ``here`` pieces lie there as before, ``new`` were just laid down, ``gone`` just taken away,
    the last ``passing`` of them laid down just before; ``needed`` lack. ``looped`` puts a loop
    round what is gone, or, if nothing is, round the last one: it is exchanged. ``count`` is the
    number under the column, None for none: those ``needed`` are not counted. ``before`` is what
    stood there until this step, where that is struck out, and ``between`` what stood there within
    the step, struck out as well.
    """

    here: int = 0
    new: int = 0
    gone: int = 0
    needed: int = 0
    looped: bool = False
    count: int | None = None
    before: int | None = None
    between: int | None = None
    passing: int = 0

    @property
    def shown(self) -> int:
        """How many pieces are drawn, whatever their state."""
        return self.here + self.new + self.gone + self.needed


@frozen
class ZoneScene:
    """One zone: its role, the name over it, and its piles, ones first; of some columns if alone.

    ``note`` is said in the empty column of place ``note_at``.
    """

    role: Role
    name: str
    piles: tuple[Pile, ...]
    note: str = ""
    note_at: int = 0


@frozen
class Move:
    """An arrow from the pieces of one column to those of another: (role, place) each.

    With ``asks`` a "?" stands on it: the pieces lack. ``order`` numbers the moves of one step,
    0 where there is but one. ``every`` piece of the source's zone goes with these.
    """

    source: tuple[Role, int]
    target: tuple[Role, int]
    asks: bool = False
    order: int = 0
    every: bool = False


@frozen
class MatScene:
    """The mat, or some of its zones, at one moment.

    ``outcome`` stands with a tick over the whole.
    """

    arrangement: Arrangement
    zones: tuple[ZoneScene, ...]
    columns: tuple[str, ...]
    moves: tuple[Move, ...] = ()
    outcome: str = ""

    def __post_init__(self) -> None:
        shown = tuple(zone.role for zone in self.zones)
        if not shown or shown != tuple(r for r in roles(self.arrangement) if r in shown):
            raise ValueError(f"MatScene: {self.zones} are not the zones of {self.arrangement}")
        for zone in self.zones:
            if len(zone.piles) > len(self.columns):
                raise ValueError(f"MatScene: {zone.role} has {len(zone.piles)} columns")

    @property
    def apart(self) -> bool:
        """Whether what is left has a zone of its own."""
        return any(zone.role == "rest" for zone in self.zones)
