"""Turns the options about a class set and its estimate into wishes."""

from collections.abc import Callable
from dataclasses import dataclass, fields
from functools import wraps
from typing import TYPE_CHECKING, Any, TypeVar, cast

import click

from kitbuilder.cli.options import NUMBER, WHOLE

if TYPE_CHECKING:
    from kitbuilder.kit.records import CutWish, EstimateWish

Command = TypeVar("Command", bound=Callable[..., Any])


@dataclass(frozen=True, slots=True)
class SetTyped:
    """What was typed about a class set; None where nothing was said."""

    kits: int | None
    children: int | None
    share: int | None
    spares: float
    layers: int
    same_sheets: bool
    collated: bool
    cuts_per_minute: float | None
    grammage: float | None
    per_sheet: float | None

    def cutting(self) -> "CutWish":
        """Return how many kits to cut and how. Raises ``RefusedError``."""
        from kitbuilder.request import cut_wish, kits_for

        kits = kits_for(self.kits, self.children, self.share)
        return cut_wish(kits, self.layers, self.same_sheets, self.spares)

    def estimate(self) -> "EstimateWish":
        """Return what to reckon the estimate with. Raises ``RefusedError``."""
        from kitbuilder.request import estimate_wish

        return estimate_wish(self.cuts_per_minute, self.grammage, self.per_sheet)


_OPTIONS = (
    click.option("--kits", type=WHOLE, metavar="N", help="Kits to print and cut."),
    click.option("--children", type=WHOLE, metavar="N", help="Children in the class."),
    click.option("--share", type=WHOLE, metavar="M", help="Children who share one kit."),
    click.option(
        "--spares", type=NUMBER, default=0.0, metavar="PERCENT", help="Ones and tens to add."
    ),
    click.option("--layers", type=WHOLE, default=1, metavar="K", help="Layers cut in one stroke."),
    click.option("--same-sheets", is_flag=True, help="Few different sheets before few strokes."),
    click.option("--collated", is_flag=True, help="Also the whole pile, for a print shop."),
    click.option("--cuts-per-minute", type=NUMBER, metavar="PACE", help="Straight cuts a minute."),
    click.option("--grammage", type=NUMBER, metavar="GSM", help="Weight of the card in g/m²."),
    click.option("--per-sheet", type=NUMBER, metavar="PRICE", help="Price of a printed sheet."),
)


def set_options(command: Command) -> Command:
    """Add the options of a class set; the command gets them as one ``of_set``."""

    @wraps(command)
    def with_set(**given: Any) -> Any:
        said = {f.name: given.pop(f.name) for f in fields(SetTyped)}
        return command(of_set=SetTyped(**said), **given)

    wrapped = cast(Command, with_set)
    for option in reversed(_OPTIONS):
        wrapped = option(wrapped)
    return wrapped
