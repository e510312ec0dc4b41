"""What ends the program: a right kit, or one sentence and status 2. A few seeds of many."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any, NoReturn

import click
import pytest
from fuzz import Ending, faults, read_faults, run_case, sentence_faults
from fuzz_cases import VALUES, Case, case

from kitbuilder import pipeline as road
from kitbuilder.cli import main
from kitbuilder.number.choice import fact_cover
from kitbuilder.number.choice import pick as choose
from kitbuilder.number.course import schedule as plan
from kitbuilder.output import calibration
from kitbuilder.output.watch import Watch
from kitbuilder.pipeline import Built
from kitbuilder.request.request import Request


@pytest.fixture
def short(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Iterator[None]:
    """End every case well where its wishes have been read and checked."""

    def reached(*args: Any, **given: Any) -> NoReturn:  # noqa: ANN401
        raise click.exceptions.Exit(0)

    for module, name in (
        *((road, n) for n in ("build", "compare_units")),
        (calibration, "write_check_sheet"),
        *((choose, n) for n in ("choose", "widen")),
        (fact_cover, "cover"),
        (plan, "plan"),
    ):
        monkeypatch.setattr(module, name, reached)
    monkeypatch.setenv("XDG_CONFIG_HOME", "config")
    yield
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("first", range(0, 150, 50))
def test_every_line_typed_ends_well(first: int, short: None, tmp_path: Path) -> None:
    for seed in range(first, first + 50):
        assert (seed, faults(run_case(case(seed), tmp_path / "case"))) == (seed, [])


def test_every_file_read_ends_well() -> None:
    assert [fault for seed in range(150) for fault in read_faults(seed)] == []


def test_every_option_is_driven() -> None:
    options = {
        p.opts[-1]
        for command in main.commands.values()
        for p in command.params
        if isinstance(p, click.Option) and not p.is_flag
    }
    assert options == set(VALUES)


def test_the_same_seed_gives_the_same_case() -> None:
    assert case(7) == case(7) != case(8)


@pytest.mark.parametrize(
    ("err", "says"),
    [
        ("", "not one sentence"),
        ("Choose a paper\n", "not one sentence"),
        ("Choose.\nOr not.\n", "not one sentence"),
        ("Give \u202e another.\n", "hidden letters"),
        ("That was wrong.\n", "no advice"),
        (f"Give {'a' * 2000}.\n", "letters"),
    ],
)
def test_what_is_not_one_sentence_is_found(err: str, says: str) -> None:
    assert any(says in fault for fault in sentence_faults(err))
    assert sentence_faults("There is no such paper; choose a4.\n") == []


@pytest.mark.parametrize(
    "ending",
    [
        Ending(2, "half a kit\n", "Give a sum.\n", 0.1),
        Ending(1, "", "", 0.1),
        Ending(0, "", "", 11.0),
        Ending(0, "", "", 0.1, trace="Traceback"),
        Ending(0, "", "", 0.1, stray=("../x",)),
        Ending(0, "\x1b[31m", "", 0.1),
    ],
)
def test_a_bad_ending_is_found(ending: Ending) -> None:
    assert faults(ending)


def test_a_stray_file_and_a_wrong_kit_are_found(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def strays(*args: Any, **given: Any) -> NoReturn:  # noqa: ANN401
        Path("stray.txt").write_text("mine")
        raise click.exceptions.Exit(0)

    monkeypatch.setattr(road, "build", strays)
    assert run_case(Case(("kit",)), tmp_path / "a").stray == ("stray.txt",)
    monkeypatch.undo()
    real = road.build

    def loses(request: Request, out: Path, watch: Watch) -> Built:
        built = real(request, out)
        (out / "kit.pdf").unlink()
        return built

    monkeypatch.setattr(road, "build", loses)
    ending = run_case(Case(("kit", "71-48", "--only", "cards")), tmp_path / "b")
    assert ending.stray == ("no PDF was written",)
