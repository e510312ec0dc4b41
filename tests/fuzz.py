"""Turns a case into how it ended, and an ending into what is wrong with it."""

import os
import re
import shutil
import signal
import time
import traceback
import unicodedata
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import FrameType
from typing import Any

import pypdfium2
from click.testing import CliRunner
from fuzz_cases import Case, Maker

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.design.load import Look, Paper
from kitbuilder.errors import RefusedError
from kitbuilder.formats.plan_csv import read_plan
from kitbuilder.formats.textfile import decode, parse_toml
from kitbuilder.press.printer import Printer
from kitbuilder.request.file import wishes
from kitbuilder.request.pupils import pupils
from kitbuilder.request.request import read_sum, read_sums

LONGEST = 10.0
"""Seconds of the processor a case may take; other work beside it does not count."""

LONGEST_SENTENCE = 900
"""Letters a refusal may have; the longest lists every key of a request file."""

_ADVICE = re.compile(
    r"[;:]|\b(choose|give|must|may|use|write|type|say|add|make|leave|put|install"
    r"|elija|dé|dele|debe|use|escriba|añada|haga|deje|quite|ponga|mire|mida|corrija)\b",
    re.I,
)
_HIDDEN = ("Cc", "Cf", "Cs", "Co", "Zl", "Zp")
_FURTHER = re.compile(r"(Line \d+: .*|.*\d − \d.*|And \d+ more)\.")
# Lines below a refusal: another row, another sum, or how many.


@dataclass(frozen=True, slots=True)
class Ending:
    """How a case ended; ``stray`` are the files found where none should be."""

    status: int
    out: str
    err: str
    seconds: float
    trace: str = ""
    stray: tuple[str, ...] = ()


class HangError(Exception):
    """A case that took far too long."""


def run_case(case: Case, folder: Path) -> Ending:
    """Run ``case`` in ``folder``, which is made for it and removed after it."""
    folder.mkdir()
    here = Path.cwd()
    for name, raw in case.files:
        (folder / name).write_bytes(raw)
    os.chdir(folder)
    start = time.process_time()
    try:
        with _limited():
            done = CliRunner().invoke(main, case.args, input=case.given)
        seconds = time.process_time() - start
        kept = {name for name, _ in case.files}
        words = (word.partition("=")[2] or word for word in case.args)
        typed = {Path(os.path.normpath(word)) for word in words}  # bent, but asked for
        stray = tuple(
            path
            for path in sorted(_files(folder))
            if path not in kept and typed.isdisjoint((Path(path), *Path(path).parents[:-1]))
        )
        error = done.exception
        unseen = error is not None and not isinstance(error, SystemExit)
        trace = "".join(traceback.format_exception(error)) if unseen and error else ""
        wrong = () if trace or done.exit_code else _wrong_kit(folder, done.stdout)
        return Ending(done.exit_code, done.stdout, done.stderr, seconds, trace, stray + wrong)
    finally:
        os.chdir(here)
        shutil.rmtree(folder)


READERS: dict[str, Callable[[Maker], object]] = {
    "sum": lambda maker: read_sum(maker.bend(maker.sum())),
    "sums": lambda maker: read_sums(_text(maker, maker.sums)),
    "plan": lambda maker: read_plan(_text(maker, maker.plan)),
    "pupils": lambda maker: pupils(_text(maker, maker.pupils), "p.csv", "pieces"),
    "request": lambda maker: wishes(_table(maker, maker.request), "r.toml"),
    "paper": lambda maker: designs.built(
        Paper, _table(maker, lambda: maker.design("paper", "a4")), "The paper"
    ),
    "look": lambda maker: designs.built(
        Look, _table(maker, lambda: maker.design("looks", "plain")), "The look"
    ),
    "printer": lambda maker: designs.built(
        Printer, _table(maker, lambda: _text(maker, maker.printer)), "The printer"
    ),
}
"""What reads each kind of file or word that a person writes, into a checked record."""


