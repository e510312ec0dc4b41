"""The mistakes that give a child's answer to a sum, in plain text, and what to do."""

import re
import textwrap

from kitbuilder.design.load import Words
from kitbuilder.errors import RefusedError
from kitbuilder.kit import phrases
from kitbuilder.kit.child_words import asked_of, happened_said, name_quoted
from kitbuilder.number import PLACES, Sum
from kitbuilder.number.mistakes.why import SLIP, Cause, why
from kitbuilder.number.scale import WHOLE, Scale
from kitbuilder.request.typed_sum import pointed

LONGEST = 6
WIDTH = 92

TOLD_APART = (
    "not-lowered_turned",
    "turned_zero-top-bottom",
    "zero-top-zero_zero-when-short",
    "empty-not-lowered_not-lowered",
    "from-leftmost_zero-skipped",
)
"""Pairs of mistakes for which there is a word on what tells them apart."""


_DECIMAL = re.compile(r"(\d{1,4})(?:[.,](\d{1,3}))?", re.ASCII)


def read_answer(text: str, scale: Scale = WHOLE) -> int:
    """Return the answer typed as ``text``, with decimals where the sum's ``scale`` has them.

    Raises ``RefusedError`` if it is no such number.
    """
    digits = text.strip()
    if scale.decimals:
        found = _DECIMAL.fullmatch(digits)
        if not found or len(found[2] or "") > scale.decimals:
            most = scale.decimals
            raise RefusedError(
                "answer.decimal", option="answer", given=pointed(digits, scale.point), most=most
            )
        return scale.number(int(found[1] + (found[2] or "").ljust(scale.decimals, "0")))
    if not (digits.isascii() and digits.isdigit() and len(digits) <= LONGEST):
        raise RefusedError("answer.number", option="answer", given=digits, most=LONGEST)
    return int(digits)


def explain_answer(sum_: Sum, answer: int, words: Words, typed: str = "") -> str:
    """Return text that names every mistake giving ``answer``, most likely first, or that none does.

    Each comes with what happened, what to ask beside the pieces, and what tells it from others
    that give the same number. A wrong answer is said as it was ``typed``.
    """
    if answer == sum_.rest:
        return words("why.right", sum=sum_, answer=answer)
    found = why(sum_, answer)
    said = typed.strip() or answer
    lines = [words("why.wrong", sum=sum_, rest=sum_.rest, answer=said)]
    if not found:
        none = words("why.none", answer=said, first=words("mistakes.first"))
        if not sum_.with_pieces:
            none = words("why.none_written", answer=said)
        return "\n".join([*lines, none])
    one = len(found) == 1
    lines.append(words("why.one" if one else "why.many", count=len(found), answer=said))
    for number, cause in enumerate(found, 1):
        lines += ["", *_told(number, cause, sum_, words)]
    if not sum_.with_pieces:
        lines += ["", phrases.written_alone(sum_, words)]
    likeliest = found[0]
    if likeliest.twins:
        lines += ["", twins_said(likeliest.key, likeliest.twins[0], words)]
    return "\n".join(lines)


def _told(number: int, cause: Cause, sum_: Sum, words: Words) -> list[str]:
    said = []
    for key in cause.keys:
        said.append(happened_said(key, sum_, cause.place, words))
        if (note := f"mistakes.{key}.note") in words.entries:
            said.append(words(note))
    if sum_.with_pieces:
        asks, *further = asked_of(cause.keys, sum_, words)
        said.append(words("why.with_pieces", first=words("mistakes.first"), asks=asks))
        said += [words("why.then", asks=text) for text in further]
    else:
        said.append(words("why.written"))
    return [
        f"{number}. {phrases.capital(cause_name(cause, words))}",
        *(_wrapped(line) for line in said),
    ]


def cause_name(cause: Cause, words: Words) -> str:
    """Return the name of a mistake, with its column where it shows in that one alone."""
    names = [words(f"mistake.{key}.name") for key in cause.keys]
    name = names[0] if len(names) == 1 else words("why.both", first=names[0], last=names[1])
    if cause.place is None or cause.key == SLIP:
        return name
    return words("why.here", name=name, place=words(f"place.{PLACES[cause.place]}"))


def twins_said(first: str, last: str, words: Words) -> str:
    """Return what tells two mistakes apart that give the same number."""
    pair = "_".join(sorted((first, last)))
    names = {"first": name_quoted(first, words), "last": name_quoted(last, words)}
    return words(f"twins.{pair if pair in TOLD_APART else 'others'}", **names)


def _wrapped(line: str) -> str:
    return textwrap.fill(line, WIDTH, initial_indent="   ", subsequent_indent="   ")
