"""Papers: shipped, of one's own in a file, and by size."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.errors import RefusedError

ENVELOPE = """
name = "My envelope"
width_mm = 229
height_mm = 162
unit_mm = 8.5
source = "measured at home"
[margins_mm]
left = 6
right = 6
top = 5
bottom = 14
"""


@pytest.mark.parametrize(
    ("name", "size"),
    [
        ("a5", (148, 210)),  # ISO 216 (second-hand)
        ("b4", (250, 353)),  # ISO 216: B4 lies between A3 and A4, 297 / 2 ** 0.25 (computed)
        ("tabloid", (279.4, 431.8)),  # 11 by 17 inches of 25.4 mm (from memory)
        ("A4", (210, 297)),  # as people write it
        ("215x330mm", (215, 330)),
        ("330 x 215 mm", (215, 330)),  # the same sheet, turned: profiles stand upright
        ("8.5x13in", (215.9, 330.2)),
        ("21.5x33cm", (215, 330)),
    ],
)
def test_a_paper_by_name_or_size(name: str, size: tuple[float, float]) -> None:
    paper = designs.paper(name)
    assert (paper.width_mm, paper.height_mm) == pytest.approx(size)


def test_a_small_paper_gets_the_largest_unit_at_which_a_hundred_fits() -> None:
    # 105 mm less 5 mm on each side is 95: ten units of 9.5.
    assert designs.paper("105x148mm").unit_mm == 9.5
    assert designs.paper("105.9x148mm").unit_mm == 9.5
    assert designs.paper("110x148mm").unit_mm == 10


def test_a_profile_of_ones_own(tmp_path: Path) -> None:
    file = tmp_path / "envelope.toml"
    file.write_text(ENVELOPE)
    paper = designs.paper(str(file))
    assert (paper.name, paper.unit_mm) == ("My envelope", 8.5)
    # Given lying, it is set upright: turned to the left, its foot becomes its right side.
    assert (paper.width_mm, paper.height_mm) == (162, 229)
    assert paper.margins_mm == designs.Margins(left=5, right=14, top=6, bottom=6)


def test_a_kit_can_be_made_on_the_paper_that_is_shown(tmp_path: Path) -> None:
    readme = (Path(str(designs.folder())) / "README.md").read_text("utf-8")
    example = readme[readme.index('    name = "Large envelope"') :].split("Paper given")[0]
    held = [line.strip() for line in example.splitlines()]
    file = tmp_path / "envelope.toml"
    file.write_text("\n".join(held), "utf-8")
    words = ("kit", "--paper", str(file), "--out", str(tmp_path / "kit"))
    done = CliRunner().invoke(main, words)
    assert done.exit_code == 0, done.output


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("30x30mm", "too small"),
        ("3x99999mm", "too small"),
        ("300x99999mm", "must be 50 to 1500 mm"),
        ("215.123x330mm", "at most two decimals"),
        ("215x330", "no paper called"),
        ("nowhere.toml", "cannot be read"),
    ],
)
def test_a_paper_that_cannot_be_used_is_refused(name: str, said: str) -> None:
    with pytest.raises(RefusedError, match=said):
        designs.paper(name)


def test_papers_lists_margins_units_and_hundreds() -> None:
    done = CliRunner().invoke(main, ["sizes"])
    assert done.exit_code == 0
    # A4: 200 by 287 mm prints, 2 hundreds across and 2 down; A3: 2 across and 4 down.
    assert "a4 210 x 297 5 " in " ".join(done.output.split())
    ends = {line.split()[0]: line.split()[-1] for line in done.output.splitlines()[1:]}
    assert set(ends) == set(designs.names("paper"))
    for name, said in ends.items():
        paper = designs.paper(name)
        margins, hundred = paper.margins_mm, 10 * paper.unit_mm
        across = int((paper.width_mm - margins.left - margins.right) / hundred)
        down = int((paper.height_mm - margins.top - margins.bottom) / hundred)
        assert int(said) == across * down, name
    one = CliRunner().invoke(main, ["sizes", "--paper", "215x330mm"])
    assert one.output.splitlines()[1].split()[-1] == "6"


def test_words_of_ones_own_must_be_whole(tmp_path: Path) -> None:
    whole = (designs.folder() / "words" / "en-GB.toml").read_text("utf-8")
    file = tmp_path / "mine.toml"
    file.write_text(whole.replace("Start here", "Begin here"), "utf-8")
    assert designs.words(str(file))("title.cover") == "Begin here"
    for name, change, said in (
        ("lacks", ('cover = "Start here"', ""), r"lacks 'title.cover'"),
        ("slot", ("Start here", "Start {now}"), r"has \{now\} in 'title.cover'"),
    ):
        wrong = tmp_path / f"{name}.toml"
        wrong.write_text(whole.replace(*change), "utf-8")
        with pytest.raises(RefusedError, match=said):
            designs.words(str(wrong))


def test_words_of_ones_own_may_hold_only_what_differs(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    file.write_text('over = "en-US"\n[title]\ncover = "Begin here"\n', "utf-8")
    own, american = designs.words(str(file)), designs.words("en-US")
    assert own.entries == {**american.entries, "title.cover": "Begin here"}
    assert (own.language, own.paper) == ("en-US", "letter")
    other = tmp_path / "other.toml"
    other.write_text('over = "mine.toml"\n', "utf-8")
    with pytest.raises(RefusedError, match="choose one of en-GB, en-US, es"):
        designs.words(str(other))


def test_packs_take_the_margin_that_their_first_page_advises(tmp_path: Path) -> None:
    args = ["cards", "71 - 48", "--margin", "10", "--out", str(tmp_path)]
    assert CliRunner().invoke(main, args).exit_code == 0
    paper = json.loads((tmp_path / "cards.json").read_text("utf-8"))["paper"]
    assert set(paper["margins_mm"].values()) == {10.0}
