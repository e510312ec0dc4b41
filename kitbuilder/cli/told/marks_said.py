"""The readings of a class as plain text: whom to teach together, a grid, each child."""

import textwrap
from collections.abc import Iterator, Sequence
from itertools import zip_longest
from string import ascii_lowercase

from kitbuilder.cli.answer import WIDTH, twins_said
from kitbuilder.design.load import Words
from kitbuilder.design.saying import seen
from kitbuilder.kit import phrases
from kitbuilder.kit.child_words import BESIDE, asked_of, name_quoted
from kitbuilder.kit.class_marks import ChildMarks, ClassMarks
from kitbuilder.kit.class_words import others_said
from kitbuilder.number.mistakes.one_out import OUT_BY
from kitbuilder.number.mistakes.profiles import PROFILES, RIGHT
from kitbuilder.number.mistakes.reading import PERHAPS, Fit, Reading, Verdict
from kitbuilder.number.sums import PLACES, Sum

NAME = 14
"""Letters of a name in a row of the grid, and a space; a longer one has further rows."""

MOST_NAME = 30
"""Letters of a word of a name that is not broken."""

LEAST_WIDE = 7
"""Letters of a sum's column; a wider sum has a wider one."""

ACROSS = 12
"""Sums that stand side by side in the grid."""

_SIGNS = {"slip": "±", "order": "~"}
"""Signs of what is no habit; the legend tells them always."""


def marks_text(marks: ClassMarks, words: Words) -> str:
    """Return what the answers of a class say, in the words' language: whom to teach together first.

    Who is ready or tried nothing is named among the groups; only a child alone is told so below.
    """
    alone = len(marks.children) == 1
    lines = [] if alone else [*_groups(marks, words), ""]
    lines += [*_grid(marks, words), ""]
    for child in marks.children:
        if alone:
            lines += _child(child, marks, words)
        elif child.reading.verdict not in (Verdict.RIGHT, Verdict.UNTRIED):
            lines += _child(child, marks, words, short=True)
    return "\n".join(lines).rstrip()


def _grid(marks: ClassMarks, words: Words) -> Iterator[str]:
    """Yield the grid: right is a point, wrong the number, with a letter where it fits a habit."""
    letters = _letters(marks)
    longest = (len(word) for c in marks.children for word in _who(c, marks).split())
    named = max(NAME, 1 + min(MOST_NAME, max(longest, default=0)))
    for start in range(0, len(marks.sums), ACROSS):
        sums = marks.sums[start : start + ACROSS]
        wide = max(LEAST_WIDE, *(len(text) + 1 for sum_ in sums for text in _head(sum_)))
        for k, line in enumerate(zip_longest(*(_head(sum_) for sum_ in sums))):
            yield _row(
                words("marks.right_is") if k == 2 else "", [str(cell) for cell in line], wide, named
            )
        for child in marks.children:
            name, *more = textwrap.wrap(_who(child, marks), named - 1)
            yield _row(name, [_cell(child, s, letters) for s in sums], wide, named)
            yield from more
        yield ""
    yield words("marks.legend")
    for key, letter in letters.items():
        if key not in _SIGNS:
            yield f"{letter}  {phrases.capital(words(f'mistake.{key}.name'))}"
    if any(child.reading.verdict is Verdict.HABIT for child in marks.children):
        yield words("marks.likely")


def _letters(marks: ClassMarks) -> dict[str, str]:
    found = (child.shown_key(read) for child in marks.children for read in child.reading.reads)
    keys = dict.fromkeys(key for key in found if key not in ("", *_SIGNS))
    return _SIGNS | dict(zip(keys, ascii_lowercase, strict=False))


def _head(sum_: Sum) -> tuple[str, str, str]:
    sum_ = sum_.short()  # 71 beside decimals
    whole, part, rest = map(sum_.aligned, (sum_.whole, sum_.part, sum_.rest))
    return whole, f"− {part}", rest


def _row(name: str, cells: list[str], wide: int, names: int) -> str:
    return f"{name:{names}}" + "".join(f"{cell:>{wide}}" for cell in cells).rstrip()


def _cell(child: ChildMarks, sum_: Sum, letters: dict[str, str]) -> str:
    """Return how a child's last answer to ``sum_`` stands in the grid."""
    at = next((k for k in reversed(range(len(child.given))) if child.given[k].sum == sum_), None)
    if at is None:
        return ""
    read = child.read_of(at)
    if read is None:
        return "–"
    if read.fit is Fit.RIGHT:
        return "."
    return f"{child.given[at].answer}{letters.get(child.shown_key(read), '')}"


def _who(child: ChildMarks, marks: ClassMarks) -> str:
    return f"{child.code} {seen(child.name)}" if marks.coded else seen(child.name)


