"""One thing is never said as many, in the terminal or in print."""

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from kitbuilder.cli import main
from kitbuilder.cli.told.report import minutes_said
from kitbuilder.design import load as designs
from kitbuilder.errors import Said
from kitbuilder.kit import phrases
from kitbuilder.kit.records import EstimateWish
from kitbuilder.layout.estimate import Estimate
from kitbuilder.layout.pages.print_run import estimate_lines
from kitbuilder.number import Pieces

# A one before a word in the plural; "1 on card" and "page 1 says" are right.
ONE_AS_MANY = re.compile(
    r"\b1 (such )?"
    r"(sheets|pages|cells|minutes|min|kits|cuts|straight cuts|sums|facts|pieces|lines)\b"
)


def test_one_is_one() -> None:
    said = [str(Said("units.fewer-mat", count=n)) for n in (0, 1, 2)]
    assert said == ["0 sheets of mat", "1 sheet of mat", "2 sheets of mat"]


def test_minutes_are_never_about_none() -> None:
    said = [str(minutes_said(m)) for m in (0.2, 0.49, 0.5, 1.4, 12.5)]
    # a half is rounded up, as schools teach it
    assert said == ["less than a minute"] * 2 + ["about 1 minute"] * 2 + ["about 13 minutes"]


@pytest.mark.parametrize(
    "args",
    [
        "kit --pieces 0,0,1",
        "kit 7-3 --only mats",
        "kit 7-3 --only cards --kinds exchange",
        "kit 7-3 --only progress",
        "kit 12-5 --only pieces --children 2",
        "kit --only cards 11-1 12-1 13-1 14-1 15-1 16-1",  # six sums without an exchange
        "plan --start 2027-01-11 --weeks 1 --days 1 --minutes 7",
        "choose --telling --below 112 --exchange across-zero --count 99",
    ],
)
def test_the_terminal_counts_well(args: str, tmp_path: Path) -> None:
    words = args.split()
    out = [] if words[0] in ("plan", "choose") else ["--out", str(tmp_path)]
    result = CliRunner().invoke(main, [*words, *out])
    assert result.output
    assert not ONE_AS_MANY.search(result.output), result.output


@pytest.mark.parametrize(
    ("name", "cuts", "says"),
    [
        ("en-GB", 4, "Straight cuts: 4, about 1 minute of cutting at 4 a minute."),
        ("en-GB", 1, "Straight cuts: 1, less than a minute of cutting at 4 a minute."),
        ("en-US", 8, "Straight cuts: 8, about 2 minutes of cutting at 4 a minute."),
        ("es", 4, "Cortes rectos: 4; se tarda más o menos 1 minuto, a 4 por minuto."),
        ("es", 1, "Cortes rectos: 1; se tarda menos de un minuto, a 4 por minuto."),
    ],
)
def test_the_print_run_counts_well(name: str, cuts: int, says: str) -> None:
    takes = Estimate(EstimateWish(), 1, 1, cuts, 100.0, 1.0, None, None)
    assert says in estimate_lines(takes, designs.words(name))


def test_pieces_are_told_from_the_largest_and_none_of_what_there_is_none() -> None:
    words = designs.words()
    assert phrases.pieces(words, Pieces(3, 1, 2)) == "2 hundreds, 1 ten and 3 ones"
    assert phrases.pieces(words, Pieces(3, 0, 2)) == "2 hundreds and 3 ones"


def test_ink_is_told_in_whole_square_centimetres() -> None:
    takes = Estimate(EstimateWish(), 1, 1, 0, 123_456.0, 1.0, None, None)  # 100 mm² are 1 cm²
    assert estimate_lines(takes, designs.words())[-1].startswith("Ink: 1235 cm² covered, ")


def test_without_straight_cuts_none_are_counted() -> None:
    takes = Estimate(EstimateWish(), 1, 1, 0, 100.0, 1.0, None, None)
    assert len(estimate_lines(takes, designs.words())) == 2  # sheets and ink


@pytest.mark.parametrize(
    ("name", "one", "many"),
    [("en-GB", "1 ten", "2 tens"), ("en-US", "1 ten", "2 tens"), ("es", "1 decena", "2 decenas")],
)
def test_pieces_are_counted_in_each_language(name: str, one: str, many: str) -> None:
    words = designs.words(name)
    assert [phrases.count(words, 1, n) for n in (1, 2)] == [one, many]


@pytest.mark.parametrize("name", designs.names("words"))
def test_every_count_has_both_forms_with_its_number(name: str) -> None:
    entries = designs.words(name).entries
    counts = [key.removesuffix(".many") for key in entries if key.endswith(".many")]
    assert counts
    for key in counts:
        for form in ("one", "many"):
            said = entries[f"{key}.{form}"]
            # "One foreseen mistake"; "the part", "each part"; pages are told by their numbers
            told = "{count}" in said or f"{key}.{form}" == "why.one" or key == "scissors.across"
            assert told or (key.startswith("run.fill") and "{pages}" in said)
