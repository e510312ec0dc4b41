"""Whose a row of a sum is: the name before it or above; numbers, letters and days are no child."""

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, groupby, takewhile
from string import ascii_lowercase

from kitbuilder.errors import RefusedError, Said, named
from kitbuilder.formats.heads import head
from kitbuilder.page.table.cells import LETTER, Row, apart, filled, in_two_ways, is_sum, with_name
from kitbuilder.page.table.known_words import (
    BESIDE,
    DAY,
    DAY_HEADS,
    END,
    LABEL,
    NAMES,
    TITLE,
    is_day,
    of_title,
)
from kitbuilder.page.table.titles import is_away, passed_over, quoted
from kitbuilder.request.answers import COLUMNS, beside
from kitbuilder.request.pupils import checked_name

_SHORT = 4
# Letters that a day in short has at most.

_VERDICTS = {"mal", "bien", "right", "wrong"}
# Words beside answers that may be names, in small letters.

_INITIAL = re.compile(r"[^\W\d]\.\s*[^\W\d]")
# How a name begins that has one letter first, as A. Hill.

_COUNTED = re.compile(rf"^[a-z]\.?-|\b(?:{DAY})\b|\d+", re.IGNORECASE)
# What tells apart names of which each may be a sum's, as Ada 1 and Ada 2.

_GROUPED = re.compile(r"(\d)[ \xa0\u2009\u202f](\d{3}\s*[-−–—].*)")


@dataclass
class _Line:
    """A row of a sum, or of a name alone: its label, the name after that, and what follows."""

    number: int
    label: re.Match[str] | None
    name: str
    given: list[str]

    @property
    def alone(self) -> bool:
        """Whether no sum stands in the row."""
        return not any(map(is_sum, self.given[:1]))

    def label_in(self, typed: Mapping[int, str]) -> str:
        """Return the label as it was typed in its row."""
        after = self.name or next(filter(None, self.given), "\n")
        return typed[self.number].partition(after)[0].strip(" :")

    def said(self, part: str) -> str:
        """Return what the label has of a ``part``: a word, a day, a count; else nothing."""
        return (self.label[part] or "") if self.label else ""

    def keep(self) -> None:
        """Take a label for a name."""
        if self.label:
            self.name, self.label = self.label.string, None


def owned(
    rows: list[Row],
    typed: Mapping[int, str],
    notes: list[Said],
    field: str,
    *,
    numbered: bool,
    listed: bool = False,
) -> list[Row]:
    """Return ``rows`` of sums, each with its child's name; other rows as they are.

    A label is what stands before a sum and is no child, as 1), Q2, Monday or Homework: it goes,
    with a note. It stays, as a name, where children may be called so.
    """
    top, lines = list[Row](), list[_Line]()
    for number, cells in rows:
        line = _line(number, cells)
        if number == rows[0][0] and line.alone and line.name.lower() in DAY_HEADS:
            top = [(number, line.given)]
        elif line.alone and not line.label and not is_away([line.name, *line.given]):
            _check_again(rows, field, numbered=numbered)
            return rows
        else:
            lines.append(line)
    _check_grouped(lines, field)
    _keep_days(lines)
    if field == "answers":
        _keep_numbers(lines)
        _check_whose(lines, listed=listed)
    else:
        _keep_pupils(lines, typed)
    before = len(notes)
    if labels := [line.label_in(typed) for line in lines if line.label]:
        notes.append(Said("screen.labels", lines=named(quoted(labels))))
    kept = [(line.number, [line.name, *line.given]) for line in lines if line.name or line.given]
    _check_again(kept, field, numbered=numbered)
    kept = carried(kept, 0, notes, field)
    if field == "answers":
        _check_named_apart(kept)
    return [*top, *kept] if len(notes) > before or len(kept) < len(lines) else rows


def _check_grouped(lines: Sequence[_Line], field: str) -> None:
    """Refuse thousands with a space among sums that are numbered, as 3 304-58 below 2 63-29."""
    numbered = any(line.said("count").isdigit() for line in lines)
    for line in lines if numbered else ():
        found = _GROUPED.match(next(iter(line.given), "")) if not line.label else None
        if found:
            sum_, other = found[1] + found[2], f"{found[1]}: {found[2]}"
            two_ways = RefusedError("screen.two-ways", given=found[0], sum=sum_, other=other)
            raise two_ways.at(row=line.number, field=field)


