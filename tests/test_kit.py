"""The kit from end to end: the PDF as an independent reader sees it, and its JSON record."""

import json
import subprocess
import sys
from collections.abc import Callable
from hashlib import sha256
from itertools import groupby
from pathlib import Path
from typing import Any

import pypdfium2 as pdfium
import pytest
from click.testing import CliRunner
from pdf_lines import Line, covered, page_lines, page_texts
from pypdf import PdfReader

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.errors import RefusedError
from kitbuilder.kit.card_records import Answer, Wrong
from kitbuilder.layout.cover.print_lists import printed
from kitbuilder.layout.model import SheetKind
from kitbuilder.number import Pieces, Sum
from kitbuilder.pipeline import Built, build, held, laid_out
from kitbuilder.press.printing import source_date
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request, fitted_paper

Kit = tuple[Built, dict[str, Any], Path]
Make = Callable[..., Kit]


@pytest.fixture(scope="session")
def make(tmp_path_factory: pytest.TempPathFactory) -> Make:
    """Build kits, each different one once."""
    made: dict[Request, Kit] = {}

    def build_once(request: Request) -> Kit:
        if request not in made:
            folder = tmp_path_factory.mktemp("kit")
            built = build(request, folder)
            made[request] = (built, json.loads((folder / "kit.json").read_text()), folder)
        return made[request]

    return build_once


def first(paper: str = "a4") -> Request:
    return Request(first_wishes().sums, fitted_paper(paper))


def sides(item: dict[str, Any]) -> list[Line]:
    x, y = item["x_mm"], item["y_mm"]
    right, bottom = x + item["width_mm"], y + item["height_mm"]
    return [
        (x, y, right, y),
        (x, bottom, right, bottom),
        (x, y, x, bottom),
        (right, y, right, bottom),
    ]


def test_the_first_kit_has_at_most_twenty_pages_and_a_guide(make: Make) -> None:
    built, record, folder = make(first())
    kinds = [sheet["kind"] for sheet in record["sheets"]]
    order = [
        "cover",
        "pieces",
        "exchange_cards",
        "cutting",
        "mat",
        "lesson",
        "week",
        "worksheet",
        "worksheet_key",
        "guide",
    ]
    now = [sheet.kind for sheet in built.laid.sheets if not sheet.later]
    assert list(dict.fromkeys(now)) == order and kinds[: len(now)] == now
    assert kinds.count("guide") == 2  # when to write, when it is wrong
    assert len(kinds) <= 30 and len(now) <= 12
    assert len(PdfReader(folder / "kit.pdf").pages) == len(kinds) == len(built.laid.sheets)


@pytest.mark.parametrize("paper", ["a4", "letter"])  # every paper: output/test_true_size.py
def test_every_piece_is_drawn_at_true_size(make: Make, paper: str) -> None:
    _, record, folder = make(first(paper))
    true = {"hundreds": (100, 100), "tens": (10, 100), "ones": (10, 10)}
    found = dict.fromkeys(true, 0)
    with pdfium.PdfDocument(folder / "kit.pdf") as document:
        for sheet in record["sheets"]:
            if sheet["kind"] != "pieces":
                continue
            lines = page_lines(document[sheet["page"] - 1])
            for item in sheet["items"]:
                size = sorted((item["width_mm"], item["height_mm"]))
                assert size == pytest.approx(sorted(true[item["what"]]), abs=0.001)
                assert all(covered(side, lines) for side in sides(item)), item
                found[item["what"]] += 1
    assert found == record["pieces"]


def test_the_bars_and_the_bank_card_are_true(make: Make) -> None:
    _, _, folder = make(first())
    with pdfium.PdfDocument(folder / "kit.pdf") as document:
        lines = page_lines(document[0])
    lengths = [max(abs(c - a), abs(d - b)) for a, b, c, d in lines]
    assert (
        sum(abs(length - 100) < 0.01 for length in lengths) >= 2
    )  # the foot's bar, two long sides
    # ISO/IEC 7810 ID-1, 85.60 by 53.98 mm with corners of 3.18 mm (from memory)
    assert any(abs(length - (85.6 - 2 * 3.18)) < 0.01 for length in lengths)
    assert any(abs(length - (53.98 - 2 * 3.18)) < 0.01 for length in lengths)


