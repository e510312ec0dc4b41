"""Someone's own drawing: on labels and cards as vectors; a stranger's file does no harm."""

import os
import re
import subprocess
import time
import zlib
from base64 import b64encode
from pathlib import Path

import pikepdf
import pytest
from click.testing import CliRunner, Result
from grids import some
from readers import qpdf_faults

from kitbuilder.cli import main
from kitbuilder.errors import RefusedError
from kitbuilder.layout.cards.free_corner import CLEAR, LEAST, MOST, free_corner
from kitbuilder.layout.model import Rect
from kitbuilder.press import own_drawing as module
from kitbuilder.press.own_drawing import own_drawing

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
STAR = f"""{HEAD} viewBox="0 0 100 50"><defs><linearGradient id="g"><stop offset="0"
stop-color="#fc0"/><stop offset="1" stop-color="#c30"/></linearGradient></defs>
<path d="M50 5L61 38H96L68 45Z" fill="url(#g)"/><circle r="9" fill="#000" fill-opacity="0.5"/>
</svg>"""


def svg(folder: Path, text: str) -> Path:
    path = folder / "own.svg"
    path.write_text(text, "utf-8")
    return path


def run(*args: str) -> Result:
    return CliRunner().invoke(main, args)


KIT = ("kit", "71-48", "634-258", "--children", "3", "--only", "cards", "--backs", "long-edge")


def test_a_drawing_is_held_once_and_stands_on_labels_and_cards(tmp_path: Path) -> None:
    own, out = svg(tmp_path, STAR), tmp_path / "out"
    assert run(*KIT, "--picture", str(own), "--out", str(out)).exit_code == 0
    assert qpdf_faults(out / "kit.pdf") == []
    with pikepdf.open(out / "kit.pdf") as made:
        shown = [
            re.findall(rb"q ([-\d.]+) 0 0 (-[\d.]+) ([\d.]+) ([\d.]+) cm /Own Do Q",
                       page.Contents.read_bytes()) for page in made.pages
        ]  # fmt: skip
        forms = {page.resources.XObject.Own.objgen for page in made.pages
                 if "/Own" in page.resources.get("/XObject", {})}  # fmt: skip
        (form,) = [made.get_object(*one) for one in forms]
        assert "/Shading" in form.Resources
        assert [float(side) for side in form.BBox] == [0, 0, 75, 37.5]
    # On two cards' fronts, two blank ones, three labels and one label to spare.
    assert sum(map(len, shown)) == 2 + 2 + 3 + 1
    for across, down, *_ in (place for page in shown for place in page):
        assert float(across) == -float(down)
        # twice as wide as high: it fills the width of its box, in millimetres
        assert LEAST <= 75 * float(across) <= MOST