def read_faults(seed: int) -> list[str]:
    """Return what is wrong with how one kind of text, made from ``seed``, is read or refused."""
    maker = Maker(seed)
    name = maker.rng.choice(tuple(READERS))
    start = time.process_time()
    try:
        READERS[name](maker)
        found = []
    except RefusedError as error:
        found = sentence_faults(f"{error}\n")
    except Exception:
        found = [traceback.format_exc()]
    if time.process_time() - start > LONGEST:
        found.append("took too long")
    return [f"{name} of {seed}: {fault}" for fault in found]


def _text(maker: Maker, make: Callable[[], str]) -> str:
    """Return the text of the file that ``make`` adds last, read as any file is."""
    name = make()
    return decode(maker.files[-1][1], name) if maker.files else name


def _table(maker: Maker, make: Callable[[], str]) -> dict[str, Any]:
    return parse_toml(maker.bend(make()), "t.toml")


def faults(ending: Ending) -> list[str]:
    """Return what is wrong with an ending: only a right kit or one sentence will do."""
    found = []
    if ending.trace:
        found.append(ending.trace)
    elif ending.status == 2:
        found += sentence_faults(ending.err)
        if ending.out:
            found.append(f"something was said beside the refusal: {ending.out[:100]!r}")
    elif ending.status != 0:
        found.append(f"ended with status {ending.status}")
    if ending.seconds > LONGEST:
        found.append(f"took {ending.seconds:.1f} s")
    if ending.stray:
        found.append(f"stray or wrong files: {', '.join(ending.stray)}")
    hidden = {c for c in ending.out if unicodedata.category(c) in _HIDDEN} - {"\n"}
    if hidden:
        found.append(f"hidden letters were said: {hidden}")
    return found


def sentence_faults(err: str) -> list[str]:
    """Return why ``err`` is not one sentence on one line that says what to do.

    Of several bad rows or sums each is told on a line of its own.
    """
    found = []
    first, *rows = err.removesuffix("\n").split("\n")
    if not err.endswith(".\n") or not all(map(_FURTHER.fullmatch, rows)):
        found.append(f"not one sentence: {err[:300]!r}")
    if any(unicodedata.category(c) in _HIDDEN for c in "".join((first, *rows))):
        found.append(f"hidden letters: {err[:300]!r}")
    if len(err) > LONGEST_SENTENCE:
        found.append(f"{len(err)} letters: {err[:300]!r}")
    if not _ADVICE.search(err):
        found.append(f"no advice: {err!r}")
    return found


def _files(folder: Path) -> Iterator[str]:
    """Yield the files below ``folder`` that are in none of the places a case may write to."""
    for path in folder.rglob("*"):
        inside = path.relative_to(folder)
        if path.is_file() and inside.parts[0] not in ("out", *DEFAULT_OUT):
            yield str(inside)


DEFAULT_OUT = ("kit", "cards", "check.pdf", "config")
"""Where the commands write to when nothing is said, and the home of printers."""


def _wrong_kit(folder: Path, said: str) -> tuple[str, ...]:
    """Return the PDFs that do not have the pages that were said; ``()`` for all others."""
    pages = re.search(r"^(\d+) (?:pages?|páginas?)[:,] ", said, re.M)
    wrong = []
    for name in ("kit.pdf", "cards.pdf", "mats.pdf"):
        for path in folder.rglob(name):
            document = pypdfium2.PdfDocument(path)
            if pages is None or len(document) != int(pages[1]):
                wrong.append(f"{path.name} has {len(document)} pages")
            document.close()
    if pages and not any(folder.rglob("*.pdf")):
        wrong.append("no PDF was written")
    return tuple(wrong)


@contextmanager
def _limited() -> Iterator[None]:
    """End what takes three times as long of the processor as it may."""

    def ring(number: int, frame: FrameType | None) -> None:
        raise HangError

    before = signal.signal(signal.SIGPROF, ring)
    signal.setitimer(signal.ITIMER_PROF, 3 * LONGEST)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)
