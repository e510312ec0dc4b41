"""Speed beside other ways, measured in turns; run by hand: pytest -s tests/bench/test_speed.py

Times are of the processor, medians of three; whole programs are started anew. Byte code is
kept in a folder of the test's own, as an installed program has it.
"""

import os
import random
import resource
import subprocess
import sys
import time
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from statistics import median

from pdf_lines import page_texts
from rival_pages import with_reportlab

import kitbuilder
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.pieces.pack_pieces import pack_pieces
from kitbuilder.layout.printable import Page
from kitbuilder.number.sums import Pieces
from kitbuilder.output.pdf.document import pdf
from kitbuilder.pipeline import build, held, laid_out
from kitbuilder.press.printing import fitted_paper
from kitbuilder.request.pupils import pupils
from kitbuilder.request.request import Request, card_wish

PEAK = """
import atexit
from pathlib import Path
from kitbuilder.__main__ import main
def told():  # VmHWM starts anew with the program; ru_maxrss would keep that of the one before it
    status = Path('/proc/self/status').read_text()
    Path('peak').write_text(status.partition('VmHWM:')[2].split()[0])
atexit.register(told)
main()
"""
"""Runs the program and leaves the most memory it took, in kB, in a file called peak."""

CARDS = 24
TURNS = 3


def table(cards: int) -> str:
    """Return a table of pupils with 23 sums each; a pack's label is its 24th card."""
    chance = random.Random(7)
    rows = ["name,sum"]
    for card in range(cards):
        whole = chance.randint(200, 999)
        rows.append(f"Pupil {card // (CARDS - 1) + 1},{whole} - {chance.randint(101, whole - 1)}")
    return "\n".join(rows)


def in_turns(*ways: Callable[[], object]) -> list[float]:
    """Return the median processor seconds of each way, run one after the other, in turns."""
    seconds: list[list[float]] = [[] for _ in ways]
    for _ in range(TURNS):
        for way, found in zip(ways, seconds, strict=True):
            start = time.process_time()
            way()
            found.append(time.process_time() - start)
    return [median(found) for found in seconds]


def program(folder: Path, *words: str) -> float:
    """Run the program anew; return the processor seconds it took."""
    env = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    env["PYTHONPYCACHEPREFIX"] = str(folder / "code")
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    env["PYTHONPATH"] = str(Path(kitbuilder.__file__).parent.parent)
    command = [sys.executable, "-c", PEAK, *words]
    subprocess.run(command, check=True, env=env, capture_output=True, cwd=folder)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def test_a_kit_in_a_second_and_a_class_set_in_a_fifth_more(tmp_path: Path) -> None:
    out = ("--out", str(tmp_path / "out"))
    kit, many, start = ["kit", *out], ["kit", "--children", "30", "--share", "2", *out], ["--help"]
    ways = (start, kit, many)
    program(tmp_path, *many)
    taken = [[program(tmp_path, *way) for way in ways] for _ in range(5)]
    began, one, all_ = (median(column) for column in zip(*taken, strict=True))
    print(f"\nhelp {began:.2f} s, kit {one:.2f} s, class set {all_:.2f} s ({all_ / one:.2f})")
    assert one < 1.0 and began < 0.3
    assert all_ <= 1.2 * one


def packs() -> Request:
    return Request(
        sums=(),
        paper=fitted_paper("a4"),
        parts=("cards",),
        cards=card_wish("tasks", "pieces", "long-edge"),
        pupils=pupils(table(30 * (CARDS - 1)), "table", "pieces"),
        name="cards",
    )


def test_thirty_packs_beside_a_plain_reportlab_script(tmp_path: Path) -> None:
    request = packs()
    sheets = laid_out(held(request), request).sheets
    drawings = list(draw_pages(sheets, request.paper, request.press))
    written = tmp_path / "reportlab.pdf"
    ours, theirs, writing = in_turns(
        lambda: build(request, tmp_path / "out"),
        lambda: written.write_bytes(with_reportlab(drawings)),
        lambda: pdf(drawings, "packs", "en-GB"),
    )
    sizes = [path.stat().st_size for path in (tmp_path / "out" / "cards.pdf", written)]
    print(f"\n{len(drawings)} pages: whole program {ours:.2f} s, reportlab on the marks alone "
          f"{theirs:.2f} s ({ours / theirs:.2f}), our writing step {writing:.2f} s "
          f"({theirs / writing:.1f}); bytes {sizes}")  # fmt: skip
    words = [sorted(text.split()) for text in page_texts(tmp_path / "out" / "cards.pdf")]
    assert words == [sorted(text.split()) for text in page_texts(written)]
    assert ours <= 2.5 * theirs
    assert theirs >= 3 * writing
    assert sizes[0] < sizes[1]


def test_the_largest_class_set_is_packed_in_half_a_second() -> None:
    demand, page = Pieces(19, 19, 9), Page.sized(210, 297, 5, 5, 5, 5)
    seconds = max(in_turns(*(
        lambda layers=layers: pack_pieces(demand, page, 10, CutWish(kits=60, layers=layers))
        for layers in (1, 5, 10)
    )))  # fmt: skip
    print(f"\n60 kits packed and planned in {seconds:.2f} s")
    assert seconds < 0.5


def test_cost_a_card_falls_with_size(tmp_path: Path) -> None:
    taken = []
    for cards in (10, 100, 1000, 10_000):
        listed = tmp_path / "pupils.csv"
        listed.write_text(table(cards))
        words = ("cards", "--pupils", str(listed), "--backs", "long-edge", "--out", str(tmp_path))
        if cards == 10:
            program(tmp_path, *words)  # keeps byte code for the next
        seconds = program(tmp_path, *words)
        size = (tmp_path / "cards.pdf").stat().st_size
        peak = int((tmp_path / "peak").read_text()) / 1024
        print(f"\n{cards} cards: {1000 * seconds / cards:.1f} ms and {size / cards:.0f} bytes "
              f"a card, {peak:.0f} MB")  # fmt: skip
        taken.append((seconds / cards, size / cards))
    # Level or falling: a tenth more is what one run differs from the next.
    for (before, bytes_before), (after, bytes_after) in pairwise(taken):
        assert after <= 1.1 * before and bytes_after <= 1.1 * bytes_before
    assert peak < 110
