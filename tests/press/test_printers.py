"""Measured printers: what they are, where they are kept, and that kits come out true."""

import json
from pathlib import Path

import pypdfium2 as pdfium
import pytest
from click.testing import CliRunner, Result
from pdf_lines import Line, covered, page_lines, page_texts

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.design.load import Margins
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.errors import RefusedError
from kitbuilder.layout.pages.check_sheet import Stairs, bars, check_sheets
from kitbuilder.layout.parts import contents
from kitbuilder.press import printer as printers
from kitbuilder.press.printer import Pair, Printer

CROP = Margins(4, 4, 4, 4)


def printer(across: float, down: float, shift: tuple[float, float] = (0, 0)) -> Printer:
    return Printer(
        "kitchen", "A4", Pair(150, 150), Pair(150 * across, 150 * down), CROP, Pair(*shift)
    )


class Run:
    def __call__(self, *words: str) -> Result:
        return CliRunner().invoke(main, words)


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.setattr(printers, "folder", lambda: tmp_path / "config" / "printers")
    return Run()


MEASURED = (
    *("check-print", "--measured-across", "147.3", "--measured-down", "146.2"),
    *("--crop", "4", "4", "12", "4", "--back-shift", "0.8", "-0.3", "--save-as", "kitchen"),
)


def test_a_measured_printer_is_saved_and_read_back(run: Run, tmp_path: Path) -> None:
    done = run(*MEASURED)
    assert done.exit_code == 0, done.output
    path = tmp_path / "config" / "printers" / "kitchen.toml"
    assert f"Saved {path}" in done.output
    saved = printers.printer("kitchen")
    assert (saved.across, saved.down) == pytest.approx((0.982, 146.2 / 150))
    assert saved.crop_mm == Margins(left=4, right=4, top=4, bottom=12)
    assert saved.back_shift_mm == Pair(0.8, -0.3)
    assert printers.printer(str(path)) == saved


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (
            ("--measured-across", "119", "--measured-down", "150"),
            "--measured-across was 119 mm for a bar of 150 mm; it must be 120 to 180",
        ),
        (
            ("--measured-across", "150", "--measured-down", "181"),
            "--measured-down was 181 mm for a bar of 150 mm",
        ),
        (
            ("--measured-across", "nan", "--measured-down", "150"),
            "across was 'nan'; give",
        ),
        (("--measured-across", "150"), "give both bars"),
        (
            ("--measured-across", "150", "--measured-down", "150", "--crop", "1", "1", "41", "1"),
            "--crop was given 41 mm; each number must be 0 to 40 mm",
        ),
        (
            ("--measured-across", "150", "--measured-down", "150", "--back-shift", "0", "-11"),
            "--back-shift was given -11 mm; each number must be -10 to 10 mm",
        ),
    ],
)
def test_a_wrong_measurement_is_refused(run: Run, words: tuple[str, ...], said: str) -> None:
    done = run("check-print", *words, "--save-as", "kitchen")
    assert (done.exit_code, said in done.output) == (2, True), done.output
    assert done.output.count("\n") == 1


def test_a_corrected_sheet_is_not_measured_again(run: Run) -> None:
    assert run(*MEASURED).exit_code == 0
    again = run(*MEASURED, "--printer", "kitchen")
    assert (again.exit_code, "corrected already" in again.output) == (2, True)


@pytest.mark.parametrize("option", ["--out", "--look"])
def test_what_is_for_the_sheet_does_not_go_with_saving(run: Run, option: str) -> None:
    # Saving prints nothing that a name or a look could be for.
    value = {"--out": "check.pdf", "--look": "bold"}[option]
    done = run(*MEASURED, option, value)
    assert (done.exit_code, f"leave out {option}." in done.output) == (2, True)
    assert "none is saved yet" in run("kit", "--printer", "kitchen").output


