"""What a refusal of thousands, decimals or money names as a way out is not refused."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kitbuilder import pipeline
from kitbuilder.cli import main
from kitbuilder.request.request import Request

WAYS = (
    # what is asked for; a part of what is said; what it says to ask for instead
    ("kit 4002-1768 --metre", "leave out --metre, or the sums", ("kit 4002-1768", "kit --metre")),
    ("kit 4002-1768 --metre --unit 10", "leave out --metre", ("kit 4002-1768",)),
    ("kit 3-1.47 --metre --paper a5", "choose A4, Letter", ("kit 3-1.47 --metre --paper letter",)),
    ("kit 3-1.47 --metre --paper a5 --unit 10", "leave out", ("kit 3-1.47 --paper a5",)),
    ("kit 3-1.47 --metre --unit 8", "choose --unit 10", ("kit 3-1.47 --metre --unit 10",)),
    (
        "kit 634-258 --money GBP",
        "amounts such as 6.34 - 2.58, or leave out --money",
        ("kit 6.34-2.58 --money GBP", "kit 634-258"),
    ),
    ("kit 4002-1768 --money GBP", "leave out --money", ("kit 4002-1768",)),
    ("cards 634-258 --money MXN", "leave out --money", ("cards 634-258",)),
    (
        "kit 3-1.47 4002-1768 --money GBP",
        "print it on its own, without --money",
        ("kit 4002-1768", "kit 3-1.47 --money GBP"),
    ),
    ("kit 3-1.47 4002-1768", "print it on its own", ("kit 4002-1768", "kit 3-1.47")),
    (
        "kit 12.5-4.75",
        "on cards alone, with --stage written",
        ("kit 12.5-4.75 --only cards --stage written", "cards 12.5-4.75 --stage written"),
    ),
    ("kit 3-1.47 71-48", "71 − 48 is too large beside decimals", ("kit 71-48", "kit 3-1.47")),
    ("kit 3-1.47 --within 100", "add --pieces 9,19,18", ("kit 3-1.47 --pieces 9,19,18",)),
    ("kit --within 9.99", "add --pieces 9,19,18", ("kit 3-1.47 --pieces 9,19,18",)),
    ("kit 3-1.47 12.5-4.75 --weeks 2", "out of --weeks", ("kit 3-1.47 --weeks 2",)),
    (
        "kit --weeks 2 --money GBP",
        "--weeks plans whole numbers",
        ("kit 6.34-2.58 --weeks 2 --money GBP",),
    ),
    ("kit --within 1000 --money GBP", "leave it out", ("kit --money GBP", "cards --money EUR")),
    ("kit £3.00-£1.47", "as 3.00-1.47", ("kit 3.00-1.47 --money GBP",)),
    ("kit 4,002-1,768", "as 4002 - 1768", ("kit 4002-1768",)),
    (
        "kit 4002-1768 --mini",
        "--mini, or give smaller numbers",
        ("kit 4002-1768", "kit 43-17 --mini"),
    ),
    ("kit 4002-1768 --paper a5 --look bold", "choose A4, Letter", ("kit 4002-1768 --look bold",)),
    ("kit 4002-1768 --unit 20", "is --unit 5.52", ("kit 4002-1768 --unit 5.52",)),
    (
        "kit 4002-1768 --unit 4",
        "smallest is --unit 5;",
        ("kit 4002-1768 --unit 5", "kit 4002-1768"),
    ),
    ("kit --unit 4 --paper a5", "smallest is --unit 5;", ("kit --unit 5 --paper a5",)),
    (
        "kit 634-258 --unit 90 --paper a5",
        "choose --unit 9 or",
        ("kit 634-258 --unit 9 --paper a5",),
    ),
    (
        "kit 634-258 --unit 90",
        "choose --unit 13.3 or",
        ("kit 634-258 --unit 13.3",),
    ),
)

LAID_ELSEWHERE = ("kit 4002-1768", "kit 634-258", "kit 71-48", "kit 3-1.47")
"""Kits that many other tests lay out, of whole numbers and of decimals."""

FIRST = {way: typed for typed, _, ways in reversed(WAYS) for way in ways}
"""What is asked for first of all that name a way: it is gone once."""


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Iterator["Run"]:
    def laid_out_only(request: Request, *_: object) -> None:
        pipeline.prepare(request)
        raise SystemExit(0)

    monkeypatch.setattr(pipeline, "build", laid_out_only)
    yield Run(tmp_path / "kit")


class Run:
    """The command line, which lays a kit out and draws nothing."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def __call__(self, typed: str, *more: str) -> Result:
        out = str(self.folder)
        return CliRunner().invoke(main, [*typed.split(), *more, "--out", out])


@pytest.mark.parametrize(("typed", "says", "ways"), WAYS, ids=[way[0] for way in WAYS])
def test_the_way_out_is_one(run: Run, typed: str, says: str, ways: tuple[str, ...]) -> None:
    refused = run(typed)
    assert refused.exit_code == 2
    assert says in refused.output
    for way in (way for way in ways if FIRST[way] == typed and way not in LAID_ELSEWHERE):
        assert run(way).exit_code == 0, way
