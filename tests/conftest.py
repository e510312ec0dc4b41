"""The run of all tests: what is made once and kept, and golden files made anew on demand."""

import gc
import sys
from collections.abc import Callable, Iterator
from functools import cache
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


@pytest.fixture
def anew() -> Iterator[None]:
    """Let a test that changes how things are laid out lay them out anew."""
    import kept

    with kept.anew():
        yield


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the flag that makes the golden files anew."""
    parser.addoption("--golden", action="store_true", help="make the samples anew, and stop")


def pytest_configure(config: pytest.Config) -> None:
    """Make the golden files anew where that is asked for; nothing is tested then.

    Otherwise prepare each worker.
    """
    if hasattr(config, "workerinput"):
        import kept

        kept.keep()
    if config.getoption("--golden") and not hasattr(config, "workerinput"):
        import samples

        samples.main()
        pytest.exit("The samples are made anew: look at every page that changed.", 0)
