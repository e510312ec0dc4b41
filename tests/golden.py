"""Kits kept as they were looked at, and what differs from them now, with room for harmless change.

The golden files are three of the samples: their records to about a millimetre, their words,
and three pages of the ready-made kit as low-resolution pictures. ``pytest --golden`` makes
them anew, with all samples; look at the pages before they are kept.
"""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pypdfium2 as pdfium
import samples
from pdf_lines import page_texts
from PIL import Image, ImageChops

NAMES = ("first", "tonight", "class")
"""The samples whose record and words are held."""

KINDS = ("cover", "mat", "lesson")
"""The pages of the ready-made kit whose pictures are held: the first of each kind."""

DIFFERENCES = Path(__file__).parent / "golden differences"
"""Where pictures of what differs are put."""

LOOSE_MM = 1.5
"""How far in mm words, pictures and boxes may have moved; a gap of 0.2 mm moves some by 1."""

TRUE_MM = 0.02
"""How far in mm what is of true size may have moved: pieces, cuts, folds and cards."""

LOOSE_SHARE = 0.05
"""How much ink, minutes and the like may have changed, as a part of them."""

GREYS = 12
"""Greys of 255 that one cell may have changed; a word less makes 24."""

CELLS = 20
"""Cells across a page in which pictures are compared, each some 10 mm wide."""

TRUE = ("hundreds", "tens", "ones", "task_card", "fact_card", "label_card")


def record(name: str, folder: Path) -> dict[str, Any]:
    """Return a sample's record without its hashes."""
    kept: dict[str, Any] = json.loads((folder / name / "kit.json").read_text("utf-8"))
    del kept["files"], kept["kitbuilder_version"]
    return kept


def words(name: str, folder: Path) -> list[str]:
    """Return the words of each page of a sample, however they are broken into lines."""
    pages = page_texts(folder / name / "kit.pdf")
    return [without_ink(" ".join(text.split())) for text in pages]


def without_ink(text: str) -> str:
    """Return ``text`` without how much ink is printed: the record has that, with room."""
    return re.sub(r"[\d.,]+ (cm²|% of what)", r"\1", text)


def differences(old: Any, new: Any, where: str = "", room: float = LOOSE_MM) -> Iterator[str]:  # noqa: ANN401
    """Yield what differs between two records, with room for what has moved a little."""
    if isinstance(old, dict) and isinstance(new, dict):
        for key in sorted({*old, *new}, key=str):
            if key not in old or key not in new:
                yield f"{where}.{key} is in one of them alone"
            else:
                closer = old.get("what") in TRUE or key in ("cuts", "folds", "paper", "cards")
                within = TRUE_MM if closer else room
                yield from differences(old[key], new[key], f"{where}.{key}", within)
    elif isinstance(old, list) and isinstance(new, list):
        if len(old) != len(new):
            yield f"{where} has {len(new)} entries and had {len(old)}"
        for number, (was, now) in enumerate(zip(old, new, strict=False)):
            yield from differences(was, now, f"{where}[{number}]", room)
    elif isinstance(old, float) and isinstance(new, int | float):
        loose = room if where.endswith("_mm") else LOOSE_SHARE * max(abs(old), 1)
        if abs(old - new) > loose:
            yield f"{where} is {new} and was {old}"
    elif old != new:
        yield f"{where} is {new!r} and was {old!r}"


def page_of(kind: str, folder: Path) -> int:
    """Return the first page of a kind in the ready-made kit, from 1."""
    sheets = record("first", folder)["sheets"]
    return next(int(sheet["page"]) for sheet in sheets if sheet["kind"] == kind)


def looks_different(
    kind: str, kept: Path, made: Path, differences: Path = DIFFERENCES
) -> Path | None:
    """Return a picture of what differs on the page of a kind, written for it; None for nothing."""
    old, new = (picture(f / "first" / "kit.pdf", page_of(kind, f)) for f in (kept, made))
    if old.size == new.size and changed(old, new) <= GREYS:
        return None
    differences.mkdir(exist_ok=True)
    shown = differences / f"{kind}.png"
    beside(old, new).save(shown)
    return shown


def picture(pdf: Path, page: int) -> Image.Image:
    """Return a page as a small grey picture, 50 dots an inch."""
    with pdfium.PdfDocument(pdf) as document:
        shown: Image.Image = document[page - 1].render(scale=samples.DPI / 72).to_pil()
    return shown.convert("L")


def changed(old: Image.Image, new: Image.Image) -> int:
    """Return the most that one cell of the page has changed, in greys of 255."""
    cells = (CELLS, max(1, round(CELLS * old.height / old.width)))
    small = [picture.resize(cells, Image.Resampling.BOX) for picture in (old, new)]
    return max(ImageChops.difference(*small).tobytes())


def beside(old: Image.Image, new: Image.Image) -> Image.Image:
    """Return both pictures and, between them, the new one in which what changed is dark."""
    new = new.resize(old.size)
    between = ImageChops.invert(ImageChops.difference(old, new))
    shown = Image.new("L", (3 * old.width, old.height), 255)
    for number, one in enumerate((old, between, new)):
        shown.paste(one, (number * old.width, 0))
    return shown
