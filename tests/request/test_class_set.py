"""The class set: kits, copies, labels, spares and piles; the estimate reckoned a second time."""

import json
from collections import Counter
from itertools import permutations
from pathlib import Path
from typing import Any

import pypdfium2 as pdfium
import pytest
from click.testing import CliRunner
from grids import pairs
from pdf_lines import page_texts
from PIL import ImageStat
from pypdf import PdfReader

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.ink import area, darkness, drawn_part
from kitbuilder.errors import RefusedError
from kitbuilder.kit.bank import Bank
from kitbuilder.kit.records import CutWish, EstimateWish
from kitbuilder.layout.bag import Bag
from kitbuilder.layout.cards.bag_labels import LabelFace, label_sheets
from kitbuilder.layout.estimate import estimate
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.number import Pieces, Sum
from kitbuilder.pipeline import build
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request, cut_wish, fitted_paper, kits_for


@pytest.fixture(scope="module")
def class_set(tmp_path_factory: pytest.TempPathFactory) -> tuple[dict[str, Any], Path]:
    folder = tmp_path_factory.mktemp("class")
    request = Request(
        first_wishes().sums,
        fitted_paper("a4"),
        cutting=cut_wish(children=30, share=2, layers=5, spares=5),
        estimate=EstimateWish(grammage=200, per_sheet=0.12),
        piles="sheets",
    )
    build(request, folder)
    return json.loads((folder / "kit.json").read_text()), folder


def test_children_share_kits_rounded_up() -> None:
    assert kits_for(30, 2) == 15
    assert kits_for(31, 2) == 16  # the last child has one alone
    assert kits_for(7, None) == 7
    assert kits_for(None, None) == 1


@pytest.mark.parametrize(
    ("args", "says"),
    [
        ("--share 2", "without --children"),
        ("--children 0", "from 1 to 200"),
        ("--children 30 --share 0", "from 1 to 10000"),
        ("--children 3000", "3000 children need 3000 kits; 200 is the most"),
        ("--children 402 --share 2", "402 children need 201 kits"),
        ("--spares 101", "from 0 to 100"),
        ("--spares nan", "give a number"),
        ("--spares some", "give a number"),
    ],
)
def test_what_cannot_be_is_refused(args: str, says: str, tmp_path: Path) -> None:
    result = CliRunner().invoke(main, ["kit", "71-48", *args.split(), "--out", str(tmp_path / "k")])
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
    assert says in result.stderr
    assert not (tmp_path / "k").exists()


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("cuts_per_minute = 0", "cuts_per_minute was 0; choose a number from 0.1 to 1000"),
        ("grammage = 3", "grammage was 3; choose a number from 20 to 1000"),
        ("per_sheet = -1", "per_sheet was -1; choose a number from 0 to 100000"),
        ("ink = 3", "estimate"),
        ("minutes = 3", "estimate"),
    ],
)
def test_an_estimate_that_cannot_be_is_refused(line: str, says: str, tmp_path: Path) -> None:
    file = tmp_path / "ours.toml"
    file.write_text(f'sums = ["71 - 48"]\n[estimate]\n{line}\n')
    result = CliRunner().invoke(main, ["kit", str(file), "--out", str(tmp_path / "k")])
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
    assert says in result.stderr


def test_spares_are_ones_and_tens() -> None:
    # 5 % of 15 bags: of 225 ones 11.25, of 195 tens 9.75, rounded up; hundreds are seldom lost
    assert CutWish(15, spares=5).extra(Pieces(15, 13, 4)) == Pieces(12, 10)
    # half of two bags of 1 one and 9 tens
    assert CutWish(2, spares=50).extra(Pieces(1, 9)) == Pieces(1, 9)
    assert CutWish(spares=100).extra(Pieces(2, 3)) == Pieces(2, 3)
    assert CutWish(spares=0.1).extra(Pieces(2, 3)) == Pieces(1, 1)  # rounded up
    # 1 % of 101 ones is a little more than one, of 100 tens one
    assert CutWish(spares=1).extra(Pieces(101, 100)) == Pieces(2, 1)
    assert CutWish(15).extra(Pieces(15, 13, 4)) == Pieces()