def _keep_days(lines: Sequence[_Line]) -> None:
    """Take days for names where children may be called so, as Mar."""
    days = [(line, day) for line in lines if (day := line.said("called").lower())]
    whole = {len(day) > _SHORT for _, day in days if day not in NAMES}
    for line, day in days:
        if day in NAMES and (line.alone or (len(day) > _SHORT) not in whole):
            line.keep()


def _keep_numbers(lines: Sequence[_Line]) -> None:
    """Take labels above any name for names where they do not count sums: a class by numbers."""
    above = [*takewhile(lambda line: not line.name, lines)]
    sums = [*filter(None, (_sum(line.given) for line in above if not line.said("day")))]
    again = len({*sums}) < len(sums)
    for line in lines if again or not _count_sums(above) else ():
        line.keep()


def _keep_pupils(lines: Sequence[_Line], typed: Mapping[int, str]) -> None:
    """Take labels of packs for names but below a name alone; ask where they may count sums."""
    alone, titled, below, others = False, list[_Line](), list[_Line](), list[_Line]()
    above = ""
    for line in lines:
        if line.label and line.given:
            (below if alone else others).append(line)
            titled += [line] if alone and of_title(above) else []
        elif line.name:
            alone, above = line.alone, line.name
    counts = [one for one in others if one.said("word") or re.match(r"\d+\D", one.said("all"))]
    if unsure := titled or [one for one in (others if below else counts) if not one.name]:
        given = quoted(line.label_in(typed) for line in unsure)
        refused = RefusedError("screen.pupils-or-not", given=given, field="pupils")
        raise refused.at(row=unsure[0].number)
    for line in others:
        line.keep()


def _check_whose(lines: Sequence[_Line], *, listed: bool) -> None:
    """Refuse a name alone that may be a heading, so that no sum below it is given to another."""
    names, titles = list[str](), list[str]()
    first = next((line.name for line in lines if line.name), "")
    for line in lines:
        if line.alone and not line.given:
            titles += [line.said("all")] if names and not line.name else []
            names += [line.name] if line.name else []
            continue
        remark = names and names[0][0].islower() > first[0].islower()
        mixed = not line.name and len(names) == 1 and (remark or of_title(names[0]))
        several = listed or titles if line.name else names[1:]
        if not line.alone and names and (several or mixed):
            others = (titles or [line.name]) if line.name else []
            raise _who([*names, *others], line.number)
        names, titles = [], []
    if names and not (lines[0].alone or any(line.name and not line.alone for line in lines)):
        raise _who(names)


def _check_again(rows: Sequence[Row], field: str, *, numbered: bool) -> None:
    """Refuse one name in two rows that are two children's: with several sums, or with numbers."""
    top, held = [*map(head, rows[0][1])] if rows else [], Counter(row for row, _ in rows)
    at, first = top.index("name") if "name" in top else 0, dict[str, tuple[int, bool]]()
    runs = [[*same] for _, same in groupby(cells[at] for _, cells in rows[1:] if len(cells) > at)]
    numbered = numbered and 2 * sum(len(run) > 1 for run in runs) < len(runs)  # else sums are
    headed = rows[0][1] if "name" in top else []
    out = [k for k, one in enumerate(headed) if k and (beside(one) or one.lower() in BESIDE)]
    for number, cells in rows:
        name = "".join(cells[at : at + 1]) if at else with_name(cells)[0]
        given = [cell for k, cell in enumerate(cells) if k not in out]
        several = held[number] > 1 or sum(map(is_sum, apart(given or [""]))) > 1
        own = several or (numbered and (field == "pupils" or filled(cells) == [name]))
        other, before = first.setdefault(name, (number, own))
        if head(name) not in ("", *COLUMNS) and other != number and (own or before):
            refused = RefusedError("screen.name-again", name=name, other=other, field=field)
            raise refused.at(row=number)


def _check_named_apart(rows: list[Row]) -> None:
    """Refuse names that may be labels: alike but for a number or day, each with sums of its own."""
    found = defaultdict[str, dict[str, set[tuple[str, ...]]]](dict)
    for _, (name, *given) in rows:
        if name and _sum(given):
            found[_COUNTED.sub("", name)].setdefault(name, set()).add(_sum(given))
    for alike, sums in found.items():
        own = len(sums) > 1 and sum(map(len, sums.values())) == len({*chain(*sums.values())})
        if alike.lower() in _VERDICTS or (own and LETTER.search(alike)):
            row = next(number for number, cells in rows if cells[0] in sums)
            names = quoted(sums)
            raise RefusedError("screen.names-or-not", given=names, row=row, field="answers")


