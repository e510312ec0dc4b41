"""The source archive builds the wheel; what a release says is done can be done.

That the wheel makes the same kit: ``output/test_machines.py``.
"""

import re
import tarfile
import tomllib
import zipfile
from pathlib import Path

from hatchling.builders.sdist import SdistBuilder
from hatchling.builders.wheel import WheelBuilder

ROOT = Path(__file__).parent.parent


def test_the_source_builds_the_wheel_and_brings_no_tests(tmp_path: Path) -> None:
    # The tests read samples, tools and a git checkout that a source archive does not hold.
    source = next(SdistBuilder(str(ROOT)).build(directory=str(tmp_path), versions=["standard"]))
    with tarfile.open(source) as archive:
        if hasattr(tarfile, "data_filter"):  # from Python 3.11.4 on; Debian 12 has 3.11.2
            archive.extraction_filter = tarfile.data_filter
        archive.extractall(tmp_path / "source")
    (root,) = (tmp_path / "source").iterdir()
    held = {path.name for path in root.iterdir()}
    assert held - {".gitignore", "PKG-INFO"} == {
        *("kitbuilder", "designs", "CHANGELOG.md", "DEVELOPERS.md", "README.md"),
        *("LICENSE", "pyproject.toml"),
    }

    def names(place: Path) -> set[str]:
        folder = tmp_path / "wheels" / place.name
        wheel = next(WheelBuilder(str(place)).build(directory=str(folder), versions=["standard"]))
        with zipfile.ZipFile(wheel) as archive:
            return set(archive.namelist())

    found = names(root)
    assert found == names(ROOT)
    assert "kitbuilder/_designs/words/en-GB.toml" in found
    assert not any(name.startswith(("tests/", "designs/")) for name in found)


def test_the_release_builds_with_what_the_setup_brings() -> None:
    told = (ROOT / "DEVELOPERS.md").read_text("utf-8").partition("## Release")[2]
    dev = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    brought = {name.partition(">=")[0] for name in dev["optional-dependencies"]["dev"]}
    assert set(re.findall(r"`\.venv/bin/(\w+) build`", told)) == {"hatchling"} & brought
    assert "python -m build" not in told


def test_the_readme_and_the_machine_run_the_same_test_command() -> None:
    command = "sh .ci/setup dev && .venv/bin/pytest"
    assert f"\n    {command}\n" in (ROOT / "README.md").read_text()
    assert f"\n{command}\n" in (ROOT / ".ci/run").read_text()
