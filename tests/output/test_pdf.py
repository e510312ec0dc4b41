"""What stands in a PDF besides its marks: typefaces, letters, order and wishes."""

import re
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from click.testing import CliRunner
from fontTools.ttLib import TTFont
from pypdf import PdfReader
from pypdfium2 import PdfDocument
from readers import typefaces

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.design.measures import measures
from kitbuilder.design.typefaces import FAMILIES, FAMILY, WIDE_FAMILY
from kitbuilder.draw.canvas import Canvas, Drawing
from kitbuilder.draw.primitives import Box, Figure, Strokes
from kitbuilder.layout.model import Rect
from kitbuilder.output.pdf.document import About, Pages, document, pdf
from kitbuilder.output.pdf.pen import Pen
from kitbuilder.output.pdf.print_piles import FilePile
from kitbuilder.output.pdf.subset import TABLES


def drawing(*texts: str, title: str = "page", section: str = "") -> Drawing:
    canvas = Canvas(title, 100, 100, designs.look(), section)
    for row, text in enumerate(texts):
        canvas.text(10, 20 + 10 * row, text, 5)
    return canvas.drawing()


def opened(*drawings: Drawing, language: str = "en-GB") -> pikepdf.Pdf:
    return pikepdf.open(BytesIO(pdf(drawings, "title", language)))


def test_a_typeface_holds_the_letters_used_and_seven_tables() -> None:
    with opened(drawing("ones\xa0and tens"), drawing("tens")) as made:
        font = made.pages[0].resources.Font.T0
        assert font.Subtype == "/TrueType"
        assert (int(font.FirstChar), int(font.LastChar)) == (32, 116)
        file = TTFont(BytesIO(font.FontDescriptor.FontFile2.read_bytes()))
        content = made.pages[0].Contents.read_bytes()
        assert font == made.pages[1].resources.Font.T0
    assert set(file.keys()) - {"GlyphOrder"} == set(TABLES)
    outlined = [n for n in file.getGlyphOrder() if file["glyf"][n].numberOfContours]
    # o n e s a d t, and the glyph for what is missing; spaces have no outline
    assert len(outlined) == 8
    assert b"(ones and tens ) Tj" in content  # a no-break space is read as a space


def test_letters_by_the_hundred_and_signs_of_strings_are_read_as_they_were_written() -> None:
    """More letters than a font has codes for go into a second one, in the same line."""
    wide, usual = measures(WIDE_FAMILY).letters, measures(FAMILY).letters
    others = sorted(letter for letter in wide if letter.isalpha() and letter not in usual)
    texts = ["".join(others[at : at + 30]) for at in range(0, 330, 30)] + ["a(b\\c)) ( \\\\"]
    canvas = Canvas("page", 400, 200, designs.look())
    for row, text in enumerate(texts):
        canvas.text(10, 20 + 10 * row, text, 5)
    made = pdf([canvas.drawing()], "title", "en-GB")
    with pikepdf.open(BytesIO(made)) as opened_:
        assert set(opened_.pages[0].resources.Font.keys()) == {"/T0", "/T0.1", "/T0.2", "/T1"}
    pdfium = PdfDocument(made)[0].get_textpage().get_text_range().split("\r\n")
    pypdf = PdfReader(BytesIO(made)).pages[0].extract_text().split("\n")
    for read in (pdfium, pypdf):
        assert [line.strip() for line in read] == texts


@pytest.mark.parametrize(("lines", "forms"), [(2, 0), (200, 1)])
def test_a_figure_is_held_once_where_that_takes_less(lines: int, forms: int) -> None:
    figure = Figure((Strokes(tuple((0, k, 9, k) for k in range(lines)), 0.2, "#000000"),), 9, 200)
    canvas = Canvas("page", 100, 300, designs.look())
    for x in range(0, 80, 10):
        canvas.figure(figure, x, 5)
    with opened(canvas.drawing(), canvas.drawing()) as made:
        held: list[Any] = [page.resources.get("/XObject", {}) for page in made.pages]
        assert [len(forms_) for forms_ in held] == [forms, forms]
        assert held[0] == held[1]
        content = made.pages[0].Contents.read_bytes()
    assert content.count(b" Do Q") == 8 * forms
    assert content.count(b" m 9 ") == (1 - forms) * 8 * lines


def test_names_that_look_like_parts_of_a_file_are_names(tmp_path: Path) -> None:
    for number, name in enumerate(("/BaseFont/Evil", "endobj) >> /Root", "%%EOF (\\")):
        table, out = tmp_path / "class.csv", tmp_path / str(number)
        table.write_text(f"name,sum\n{name},71-48\n")
        result = CliRunner().invoke(main, ["cards", "--pupils", str(table), "--out", str(out)])
        assert result.exit_code == 0, result.output
        ours = {f"{family.replace(' ', '')}-Regular" for family in FAMILIES}
        assert typefaces(out / "cards.pdf") <= ours
        with pikepdf.open(out / "cards.pdf") as made, made.open_outline() as outline:
            assert name in [entry.title for entry in outline.root]


