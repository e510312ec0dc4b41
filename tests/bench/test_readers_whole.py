"""Read by others, by hand: every kind of page in four readers, every sheet in two."""

from pathlib import Path
from subprocess import run

import pytest
from kinds import every_kind, printed, set_desk
from readers import (
    FAR,
    by_pdfium,
    by_pikepdf,
    by_poppler,
    differences,
    most_apart,
    pdf_picture,
    svg_picture,
    svg_size,
)

KINDS = every_kind()

CUT = {
    "ready-made": ("kit",),
    "kerf": ("kit", "634-258", "--cutter", "0.15", "--look", "outline"),
    "cards": (
        "kit",
        "71-48",
        "--only",
        "cards",
        "--kinds",
        "exchange,tasks,facts,arrows,digits,record",
    ),
    "mats": (
        "kit",
        "634-258",
        "--only",
        "mats",
        "--mat",
        "subtract,add,exchange",
        "--look",
        "bold",
    ),
    "sturdy": ("kit", "--pieces", "2,9,9", "--sturdy", "fold"),
    "words": ("kit", "--mini", "71-48", "--words", "es"),
    "set": ("kit", "71-48", "--children", "5", "--layers", "3", "--paper", "letter"),
}
"""What is drawn for cutters."""


@pytest.fixture(autouse=True)
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(set_desk(tmp_path))
    printed(("plan", "--weeks", "2", "--start", "2027-01-11", "--csv", "plan.csv"), tmp_path)
    return tmp_path


@pytest.mark.parametrize("kind", KINDS)
def test_readers_see_the_same_pages(kind: str, desk: Path) -> None:
    made = printed(KINDS[kind], desk)
    assert made
    for path in made:
        seen = by_pdfium(path)
        assert sum(side.words.total() for side in seen) > 30, path
        assert differences(seen, by_pikepdf(path)) == [], path
        assert differences(seen, by_poppler(path)) == [], path
        checked = run(["qpdf", "--check", path], capture_output=True, text=True, check=False)
        assert (checked.returncode, checked.stderr) == (0, ""), path  # 3 is for warnings
        print(f"\n{path.name}: {len(seen)} pages", end="")


@pytest.mark.parametrize("kind", CUT)
def test_drawings_for_cutters_look_like_the_pages(kind: str, desk: Path) -> None:
    (document,) = printed((*CUT[kind], "--cutter", "svg"), desk)
    sheets = sorted(document.parent.glob("*.svg"))
    sides = by_pdfium(document)
    assert len(sheets) == len(sides)
    apart = []
    for number, (path, side) in enumerate(zip(sheets, sides, strict=True)):
        raw = path.read_bytes()
        size = [float((text or "").removesuffix("mm")) for text in svg_size(raw)]
        assert size == pytest.approx([e * 25.4 / 72 for e in (side.width, side.height)], abs=0.004)
        apart.append(most_apart(svg_picture(raw, 2480), pdf_picture(document, number, 2480)))
    assert max(apart) < FAR, apart
    print(f"\n{len(sheets)} sheets, at most {max(apart):.0f} apart", end="")
