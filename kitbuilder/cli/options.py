"""The options that several commands share."""

import os
import re
import sys
from collections.abc import Callable, Iterable
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar, cast

import click

from kitbuilder.design.saying import LANGUAGES
from kitbuilder.errors import RefusedError, Said, Where
from kitbuilder.formats.textfile import LARGEST_FILE, decode, read_text
from kitbuilder.press.printing import source_date

if TYPE_CHECKING:
    from kitbuilder.design.load import Paper
    from kitbuilder.number import Sum
    from kitbuilder.press.printing import Press, Printing

Command = TypeVar("Command", bound=Callable[..., Any])

STANDARD_INPUT = ("-", "/dev/stdin")
"""Names under which standard input is read."""

LONGEST_NUMBER = 12
"""Signs that a number may have."""


def _name(param: click.Parameter | None) -> str:
    return param.opts[0].removeprefix("--") if param else "value"


_WHOLE = re.compile(r"[-+−]?\d+", re.ASCII)
_NUMBER = re.compile(r"[-+−]?(\d+([.,]\d*)?|[.,]\d+)", re.ASCII)
_THOUSANDS = re.compile(r"[-+−]?[1-9]\d{0,2},\d{3}", re.ASCII)
"""A comma before three digits sets thousands apart for some and decimals for others."""


def read_number(typed: str) -> float | None:
    """Return the number typed, with a decimal point or comma; None where it may mean two.

    That is a thousand written 1,000, and what only a program would read: 1_0, 1e3, digits of
    other scripts.
    """
    typed = typed.strip()
    if not _NUMBER.fullmatch(typed) or _THOUSANDS.fullmatch(typed) or len(typed) > LONGEST_NUMBER:
        return None
    return float(typed.replace(",", ".").replace("−", "-"))


class Number(click.ParamType[float]):
    """A number, such as a length in millimetres; a decimal comma is understood."""

    def __init__(self, name: str) -> None:
        self.name = name

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """Return the number typed; refuse anything else."""
        number = read_number(str(value))
        if number is not None:
            return number
        if self is MM:
            raise RefusedError("option.millimetres", option=_name(param), given=str(value))
        raise RefusedError("option.number", option=_name(param), given=str(value))


class WholeNumber(click.ParamType[int]):
    """A whole number."""

    name = "whole number"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> int:
        """Return the number typed; refuse anything else."""
        typed = str(value).strip()
        if not _WHOLE.fullmatch(typed):
            if _name(param) == "within" and _NUMBER.fullmatch(typed):
                raise RefusedError("decimals.within", option="within", pieces="pieces")
            raise RefusedError("option.whole-number", option=_name(param), given=typed)
        if len(typed) > LONGEST_NUMBER:
            raise RefusedError("option.too-large", option=_name(param), given=typed)
        return int(typed.replace("−", "-"))


MM = Number("millimetres")
NUMBER = Number("number")
WHOLE = WholeNumber()

SUMS_SETTINGS = {"ignore_unknown_options": True}
"""Lets a negative number reach the sentence that refuses it."""


def sum_words(words: tuple[str, ...]) -> tuple[str, ...]:
    """Return the words that name sums or files; refuse a mistyped option among them."""
    for word in words:
        if word.startswith("--") or (word[:1] == "-" and word[1:2].isalpha()):
            here = click.get_current_context()
            known = [name for option in here.command.params for name in option.opts]
            raise click.NoSuchOption(word.partition("=")[0][:40], possibilities=known, ctx=here)
    return words


_PRINTING: dict[str, dict[str, Any]] = {
    "paper": {"metavar": "PAPER", "help": "Name, size as 215x330mm, or profile file."},
    "margin": {"type": MM, "metavar": "MM", "help": "Unprinted margin on all sides."},
    "unit": {
        "type": MM,
        "metavar": "MM",
        "help": "Width of a one, in millimetres; 20 or more: large pieces for the board.",
    },
    "printer": {"metavar": "NAME", "help": "Printer measured with check-print."},
    "look": {"metavar": "LOOK", "help": "plain, spare, bold (large type), outline, or a file."},
    "words": {
        "metavar": "WORDS",
        "help": f"Language of what is printed: {', '.join(LANGUAGES)}, or a words file.",
    },
    "sturdy": {"metavar": "HOW", "help": "Stiffer pieces: fold (and glue), or backs."},
    "picture": {"metavar": "FILE.svg", "help": "Your own drawing, for labels and cards."},
    "cutter": {
        "metavar": "svg,dxf,MM",
        "help": "Also files for a cutter, and the width in mm that it takes away: svg,0.15.",
    },
    "png": {"type": WHOLE, "metavar": "DPI", "help": "Also pictures, so many dots per inch: 150."},
}