def test_a_pack_of_a_pupil_is_pictured_and_cutters_are_not(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    own, table = svg(tmp_path, STAR), tmp_path / "class.csv"
    drawn = own_drawing(own)
    monkeypatch.setattr(module, "own_drawing", lambda path: drawn)
    table.write_text("name,sum\nAda,71-48\n")
    args = ("cards", "--pupils", str(table), "--each", "--picture", str(own))
    assert run(*args, "--out", str(tmp_path / "out")).exit_code == 0
    for name in ("cards.pdf", "each/pupil-0001.pdf"):
        with pikepdf.open(tmp_path / "out" / name) as made:
            assert any("/Own" in p.resources.get("/XObject", {}) for p in made.pages)
    cut = ("kit", "71-48", "--only", "cards", "--kinds", "tasks", "--cutter", "svg")
    assert run(*cut, "--picture", str(own), "--out", str(tmp_path / "k")).exit_code == 0


def test_the_largest_free_corner_keeps_clear() -> None:
    ink = Rect(10, 10, 80, 60)
    assert free_corner(ink, []) == Rect(90 - MOST, 10, MOST, MOST)
    words = Rect(10, 10, 80, 8)
    found = free_corner(ink, [words])
    assert found == Rect(90 - MOST, 70 - MOST, MOST, MOST)
    left = Rect(10, 10, 67, 60)
    narrow = free_corner(ink, [left])
    assert narrow is not None
    assert narrow.x >= left.right + CLEAR - 1e-9
    assert free_corner(ink, [left, Rect(77, 10, 13, 60)]) is None
    framed = free_corner(ink, [ink])
    assert framed is not None
    assert framed.right < ink.right


def bomb_of_uses(depth: int) -> str:
    """Return shapes that are used ten times each, ten times over: 10 ** depth of them."""
    groups = ['<g id="a0"><path d="M0 0H1V1Z"/></g>']
    groups += [
        f'<g id="a{n}">' + f'<use xlink:href="#a{n - 1}" x="1"/>' * 10 + "</g>"
        for n in range(1, depth + 1)
    ]
    return (
        f'{HEAD} width="9" height="9"><defs>{"".join(groups)}</defs><use href="#a{depth}"/></svg>'
    )


def png_of(side: int) -> bytes:
    """Return a PNG that says it is ``side`` pixels wide and high, and holds a row of them."""

    def chunk(name: bytes, data: bytes) -> bytes:
        mark = zlib.crc32(name + data).to_bytes(4, "big")
        return len(data).to_bytes(4, "big") + name + data + mark

    head = side.to_bytes(4, "big") * 2 + bytes((8, 2, 0, 0, 0))
    rows = zlib.compress(bytes(3 * side + 1))
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        chunk(*part) for part in ((b"IHDR", head), (b"IDAT", rows), (b"IEND", b""))
    )


LOL = "".join(f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 10))

HOSTILE = {
    "no xml": ("a drawing", "drawing.no-svg"),
    "two in one": (f"{HEAD}/><svg/>", "drawing.no-svg"),
    "letters of seven bits": (f'<?xml version="1.0" encoding="utf-7"?>{HEAD}/>', "drawing.no-svg"),
    "letters nobody knows": (f'<?xml version="1.0" encoding="moon"?>{HEAD}/>', "drawing.no-svg"),
    "a part of a disk": (f'{HEAD}><include href="file:///etc/passwd"/></svg>', "drawing.outside"),
    "no svg": ("<html><body/></html>", "drawing.no-svg"),
    "entities": (f'<!DOCTYPE svg [<!ENTITY a0 "x">{LOL}]>{HEAD}><text>&a9;</text></svg>',
                 "drawing.entities"),
    "outside entity": (f'<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/passwd">]>{HEAD}>'
                       "<text>&a;</text></svg>", "drawing.entities"),
    "script": (f"{HEAD}><script>alert(1)</script></svg>", "drawing.script"),
    "on load": (f'{HEAD} onload="alert(1)"/>', "drawing.script"),
    "page within": (f"{HEAD}><foreignObject/></svg>", "drawing.script"),
    "picture of a net": (f'{HEAD}><image xlink:href="http://a.example/b.png"/></svg>',
                         "drawing.outside"),
    "picture of a disk": (f'{HEAD}><image href="file:///etc/passwd"/></svg>', "drawing.outside"),
    "use of a file": (f'{HEAD}><use href="other.svg#a"/></svg>', "drawing.outside"),
    "drawing in a drawing": (f'{HEAD}><image href="data:image/svg+xml,a"/></svg>',
                             "drawing.outside"),
    "style of a net": (f'{HEAD}><style>@import "http://a.example/b.css";</style></svg>',
                       "drawing.outside"),
    "very deep": (f"{HEAD}>{'<g>' * 5000}{'</g>' * 5000}</svg>", "drawing.too-much"),
    "very many": (f"{HEAD}>{'<g/>' * 30_000}</svg>", "drawing.too-much"),
    "very large": (f"{HEAD}><desc>{'x' * 1_000_000}</desc></svg>", "file.too-large"),
}  # fmt: skip


