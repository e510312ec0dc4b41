"""The run of all tests: nobody looks for garbage, and golden files are made anew on demand."""

import gc
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

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


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the flag that makes the golden files anew."""
    parser.addoption("--golden", action="store_true", help="make the samples anew, and stop")


def pytest_configure(config: pytest.Config) -> None:
    """Make the golden files anew where that is asked for; nothing is tested then."""
    if config.getoption("--golden") and not hasattr(config, "workerinput"):
        import samples

        samples.main()
        pytest.exit("The samples are made anew: look at every page that changed.", 0)
