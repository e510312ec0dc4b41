"""Turns each kind of thing that is printed into what is typed for it."""

from pathlib import Path

from click.testing import CliRunner

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.kit.mat_needs import ZONES

PUPILS = """name,sum,stage
Ada,71-48,pieces
Béla Kő,305-148,both
İlkay Şen,634 - 258,written
Ada,42-17,both
"""
"""Names with letters of both typefaces, and every stage."""

PRINTER = """name = "kitchen"
paper = "A4"
bar_mm = {across = 180, down = 260}
measured_mm = {across = 178.5, down = 259}
back_shift_mm = {across = 1, down = -0.5}
crop_mm = {left = 3, right = 4, top = 3, bottom = 5}
"""


def set_desk(folder: Path) -> Path:
    """Put the files that the kinds of kit below name into ``folder``, and return it."""
    (folder / "class.csv").write_text(PUPILS, "utf-8")
    (folder / "printer.toml").write_text(PRINTER, "utf-8")
    return folder


SUMS = ("634-258", "71-48", "305-148")

FAST = {
    "mini": ("kit", "--mini", "305-148", "--words", "es"),
    "packs": ("cards", "--pupils", "class.csv", "--backs", "long-edge", "--each"),
    "corrected": ("kit", "--pieces", "0,9,0", "--sturdy", "backs", "--printer", "printer.toml"),
    "set": (
        "kit",
        "71-48",
        "--children",
        "4",
        "--layers",
        "2",
        "--only",
        "pieces",
        "--piles",
        "sheets",
    ),
    "check": ("check-print", "--paper", "letter", "--look", "bold"),
}
"""A few kinds that have every way of making a PDF among them."""


CLASS = ("--children", "30", "--share", "2", "--layers", "3", "--piles", "sheets")


def every_kind() -> dict[str, tuple[str, ...]]:
    """Return what is typed for every kind of thing that is printed, by a name for it."""
    kinds = {
        **FAST,
        "ready-made": ("kit",),
        "within": ("kit", "--within", "1000"),
        "class": ("kit", *SUMS, *CLASS),
        "facts": ("cards", *SUMS, "--kinds", "exchange,tasks,facts,arrows,digits,record"),
        "pieces": ("kit", "--pieces", "3,2,10"),
        "plan": ("kit", "--plan", "plan.csv"),
        "printer": ("kit", *SUMS, "--printer", "printer.toml", "--backs", "long-edge"),
        "own size": ("kit", *SUMS, "--paper", "215x330mm", "--unit", "9.5"),
    }
    for mat in ZONES:
        mats = f"{mat},subtract,add,exchange"
        kinds[f"mat {mat}"] = ("kit", *SUMS, "--only", "mats", "--mat", mats)
    for backs in ("separate", "long-edge", "short-edge", "fold"):
        for stage in ("pieces", "both", "drawn", "written"):
            kinds[f"{backs} {stage}"] = ("cards", *SUMS, "--backs", backs, "--stage", stage)
        kinds[f"packs {backs}"] = ("cards", "--pupils", "class.csv", "--backs", backs, "--each")
    for sturdy in ("fold", "backs"):
        kinds[f"sturdy {sturdy}"] = ("kit", *SUMS, "--sturdy", sturdy)
    for kind, names in {"words": ("en-US", "es"), "look": ("spare", "bold", "outline")}.items():
        for name in names:
            kinds[f"{kind} {name}"] = ("kit", *SUMS, f"--{kind}", name)
            kinds[f"mini {kind} {name}"] = ("kit", "--mini", "71-48", f"--{kind}", name)
            kinds[f"check {kind} {name}"] = ("check-print", f"--{kind}", name)
    for paper in designs.names("paper"):
        kinds[f"paper {paper}"] = ("kit", *SUMS, "--paper", paper)
        kinds[f"mini {paper}"] = ("kit", "--mini", "71-48", "--paper", paper)
        kinds[f"check {paper}"] = ("check-print", "--paper", paper)
    return kinds


def printed(args: tuple[str, ...], folder: Path) -> list[Path]:
    """Run ``args`` in ``folder``, the current one, and return the PDFs made there, in order."""
    done = CliRunner().invoke(main, args)
    assert done.exit_code == 0, done.output
    return sorted(folder.rglob("*.pdf"))