def test_a_correction_that_does_not_fit_is_refused(run: Run) -> None:
    # The bars of a5 are 120 and 150 mm. Shrunk to 83 % across, 12.3 mm of each side stay white,
    # and 40 mm read there are 33.3 mm more: 148 mm less 2 × 45.7 mm leaves 56.7 mm.
    small = ("--measured-across", "100", "--measured-down", "120", "--crop", "40", "40", "40", "40")
    done = run("check-print", "--paper", "a5", *small, "--save-as", "far")
    assert done.exit_code == 2
    assert "would print 57 by 104 mm of A5, and the first page of a kit needs 112" in done.output
    assert "measure it on paper of 204 by 218 mm or larger" in done.output
    assert "none is saved yet" in run("kit", "--printer", "far").output
    # On a4 the same printer leaves 210 less 2 × (17.5 + 30) mm, enough; not so on small paper.
    wide = ("--measured-across", "125", "--measured-down", "125", "--crop", "9", "36", "9", "36")
    assert run("check-print", *wide, "--save-as", "far").exit_code == 0
    done = run("kit", "--paper", "80x80mm", "--unit", "5", "--printer", "far")
    assert done.exit_code == 2
    assert "with --unit 5 and --printer far: the margins leave less" in done.output


def test_saving_a_printer_again_says_that_it_replaces(run: Run) -> None:
    assert run(*MEASURED).output.startswith("Saved ")
    assert run(*MEASURED).output.startswith("Replaced ")


def test_a_printer_needs_a_plain_name_and_must_be_known(run: Run) -> None:
    for name in ("../kitchen", "", "Küche", "a" * 41):
        with pytest.raises(RefusedError, match="cannot be a printer's name"):
            printers.check_name(name)
    assert "none is saved yet" in run("kit", "--printer", "kitchen").output
    run(*MEASURED)
    assert "choose one of kitchen" in run("kit", "--printer", "attic").output


def test_margins_grow_to_what_prints() -> None:
    paper = designs.paper("a4")
    # Shrunk to 96 % about the middle, the paper's own edge lies 4.2 mm in; the crop of 4 mm
    # that was read on the sheet lies 3.84 mm further.
    margins = printer(0.96, 1.0).margins(paper)
    assert (margins.left, margins.right) == (8.04, 8.04)
    assert (margins.top, margins.bottom) == (5, 5)


@pytest.mark.parametrize("turned", [False, True])
def test_the_correction_undoes_the_printer(turned: bool) -> None:
    width, height = (297, 210) if turned else (210, 297)
    across, down = (0.971, 0.963) if turned else (0.963, 0.971)
    c = printer(0.963, 0.971).correction(width, height, turned)
    for x, y in ((20, 30), (width / 2, height / 2), (width - 20, height - 30)):
        drawn = (x * c.across + c.right, y * c.down + c.below)
        printed = (
            width / 2 + (drawn[0] - width / 2) * across,
            height / 2 + (drawn[1] - height / 2) * down,
        )
        assert printed == pytest.approx((x, y))


@pytest.mark.parametrize(
    ("turned", "flip", "right", "below"),
    [
        (False, None, 0, 0),
        # 0.8 mm to the right seen from the front is to the left seen from the back, so the
        # back's marks move right; 0.3 mm up is up from both sides, so they move down.
        (False, "long-edge", 0.8, 0.3),
        # Upside down in the printer, both turn round.
        (False, "short-edge", -0.8, -0.3),
        # Turned a quarter to the left, the page's right lies at the paper's top, its foot at
        # the paper's right: 0.8 mm towards the paper's left is 0.8 mm up on the page, 0.3 mm
        # up the paper is 0.3 mm to the right on the page.
        (True, "long-edge", -0.3, 0.8),
    ],
)
def test_backs_shift_into_register(
    turned: bool, flip: str | None, right: float, below: float
) -> None:
    c = printer(1, 1, (0.8, -0.3)).correction(210, 297, turned, flip)
    assert (c.right, c.below) == pytest.approx((right, below))


def scaled(line: Line, width: float, height: float, across: float, down: float) -> Line:
    x, y = width / 2, height / 2
    a, b, c, d = line
    return (
        x + (a - x) * across,
        y + (b - y) * down,
        x + (c - x) * across,
        y + (d - y) * down,
    )


