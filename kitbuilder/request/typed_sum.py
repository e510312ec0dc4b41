"""A sum as somebody typed it: with decimals, grouped thousands, or signs of money."""

import re
from dataclasses import replace

from kitbuilder.errors import RefusedError, Said
from kitbuilder.number import PLACES, Sum
from kitbuilder.number.scale import HUNDREDTHS, WHOLE
from kitbuilder.number.sums import LARGEST

_PASTED = {ord(c): " " for c in "\u00a0\u2009\u202f"} | {ord(c): "-" for c in "\u2010\u2011\u2012"}
"""Spaces and hyphens that word processors put in the place of the keyboard's."""

_NUMBER = r"\s*(\d{1,3}(?: \d{3})+|\d+)(?:[.,](\d+))?\s*"
_SUM = re.compile(f"{_NUMBER}[-−–]{_NUMBER}", re.ASCII)

_GROUPED = re.compile(r"([1-9]\d{0,2})[.,](\d{3})", re.ASCII)
"""A number of four places or more with a mark for its thousands."""

_SIGNS = {"£": "GBP", "€": "EUR", "$": "USD"}
"""Signs of money; which of the currencies that write $ is not known."""

_AMOUNTS, _MOST_OF_AMOUNTS = "6.34 - 2.58", 999
"""Amounts that pieces show, and the most hundredths that they do."""


def read_sum(text: str) -> Sum:
    """Return the sum typed as ``text``: two numbers with -, − or – between them.

    Whole numbers have up to four places, with a space for their thousands or none; a comma or a
    point may stand for it where that cannot be a decimal. With a decimal point or comma in one
    of them both count hundredths. Raises ``RefusedError`` saying what is wrong.
    """
    plain = text.translate(_PASTED)
    if any(sign in text for sign in _SIGNS):
        raise _with_signs(text, plain)
    found = _SUM.fullmatch(_ungrouped(plain))
    if not found:
        raise RefusedError("sum.unreadable", given=text, field="sums")
    ones = tuple(number.replace(" ", "").lstrip("0") for number in (found[1], found[3]))
    decimals = (found[2] or "", found[4] or "")
    scale = HUNDREDTHS if any(decimals) else WHOLE
    if max(map(len, decimals)) > scale.decimals:
        raise _of_three(text, ones, decimals)
    if max(map(len, ones)) > len(PLACES) - scale.decimals:
        if scale.decimals:
            raise RefusedError("sum.hundred-ones", given=text, field="sums")
        raise RefusedError("sum.five-places", given=text, field="sums")
    whole, part = (
        int(f"0{before}{after.ljust(scale.decimals, '0')}")
        for before, after in zip(ones, decimals, strict=True)
    )
    scale = replace(scale, full=all(len(after) == HUNDREDTHS.decimals for after in decimals))
    if part > whole:
        said = replace(scale, point="," if "," in text else ".")
        round_ = f"{said.written(part)} - {said.written(whole)}"
        turn = Said("repair.turn-round", sum=round_)
        raise RefusedError("sum.too-much", given=text, sum=round_, field="sums", repair=turn)
    return Sum(whole, part, scale)


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


def _of_three(text: str, ones: tuple[str, ...], decimals: tuple[str, ...]) -> RefusedError:
    """Return the refusal of three decimals or more, which may be meant for thousands."""
    numbers = [f"{before}{after}" for before, after in zip(ones, decimals, strict=True)]
    grouped = all(ones) and {*map(len, decimals)} <= {0, 3}
    if grouped and int(numbers[1]) <= int(numbers[0]) <= LARGEST:
        meant = " - ".join(numbers)
        return RefusedError("sum.thousandths", given=text, sum=meant, field="sums")
    return RefusedError("sum.three-decimals", given=text, field="sums")


def _with_signs(text: str, plain: str) -> RefusedError:
    """Return the refusal of signs of money; it names the option that prints them."""
    currency = next(code for sign, code in _SIGNS.items() if sign in text)
    bare = re.sub(f"[{''.join(_SIGNS)}]", "", plain).strip()
    amounts = _AMOUNTS
    try:
        sum_ = read_sum(bare)
        if sum_.on(HUNDREDTHS).whole <= _MOST_OF_AMOUNTS:
            amounts = " ".join(bare.split())
    except (RefusedError, ValueError):
        pass
    return RefusedError(
        "sum.signs", given=text, sum=amounts, option="money", currency=currency, field="sums"
    )
