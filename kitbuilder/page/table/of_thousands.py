"""Marks of thousands in a pasted table, as 5,003 - 2,748, which the sums do without."""

import re

from kitbuilder.errors import Said, named
from kitbuilder.page.table.titles import quoted

_SIGN = r"[ \xa0]*[-−–—][ \xa0]*"
_SPACED = re.compile(
    rf"(?:(?<=[\t;\"])|^)[ ]*(\d{{2,3}})[ \xa0\u2009\u202f](\d{{3}}{_SIGN}\d{{1,3}})"
    r"(?:[ \xa0\u2009\u202f](\d{3}))?(?=[ \xa0]*=?[ \xa0_?]*(?:[\t;\"]|$))",
    re.MULTILINE,
)
# A cell of tens of thousands, as 12 000 - 3 456.


def without_thousands(text: str, field: str, point: str, notes: list[Said]) -> str:
    """Return ``text``, its sums of thousands without marks; a note names them.

    A comma or a point is one of thousands where it is not the language's decimal ``point``, has
    three digits behind it everywhere, and no comma that parts cells may be meant.
    """
    if "\t" in text or ";" in text:
        text = _SPACED.sub(lambda one: "".join(filter(None, one.groups())), text)
    mark = "," if point == "." else "."
    number = rf"[1-9]\d{{0,2}}{re.escape(mark)}\d{{3}}"
    one = rf"(?:{number}{_SIGN}(?:{number}|\d{{1,3}})|\d{{4,5}}{_SIGN}{number})"
    both = rf"{number}{_SIGN}{number}"
    lines = mark == "," and not ("\t" in text or ";" in text)
    if lines and field == "answers":
        return text
    sums = re.compile(rf"(?<![\w.,-]){both if lines else one}(?![\d.,]*\d)")
    if re.search(rf"\d{re.escape(mark)}(?:\d\d?|\d{{4,}})(?!\d){_SIGN}\d", text):  # of decimals
        return text
    if not (found := sums.findall(text)):
        return text
    notes.append(Said("screen.thousands", sums=named(quoted(found))))
    return sums.sub(lambda sum_: sum_[0].replace(mark, ""), text)