def _child(
    child: ChildMarks, marks: ClassMarks, words: Words, *, short: bool = False
) -> Iterator[str]:
    """Yield what a child's answers say; ``short`` leaves out what the groups and the grid say."""
    reading = child.reading
    verdict = verdict_said(reading, words)
    counts = {"right": reading.right, "count": len(reading.reads)}
    if reading.verdict is Verdict.UNTRIED:
        yield f"{_who(child, marks)}: {verdict}"
    else:
        yield words("marks.child", name=_who(child, marks), verdict=verdict, **counts)
    for line in _advice(child, words, short=short):
        yield textwrap.fill(line, WIDTH, initial_indent="  ", subsequent_indent="  ")


def verdict_said(reading: Reading, words: Words) -> str:
    """Return the verdict as a sentence; a habit with its column and how sure it is."""
    if reading.verdict is Verdict.SLIPS and reading.rivals:
        return words("marks.verdict.slips_perhaps")
    if reading.verdict is not Verdict.HABIT:
        return words(f"marks.verdict.{reading.verdict.value}")
    named = [likely for likely in reading.habits if likely.key in reading.named]
    said = []
    for likely in named:
        name = words(f"mistake.{likely.key}.name")
        if likely.place is not None:
            name = words("why.here", name=name, place=words(f"place.{PLACES[likely.place]}"))
        said.append(words("marks.sure", name=name, percent=_percent(likely.probability)))
    for likely in (h for h in reading.habits if h.key in reading.rivals):
        name = words(f"mistake.{likely.key}.name")
        said.append(words("marks.or", name=name, percent=_percent(likely.probability)))
    return phrases.capital("; ".join(said))


def _percent(share: float) -> int:
    """Return a share in per cent; what is not certain never reads 100."""
    return min(99, round(100 * share))


def _advice(child: ChildMarks, words: Words, *, short: bool = False) -> Iterator[str]:
    """Yield which answers say so, what may look alike, what to ask, and which sums come next."""
    reading = child.reading
    if reading.evidence and not short:
        cells = [child.given[row] for row in reading.evidence]
        told = phrases.in_row([f"{cell.sum} = {cell.answer}" for cell in cells[:6]])
        yield words("marks.evidence", answers=told)
    keys = [likely.key for likely in reading.habits]
    wrong = len(reading.reads) > reading.right
    maybe = [h for h in reading.habits[:3] if h.probability >= PERHAPS]
    if reading.verdict is Verdict.MORE and wrong and maybe:
        names = "; ".join(name_quoted(h.key, words, h.place) for h in maybe)
        yield words("marks.perhaps", names=names)
        if len(keys) > 1 and _alike(child, keys[0], keys[1]):
            yield twins_said(keys[0], keys[1], words)
    if reading.named[:1] and reading.named[0] in OUT_BY:
        yield words("marks.facts_found")
    if reading.rivals and not reading.named:
        names = "; ".join(name_quoted(key, words) for key in reading.rivals[:BESIDE])
        yield words("marks.rival", name=names)
    elif reading.rivals:
        yield twins_said(reading.named[0], reading.rivals[0], words)
    if wrong and (reading.verdict is Verdict.MORE or not short):
        yield _ask(child, words)
    if child.next.telling:
        yield words("marks.give", sums=phrases.in_row([*map(str, child.next.telling)]))
    if child.next.practice:
        yield words("marks.practise", sums=phrases.in_row([*map(str, child.next.practice)]))


def _ask(child: ChildMarks, words: Words) -> str:
    reading = child.reading
    shown = child.shown_sum()
    written = shown is not None and not shown.sum.with_pieces
    first = words("child_page.show_written" if written else "mistakes.first")
    keys = {Verdict.HABIT: reading.named, Verdict.SLIPS: ("slip",)}.get(reading.verdict, ())
    if not keys or shown is None or written:
        return words("marks.watch", first=first)
    return asks_said(keys, shown.sum, words)


def asks_said(keys: Sequence[str], sum_: Sum, words: Words) -> str:
    """Return what to ask beside ``sum_`` with pieces: first the same always, then of each mistake.

    ``keys`` are the mistakes.
    """
    asks, *further = asked_of(keys, sum_, words)
    said = words("marks.with_pieces", sum=sum_, first=words("mistakes.first"), asks=asks)
    return " ".join((said, *(words("why.then", asks=text) for text in further)))


def _alike(child: ChildMarks, first: str, last: str) -> bool:
    """Say whether no answer of the child told two habits apart."""
    return any(
        {(first,), (last,)} <= {PROFILES[at].keys for at in ways.profiles}
        for ways in child.reading.after.ways
        if RIGHT not in ways.profiles
    )


def _groups(marks: ClassMarks, words: Words) -> Iterator[str]:
    """Yield whom to teach together and with which question, and what the others need."""
    found, names = marks.groups, [_who(child, marks) for child in marks.children]
    if found.together:
        yield words("marks.together")
    for group in found.together:
        shown = marks.built(group)
        name = phrases.capital(words(f"mistake.{group.key}.name"))
        yield f"  {name}: {', '.join(names[at] for at in group.children)}"
        asks = (
            words("marks.built", sum=shown, asks=phrases.asks(words, group.key, shown))
            if shown
            else words(f"mistake.{group.key}.asks", whole="")
        )
        yield f"    {asks}"
    yield from others_said(found, names, words)
