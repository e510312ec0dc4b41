"""Looks: what is printed can be seen, by the formula of WCAG 2.2."""

from dataclasses import replace
from pathlib import Path

import pytest

from kitbuilder.design import load as designs
from kitbuilder.design.look import contrast, luminance
from kitbuilder.errors import RefusedError


@pytest.mark.parametrize(
    ("colour", "ratio"),
    [
        ("#000000", 21.0),  # black on white is 21 (WCAG 2.2, read)
        ("#ffffff", 1.0),
        ("#0072b2", 5.19),  # the blue of Okabe and Ito (computed, second-hand)
        ("#777777", 4.48),  # the best known near miss of 4.5 (from memory)
        ("#767676", 4.54),
    ],
)
def test_contrast_against_white(colour: str, ratio: float) -> None:
    assert contrast(colour, "#ffffff") == pytest.approx(ratio, abs=0.005)
    assert contrast("#ffffff", colour) == contrast(colour, "#ffffff")


def test_luminance_of_the_primaries() -> None:
    # The three weights of the formula add up to white's 1 (WCAG 2.2, "relative luminance").
    parts = [luminance(c) for c in ("#ff0000", "#00ff00", "#0000ff")]
    assert parts == pytest.approx([0.2126, 0.7152, 0.0722])
    assert sum(parts) == pytest.approx(luminance("#ffffff"))


@pytest.mark.parametrize("name", designs.names("looks"))
def test_words_and_lines_of_every_look_can_be_seen(name: str) -> None:
    look = designs.look(name)
    ink = look.ink
    # Text 4.5 : 1 (7 : 1 in the bold look), lines 3 : 1; the fine grid inside pieces is exempt.
    text = 7.0 if name == "bold" else 4.5
    for ground in ("#ffffff", *(() if ink.tint == "none" else (ink.tint,))):
        assert min(contrast(c, ground) for c in (ink.text, ink.quiet)) >= text
        assert min(contrast(c, ground) for c in (ink.cut, ink.frame, ink.guide)) >= 3


def test_the_looks_differ_as_they_promise() -> None:
    plain, spare, bold, outline = map(designs.look, ("plain", "spare", "bold", "outline"))
    for width in ("cut", "grid", "frame", "guide"):
        widths = [getattr(look.lines_mm, width) for look in (spare, plain, bold)]
        assert widths == sorted(set(widths))
    for height in ("title", "heading", "adult", "child", "numeral"):
        assert getattr(bold.type_mm, height) > getattr(plain.type_mm, height)
    assert bold.type_mm.adult >= 16 * 25.4 / 72  # large print begins at 16 points (practice)
    assert (spare.ink.tint, outline.ink.tint) == ("none", "none")


def test_a_look_that_cannot_be_seen_is_refused(tmp_path: Path) -> None:
    look = designs.look()
    with pytest.raises(RefusedError, match=r"quiet #999999 on #ffffff has a contrast of 2.85"):
        replace(look, ink=replace(look.ink, quiet="#999999"))
    with pytest.raises(RefusedError, match="cut #b0b0b0"):
        replace(look, ink=replace(look.ink, cut="#b0b0b0"))
    with pytest.raises(RefusedError, match="on #505050"):
        replace(look, ink=replace(look.ink, tint="#505050"))
    text = (designs.folder() / "looks" / "plain.toml").read_text("utf-8")
    file = tmp_path / "faint.toml"
    file.write_text(text.replace('text = "#000000"', 'text = "#aaaaaa"'), "utf-8")
    with pytest.raises(RefusedError, match=r"faint.toml: text #aaaaaa"):
        designs.look(str(file))
    file.write_text(text.replace("cut = 0.5", "cut = 9"), "utf-8")
    with pytest.raises(RefusedError, match=r"cut is 9; it must be 0\.05 to 3 mm"):
        designs.look(str(file))


def test_a_shipped_look_is_one_record_and_a_file_is_read_anew(tmp_path: Path) -> None:
    assert designs.look("bold") is designs.look("bold")
    file = tmp_path / "own.toml"
    text = (designs.folder() / "looks" / "plain.toml").read_text("utf-8")
    for cut in (0.5, 0.6):
        file.write_text(text.replace("cut = 0.5", f"cut = {cut}"), "utf-8")
        assert designs.look(str(file)).lines_mm.cut == cut
