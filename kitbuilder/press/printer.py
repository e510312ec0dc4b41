"""A printer's measured errors: margins that print, and a correction of each page.

The model: a printer stretches the page about its middle, by one factor across the paper and
one down; it crops each side; and it prints backs shifted. Across and down are the paper's own,
upright; a page that lies on its long side is taken to be turned a quarter to the left, as
printers commonly do (practice), so that its across is the paper's down.
"""

import json
import math
import re
from contextlib import suppress
from pathlib import Path

from kitbuilder.design import load as designs
from kitbuilder.design.bounds import bounds
from kitbuilder.design.load import Margins, Paper
from kitbuilder.errors import RefusedError, Said, reason
from kitbuilder.formats.textfile import read_toml
from kitbuilder.frozen import frozen

LEAST, MOST = 0.8, 1.2
"""What a measured bar may be of its true length; past this it was measured wrongly."""

MOST_CROP = 40.0
"""Millimetres that a printer may crop at one side."""

MOST_SHIFT = 10.0
"""Millimetres that a back may be shifted, each way."""

_WAYS = {"across": Said("printer.across"), "down": Said("printer.down")}

_NAME = re.compile(r"[a-z0-9][a-z0-9_-]{0,39}")


@frozen
class Pair:
    """Two lengths in millimetres: across and down the upright paper."""

    across: float
    down: float

    def __post_init__(self) -> None:
        bounds(self, -2000, 2000, "mm")


@frozen
class Correction:
    """Where a mark must be drawn so that it prints true: x · across + right, y · down + below."""

    across: float = 1.0
    down: float = 1.0
    right: float = 0.0
    below: float = 0.0


@frozen
class Printer:
    """A printer as measured on a check sheet of ``paper``.

    ``bar_mm`` are the bars' true lengths and ``measured_mm`` the printed ones. ``crop_mm`` is
    the smallest number that printed on each side. ``back_shift_mm`` is how far the back's
    marks lie to the right and down, seen from the front, turned over on the long edge.
    """

    name: str
    paper: str
    bar_mm: Pair
    measured_mm: Pair
    crop_mm: Margins
    back_shift_mm: Pair

    def __post_init__(self) -> None:
        check_name(self.name)
        bounds(self.bar_mm, 20, 2000, "mm")
        bounds(self.crop_mm, 0, MOST_CROP, "mm")
        bounds(self.back_shift_mm, -MOST_SHIFT, MOST_SHIFT, "mm")
        for way in ("across", "down"):
            bar, measured = getattr(self.bar_mm, way), getattr(self.measured_mm, way)
            if not LEAST <= measured / bar <= MOST:
                share = round(measured / bar * 100)
                raise RefusedError(
                    "printer.bar",
                    field=f"measured-{way}",
                    way=_WAYS[way],
                    bar=bar,
                    measured=measured,
                    share=share,
                )

    @property
    def across(self) -> float:
        """How long a millimetre across comes out."""
        return self.measured_mm.across / self.bar_mm.across

    @property
    def down(self) -> float:
        """How long a millimetre down comes out."""
        return self.measured_mm.down / self.bar_mm.down

    def margins(self, paper: Paper) -> Margins:
        """Return the margins of upright ``paper`` in true mm: what it keeps, or what is cropped."""
        own, crop = paper.margins_mm, self.crop_mm
        x, y = paper.width_mm / 2 * (1 - self.across), paper.height_mm / 2 * (1 - self.down)
        return Margins(
            _up(max(own.left, x + crop.left * self.across)),
            _up(max(own.right, x + crop.right * self.across)),
            _up(max(own.top, y + crop.top * self.down)),
            _up(max(own.bottom, y + crop.bottom * self.down)),
        )

    def correction(
        self, width: float, height: float, turned: bool = False, flip: str | None = None
    ) -> Correction:
        """Return the correction of a page of ``width`` by ``height`` mm.

        ``turned`` is a page on its long side. ``flip`` is how the paper is turned over to print
        this page on its back ("long-edge" or "short-edge"); None for a front.
        """
        across, down = (self.down, self.across) if turned else (self.across, self.down)
        right, below = self._back_error(turned, flip)
        return Correction(
            1 / across,
            1 / down,
            width / 2 * (1 - 1 / across) - right / across,
            height / 2 * (1 - 1 / down) - below / down,
        )

    def _back_error(self, turned: bool, flip: str | None) -> tuple[float, float]:
        """Return how far right and down a page comes out, seen from its own side.

        The error belongs to the paper as it runs through the printer: seen from the back,
        right and left change places; a page turned to the left has the paper's right at its
        foot; turned over on the short edge it is printed upside down.
        """
        if flip is None:
            return 0.0, 0.0
        right, below = -self.back_shift_mm.across, self.back_shift_mm.down
        if turned:
            right, below = -below, right
        return (right, below) if flip == "long-edge" else (-right, -below)


def check_name(name: str) -> None:
    """Raise ``RefusedError`` for a name that no printer profile may have."""
    if not _NAME.fullmatch(name):
        raise RefusedError("printer.name", field="printer", given=name)


def folder() -> Path:
    """Return the folder of the user's printer profiles. Raises ``RefusedError`` without a home."""
    from platformdirs import user_config_path

    with suppress(RuntimeError):  # so platformdirs says that no home is known
        path = user_config_path("kitbuilder", appauthor=False) / "printers"
        if path.is_absolute():  # an older one gives ~, which would name a folder right here
            return path
    raise RefusedError("printer.no-home", field="printer")


def printer(name: str) -> Printer:
    """Return the printer saved as ``name``, or in the profile file ``name`` (ending .toml)."""
    if name.lower().endswith(".toml"):
        path = Path(name)
    else:
        check_name(name)
        path = folder() / f"{name}.toml"
        try:
            there = path.is_file()
            saved = sorted(file.stem for file in folder().glob("*.toml") if file.is_file())
        except OSError as error:
            raise RefusedError(
                "printer.folder", field="printer", folder=path.parent, reason=reason(error)
            ) from None
        if not there and saved:
            raise RefusedError("printer.unknown", field="printer", given=name, known=tuple(saved))
        if not there:
            raise RefusedError("printer.none-saved", field="printer", given=name)
    return designs.built(Printer, read_toml(path), Said("where.printer", path=path))


def profile(printer: Printer) -> str:
    """Return ``printer`` as the text of its profile file (TOML)."""

    def table(name: str, values: dict[str, float]) -> str:
        return f"\n[{name}]\n" + "".join(f"{key} = {value}\n" for key, value in values.items())

    def pair(name: str, pair: Pair) -> str:
        return table(name, {"across": pair.across, "down": pair.down})

    crop = printer.crop_mm
    return (
        "# A measured printer, in millimetres; made by kitbuilder check-print.\n"
        f"name = {json.dumps(printer.name)}\npaper = {json.dumps(printer.paper)}\n"
        + pair("bar_mm", printer.bar_mm)
        + pair("measured_mm", printer.measured_mm)
        + table("crop_mm", {k: getattr(crop, k) for k in ("left", "right", "top", "bottom")})
        + pair("back_shift_mm", printer.back_shift_mm)
    )


def _up(mm: float) -> float:
    """Round up to hundredths of a millimetre, so that nothing is cropped."""
    return math.ceil(mm * 100 - 1e-6) / 100
