"""Piles for a print shop: every copy once, on the right back, in the order that was asked for."""

from collections import Counter
from dataclasses import replace
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.draw.canvas import Canvas
from kitbuilder.layout.model import Flip, Sheet, SheetKind, Stock
from kitbuilder.output.pdf.document import About, Pages, document
from kitbuilder.output.pdf.print_piles import BLANK, piles

WAYS: tuple[Flip, ...] = ("long-edge", "short-edge")


def sheet(copies: int, stock: Stock = "card", flip: Flip | None = None) -> Sheet:
    return Sheet(SheetKind.PIECES, 1, stock, 210, 297, (), copies=copies, flip=flip)


LEAF = st.tuples(
    st.integers(1, 30), st.sampled_from(("card", "paper")), st.sampled_from((None, *WAYS))
)


@given(st.lists(LEAF, max_size=8), st.sampled_from(("sheets", "sets")), st.integers(1, 12))
def test_every_copy_is_there_and_each_side_lies_on_its_own_back(
    leaves: list[tuple[int, Stock, Flip | None]], how: str, kits: int
) -> None:
    sheets: list[Sheet] = []
    fronts: dict[int, int | None] = {}
    for copies, stock, way in leaves:
        fronts[len(sheets)] = len(sheets) + 1 if way else None
        sheets.append(sheet(copies, stock))
        sheets += [sheet(copies, stock, way)] if way else []
    seen = Counter[int]()
    for pile in piles(sheets, how, kits):  # type: ignore[arg-type]
        seen.update(index for index in pile.order if index is not None)
        if pile.flip is None:
            assert all(index in fronts and fronts[index] is None for index in pile.order)
            continue
        assert len(pile.order) % 2 == 0
        for front, back in zip(pile.order[::2], pile.order[1::2], strict=True):
            assert front is not None
            assert back == fronts[front]
            assert back is BLANK or sheets[back].flip == pile.flip
    assert seen == {index: one.copies for index, one in enumerate(sheets)}


def test_sheet_by_sheet_and_set_by_set() -> None:
    # a page for each of three kits, one of which every kit takes two, and one for the class
    sheets = [sheet(3), sheet(6), sheet(1)]
    (by_sheet,) = piles(sheets, "sheets", 3)
    (by_set,) = piles(sheets, "sets", 3)
    assert by_sheet.order == (0, 0, 0, 1, 1, 1, 1, 1, 1, 2)
    assert by_set.order == (0, 1, 1, 2, 0, 1, 1, 0, 1, 1)


def test_two_ways_of_turning_are_two_piles_and_one_sided_sheets_get_an_empty_back() -> None:
    sheets = [sheet(2), sheet(2), sheet(2, flip="long-edge"), sheet(2), sheet(2, flip="short-edge")]
    first, second = piles(sheets, "sheets", 2)
    assert (first.name, second.name) == ("pile-card-long-edge.pdf", "pile-card-short-edge.pdf")
    assert first.order == (0, BLANK, 0, BLANK, 1, 2, 1, 2)
    assert second.order == (3, 4, 3, 4)
    drawn = [
        replace(Canvas("page", 100, 100 + n, designs.look()).drawing(), flip=one.flip)
        for n, one in enumerate(sheets)
    ]
    made = PdfReader(BytesIO(document(Pages(drawn), About("pile", "en-GB"), first)))
    assert made.root_object["/ViewerPreferences"]["/Duplex"] == "/DuplexFlipLongEdge"  # type: ignore[index]
    sizes = [round(float(page.mediabox.height) * 25.4 / 72) for page in made.pages]
    assert sizes == [100, 100, 100, 100, 101, 102, 101, 102]


def test_the_pile_asks_for_no_copies(tmp_path: Path) -> None:
    args = ("kit", "71-48", "--children", "3", "--only", "pieces,cards", "--backs", "long-edge")
    done = CliRunner().invoke(main, [*args, "--piles", "sets", "--out", str(tmp_path)])
    assert done.exit_code == 0, done.output
    kit = [page.extract_text() for page in PdfReader(tmp_path / "kit.pdf").pages]
    for path in tmp_path.glob("pile-*.pdf"):
        texts = [page.extract_text() for page in PdfReader(path).pages]
        assert kit[0] not in texts
        backs = [two for one, two in pairwise(texts) if one == texts[0]]
        assert len(set(backs)) == 1, "each copy of the first front has the same behind it"


@pytest.mark.parametrize("order", ["collated", "set", ""])
def test_another_order_is_refused(order: str, tmp_path: Path) -> None:
    args = ["kit", "71-48", "--children", "3", "--piles", order, "--out", str(tmp_path / "o")]
    result = CliRunner().invoke(main, args)
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
    assert not (tmp_path / "o").exists()
