"""What a kit would take in sheets and cuts at each unit."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.records import CutWish, Kit
from kitbuilder.layout.cards.exchange_cards import exchange_sheets
from kitbuilder.layout.mat.mat_set import kit_mats
from kitbuilder.layout.pieces.making import Making
from kitbuilder.layout.printable import Page

UNITS = tuple(half / 2 for half in range(10, 31))
"""The units that are compared: 5 to 15 mm in half millimetres."""


@frozen
class UnitCost:
    """What a kit takes at one ``unit`` (mm).

    ``hundreds`` is how many hundreds one sheet holds. ``piece_sheets`` and ``strokes`` are the
    sheets of pieces and the straight cuts through them (None for a machine); ``mat_sheets`` are
    those of the mats, the first of them ``mat_width`` by ``mat_height`` mm. None where
    something does not fit. ``cards_fit`` tells whether the exchange cards do.
    """

    unit: float
    hundreds: int
    piece_sheets: int | None
    strokes: int | None
    mat_sheets: int | None
    mat_width: float
    mat_height: float
    cards_fit: bool

    @property
    def sheets(self) -> tuple[int, int] | None:
        """Sheets of pieces and of mats, or None where the unit cannot be used."""
        if self.piece_sheets is None or self.mat_sheets is None or not self.cards_fit:
            return None
        return self.piece_sheets, self.mat_sheets


def unit_costs(
    kit: Kit,
    style: Style,
    making: Making,
    units: Iterable[float] = UNITS,
) -> tuple[UnitCost, ...]:
    """Return what ``kit`` takes on ``paper`` at each of ``units``."""
    return tuple(
        _cost(kit, Style(replace(style.paper, unit_mm=unit), style.words, style.look), making)
        for unit in units
    )


def _cost(kit: Kit, style: Style, making: Making) -> UnitCost:
    across, down = Page.upright(style.paper).units(style.paper.unit_mm)
    sheets = strokes = mat_sheets = None
    width = height = 0.0
    cards_fit = True
    try:
        plan = making.plan(kit.pieces, style.paper, CutWish())
        printed = making.sheets(plan, kit.pieces, style, CutWish())
        printed += making.thousands(kit.pieces.thousands, style)
        sheets = sum(sheet.copies for sheet in printed if sheet.flip is None)
        strokes = plan.strokes if plan else None
    except RefusedError:
        pass
    try:
        mats = kit_mats(kit, style)
        mat_sheets = len(mats.sheets)
        if mats.plans:
            width, height = mats.plans[0].mat.width, mats.plans[0].mat.height
    except RefusedError:
        pass
    try:
        exchange_sheets(kit.exchange_cards, style)
    except RefusedError:
        cards_fit = False
    hundreds = across // 10 * (down // 10)
    return UnitCost(
        style.paper.unit_mm, hundreds, sheets, strokes, mat_sheets, width, height, cards_fit
    )


def worth_choosing(costs: Sequence[UnitCost]) -> tuple[UnitCost, ...]:
    """Return the units that no larger one matches: each saves sheets of pieces or of mats.

    A larger unit is easier to handle, so among those that take as many sheets it is the best.
    """
    best: list[UnitCost] = []
    for cost in sorted(costs, key=lambda c: -c.unit):
        if cost.sheets is None:
            continue
        pieces, mats = cost.sheets
        if not any(
            larger.sheets is not None and larger.sheets[0] <= pieces and larger.sheets[1] <= mats
            for larger in best
        ):
            best.append(cost)
    return tuple(best[::-1])