def test_a_words_file_named_like_a_part_of_a_file_is_a_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("kitbuilder.cli.words_trial.PAPERS", ())  # its length is tried elsewhere
    folder = tmp_path / "BaseFont"
    folder.mkdir()
    own, out = folder / "Evil) >> endobj.toml", tmp_path / "kit"
    shipped = (Path(designs.__file__).parents[2] / "designs/words/en-GB.toml").read_text("utf-8")
    titled = re.sub(r"(?m)^(\[title\]\n(?:.+\n)*?cards = ).+$", r'\1"/BaseFont/Evil"', shipped)
    own.write_text(titled, "utf-8")
    result = CliRunner().invoke(main, ["cards", "71-48", "--words", str(own), "--out", str(out)])
    assert result.exit_code == 0, result.output
    ours = {f"{family.replace(' ', '')}-Regular" for family in FAMILIES}
    assert typefaces(out / "cards.pdf") <= ours
    with pikepdf.open(out / "cards.pdf") as made:
        assert str(made.docinfo["/Title"]) == "/BaseFont/Evil"
        assert str(made.Root.Lang) == "en-GB"


def test_the_same_pages_give_the_same_bytes_and_others_another_mark() -> None:
    pages = drawing("a"), drawing("b")
    assert pdf(pages, "t", "es") == pdf(pages, "t", "es")
    marks = set()
    for made in (pdf(pages, "t", "es"), pdf(pages[:1], "t", "es"), pdf(pages, "u", "es")):
        with pikepdf.open(BytesIO(made)) as opened_:
            marks.add(bytes(opened_.trailer.ID[1]))
    assert len(marks) == 3


@pytest.mark.parametrize(
    ("flips", "wish"),
    [
        ((None, None), "/Simplex"),
        ((None, "long-edge", None, "long-edge"), "/DuplexFlipLongEdge"),
        ((None, "short-edge"), "/DuplexFlipShortEdge"),
        ((None, "long-edge", None), None),  # the last page would be left to chance
        ((None, None, None, "long-edge"), None),  # page 2 would come out on the back of page 1
        ((None, "long-edge", None, "short-edge"), None),
    ],
)
def test_how_to_print_is_told_where_it_is_one_way(
    flips: tuple[str | None, ...], wish: str | None
) -> None:
    pages = [replace(drawing("a"), flip=flip) for flip in flips]  # type: ignore[arg-type]
    with opened(*pages, language="es") as made:
        wishes = made.Root.ViewerPreferences
        assert wishes.get("/Duplex") == wish
        assert wishes.PrintScaling == "/None"
        assert str(made.Root.Lang) == "es"


def test_the_outline_names_each_run_of_pages_below_its_section() -> None:
    pages = [
        drawing("a", title=title, section=section)
        for title, section in (
            ("cover", ""),
            ("cards", "Ada"),
            ("cards", "Ada"),
            ("cards", "Bo"),
            ("answers", "Ada"),
            ("cover", ""),
        )
    ]
    with opened(*pages) as made, made.open_outline() as outline:
        told = [(e.title, [c.title for c in e.children]) for e in outline.root]
    assert told == [("cover", []), ("Ada", ["cards", "answers"]), ("Bo", ["cards"]), ("cover", [])]


def test_pages_in_another_order_share_their_content() -> None:
    pages = Pages([drawing("a"), drawing("b")])
    about, pile = About("t", "en-GB"), FilePile("pile.pdf", (1, *[0] * 100), None)
    many, few = document(pages, about, pile), document(pages, about)
    with pikepdf.open(BytesIO(many)) as made:
        contents = [page.obj.Contents.objgen for page in made.pages]
    assert len(contents) == 101
    assert len(set(contents)) == 2
    assert len(many) < len(few) + 101 * 100


def test_a_figure_begins_anew_whatever_the_page_has_set() -> None:
    pen = Pen(lambda *_: [], lambda _: "/F0 Do")
    pen.marks([Box(0, 0, 1, 1, stroke="#000000", line=0.5)])
    assert b"[] 0 d" in pen.content


def test_a_grey_is_printed_with_black_ink_alone() -> None:
    canvas = Canvas("page", 100, 100, designs.look())
    canvas.box(Rect(0, 0, 10, 10), fill="#808080")
    canvas.box(Rect(0, 0, 10, 10), fill="#ff8000")
    with opened(canvas.drawing()) as made:
        content = made.pages[0].Contents.read_bytes()
    assert b"0.502 g\n" in content
    assert b"1 0.502 0 rg\n" in content