def test_the_document_is_titled_numbered_and_not_to_be_scaled(make: Make) -> None:
    _, record, folder = make(first())
    reader = PdfReader(folder / "kit.pdf")
    root = reader.root_object
    assert reader.pdf_header == "%PDF-1.7"
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"  # type: ignore[index]
    assert str(root["/Lang"]) == "en-GB"
    assert reader.metadata is not None
    assert reader.metadata.title == "Subtraction kit"
    titles = [entry["/Title"] for entry in reader.outline]  # type: ignore[call-overload]
    others = (
        s["title"] for s in record["sheets"] if "work" not in s["kind"] and s["kind"] != "week"
    )
    assert [one for one in titles if "Week" not in str(one)] == [one for one, _ in groupby(others)]
    assert reader.page_labels == [str(n + 1) for n in range(len(reader.pages))]


def test_page_sizes_are_the_papers(make: Make) -> None:
    for paper in ("a4", "letter"):
        _, record, folder = make(first(paper))
        profile = designs.paper(paper)
        for sheet, page in zip(record["sheets"], PdfReader(folder / "kit.pdf").pages, strict=True):
            size = (float(page.mediabox.width) * 25.4 / 72, float(page.mediabox.height) * 25.4 / 72)
            assert size == pytest.approx((sheet["width_mm"], sheet["height_mm"]), abs=0.001)
            assert sorted(size) == pytest.approx([profile.width_mm, profile.height_mm], abs=0.001)


def test_cards_ask_and_answers_tell(make: Make) -> None:
    _, record, folder = make(first())
    texts = page_texts(folder / "kit.pdf")
    for card in record["cards"]:
        whole, part, rest = (card["sum"][k] for k in ("whole", "part", "rest"))
        assert whole - part == rest
        asked = texts[card["page"] - 1]
        for line in (f"Build {whole}.", f"Take out {part}.", "What is left?", "Push together"):
            assert line in asked
        below = asked.split(f"{whole} − {part}")[1].split("Push")[0]
        assert str(rest) not in below.replace(f"Take out {part}.", "")
        answered = [texts[s["page"] - 1] for s in record["sheets"] if s["kind"] == "answers"]
        assert any(f"{whole} − {part}" in text and f"left {rest}" in text for text in answered)


def test_the_record_holds_the_hash_of_the_pdf(make: Make) -> None:
    _, record, folder = make(first())
    assert record["schema_version"] == 1
    digest = sha256((folder / "kit.pdf").read_bytes()).hexdigest()
    assert record["files"] == {"kit.pdf": {"sha256": digest}}


@pytest.mark.parametrize(
    ("paper", "margin", "unit"),
    [("a4", 10.0, 9.5), ("letter", 10.0, 9.5), ("a3", None, None), ("legal", None, None)],
)
def test_the_cover_is_one_page(paper: str, margin: float | None, unit: float | None) -> None:
    request = Request(first_wishes().sums, fitted_paper(paper, margin, unit))
    kinds = [sheet.kind for sheet in laid_out(held(request), request).sheets]
    assert kinds.count(SheetKind.COVER) == 1  # at the usual margins too (in test_languages)


def test_parts_can_be_left_out(make: Make) -> None:
    paper = fitted_paper("a4")
    sums = (Sum(71, 48),)
    _, record, _ = make(Request(sums, paper, parts=("cards",)))
    kinds = {sheet["kind"] for sheet in record["sheets"]}
    assert kinds == {"cover", "exchange_cards", "task_cards", "answers"}
    assert record["pieces"] == {"hundreds": 0, "tens": 0, "ones": 0}
    _, record, _ = make(Request((), paper, extra=Pieces(10, 2), parts=("pieces",)))
    assert record["pieces"] == {"hundreds": 0, "tens": 2, "ones": 10}


def test_the_cover_tells_the_copies_of_each_sheet_of_pieces() -> None:
    """Two equal sheets and another one: 2 copies of the first, 1 of the second."""
    request = Request((Sum(958, 479),), fitted_paper("a4"), parts=("pieces",))
    sheets = laid_out(held(request), request).sheets
    copies = [sheet.copies for sheet in sheets if sheet.kind == "pieces"]
    assert len(set(copies)) > 1
    rows = [row for row in printed(sheets[1:], 2, designs.words()) if row.said.startswith("Pieces")]
    said = [f"Pieces: {n} copies" if n > 1 else "Pieces" for n in copies]
    assert [row.said for row in rows] == said