@pytest.mark.parametrize("kind", HOSTILE)
def test_a_hostile_file_is_refused_before_it_is_drawn(
    kind: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def drawn(*args: object, **more: object) -> None:
        raise AssertionError("it was drawn")

    monkeypatch.setattr(subprocess, "run", drawn)
    text, code = HOSTILE[kind]
    with pytest.raises(RefusedError) as refused:
        own_drawing(svg(tmp_path, text))
    assert refused.value.code == code
    assert "\n" not in str(refused.value)


DRAWN = {
    "uses without end": f'{HEAD}><g id="a"><use href="#a"/></g></svg>',
    "a tile in a tile": f'{HEAD}><pattern id="p" width="1" height="1"><rect width="9" height="9" '
    'fill="url(#p)"/></pattern><rect width="9" height="9" fill="url(#p)"/></svg>',
    "huge": f'{HEAD} width="1e30" height="1e30"><rect width="1e300" height="1e300"/></svg>',
    "no size": f'{HEAD} width="0" height="0"/>',
    "a fill and a typeface from a net": f'{HEAD} width="9" height="9"><style>@font-face'
    '{{font-family:a;src:url(http://127.0.0.1:9/a.ttf)}} text{{font-family:a}}</style><text y="9">'
    'a</text><rect width="9" height="9" fill="url(http://127.0.0.1:9/a.svg#p)"/></svg>',
    "a huge filter": f'{HEAD} width="9" height="9"><filter id="f"><feGaussianBlur '
    'stdDeviation="1e9"/></filter><rect filter="url(#f)" width="1e9" height="1e9"/></svg>',
    "a picture too large for memory": f'{HEAD} width="9" height="9"><image width="9" height="9" '
    f'href="data:image/png;base64,{b64encode(png_of(60_000)).decode()}"/></svg>',
    "a broken picture": f'{HEAD}><image width="9" height="9" href="data:image/png;base64,AAAA"/></svg>',  # noqa: E501
    "dashes without end": f'{HEAD} width="9" height="9"><path d="M0 0H1e9" stroke="#000" '
    'stroke-dasharray="1e-9"/></svg>',
}


@pytest.mark.parametrize("kind", some(DRAWN, 3))  # what bounds them asks for no kind
def test_what_is_drawn_in_spite_of_all_ends_in_bounded_time(kind: str, tmp_path: Path) -> None:
    own, start = svg(tmp_path, DRAWN[kind]), time.monotonic()
    try:
        page = own_drawing(own)
    except RefusedError as refused:
        assert refused.code in ("drawing.not-drawn", "drawing.too-much")
        assert "\n" not in str(refused)
    else:
        (tmp_path / "own.pdf").write_bytes(page.pdf)
        assert qpdf_faults(tmp_path / "own.pdf") == []
    assert time.monotonic() - start < module.SECONDS + 60


ONE_SECOND = "from kitbuilder.press import own_drawing_child as d; d.SECONDS = 1; d.main()"


@pytest.mark.parametrize(
    ("child", "wall"),
    [(ONE_SECOND, module.SECONDS), ("import time; time.sleep(240)", 1 - 5)],
    ids=["the processor's time", "time"],
)
def test_a_million_uses_are_stopped(
    child: str, wall: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "_CHILD", child)
    monkeypatch.setattr(module, "SECONDS", wall)
    before = os.times().children_user
    with pytest.raises(RefusedError) as refused:
        own_drawing(svg(tmp_path, bomb_of_uses(6)))
    assert refused.value.code == "drawing.too-much"
    assert os.times().children_user - before < 2


def test_a_kit_with_a_drawing_that_is_refused_is_not_made(tmp_path: Path) -> None:
    own = svg(tmp_path, DRAWN["no size"])
    result = run(*KIT[:2], "--only", "cards", "--picture", str(own), "--out", str(tmp_path / "o"))
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
    assert not (tmp_path / "o").exists()


@pytest.mark.parametrize("lacking", ["cairosvg", "cairocffi"])
def test_without_the_library_one_sentence_says_how_to_get_it(
    lacking: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / f"{lacking}.py").write_text("raise OSError('no library called cairo-2 was found')")
    monkeypatch.syspath_prepend(tmp_path)
    own = svg(tmp_path, STAR)
    result = run(*KIT, "--picture", str(own), "--out", str(tmp_path / "o"))
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
    assert "pip install '.[pictures]'" in result.stderr
    assert not (tmp_path / "o").exists()
