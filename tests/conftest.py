"""The run of all tests: what is made once and kept, and golden files made anew on demand."""

import gc
import sys
from collections.abc import Callable
from functools import cache, lru_cache
from pathlib import Path

import pytest

sys.dont_write_bytecode = False  # or each worker of each run compiles all tests anew
gc.disable()  # as the program does: looking for rings made the run of all tests a tenth longer


@pytest.fixture(scope="session")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Path]:
    """Return the folder of a sample made anew, once for all tests; its siblings are samples too."""
    import samples

    place = tmp_path_factory.mktemp("samples")

    @cache
    def made(name: str) -> Path:
        (place / name).mkdir()
        samples.make(name, place / name)
        return place / name

    return made


def lay_out_once() -> None:
    """Keep kits that were laid out for other tests of the same worker.

    A layout knows nothing of what was before it: a test in tests/test_kit.py compares processes.
    What is written in full, 3.00, makes no two sums differ, but what is shown of them.
    """
    from kitbuilder import pipeline
    from kitbuilder.design.style import Style
    from kitbuilder.kit.records import CutWish, Kit
    from kitbuilder.layout.assemble import LaidOut, lay_out
    from kitbuilder.layout.pieces.making import Making

    @lru_cache(64)
    def kept(shown: str, kit: Kit, cutting: CutWish, style: Style, making: Making) -> LaidOut:
        return lay_out(kit, cutting, style, making)

    def once(kit: Kit, cutting: CutWish, style: Style, making: Making) -> LaidOut:
        return kept(f"{kit!r} {style.words.scale!r}", kit, cutting, style, making)

    pytest.MonkeyPatch().setattr(pipeline, "lay_out", once)


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the flag that makes the golden files anew."""
    parser.addoption("--golden", action="store_true", help="make the samples anew, and stop")


def pytest_configure(config: pytest.Config) -> None:
    """Make the golden files anew where that is asked for; nothing is tested then.

    Otherwise prepare each worker.
    """
    if hasattr(config, "workerinput"):
        lay_out_once()
    if config.getoption("--golden") and not hasattr(config, "workerinput"):
        import samples

        samples.main()
        pytest.exit("The samples are made anew: look at every page that changed.", 0)