def test_a_kit_for_a_measured_printer_comes_out_true(run: Run, tmp_path: Path) -> None:
    # The printer stretches what it is given: 96.3 % across, 97.1 % down, about the middle.
    across, down = 0.963, 0.971
    done = run(
        *("check-print", "--measured-across", str(150 * across)),
        *("--measured-down", str(150 * down), "--save-as", "shrinks"),
    )
    assert done.exit_code == 0, done.output
    done = run("kit", "305-148", "--printer", "shrinks", "--out", str(tmp_path / "kit"))
    assert done.exit_code == 0, done.output
    record = json.loads((tmp_path / "kit" / "kit.json").read_text())
    paper = record["paper"]
    # Half of 3.7 % of 210 mm and of 2.9 % of 297 mm lie beyond the margins of 5 mm already.
    assert paper["margins_mm"] == {"left": 5, "right": 5, "top": 5, "bottom": 5}
    found = 0
    with pdfium.PdfDocument(tmp_path / "kit" / "kit.pdf") as document:
        for sheet in record["sheets"]:
            if sheet["kind"] not in ("pieces", "exchange_cards"):
                continue
            turned = sheet["width_mm"] != paper["width_mm"]
            scale = (down, across) if turned else (across, down)
            size = (sheet["width_mm"], sheet["height_mm"])
            lines = [
                scaled(line, *size, *scale) for line in page_lines(document[sheet["page"] - 1])
            ]
            for item in sheet["items"]:
                if item["what"] not in ("ones", "tens", "hundreds", "exchange_card"):
                    continue  # the foot's words have no sides
                x, y = item["x_mm"], item["y_mm"]
                right, bottom = x + item["width_mm"], y + item["height_mm"]
                for side in ((x, y, right, y), (x, y, x, bottom), (right, y, right, bottom)):
                    assert covered(side, lines, 0.02), (sheet["kind"], item)
                    found += 1
    assert found > 60


@pytest.mark.parametrize("name", designs.names("paper"))
@pytest.mark.parametrize("look", designs.names("looks"))
def test_the_check_sheet_fits_every_paper_and_look(name: str, look: str) -> None:
    paper, words = designs.paper(name), designs.words()
    front, back = check_sheets(Style(paper, words, designs.look(look)))
    across, down = bars(paper)
    # 150 mm wherever the paper, its edges and the bar's ends allow.
    narrow = paper.width_mm < 166
    assert (across, down) == (120 if narrow else 150, 150)
    sizes = [(i.rect.width, i.rect.height) for i in front.items if i.what == "bar"]
    assert [max(size) for size in sizes] == [across, down]
    card = next(i.rect for i in front.items if i.what == "bank_card")
    assert (card.width, card.height) == (85.6, 53.98)  # ISO/IEC 7810 ID-1 (from memory)
    marks = [next(i.rect for i in s.items if i.what == "register") for s in (front, back)]
    # Turned over on the long edge, the back's mark lies under the front's.
    assert marks[0].x == pytest.approx(paper.width_mm - marks[1].right)
    assert (marks[0].y, marks[0].width) == (marks[1].y, marks[1].width)
    assert back.flip == "long-edge"
    # Nothing to read lies under the card, where the paper has room for it elsewhere.
    words_ = [i.rect for i in front.items if isinstance(i.content, contents.Line)]
    assert not any(card.overlaps(rect, 0.6) for rect in words_)
    assert narrow or not card.overlaps(marks[0])
    # A print of 97 % is covered as far as the line of 97: 85.6 / 0.97 = 88.25 mm, or 55.65 down.
    edges = {
        round(i.rect.x - card.x, 2) if not narrow else round(i.rect.y - card.y, 2)
        for i in front.items
        if isinstance(i.content, contents.Rule)
    }
    assert (55.65 if narrow else 88.25) in edges
    # The cross is read against the light: nothing else may stand in it.
    assert all(not marks[1].overlaps(i.rect) for i in back.items if i.what != "register")
    for page, sheet in enumerate((front, back), 1):
        draw_sheet(sheet, page, Style(paper, words, designs.look(look)))


