"""Counts of pieces and lists as words."""

from collections.abc import Sequence

from kitbuilder.counting import nearest
from kitbuilder.design.load import Words
from kitbuilder.number import PLACES, Pieces, Sum, digits

APART = "; "
"""What stands between parts that hold commas themselves."""

INCH = 25.4
"""Millimetres in an inch."""


def capital(text: str) -> str:
    """Return ``text`` with its first letter large, as at the start of a line."""
    return text[:1].upper() + text[1:]


def joined(words: Words, parts: Sequence[str]) -> str:
    """Return ``parts`` as a spoken list: "a, b and c"."""
    if not parts:
        return words("list.nothing")
    *rest, last = parts
    return words("list.pair", first=in_row(rest), last=last) if rest else last


def in_row(parts: Sequence[str]) -> str:
    """Return "a, b", or "a; b" where commas stand within the parts, as in decimals."""
    return (APART if any("," in part for part in parts) else ", ").join(parts)


def count(words: Words, place: int, number: int) -> str:
    """Return "3 tens" for place index 1 and number 3."""
    return words.count(f"count.{PLACES[place]}", number)


def pieces(words: Words, held: Pieces) -> str:
    """Return "6 hundreds, 3 tens and 4 ones": largest first, empty places left out."""
    said = [count(words, k, n) for k, n in enumerate(held.counts) if n]
    return joined(words, said[::-1])


def mistake(words: Words, key: str, sum_: Sum, place: int | None = None) -> str:
    """Return what the habit ``key`` is called where it shows in ``sum_``: which pieces stayed.

    ``place`` is the column in which alone it shows, if any.
    """
    if place is not None or key != "not-lowered":
        return mistaken(words, key, place)
    both = zip(*(digits(n, sum_.places) for n in (sum_.whole, sum_.part)), strict=True)
    stayed = [count(words, k + 1, 1) for k, (top, below) in enumerate(both) if top < below]
    return words("mistake.not-lowered.kept", pieces=joined(words, stayed))


def mistaken(words: Words, key: str, place: int | None) -> str:
    """Return the name of a mistake, and its column where it shows in that alone."""
    name = words(f"mistake.{key}.name")
    if place is None or key == "slip":
        return name
    return words("why.here", name=name, place=words(f"place.{PLACES[place]}"))


def asks(words: Words, key: str, sum_: Sum) -> str:
    """Return the question of the mistake ``key`` in ``sum_``: of its pieces, if any show it."""
    if not sum_.with_pieces:
        return words("child_page.show_written")
    return words(f"mistake.{key}.asks", whole=sum_.whole)


def written_alone(sum_: Sum, words: Words) -> str:
    """Return that no pieces show ``sum_``, and up to what number they do."""
    return words("show.written_alone", most=sum_.number(999))


def swap(words: Words, source: int) -> dict[str, str]:
    """Return the slots ``source`` and ``target`` for an exchange of a piece of place ``source``."""
    return {
        "source": words(f"single.{PLACES[source]}"),
        "target": words(f"place.{PLACES[source - 1]}"),
    }


def length(words: Words, key: str, mm: float) -> str:
    """Return the sentence of ``key`` with a length, in inches too where the words tell them."""
    return words(key, length=f"{mm:g}", inches=f"{mm / INCH:.2f}")


def minutes(words: Words, value: float) -> str:
    """Return "about 12 minutes", or that it is less than one."""
    whole = nearest(value)
    return words.count("count.minute", whole) if whole else words("run.under_a_minute")


def number(words: Words, value: float, places: int | None = None) -> str:
    """Return ``value`` with the language's decimal point, to ``places`` decimals if given."""
    text = f"{value:g}" if places is None else f"{value:.{places}f}"
    return text.replace(".", words("number.point"))