ALL_KINDS = (
    "kit",
    "71-48",
    "--children",
    "2",
    "--only",
    "pieces",
    "--piles",
    "sheets",
    "--cutter",
    "svg,dxf",
)


def test_the_same_request_gives_the_same_bytes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """PDF, SVG, DXF, PNG, JSON and CSV, over processes, hash seeds, time zones and folders."""
    kit = [*ALL_KINDS, "--png", "20", "--out", "kit"]
    plan = ["plan", "--weeks", "2", "--start", "2027-01-11", "--csv", "plan.csv"]
    here, there = tmp_path / "here", tmp_path / "there"
    here.mkdir()
    monkeypatch.chdir(here)
    assert [CliRunner().invoke(main, args).exit_code for args in (kit, plan)] == [0, 0]
    there.mkdir()
    root = str(Path(designs.__file__).parents[2])
    code = f"""
from kitbuilder.cli import main
for args in {kit, plan}:
    try:
        main(args)
    except SystemExit as end:
        assert not end.code
"""
    subprocess.run(
        [sys.executable, "-c", code],
        check=True,
        capture_output=True,
        env={"PYTHONHASHSEED": "1", "TZ": "Asia/Tokyo", "PATH": "", "PYTHONPATH": root},
        cwd=there,
    )
    found = []
    for out in (here, there):
        paths = sorted(path for path in out.rglob("*") if path.is_file())
        found.append({path.relative_to(out): path.read_bytes() for path in paths})
    assert {path.suffix for path in found[0]} == {
        *(".pdf", ".svg", ".dxf", ".png", ".json", ".csv"),
    }
    assert found[0].keys() == found[1].keys()
    assert [path for path in found[0] if found[0][path] != found[1][path]] == []


@pytest.mark.parametrize("said", [None, "1800000000"])
def test_the_only_date_in_a_pdf_is_the_one_a_build_is_told(
    said: str | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    if said:
        monkeypatch.setenv("SOURCE_DATE_EPOCH", said)
    args = ["kit", "71-48", "--children", "2", "--only", "pieces", "--piles", "sheets"]
    assert CliRunner().invoke(main, [*args, "--out", str(tmp_path)]).exit_code == 0
    for name in ("kit.pdf", "pile-card.pdf"):
        told = dict(PdfReader(tmp_path / name).metadata or {})
        # date -u -d @1800000000: 2027-01-15 08:00:00
        dates = ["D:20270115080000Z"] * 2 if said else [None] * 2
        assert [told.get("/CreationDate"), told.get("/ModDate")] == dates
        assert b"xmp" not in (tmp_path / name).read_bytes()


@pytest.mark.parametrize("said", ["-4", "1.5", "today", "٣", "9" * 5000, "253402300800"])
def test_a_date_that_is_none_is_refused(said: str) -> None:
    with pytest.raises(RefusedError, match=r"SOURCE_DATE_EPOCH was .*; set it to whole seconds"):
        source_date(said)
    assert source_date("253402300799") == 253402300799
    assert source_date("") is None


def test_an_answer_holds_three_wrong_ones_at_most() -> None:
    wrong = tuple(Wrong(n, "Ask again.", "Ask.") for n in range(4))
    with pytest.raises(ValueError, match=r"Answer\.wrong holds 4"):
        Answer(Sum(71, 48), (), (), "", wrong)
    assert Answer(Sum(71, 48), (), (), "", wrong[:3]).wrong == wrong[:3]


@pytest.mark.parametrize(
    ("whole", "part", "sources"),
    # 71 - 48 needs tens and ones; 634 - 258 hundreds too, whose card comes first.
    [(71, 48, [1]), (634, 258, [2, 1])],
)
def test_each_piece_that_can_be_exchanged_has_its_card(
    whole: int, part: int, sources: list[int]
) -> None:
    cards = held(Request((Sum(whole, part),), fitted_paper("a4"))).exchange_cards
    assert [card.source for card in cards] == sources