def test_the_check_sheet_measures_what_it_says(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "check.pdf"
    done = run("check-print", "--paper", "a4", "--out", str(out))
    assert done.exit_code == 0, done.output
    with pdfium.PdfDocument(out) as document:
        assert len(document) == 2
        lines = page_lines(document[0])
    assert covered((30, 26, 180, 26), lines, 0.01)
    assert covered((24, 40, 24, 190), lines, 0.01)
    # Each step is a line n mm from its edge of the paper.
    for n in range(1, 17):
        flat = [(b, a) for a, b, c, d in lines if abs(b - d) < 1e-3 and abs(abs(c - a) - 5) < 1e-2]
        assert any(abs(y - n) < 1e-2 for y, _ in flat)
        assert any(abs(y - (297 - n)) < 1e-2 for y, _ in flat)
        tall = [a for a, b, c, d in lines if abs(a - c) < 1e-3 and abs(abs(d - b) - 5) < 1e-2]
        assert any(abs(x - n) < 1e-2 for x in tall)
        assert any(abs(x - (210 - n)) < 1e-2 for x in tall)
    # no command stands on paper: the terminal says what to type
    assert "--" not in page_texts(out)[0]
    assert "Check your printer A4" in " ".join(page_texts(out)[0].split())
    assert "--paper a4 --measured-across" in done.output


def test_the_check_sheet_needs_room() -> None:
    paper = designs.paper("100x150mm")
    with pytest.raises(RefusedError, match="148 by 210 mm"):
        check_sheets(Style(paper, designs.words(), designs.look()))


def test_measurements_without_a_name_are_not_lost(run: Run) -> None:
    done = run("check-print", "--measured-across", "147")
    assert (done.exit_code, "add --save-as NAME" in done.output) == (2, True)


def test_stairs_stand_on_every_side() -> None:
    front, _ = check_sheets(Style(designs.paper("a4"), designs.words(), designs.look()))
    sides = [i.content.side for i in front.items if isinstance(i.content, Stairs)]
    assert sides == ["top", "right", "bottom", "left"]


def test_a_check_sheet_for_a_measured_printer_says_what_it_shows(run: Run, tmp_path: Path) -> None:
    assert run(*MEASURED, "--save-as", "kitchen").exit_code == 0
    told = run("check-print", "--printer", "kitchen", "--out", str(tmp_path / "again.pdf"))
    assert told.exit_code == 0
    assert "corrected for kitchen, so it shows what the correction leaves" in told.stdout
    plain = run("check-print", "--out", str(tmp_path / "check.pdf"))
    assert "corrected" not in plain.stdout


def test_a_folder_of_printers_that_cannot_be_read_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(path: Path) -> bool:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(printers, "folder", lambda: tmp_path)
    monkeypatch.setattr(Path, "is_file", refuse)
    with pytest.raises(RefusedError, match=r"cannot be read \(permission denied\); give the path"):
        printers.printer("kitchen")


def test_a_folder_named_as_a_printer_is_none(run: Run, tmp_path: Path) -> None:
    (tmp_path / "config" / "printers" / "attic.toml").mkdir(parents=True)
    with pytest.raises(RefusedError, match="no printer called 'attic'; none is saved yet"):
        printers.printer("attic")


def test_the_check_sheet_reads_too_large_a_print_and_says_where_its_numbers_are_typed() -> None:
    front, _ = check_sheets(Style(designs.paper("a4"), designs.words()))
    card = next(i.rect for i in front.items if i.what == "bank_card")
    at = {round(i.rect.x - card.x, 2) for i in front.items if isinstance(i.content, contents.Rule)}
    assert round(card.width / 1.02, 2) in at  # a card covers a print of 102 % so far
    said = " ".join(i.content.text for i in front.items if isinstance(i.content, contents.Line))
    assert "“Measure my printer”" in said
