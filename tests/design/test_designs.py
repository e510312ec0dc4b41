"""The design files and the typeface."""

from pathlib import Path

import pytest

from kitbuilder.design import load as designs
from kitbuilder.design import metrics
from kitbuilder.errors import RefusedError


@pytest.mark.parametrize(
    ("name", "size", "source"),
    [
        ("a4", (210, 297), "ISO 216"),
        ("a3", (297, 420), "ISO 216"),
        ("letter", (215.9, 279.4), "8.5 by 11 inches of 25.4 mm (from memory)"),
        ("legal", (215.9, 355.6), "8.5 by 14 inches of 25.4 mm (from memory)"),
    ],
)
def test_shipped_papers(name: str, size: tuple[float, float], source: str) -> None:
    paper = designs.paper(name)
    assert (paper.width_mm, paper.height_mm) == size, source
    margins = paper.margins_mm
    # 5 mm on ISO sheets, a quarter inch on inch sheets; two hundreds lie side by side
    assert margins.left == (5 if source == "ISO 216" else 6.35)
    assert paper.width_mm - margins.left - margins.right >= 20 * paper.unit_mm


def test_an_unknown_paper_is_refused_with_the_known_ones() -> None:
    with pytest.raises(RefusedError, match=r"no paper called 'b9'.*a3, a4.*legal, letter"):
        designs.paper("b9")


def test_words_say_one_and_many() -> None:
    words = designs.Words("xx", {"t.one": "{count} ten", "t.many": "{count} tens", "l": ("a {x}",)})
    assert (words.count("t", 1), words.count("t", 0)) == ("1 ten", "0 tens")
    assert words.lines("l", x=3) == ("a 3",)
    with pytest.raises(KeyError):
        words("l")
    with pytest.raises(KeyError):
        words.lines("t.one")


def test_the_typeface_has_even_digits_and_a_known_x_height() -> None:
    # ABeeZee 1.003: every digit and the minus sign advance 0.6 em; the x-height is 0.52 em.
    assert {round(metrics.width(c, 10), 6) for c in "0123456789−"} == {6.0}
    assert metrics.x_height(10) == pytest.approx(5.2)


def test_wrap_keeps_within_the_room() -> None:
    text = "Push together to check what is left"
    lines = metrics.wrap(text, 9.7, 80)
    assert " ".join(lines) == text
    assert all(metrics.width(line, 9.7) <= 80 for line in lines)


def test_a_character_the_typeface_lacks_is_named() -> None:
    assert metrics.missing("aščš→") == "šč→"
    with pytest.raises(RefusedError, match="→"):
        metrics.width("a → b", 4)


def test_a_childs_type_has_an_x_height_of_five_millimetres() -> None:
    # Wilkins et al. 2009, J. Res. Reading 32:402-412: ages 7 to 9 read faster at 5.0 mm.
    for name in designs.names("looks"):
        look = designs.look(name)
        assert metrics.x_height(look.type_mm.child) >= 5.0
        assert look.type_mm.adult >= 10 * 25.4 / 72  # 10 pt


def test_a_profile_with_a_wrong_key_is_refused(tmp_path: Path) -> None:
    table = {"name": "X", "width": 3}
    with pytest.raises(RefusedError, match=r"holds 'width'; it may hold name, width_mm"):
        designs.built(designs.Paper, table, "x.toml")


def test_files_of_ones_own_are_not_all_kept(tmp_path: Path) -> None:
    for number in range(20):
        own = tmp_path / f"{number}.toml"
        own.write_text('over = "en-GB"\n')
        assert designs.entries("words", str(own)) == designs.entries("words", "en-GB")
    assert designs.entries.cache_info().currsize < 20