def test_each_different_sheet_is_there_once_with_its_copies(
    class_set: tuple[dict[str, Any], Path],
) -> None:
    record, folder = class_set
    assert len(PdfReader(folder / "kit.pdf").pages) == len(record["sheets"])
    copies = {s["kind"]: s["copies"] for s in record["sheets"] if s["kind"] != "pieces"}
    assert {k for k, n in copies.items() if n == 15} == {"mat", "exchange_cards", "task_cards"}
    assert set(copies.values()) == {1, 15}
    held = dict.fromkeys(("hundreds", "tens", "ones"), 0)
    for sheet in record["sheets"]:
        if sheet["kind"] == "pieces":
            for item in sheet["items"]:
                held[item["what"]] += sheet["copies"]
    for what, count in record["pieces"].items():
        assert held[what] == 15 * count + record["cutting"]["spares"][what]
    # 5 % of 225 ones and of 195 tens, rounded up; a sheet may hold more at no stroke
    assert record["cutting"]["spares"]["ones"] >= 12
    assert record["cutting"]["spares"]["tens"] >= 10


def test_the_print_run_comes_first_and_names_every_page(
    class_set: tuple[dict[str, Any], Path],
) -> None:
    record, folder = class_set
    assert [s["kind"] for s in record["sheets"]][:2] == ["print_run", "cover"]
    text = PdfReader(folder / "kit.pdf").pages[0].extract_text()
    assert "15 kits" in text
    for stock in ("card", "paper"):
        assert f"{stock}: {record['estimate'][f'{stock}_sheets']}" in text
    cover = PdfReader(folder / "kit.pdf").pages[1].extract_text()
    assert "For each kit you will cut" in " ".join(cover.split())
    # What is printed once on paper is one pile for the adult: its last pages are the guide.
    assert f"–{len(record['sheets'])}" in text
    assert "For you: one of each" in text


def test_there_is_a_label_for_every_kit(class_set: tuple[dict[str, Any], Path]) -> None:
    record, folder = class_set
    pages = [s["page"] - 1 for s in record["sheets"] if s["kind"] == "labels"]
    assert len(pages) == 4  # four on a sheet
    text = " ".join(PdfReader(folder / "kit.pdf").pages[p].extract_text() for p in pages)
    for number in range(1, 16):
        assert f"Kit {number}" in text
    assert text.count("of 15") == 15
    assert "Kit …" in text and text.count("spare label") == 1  # the fourth on the last sheet
    assert text.count("15 ones") == text.count("Task cards: 4") == 16
    assert text.count("Blank cards: 2") == 16  # beside the exchange cards


def test_labels_divide_a_page_whose_sides_do_not_halve_in_whole_hundredths() -> None:
    # 12.1 mm of 297.1 mm are the foot's; 285 mm in four are 71.25 mm.
    bag, paper = Pieces(ones=8, tens=1), fitted_paper("210.1x297.1mm")
    style = Style(paper, designs.words(), designs.look())
    first, second = label_sheets(Bank(bag, 0), Bag(), CutWish(6), style)
    assert {(item.rect.width, item.rect.height) for item in first.items} == {(210.1, 71.25)}
    # The foot goes first; three cuts make four of one, the middle one first. Below the last two
    # labels stand two to spare.
    assert [round(cut.y1, 3) for cut in first.cuts] == [285, 142.5, 71.25, 213.75]
    assert (len(second.items), second.cuts) == (4, first.cuts)


@pytest.mark.parametrize(
    ("look", "words", "paper"),
    pairs(designs.names("looks"), ("en-GB", "es"), ("a4", "letter", "a5")),
)
def test_nothing_on_a_label_leaves_it(paper: str, words: str, look: str) -> None:
    style = Style(fitted_paper(paper), designs.words(words), designs.look(look))
    for sheet in label_sheets(Bank(Pieces(15, 13, 4), 0), Bag(), CutWish(5), style):
        for label in sheet.items:
            assert isinstance(label.content, LabelFace)
            assert all(label.rect.holds(item.rect, 0.02) for item in label.content.items)


