"""Fuzzing at length, by hand: every file, every line typed, and whole kits."""

import resource
from pathlib import Path

import pytest
from fuzz import faults, read_faults, run_case
from fuzz_cases import case
from test_fuzz import short as short

pytestmark = pytest.mark.timeout(3600)

READ, TYPED, WHOLE = 150_000, 50_000, 2_000
MOST_MEMORY = 500_000
"""Kilobytes the whole run may take at its most."""


def test_every_file_read_ends_well() -> None:
    found = [fault for seed in range(READ) for fault in read_faults(seed)]
    assert found[:5] == []


@pytest.mark.usefixtures("short")
def test_every_line_typed_ends_well(tmp_path: Path) -> None:
    ended_badly(range(TYPED), tmp_path)


def test_every_kit_ends_well(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CONFIG_HOME", "config")
    ended_badly(range(1_000_000, 1_000_000 + WHOLE), tmp_path)
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss < MOST_MEMORY


def ended_badly(seeds: range, folder: Path) -> None:
    found = []
    for seed in seeds:
        found += [f"{seed}: {fault}" for fault in faults(run_case(case(seed), folder / "case"))]
    assert found[:5] == []
