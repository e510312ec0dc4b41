"""A sum as somebody typed it: with decimals, grouped thousands, or signs of money."""

import re
from dataclasses import replace

from kitbuilder.errors import RefusedError, Said
from kitbuilder.number import PLACES, Sum
from kitbuilder.number.scale import HUNDREDTHS, MOST_DECIMALS, WHOLE, Scale
from kitbuilder.number.sums import LARGEST, most_ones

_PASTED = {ord(c): " " for c in "\u00a0\u2009\u202f"} | {
    ord(c): "-" for c in "\u2010\u2011\u2012\u2014"
}
"""Spaces and hyphens that word processors put in the place of the keyboard's."""

_NUMBER = r"\s*(\d{1,3}(?: \d{3})+|\d+)(?:[.,](\d+))?\s*"
_SUM = re.compile(rf"{_NUMBER}[-−–]{_NUMBER}(?:=[\s?_]*)?", re.ASCII)

_GROUPED = re.compile(r"([1-9]\d{0,2})[.,](\d{3})", re.ASCII)
"""A number of four places or more with a mark for its thousands."""

_SIGNS = {"£": "GBP", "€": "EUR", "$": "USD"}
"""Signs of money; which of the currencies that write $ is not known."""

_AMOUNTS, _MOST_OF_AMOUNTS = "6.34 - 2.58", 999
"""Amounts that pieces show, and the most hundredths that they do."""


def read_sum(text: str, point: str = ".") -> Sum:
    """Return the sum typed as ``text``: two numbers with -, − or – between them.

    Whole numbers have up to four places, with a space for their thousands or none; a comma or a
    point may stand for it where that cannot be a decimal. With a decimal point or comma in one
    of them both count hundredths, or thousandths. 9.234 − 1.456 is read so where the language's
    ``point`` stands in it. Raises ``RefusedError`` saying what is wrong.
    """
    plain = text.translate(_PASTED)
    if any(sign in text for sign in _SIGNS):
        raise _with_signs(text, plain, point)
    found = _SUM.fullmatch(_ungrouped(plain))
    if not plain.strip():
        raise RefusedError("sum.empty", field="sums")
    if not found:
        raise RefusedError("sum.unreadable", given=text, field="sums")
    if max(len(found[2] or ""), len(found[4] or "")) > MOST_DECIMALS:
        raise RefusedError("sum.four-decimals", given=pointed(text, point), field="sums")
    ones = tuple(number.replace(" ", "").lstrip("0") for number in (found[1], found[3]))
    decimals = (found[2] or "", found[4] or "")
    scale = Scale(max(HUNDREDTHS.decimals, *map(len, decimals))) if any(decimals) else WHOLE
    if scale.decimals == MOST_DECIMALS:
        _check_point(text, point, ones, decimals)
    if max(map(len, ones)) > len(PLACES) - scale.decimals:
        if scale.decimals:
            most = most_ones(scale.decimals) + 1 - 0.1**scale.decimals
            given = pointed(text, point)
            raise RefusedError("sum.many-ones", given=given, most=round(most, 3), field="sums")
        raise RefusedError("sum.five-places", given=text, field="sums")
    whole, part = (
        int(f"0{before}{after.ljust(scale.decimals, '0')}")
        for before, after in zip(ones, decimals, strict=True)
    )
    if scale.decimals:
        full = {*map(len, decimals)} == {scale.decimals}
        scale = replace(scale, point=point, full=full)
    if part > whole:
        said = replace(scale, point="," if "," in text else ".")
        round_ = f"{said.written(part)} - {said.written(whole)}"
        shown = Sum(part, whole, scale).with_pieces
        turn = Said("repair.turn-round", sum=round_) if shown else None
        raise RefusedError("sum.too-much", given=text, sum=round_, field="sums", repair=turn)
    return Sum(whole, part, scale)


def pointed(text: str, point: str) -> str:
    """Return ``text`` with ``point`` for its decimal mark, as all numbers beside it are said.

    What has marks of both kinds stays as it was typed.
    """
    marks = {mark for mark in text if mark in ".,"}
    return text if len(marks) > 1 else re.sub(r"(?<=\d)[.,](?=\d)", point, text)


def _ungrouped(text: str) -> str:
    """Return ``text`` without marks for thousands, where these cannot be decimal points.

    4,002 - 768 takes more from four than there is, and 4002 is too large beside decimals.
    """
    first, minus, second = text.replace("−", "-").replace("–", "-").partition("-")
    whole, part = _GROUPED.fullmatch(first.strip()), _GROUPED.fullmatch(second.strip())
    if whole and not part and second.strip().isdecimal():
        if int(second) > int(whole[1]):
            return f"{whole[1]}{whole[2]}{minus}{second}"
    elif part and first.strip().isdecimal() and int(first) > LARGEST // 100:
        return f"{first}{minus}{part[1]}{part[2]}"
    return text


def _check_point(text: str, point: str, ones: tuple[str, ...], decimals: tuple[str, ...]) -> None:
    """Refuse three decimals that may be meant for thousands, by other marks than ``point``."""
    numbers = [f"{before}{after}" for before, after in zip(ones, decimals, strict=True)]
    grouped = all(ones) and {*map(len, decimals)} <= {0, 3}
    if not grouped or not int(numbers[1]) <= int(numbers[0]) <= LARGEST:
        return
    if {mark for mark in text if mark in ".,"} != {point}:
        meant, other = " - ".join(numbers), re.sub("[.,]", point, text)
        raise RefusedError("sum.thousandths", given=text, sum=meant, other=other, field="sums")


def _with_signs(text: str, plain: str, point: str) -> RefusedError:
    """Return the refusal of signs of money; it names the option that prints them."""
    currency = next(code for sign, code in _SIGNS.items() if sign in text)
    bare = pointed(" ".join(re.sub(f"[{''.join(_SIGNS)}]", "", plain).split()), point)
    given, amounts = pointed(text, point), pointed(_AMOUNTS, point)
    try:
        sum_ = read_sum(bare)
        if sum_.on(HUNDREDTHS).whole <= _MOST_OF_AMOUNTS:
            amounts = bare
        elif sum_.scale.decimals:
            return RefusedError(
                "sum.large-signs",
                given=given,
                sum=bare,
                option="money",
                currency=currency,
                cards="stage",
                field="sums",
            )
    except (RefusedError, ValueError):
        pass
    return RefusedError(
        "sum.signs", given=given, sum=amounts, option="money", currency=currency, field="sums"
    )