@pytest.mark.parametrize(("turns", "boxes"), [(0, 5), (6, 6), (16, 10)])
def test_a_label_has_a_box_for_each_turn_as_far_as_they_fit(turns: int, boxes: int) -> None:
    style = Style(fitted_paper("a4"), designs.words(), designs.look())
    (sheet,) = label_sheets(Bank(Pieces(15, 13, 6), 0), Bag(turns=turns), CutWish(3), style)
    for label in sheet.items:
        assert isinstance(label.content, LabelFace)
        assert all(label.rect.holds(item.rect, 0.02) for item in label.content.items)
        ticked = [item for item in label.content.items if item.what == "tick_box"]
        assert len(ticked) == 3 * boxes  # below hundreds, tens and ones


def test_a_label_is_filled_from_top_to_foot() -> None:
    # Its lower half was blank where a bag holds pieces alone.
    style = Style(fitted_paper("a4"), designs.words(), designs.look())
    (sheet,) = label_sheets(Bank(Pieces(15, 13, 6), 0), Bag(), CutWish(4), style)
    for label in sheet.items:
        assert isinstance(label.content, LabelFace)
        told = [i.rect for i in label.content.items if i.what in ("tick_box", "line", "pieces")]
        assert max(r.bottom for r in told) - min(r.y for r in told) > 0.6 * label.rect.height


def test_a_label_too_long_for_a_quarter_takes_a_larger_card() -> None:
    words, look = designs.words(), designs.look()
    bag = Pieces(15, 13, 4)
    for size, each, count in (("210x297mm", 4, 12), ("148x210mm", 3, 9)):
        sheets = label_sheets(
            Bank(bag, 0), Bag(), CutWish(9), Style(fitted_paper(size), words, look)
        )
        assert max(len(sheet.items) for sheet in sheets) == each
        assert sum(len(sheet.items) for sheet in sheets) == count  # nine and those to spare
    with pytest.raises(RefusedError, match=r"no-label|larger paper"):
        label_sheets(Bank(bag, 0), Bag(), CutWish(2), Style(fitted_paper("60x60mm"), words, look))


