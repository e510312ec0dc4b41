"""One answer as a teacher typed it, and what a table said that was read otherwise."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from kitbuilder.errors import RefusedError, Said, Slot, Where, named
from kitbuilder.frozen import frozen
from kitbuilder.kit.class_marks import Cell
from kitbuilder.number.exchange import exchanges
from kitbuilder.number.sums import Sum
from kitbuilder.request.typed_sum import pointed

BLANK = (
    *("", "-", "–", "—", "−", "?", "/", ".", "x", "a", "n/a", "na", "abs", "abs.", "absent"),
    *(
        "not tried",
        "away",
        "ill",
        "aus",
        "aus.",
        "ausente",
        "falta",
        "faltó",
        "no vino",
        *("no ha venido", "no asiste", "enfermo", "enferma", "sick", "missing", "not here"),
        "sin hacer",
    ),
    *("np", "n/p", "n. p.", "n.p.", "dnf", "no sabe", "no lo sabe", "ns"),
)
"""What stands for a sum that was not answered, in small letters."""

MOST_TOLD = 5
"""Things of a kind that a note names."""

_MOST_DIGITS = 6
# Digits that an answer in whole numbers may have.

_WHOLE = re.compile(rf"\d{{1,{_MOST_DIGITS}}}(?:[.,]0{{1,2}})?", re.ASCII)
_DECIMAL = re.compile(r"(\d{1,4})(?:[.,](\d{1,3}))?", re.ASCII)
_THOUSANDS = re.compile(r"\d{1,2}[.,' ]\d{3}", re.ASCII)  # two answers have three: 325,335
_TICKS = ("✓", "✔", "✅", "☑")
_MARKED = re.compile(
    r"[(~=]?\s*(\d[\d.,' ]*?)\s*(?:[?!*✓✔✅✗✘❌☑□)]\ufe0f?){0,3}"
    r"(?:\s\(?(?:[x×]|ok|bien|mal|right|wrong|correct)\)?)?",
    re.ASCII | re.IGNORECASE,
)


@frozen
class ChildAnswers:
    """One child's answers, in the order of the table; not ``named`` where that has no name."""

    name: str
    cells: tuple[Cell, ...]
    named: bool = True


@dataclass
class Told:
    """What is to be told of a table: rows refused, and what was read otherwise than it stands.

    ``point`` stands after the ones of numbers, ``beside`` are heads and rows left out, ``marked``
    answers with a sign beside the number, ``ticked`` signs that stood for right answers, ``blank``
    what stood for not tried, ``away`` who was that day, with the row, ``untried`` rows that end
    before an answer, ``twice`` children with a sum that they answered more than once; ``numbered``
    tells that no row has a name.
    """

    point: str = "."
    refused: list[tuple[int, RefusedError]] = field(default_factory=list)
    beside: list[str] = field(default_factory=list)
    marked: dict[str, str] = field(default_factory=dict)
    ticked: list[str] = field(default_factory=list)
    blank: list[str] = field(default_factory=list)
    away: dict[str, int] = field(default_factory=dict)
    untried: list[str] = field(default_factory=list)
    twice: list[str] = field(default_factory=list)
    numbered: bool = False

    def answer(self, typed: str, sum_: Sum) -> int | None:
        """Return the answer typed for ``sum_`` as ``read_answer`` does, and note how it was."""
        found = read_answer(typed, sum_)
        text = typed.strip()
        if found is None and text:
            self.blank.append(text)
        elif _is_tick(text):
            self.ticked.append(text)
        elif found is not None and _bare(text) != text:
            self.marked.setdefault(text, str(found))
        return found

    def refusal(self, where: Where) -> RefusedError:
        """Return the first row's refusal, which tells of the others as well."""
        rows = dict(reversed(self.refused))
        lines = sorted(rows)
        others = [Said("at.line", line=line, why=rows[line].said) for line in lines[1:]]
        return rows[lines[0]].at(where, lines[0], field="answers").with_others(others)

    def notes(self, papers: Sequence[ChildAnswers]) -> Iterator[Said]:
        """Yield what was read otherwise than it stands, and which sums tell little."""
        if self.numbered:
            yield Said("answers.numbered")
        if self.beside:
            yield Said("answers.beside", names=_some(self.beside))
        if self.blank:
            yield Said("answers.blank", typed=_some(self.blank))
        if self.untried:
            yield Said("answers.untried", rows=_some(self.untried))
        if self.ticked:
            yield Said("answers.ticked", typed=_some(self.ticked))
        for typed, answer in list(self.marked.items())[:MOST_TOLD]:
            yield Said("answers.marked", typed=typed, answer=answer)
        if self.twice:
            yield Said("answers.last", rows=_some(self.twice))
        yield from alike(paper.name for paper in papers)
        sums = dict.fromkeys(cell.sum for paper in papers for cell in paper.cells)
        plain = [sum_ for sum_ in sums if not exchanges(sum_)]
        if plain:
            yield Said("answers.no-exchange", sums=named(plain))
            yield Said("answers.telling")


def alike(names: Iterable[str]) -> Iterator[Said]:
    """Yield names of several children that differ in capitals alone."""
    found: dict[str, list[str]] = {}
    for name in names:
        found.setdefault(name.casefold(), []).append(name)
    for several in [names for names in found.values() if len(names) > 1][:MOST_TOLD]:
        yield Said("answers.alike", names=_some(several))


def _some(names: Iterable[str]) -> tuple[Slot, ...]:
    """Return the first of ``names``, each once and in quotes, and how many more there are."""
    return named([Said("answers.typed", typed=name) for name in dict.fromkeys(names)])


def _bare(text: str) -> str:
    """Return an answer without a sign beside it: "46?" and "(46)" are 46."""
    found = _MARKED.fullmatch(text)
    return found[1].strip() if found else text


def _is_tick(text: str) -> bool:
    """Say whether a tick alone stands for the right answer."""
    return text.rstrip("\ufe0f") in _TICKS


def is_mark(typed: str) -> bool:
    """Say whether a sign or word stands beside an answer as right or wrong."""
    return _bare(f"1 {typed}") == "1"


def read_answer(typed: str, sum_: Sum) -> int | None:
    """Return the answer typed for ``sum_``, None where it is blank; refuse what is no number.

    25,0 and 25.00 are 25, as spreadsheets may write it; 1 234, 1.234 and 1,234 are 1234; 46?
    and 46 x are 46; a tick is the right answer. A sum with decimals has answers with at most as
    many.
    """
    text = typed.strip()
    if text.lower() in BLANK:
        return None
    if _is_tick(text):
        return sum_.rest
    text = _bare(text)
    if sum_.scale.decimals:
        found, most = _DECIMAL.fullmatch(text), sum_.scale.decimals
        if not found or len(found[2] or "") > most:
            given = pointed(typed, sum_.scale.point)
            raise RefusedError("answers.unreadable-decimal", given=given, sum=sum_, most=most)
        return sum_.number(int(f"{found[1]}{(found[2] or '').ljust(most, '0')}"))
    if _THOUSANDS.fullmatch(text):
        return int(re.sub(r"\D", "", text))
    if not _WHOLE.fullmatch(text):
        raise RefusedError("answers.unreadable", given=typed, sum=sum_, most=_MOST_DIGITS)
    return int(re.split("[.,]", text)[0])
