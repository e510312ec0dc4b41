"""The run of all tests: garbage is looked for seldom, and golden files are made anew on demand."""

import gc

import pytest

gc.set_threshold(100_000, 20, 20)  # looking for rings made the run of all tests a tenth longer


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the flag that makes the golden files anew."""
    parser.addoption("--golden", action="store_true", help="make the samples anew, and stop")


def pytest_configure(config: pytest.Config) -> None:
    """Make the golden files anew where that is asked for; nothing is tested then."""
    if config.getoption("--golden") and not hasattr(config, "workerinput"):
        import samples

        samples.main()
        pytest.exit("The samples are made anew: look at every page that changed.", 0)
