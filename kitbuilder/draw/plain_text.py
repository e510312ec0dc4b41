"""A sum's steps and written columns as plain text, pieces drawn in characters."""

from collections.abc import Sequence

from kitbuilder.design.load import Words
from kitbuilder.kit import phrases
from kitbuilder.number import PLACES, Sum
from kitbuilder.number.steps import Act, Step, short_place, steps
from kitbuilder.number.written import columns

_MARKS = (".", "|", "#", "@")
"""Characters for a one, a ten, a hundred and a thousand."""


def shown(sum_: Sum, words: Words) -> str:
    """Return the steps with pieces and the written columns of ``sum_`` as lines of text.

    A sum that no pieces show has its columns alone, and says so.
    """
    first = _with_pieces(sum_, words) if sum_.with_pieces else [phrases.written_alone(sum_, words)]
    return "\n".join((str(sum_), "", *first, "", *_written(sum_.short(), words))) + "\n"


def _with_pieces(sum_: Sum, words: Words) -> list[str]:
    done = steps(sum_)
    places = range(sum_.places - 1, -1, -1)
    headings = {k: words(f"place.{PLACES[k]}") for k in places}
    tables = [t for s in done for t in (s.table.whole, s.table.part)]
    widths = {
        k: max(len(headings[k]), *(len(_drawn(t.counts[k], k)) for t in tables)) for k in places
    }
    labels = (words("show.whole"), words("show.part"))
    left = max(map(len, labels)) + 2
    lines = [words("show.pieces")]
    lines.append(
        " " * (left + 3) + "  ".join(headings[k].ljust(widths[k]) for k in places).rstrip()
    )
    for number, step in enumerate(done, 1):
        lines.append(f"{number}. {_sentence(done, number - 1, sum_, words)}")
        for label, held in zip(labels, (step.table.whole, step.table.part), strict=True):
            if held.value or label == labels[0]:
                row = "  ".join(_drawn(held.counts[k], k).ljust(widths[k]) for k in places)
                lines.append(f"   {label:<{left}}{row}".rstrip())
    return lines


def _drawn(count: int, place: int) -> str:
    """Draw ``count`` pieces in fives; an empty column shows 0, so that it keeps its place."""
    mark = _MARKS[place]
    fives = [mark * min(5, count - done) for done in range(0, count, 5)]
    return " ".join(fives) or "0"


def _sentence(done: Sequence[Step], position: int, sum_: Sum, words: Words) -> str:
    step = done[position]
    slots: dict[str, object] = {"whole": sum_.whole, "part": sum_.part, "rest": sum_.rest}
    key = step.act.value
    if step.place is not None:
        slots["count"] = phrases.count(words, step.place, step.count)
    if step.place is not None and step.act is not Act.TAKE:
        slots |= phrases.swap(words, step.place + 1)
    if step.act is Act.EXCHANGE:
        slots["place"] = words(f"place.{PLACES[short_place(done[position:])]}")
        key = "exchange_on" if done[position - 1].act is Act.EXCHANGE else key
    return words(f"show.{key}", **slots)


def _written(sum_: Sum, words: Words) -> list[str]:
    worked = columns(sum_)[::-1]
    if sum_.scale.decimals != words.scale.decimals:
        words = words.counting(sum_.scale.decimals)

    decimals = sum_.scale.decimals

    def row(sign: str, cells: Sequence[object], point: str = sum_.scale.point) -> str:
        spaced = [f"{cell:>4}" for cell in cells]
        if decimals:
            spaced.insert(-decimals, point)
        return (f"   {sign}" + "".join(spaced)).rstrip()

    def cell(digit: int | None) -> str:
        return "" if digit is None else str(digit)

    high = max(len(column.marks) for column in worked)
    marks = [
        row(" ", [c.marks[level] if level < len(c.marks) else "" for c in worked], " ")
        for level in range(high - 1, -1, -1)
    ]
    return [
        words("show.written"),
        *marks,
        row(" ", [c.top for c in worked]),
        row("−", [cell(c.bottom) for c in worked]),
        "   " + "-" * (1 + 4 * len(worked) + bool(decimals)),
        row(" ", [cell(c.answer) for c in worked]),
    ]