def _count_sums(lines: Sequence[_Line]) -> bool:
    """Say whether labels that have to count do: 1, 2, 3 or a, b, c, one in each of several rows."""
    labels = [line.label for line in lines if line.label and line.label["count"]]
    counts = [one[1][0].lower() if one[1][-1] == "." else one["count"] for one in labels]
    rows = len(lines)
    ways = ([str(at) for at in range(1, rows + 1)], [*ascii_lowercase[:rows]])
    return not counts or (rows > 1 and counts in ways)


def _who(given: Iterable[str], row: int | None = None) -> RefusedError:
    """Return the question which of ``given`` are names."""
    return RefusedError("screen.who", given=quoted(given), row=row, field="answers")


def _sum(cells: Sequence[str]) -> tuple[str, ...]:
    """Return the numbers of the sum in a row, if it has one."""
    return tuple(re.findall(r"\d+", next(filter(is_sum, cells), "")))


def carried(rows: Sequence[Row], at: int, notes: list[Said], field: str = "answers") -> list[Row]:
    """Return ``rows``, those without a name, in cell ``at``, with that of the child above."""
    last, again, found, twice = "", False, list[Row](), dict[str, None]()
    had, without = defaultdict[str, dict[tuple[str, ...], int]](dict), set[str]()
    titles = list[list[str]]()
    for number, cells in rows:
        name, sum_, above = "".join(cells[at : at + 1]), _sum(cells), last
        if found and filled(cells) == [name] and (is_day(name) or TITLE.fullmatch(name)):
            titles.append(cells)
            continue
        alone = found and not _sum(found[-1][1]) and filled(found[-1][1]) == [last]
        if alone and sum_ and LABEL.fullmatch(name.rstrip(END)) and name.lower() not in NAMES:
            raise _who([last, name], number)
        if name:
            again = bool(had[name]) and (not sum_ or name in without)
            twice |= {name: None} if name == last and last in without else {}
            last = name if sum_ or len(filled(cells)) == 1 else ""
            if not sum_:
                _check_letters(name, number, field)
        elif again and sum_ in had[last]:  # two of one name
            said, line = next(filter(is_sum, cells)), had[last][sum_]
            refused = RefusedError("answers.same-sums", name=last, sum=said, line=line)
            raise refused.at(row=number, field=field)
        elif last and sum_ and sum_ not in had[last]:  # else another child's
            cells = [*cells[:at], *[""] * (at - len(cells)), last, *cells[at + 1 :]]
            without.add(last)
        if alone and sum_ and cells[at : at + 1] == [above]:
            found.pop()
        had[last] |= {sum_: number} if sum_ else {}
        found.append((number, cells))
    if without:
        counts = [(name, len(sums)) for name, sums in had.items() if name in without]
        told = [Said("screen.of-child", name=name, count=count) for name, count in counts]
        notes.append(Said("screen.carried", children=named(told)))
    if titles:
        notes.append(passed_over(*titles))
    if twice:
        notes.append(Said("screen.apart", names=named(quoted(twice))))
    return found


def _check_letters(name: str, row: int, field: str) -> None:
    """Refuse a name alone that cannot be printed, in its own row."""
    try:
        checked_name(name)
    except RefusedError as error:
        raise error.at(row=row, field=field) from None


def _line(number: int, cells: list[str]) -> _Line:
    """Return a row as a line."""
    name, *given = with_name(cells)
    label = LABEL.fullmatch(name := name.rstrip(END))
    if label and (_INITIAL.match(name) or not _before_sum(label, cells, given)):
        label = None
    return _Line(number, label, (label["name"] or "") if label else name, given)


def _before_sum(label: re.Match[str], cells: Sequence[str], given: Sequence[str]) -> bool:
    """Say whether a label stands before a sum, or alone where nothing was answered."""
    if (label["name"] or label["called"]) and in_two_ways(cells[0], first=True):
        return False
    if after := filled(given):
        return is_sum(after[0]) and label.string.lower() not in _VERDICTS
    return bool(label["name"]) or not label["count"]
