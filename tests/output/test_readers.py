"""Read by others: programs that are not ours see the same pages in what is made here."""

from collections import Counter
from dataclasses import replace
from pathlib import Path

import pikepdf
import pytest
from kinds import FAST, printed, set_desk
from lxml.etree import XMLSyntaxError
from PIL import Image, ImageDraw
from readers import (
    FAR,
    Side,
    by_pdfium,
    by_pikepdf,
    differences,
    most_apart,
    pdf_picture,
    qpdf_faults,
    svg_picture,
    svg_size,
)


@pytest.mark.parametrize("kind", FAST)
def test_readers_see_the_same_pages(
    kind: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(set_desk(tmp_path))
    for path in printed(FAST[kind], tmp_path):
        seen = by_pdfium(path)
        assert sum(side.words.total() for side in seen) > 50, path
        assert differences(seen, by_pikepdf(path)) == [], path
        assert qpdf_faults(path) == [], path


def test_drawings_for_cutters_look_like_the_pages(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    args = ("kit", "--pieces", "0,3,5", "--cutter", "svg", "--look", "outline")
    (kit,) = printed(args, tmp_path)
    sheets = sorted(kit.parent.glob("*.svg"))
    assert len(sheets) == len(by_pdfium(kit))
    drawn = [path.read_bytes() for path in sheets]
    assert {svg_size(raw) for raw in drawn} == {("210mm", "297mm")}  # A4, ISO 216 (from memory)
    assert most_apart(svg_picture(drawn[1], 1240), pdf_picture(kit, 1, 1240)) < FAR
    assert most_apart(svg_picture(drawn[1], 1240), pdf_picture(kit, 0, 1240)) > FAR


SIDE = Side(595.28, 841.89, Counter({"whole": 2, "O": 3, "H": 3}))


@pytest.mark.parametrize(
    "other",
    [
        (),
        (SIDE, SIDE),
        (replace(SIDE, width=SIDE.width + 0.02),),
        (replace(SIDE, height=SIDE.height - 0.02),),
        (replace(SIDE, words=SIDE.words + Counter(["whole"])),),
        (replace(SIDE, words=Counter({"whole": 2, "O": 3, "H": 2})),),
        (replace(SIDE, words=Counter({"whole": 2, "OH": 2})),),
        (replace(SIDE, words=Counter({"wholewhole": 1, "O": 3, "H": 3})),),
        (replace(SIDE, words=Counter({"wholc": 2, "O": 3, "H": 3})),),
    ],
)
def test_readers_that_differ_are_found(other: tuple[Side, ...]) -> None:
    assert differences((SIDE,), other)
    assert differences(other, (SIDE,))


def test_small_steps_and_heads_in_a_row_are_no_difference() -> None:
    assert differences((SIDE,), (replace(SIDE, width=SIDE.width + 0.009),)) == []
    assert differences((SIDE,), (replace(SIDE, words=Counter({"whole": 2, "OH": 3})),)) == []


def test_a_broken_pdf_is_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (path,) = printed(FAST["check"], tmp_path)
    raw = path.read_bytes()
    path.write_bytes(raw.replace(b"endobj", b"endopj", 1))
    assert qpdf_faults(path)
    with pikepdf.open(path) as document:
        document.pages[0].contents_add(b"BT /f-0-0 12 Tf (x) Tj ET")
        document.save(tmp_path / "other.pdf")
    path.write_bytes(raw)
    assert differences(by_pdfium(path), by_pdfium(tmp_path / "other.pdf"))


def test_what_is_no_safe_svg_is_found() -> None:
    with pytest.raises(XMLSyntaxError):
        svg_size(b'<svg width="1mm"><g></svg>')
    with pytest.raises(ValueError, match="document type"):
        svg_size(b'<!DOCTYPE svg [<!ENTITY a "b">]><svg width="1mm">&a;</svg>')


def test_a_picture_without_one_word_is_found() -> None:
    page = Image.new("L", (600, 849), 255)
    less = page.copy()
    ImageDraw.Draw(page).text((60, 60), "whole", 0, font_size=12)  # 12 / 600 of 210 mm: 4.2 mm
    assert most_apart(page, less) > FAR > most_apart(page, page) == 0
