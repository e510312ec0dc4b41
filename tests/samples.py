"""Turns what is typed for each sample into output_samples/: its PDF, its JSON and pictures."""

import json
from pathlib import Path

import pypdfium2 as pdfium
from click.testing import CliRunner
from PIL import Image

from kitbuilder.cli import main as kitbuilder

FOLDER = Path(__file__).parent.parent / "output_samples"
DPI = 50
GROUND = "#c9c9c0"
SUMS = ("634-258", "71-48", "305-148")
PLAN = str(FOLDER / "weeks" / "plan.csv")
PUPILS = str(FOLDER / "pupils" / "class.csv")
CLASS = ("--children", "30", "--share", "2", "--spares", "10", "--layers", "3")
CARDS = ("--kinds", "exchange,tasks,facts,arrows,digits,record", "--stage", "both")
BACKS = ("--sturdy", "backs", "--only", "pieces")
SPANISH = ("--words", "es", "--look", "bold", "--paper", "letter")
MATS = ("--mat", "three,subtract,add,exchange")
SAMPLES = {
    "first": ("kit",),
    "class": ("kit", *SUMS, *CLASS, "--mat", "beside", "--backs", "long-edge"),
    "stacks": ("kit", "--within", "1000", "--children", "6", "--layers", "5"),
    "pair": ("kit", *SUMS, "--children", "2", "--layers", "5", *BACKS, "--unit", "9.5"),
    "tonight": ("kit", "--mini", "604-167", "--words", "en-US"),
    "sturdy": ("kit", *SUMS, "--sturdy", "fold", *MATS, "--look", "spare"),
    "laser": ("kit", *SUMS, "--cutter", "0.2", "--look", "outline", "--only", "pieces,mats"),
    "weeks": ("kit", "--plan", PLAN, "--backs", "fold", *SPANISH),
    "cards": ("cards", *SUMS, *CARDS, "--backs", "short-edge"),
    "pupils": ("cards", "--pupils", PUPILS, "--look", "spare"),
    "thousand": ("kit", "4002-1768"),
    "decimals": ("kit", "3.2-1.47"),
    "marks": ("marks", str(FOLDER / "marks" / "answers.csv")),
    "check": ("check-print", "--words", "en-US"),
}
"""What is typed for each sample; together they come by nearly every line that lays out a page."""


def make(name: str, folder: Path) -> None:
    """Make the sample called ``name`` in ``folder``; nothing but its pictures is left out."""
    out = folder / "check.pdf" if name == "check" else folder
    done = CliRunner().invoke(kitbuilder, (*SAMPLES[name], "--out", str(out)))
    assert done.exit_code == 0, done.output


def contact(pictures: list[Image.Image], across: int = 6, gap: int = 8) -> Image.Image:
    """Lay small copies of the pages in rows on a grey ground."""
    for picture in pictures:
        picture.thumbnail((220, 220))
    wide = max(p.width for p in pictures) + gap
    high = max(p.height for p in pictures) + gap
    rows = -(-len(pictures) // across)
    sheet = Image.new("RGB", (min(across, len(pictures)) * wide + gap, rows * high + gap), GROUND)
    for index, picture in enumerate(pictures):
        sheet.paste(picture, (gap + index % across * wide, gap + index // across * high))
    return sheet


def at_a_glance(folder: Path, pages: list[Image.Image]) -> None:
    """Show the cover, the mat and the lesson's first page of the kit in ``folder`` side by side."""
    kinds = [sheet["kind"] for sheet in json.loads((folder / "kit.json").read_text())["sheets"]]
    shown = [pages[kinds.index(kind)] for kind in ("cover", "mat", "lesson")]
    gap = 24
    wide = sum(page.width + gap for page in shown) + gap
    picture = Image.new("RGB", (wide, max(page.height for page in shown) + 2 * gap), GROUND)
    x = gap
    for page in shown:
        picture.paste(page, (x, gap))
        x += page.width + gap
    picture = picture.convert("P", palette=Image.Palette.ADAPTIVE, colors=64)
    picture.save(folder / "at-a-glance.png", optimize=True)


def main() -> None:
    """Write the samples anew: the ready-made kit page by page, of the others the pages together."""
    for name in SAMPLES:
        folder = FOLDER / name
        folder.mkdir(parents=True, exist_ok=True)
        for old in (*folder.glob("*.png"), *folder.glob("*.pdf")):
            old.unlink()
        make(name, folder)
        pictures = []
        with pdfium.PdfDocument(next(folder.glob("*.pdf"))) as document:
            for number, page in enumerate(document, 1):
                if name == "first":
                    picture = page.render(scale=DPI / 72).to_pil()
                    picture = picture.convert("P", palette=Image.Palette.ADAPTIVE, colors=64)
                    picture.save(folder / f"page-{number:02}.png", optimize=True)
                pictures.append(page.render(scale=1).to_pil())
        if name == "first":
            at_a_glance(folder, [picture.copy() for picture in pictures])
        together = contact(pictures)
        if name != "first":
            together = together.convert("P", palette=Image.Palette.ADAPTIVE, colors=16)
        together.save(folder / "pages.png", optimize=True)


if __name__ == "__main__":
    main()
