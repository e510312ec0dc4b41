"""What is held by golden files lets harmless changes pass, and finds others."""

from collections.abc import Callable
from pathlib import Path

import golden
import pytest
import samples
from PIL import Image

from kitbuilder.layout.cards import answer_boxes
from kitbuilder.layout.cover import what_to_print
from kitbuilder.layout.lesson import lesson_steps


@pytest.fixture(scope="module")
def made(sample: Callable[[str], Path]) -> Path:
    return sample("first").parent


GAPS = (  # on answers, a lesson and the cover: each on pages of its own
    (answer_boxes, "PAD", 0.1),
    (lesson_steps, "_UNDER_PICTURE", 0.2),
    (what_to_print, "_PAD", 0.2),
)


@pytest.mark.usefixtures("anew")
def test_a_little_more_space_fails_nothing(made: Path, tmp_path: Path) -> None:
    with pytest.MonkeyPatch.context() as patch:
        for module, name, more in GAPS:
            patch.setattr(module, name, getattr(module, name) + more)
        (tmp_path / "first").mkdir()
        samples.make("first", tmp_path / "first")
    pdfs = [folder / "first" / "kit.pdf" for folder in (made, tmp_path)]
    assert pdfs[0].read_bytes() != pdfs[1].read_bytes()
    old = golden.record("first", made)
    assert list(golden.differences(old, golden.record("first", tmp_path))) == []
    assert golden.words("first", tmp_path) == golden.words("first", made)
    assert not any(golden.looks_different(kind, made, tmp_path) for kind in golden.KINDS)


def test_a_change_that_shows_is_shown(made: Path, tmp_path: Path) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setitem(samples.SAMPLES, "first", ("kit", "--mat", "three"))
        (tmp_path / "first").mkdir()
        samples.make("first", tmp_path / "first")
    shown = golden.looks_different("mat", made, tmp_path, tmp_path / "seen")
    assert shown == tmp_path / "seen" / "mat.png"
    with Image.open(shown) as picture:
        assert picture.width == 3 * golden.picture(made / "first" / "kit.pdf", 1).width
    old, new = (golden.record("first", folder) for folder in (made, tmp_path))
    assert list(golden.differences(old, new))


def test_a_word_less_or_a_cut_moved_is_found(made: Path) -> None:
    pdf = made / "first" / "kit.pdf"
    page = golden.picture(pdf, golden.page_of("lesson", made))
    less = page.copy()
    less.paste(255, (60, 60, 100, 68))  # 20 by 4 mm of what is printed
    blot = page.copy()
    blot.paste(0, (60, 60, 100, 68))
    assert golden.changed(page, page) == 0
    assert max(golden.changed(page, less), golden.changed(page, blot)) > golden.GREYS
    assert golden.beside(page, less).size == (3 * page.width, page.height)

    old = golden.record("first", made)
    pieces = next(s for s in old["sheets"] if s["kind"] == "pieces")
    moved = {**pieces, "cuts": [{**pieces["cuts"][0], "x1_mm": 0.1}, *pieces["cuts"][1:]]}
    moved["copies"] = 9
    found = list(golden.differences(pieces, moved))
    assert found == [
        ".copies is 9 and was 1",
        f".cuts[0].x1_mm is 0.1 and was {pieces['cuts'][0]['x1_mm']}",
    ]
    fewer = {**pieces, "items": pieces["items"][1:]}
    assert any("entries and had" in text for text in golden.differences(pieces, fewer))
