"""Plans that begin with the sums typed: thousands and decimals among them."""

import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kitbuilder.cli import main


def run(*args: str) -> Result:
    return CliRunner().invoke(main, args)


@pytest.mark.parametrize(
    ("sums", "says"),
    [
        (("4002-1768",), "pieces             4002 − 1768"),
        (("3-1.47",), "pieces             3 − 1.47"),
        (("43-17", "4002-1768"), "pieces             43 − 17"),
    ],
)
def test_a_plan_begins_with_the_sums_typed(sums: tuple[str, ...], says: str) -> None:
    told = run("plan", *sums, "--weeks", "5")
    assert told.exit_code == 0 and says in told.output
    assert all(sum_.replace("-", " − ") in told.output for sum_ in sums)


def test_thousands_come_after_across_zero() -> None:
    told = run("plan", "43-17", "4002-1768", "--weeks", "6").output
    kinds = ["2 places", "3 places, exchange across a zero", "4 places"]
    at = [told.index(kind) for kind in kinds]
    assert at == sorted(at)


def test_a_plan_of_thousands_goes_into_a_kit(tmp_path: Path) -> None:
    path = tmp_path / "plan.csv"
    assert run("plan", "4002-1768", "--weeks", "1", "--csv", str(path)).exit_code == 0
    assert run("kit", "--plan", str(path), "--out", str(tmp_path / "kit")).exit_code == 0


def test_a_plan_file_of_decimals_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "plan.csv"
    told = run("plan", "3-1.47", "--csv", str(path))
    assert told.exit_code == 2 and not path.exists()
    assert "leave out --csv" in told.output and "--weeks" in told.output


def test_a_plan_of_decimals_asks_how_much_not_how_many() -> None:
    asked = [
        " ".join(run("plan", sum_, "--weeks", "1").output.split()) for sum_ in ("53-27", "3-1.47")
    ]
    assert "“About how many will be left?”" in asked[0]
    assert "“About how much will be left?”" in asked[1]


def test_a_plan_file_without_a_column_is_named(tmp_path: Path) -> None:
    path = tmp_path / "mine.csv"
    path.write_text("date,week,day,phase,kind,whole\n")
    told = run("kit", "--plan", str(path), "--out", str(tmp_path / "kit"))
    assert told.exit_code == 2 and "mine.csv lacks the column 'part'" in told.output


def test_tenths_alone_are_planned_in_tenths() -> None:
    """Two places at every stage and to the last return: no lesson has shown hundredths."""
    told = run("plan", "3.5-1.7", "--weeks", "2").output
    assert "2 places, not enough tenths" in told
    assert len(re.findall(r"\d\.\d − \d", told)) > 30
    assert not re.search(r"\d\.\d\d", told)


def test_each_sum_that_weeks_do_not_ask_is_named_with_what_helps() -> None:
    said = " ".join(run("kit", "43-17", "48-15", "502-287", "42-17", "--weeks", "4").output.split())
    assert "and 48 − 15 does not; give another" in said
    assert said.count("can only be the first sum of the weeks") == 2
    assert said.count("put it first") == 1 < said.index("put it first") < said.index("42 − 17")
    assert "only one sum can be first, so leave out this one or 502 − 287." in said
    told = run("plan", "502-287", "43-17", "--weeks", "4").output  # as it was told
    assert "502 − 287" in told and "43 − 17" in told
    lost = run("plan", "42-17", "52-27", "--weeks", "4").output  # each first would lose the other
    assert "leave out this one or 42 − 17." in " ".join(lost.split())
    assert "52 − 27" in lost and "put it first" not in lost