def printing_options(*names: str) -> Callable[[Command], Command]:
    """Return what adds the named options of how to print; the command gets one ``printing``."""

    def add(command: Command) -> Command:
        @wraps(command)
        def with_printing(**given: Any) -> Any:
            said = {name: given.pop(name) for name in names}
            made = source_date(os.environ.get("SOURCE_DATE_EPOCH"))
            return command(printing={**said, "made": made}, **given)

        wrapped = cast(Command, with_printing)
        for name in reversed(names):
            wrapped = click.option(f"--{name}", **_PRINTING[name])(wrapped)
        return wrapped

    return add


print_options = printing_options(*_PRINTING)
"""Adds every option of how to print; the command gets them as one ``printing``."""


def printed(said: "Printing", others: "Printing | None" = None) -> "tuple[Paper, Press]":
    """Return the paper and the press that were ``said``, or that ``others`` say where nothing was.

    Words of one's own are tried on real pages. Raises ``RefusedError``.
    """
    from kitbuilder.press.printing import fitted, over, press_for

    how = over(said, others or {})
    paper, press = fitted(how), press_for(how)
    words = str(how.get("words") or "")
    if words.lower().endswith(".toml"):
        from kitbuilder.cli.words_trial import check_fit

        check_fit(press.words, Path(words))
    return paper, press


def point_of(words: object) -> str:
    """Return the decimal point of the language that ``words`` names; a point where it is not said.

    A words file of one's own is read as English until it is known to be right.
    """
    from kitbuilder.design import load as designs

    return designs.words(str(words))("number.point") if words in LANGUAGES else "."


def words_option(command: Command) -> Command:
    """Add the option that names the language; the command gets its ``words``."""

    @wraps(command)
    def with_words(words: str | None, **given: Any) -> Any:
        from kitbuilder.design import load as designs

        return command(words=designs.words(words or LANGUAGES[0]), **given)

    help_ = f"Language of what is said: {', '.join(LANGUAGES)}, or a words file."
    return cast(Command, click.option("--words", metavar="WORDS", help=help_)(with_words))


def out_option(default: str) -> Callable[[Command], Command]:
    """Add the option that names the folder to write into."""
    return click.option(
        "--out",
        type=click.Path(path_type=Path),
        default=default,
        show_default=True,
        help="Folder to write into; other files in it are left alone.",
    )


MOST_NAME = 200
"""The most bytes of a file's name; most systems allow 255."""


def new_file(path: Path, option: str) -> Path:
    """Return ``path``, named with ``option``; refuse what no file may take the place of.

    Nor may a dash alone, which stands elsewhere for standard output. The name leaves room for that
    of the file which is written first and then takes its place.
    """
    from kitbuilder.output.store.folder import in_folder

    if len(os.fsencode(path.name)) > MOST_NAME:
        raise RefusedError("output.name-too-long", option=option, given=path.name, most=MOST_NAME)
    with in_folder(path.parent, Said("advice.choose-another", option=option)):
        there = path.exists() or path.is_symlink()
    if path.name in ("", "..", "-") or (there and not path.is_file()):
        raise RefusedError("output.no-name", option=option, given=path)
    return path


def read_input(source: str, largest: int = LARGEST_FILE) -> str:
    """Return the text of the file named ``source``, or of standard input for ``-``.

    It may have ``largest`` bytes.
    """
    if source not in STANDARD_INPUT:
        return read_text(Path(source), largest)
    if sys.stdin is None:
        raise RefusedError("input.closed")
    return decode(sys.stdin.buffer.read(largest + 1), Said("where.input"), largest)


def read_words(words: tuple[str, ...], point: str) -> "tuple[Sum, ...]":
    """Return the sums typed, a word each; ``point`` stands after the ones in the language printed.

    One that the shell took apart at its spaces is refused as such.
    """
    from kitbuilder.request.request import read_sum

    def read(at: int, count: int) -> "Sum | None":
        try:
            return read_sum(" ".join(words[at : at + count]), point)
        except RefusedError as error:
            if error.code != "sum.unreadable":
                raise
            return None

    for at, word in enumerate(words):
        if read(at, 1) is None and (whole := read(at, 2) or read(at, 3)):
            raise RefusedError("sum.apart", given=word, sum=whole.typed)
    return tuple(read_sum(word, point) for word in words)


def sums_given(words: Iterable[str], file: str | None, point: str) -> "tuple[Sum, ...]":
    """Return the sums typed, and those in the ``file`` named, if one is.

    ``point`` stands after the ones in the language that is printed.
    """
    from kitbuilder.request.request import read_sums

    given = read_words(tuple(words), point)
    if file is None:
        return given
    try:
        return given + read_sums(read_input(file), point)
    except RefusedError as error:
        raise error.in_table(where_from(file)) from None


def where_from(source: str) -> Where:
    """Return how the file named ``source``, or standard input, is called in a refusal."""
    return Said("where.input") if source in STANDARD_INPUT else Path(source)