def test_the_estimate_reckoned_from_the_record(class_set: tuple[dict[str, Any], Path]) -> None:
    record, _ = class_set
    told = record["estimate"]
    card = paper = 0
    parts = Counter[int]()
    ink = area = card_area = 0.0
    for sheet in record["sheets"]:
        if sheet["kind"] == "print_run":
            paper += sheet["copies"]  # is printed too; its own ink it cannot tell
            continue
        size = sheet["width_mm"] * sheet["height_mm"] * sheet["copies"]
        area += size
        ink += sheet["ink_mm2"] * sheet["copies"]
        if sheet["stock"] == "card":
            card += sheet["copies"]
            card_area += size
        else:
            paper += sheet["copies"]
        for cut in sheet["cuts"]:
            parts[cut["stop"]] += sheet["copies"]
    stops = {stop["stop"]: stop for stop in record["stops"]}
    assert {number: stop["parts"] for number, stop in stops.items()} == parts
    by_hand = {number for number, stop in stops.items() if -(-parts[number] // 5) < stop["strokes"]}
    assert 0 < len(by_hand) < len(parts) / 4  # narrow ends alone, which no clamp holds: two at once
    cuts = sum(-(-count // (2 if number in by_hand else 5)) for number, count in parts.items())
    assert (told["card_sheets"], told["paper_sheets"]) == (card, paper)
    assert told["straight_cuts"] == cuts
    assert told["minutes"] == pytest.approx(cuts / 4, abs=0.05)
    assert told["ink_mm2"] == pytest.approx(ink, rel=1e-4)
    assert told["ink_per_cent"] == pytest.approx(100 * ink / area, abs=0.01)
    assert told["card_grams"] == pytest.approx(card_area * 1e-6 * 200, abs=0.1)  # ISO 536: g/m²
    assert told["cost"] == pytest.approx((card + paper) * 0.12, abs=0.005)


@pytest.mark.parametrize(
    ("sum_", "mini"),
    [(Sum(71, 48), False), (Sum(71, 48), True), (Sum(604, 167), True)],  # steps apart in the last
)
def test_one_kit_one_layer_has_a_stroke_for_every_cut(
    sum_: Sum, mini: bool, tmp_path: Path
) -> None:
    build(Request((sum_,), fitted_paper("letter"), mini=mini), tmp_path)
    record = json.loads((tmp_path / "kit.json").read_text())
    cuts = sum(len(sheet["cuts"]) * sheet["copies"] for sheet in record["sheets"])
    assert record["estimate"]["straight_cuts"] == cuts
    assert (record["estimate"]["card_grams"], record["estimate"]["cost"]) == (None, None)
    assert "labels" not in {sheet["kind"] for sheet in record["sheets"]}


def test_ink_agrees_with_the_rendered_page(class_set: tuple[dict[str, Any], Path]) -> None:
    record, folder = class_set
    with pdfium.PdfDocument(folder / "kit.pdf") as document:
        for sheet in record["sheets"]:
            picture = document[sheet["page"] - 1].render(scale=3).to_pil().convert("L")
            dark = 1 - ImageStat.Stat(picture).mean[0] / 255
            rendered = dark * sheet["width_mm"] * sheet["height_mm"]
            # lines that cross, or have something drawn over them, are counted whole: most in
            # lessons, where hundreds lie on each other
            assert 0.85 * rendered <= sheet["ink_mm2"] <= 1.4 * rendered


def test_ink_of_single_marks() -> None:
    assert (darkness("#000000"), darkness("#ffffff")) == (1, 0)
    assert darkness("#808080") == pytest.approx(127 / 255)
    assert drawn_part((3, 2)) == pytest.approx(0.6)
    assert drawn_part((1,)) == pytest.approx(0.5)  # SVG repeats an odd list: one on, one off
    assert area([(0, 0), (3, 0), (3, 4)]) == 6


def test_the_piles_hold_every_copy(class_set: tuple[dict[str, Any], Path]) -> None:
    record, folder = class_set
    kit = page_texts(folder / "kit.pdf")
    for stock in ("card", "paper"):
        due = [
            s["page"] - 1
            for s in record["sheets"]
            if s["stock"] == stock and s["kind"] != "print_run"  # it would ask for copies again
            for _ in range(s["copies"])
        ]
        pile = PdfReader(folder / f"pile-{stock}.pdf")
        assert len(pile.pages) == len(due)
        assert page_texts(folder / f"pile-{stock}.pdf") == [kit[page] for page in due]
        assert pile.root_object["/ViewerPreferences"]["/PrintScaling"] == "/None"  # type: ignore[index]
        # copies share their content: the pile is no larger than the kit
        assert (folder / f"pile-{stock}.pdf").stat().st_size < (folder / "kit.pdf").stat().st_size
    assert set(record["files"]) == {"kit.pdf", "pile-card.pdf", "pile-paper.pdf"}


def test_ink_is_summed_alike_by_every_python() -> None:
    """Added one by one in 3.11, these make 20.450000000000003, which rounds up."""
    sheets = [Sheet(SheetKind.GUIDE, n, "paper", 210, 297, ()) for n in (1, 2, 3)]
    takes = [estimate(sheets, inks, 1, EstimateWish()) for inks in permutations((8.85, 5.95, 5.65))]
    assert {one.ink_mm2 for one in takes} == {20.4}


def test_a_shared_bag_says_who_takes_it_home_first_and_that_it_comes_back(tmp_path: Path) -> None:
    args = ("kit", "42-17", "--children", "5", "--home", "--only", "cards", "--out", str(tmp_path))
    said = {}
    for share in ("2", "1"):
        assert CliRunner().invoke(main, [*args, "--share", share]).exit_code == 0
        said[share] = " ".join(" ".join(page_texts(tmp_path / "kit.pdf")).split())
    for words in ("first", "then", "goes back to school", "A shared bag: write the names"):
        assert words in said["2"]
    assert "goes back to school" not in said["1"] and "A shared bag" not in said["1"]
