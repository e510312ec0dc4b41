"""Turns a sum and a child's answer into plain text: the mistakes that give it, and what to do."""

import textwrap

from kitbuilder.design.load import Words
from kitbuilder.errors import RefusedError
from kitbuilder.number import PLACES, Sum
from kitbuilder.number.mistakes.foreseen import Mistake, explain

LONGEST = 6
WIDTH = 92


def read_answer(text: str) -> int:
    """Return the answer typed as ``text``; raise ``RefusedError`` if it is no whole number."""
    digits = text.strip()
    if not (digits.isascii() and digits.isdigit() and len(digits) <= LONGEST):
        raise RefusedError("answer.number", option="answer", given=digits, most=LONGEST)
    return int(digits)


def explain_answer(sum_: Sum, answer: int, words: Words) -> str:
    """Return text that names every mistake giving ``answer``, most likely first, or that none does.

    Each comes with what happened and with what to do with the pieces.
    """
    if answer == sum_.rest:
        return words("why.right", sum=sum_, answer=answer)
    found = explain(sum_, answer)
    lines = [words("why.wrong", sum=sum_, rest=sum_.rest, answer=answer)]
    if not found:
        return "\n".join([*lines, words("why.none", answer=answer)])
    one = len(found) == 1
    lines.append(words("why.one" if one else "why.many", count=len(found), answer=answer))
    for number, mistake in enumerate(found, 1):
        lines += ["", *_told(number, mistake, words)]
    return "\n".join(lines)


def _told(number: int, mistake: Mistake, words: Words) -> list[str]:
    key = mistake.key
    place = words(f"place.{PLACES[mistake.place]}") if mistake.place is not None else ""
    said = [words(f"mistakes.{key}.happened", place=place)]
    if (note := f"mistakes.{key}.note") in words.entries:
        said.append(words(note))
    said.append(words("why.with_pieces", advice=words(f"mistakes.{key}.pieces")))
    return [f"{number}. {words(f'mistakes.{key}.name')}", *(_wrapped(line) for line in said)]


def _wrapped(line: str) -> str:
    return textwrap.fill(line, WIDTH, initial_indent="   ", subsequent_indent="   ")
