"""Exploded pictures of a sheet that is cut: its parts moved apart, a blade in each gap."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.layout.cutting.cut_tree import CutNode
from kitbuilder.layout.cutting.folded_pieces import FOLDED, fold_line
from kitbuilder.layout.cutting.line_segments import slanting
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.packing.scissors_columns import Step
from kitbuilder.layout.parts.block import Block, row
from kitbuilder.layout.parts.contents import Hatch, Panel, Rule, SmallPieces
from kitbuilder.layout.parts.furniture import cut_letter, letter_side, pictogram
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.words import line, lines, wide
from kitbuilder.number import PLACES, Pieces

GAP = 4.0
"""Space in mm that a blade takes between two large parts."""

CLOSE = 1.2
"""The same between parts as narrow as a ten."""

BEYOND = 2.4
"""How far a blade reaches beyond what it cuts, in mm."""

SCISSORS = 5.4
"""Side of the scissors at the end of a blade, in mm."""

SMALLEST = 0.9
"""Width in mm of a one below which pieces are only outlined."""

_APART = 1.2
# The least space in mm between what is said of two runs of a column.

_SLANT = 2.2
# How far the strokes over what falls off are apart, mm.


@frozen
class PictureScale:
    """How many times smaller a picture is, the width of a one in it, and if x and y change places.

    Columns that lie on their sheet are pictured standing where ``turned``. ``kept`` are the labels
    and cards on what falls off, where they lie on the sheet.
    """

    times: float
    unit: float
    turned: bool = False
    kept: tuple[Rect, ...] = ()

    def size(self, node: CutNode) -> tuple[float, float]:
        """Return how wide and high a part is in the picture, mm."""
        wide_, high = node.rect.width * self.times, node.rect.height * self.times
        return (high, wide_) if self.turned else (wide_, high)

    def inside(self, rect: Rect, node: CutNode) -> Rect:
        """Return where ``rect`` of the sheet lies in the picture of ``node``."""
        x, y = (rect.x - node.rect.x) * self.times, (rect.y - node.rect.y) * self.times
        wide_, high = rect.width * self.times, rect.height * self.times
        return Rect(y, x, high, wide_) if self.turned else Rect(x, y, wide_, high)


def part(node: CutNode, scale: PictureScale) -> Block:
    """Return one part with the pieces it holds and what falls off, labels white on it.

    What falls off is tinted and, for a poor copy, hatched.
    """
    falls: list[Rect] = []
    pieces: list[Rect] = []
    doubled: list[Item] = []
    for leaf in node.ends():
        rect = scale.inside(leaf.rect, node)
        if leaf.what in FOLDED:
            doubled += flat(leaf.what, rect)
        else:
            (pieces if leaf.what else falls).append(rect)
    wide_, high = scale.size(node)
    items = [Item("falls", rect, Panel("tint", "frame", 0.0)) for rect in falls]
    items += [Item("hatch", r, Hatch(slanting(r.width, r.height, _SLANT))) for r in falls]
    labels = [scale.inside(rect, node) for rect in scale.kept if node.rect.holds(rect, 0.1)]
    items += [Item("kept", rect, Panel("paper", "bubble", 0.5)) for rect in labels]
    if pieces and scale.unit >= SMALLEST:
        whole = Rect(0, 0, wide_, high)
        items.append(Item("pieces", whole, SmallPieces(tuple(pieces), scale.unit)))
    else:
        items += [Item("pieces", rect, Panel("paper", "bubble", 0.0)) for rect in pieces]
    return Block((*items, *doubled), wide_, high)


def flat(what: str, rect: Rect) -> tuple[Item, ...]:
    """Return a doubled piece as one, the line that it is folded on dashed."""
    x1, y1, x2, y2 = fold_line(what, rect)
    fold = Rect(min(x1, x2), min(y1, y2), max(abs(x2 - x1), 0.01), max(abs(y2 - y1), 0.01))
    whole = Item("doubled", rect, Panel("paper", "bubble", 0.0))
    return whole, Item("fold", fold, Rule("dashed"))


def blade(x: float, y: float, long: float, *, down: bool = False) -> Item:
    """Return a blade from (x, y) on."""
    rect = Rect(x, y, 0.01, long) if down else Rect(x, y, long, 0.01)
    return Item("blade", rect, Rule("cut"))


ABOVE = SCISSORS + 1.0 + 2 * BEYOND - GAP
"""How much higher than a sheet and its foot the picture of its columns is but for a letter, mm."""


def foot_picture(root: CutNode, letter: str, scale: PictureScale, style: Style) -> Block:
    """Return the sheet and, a blade below it, the foot that falls off."""
    if root.down:  # the columns lie: the foot is at the right
        return _side_by_side(root, Step.FOOT, (letter,), scale, style)
    upper, foot = (part(half, scale) for half in root.halves)
    left, side = BEYOND, letter_side(style)
    at = upper.height + GAP / 2
    reach = left + upper.width + BEYOND
    items = [
        *upper.at(left, 0),
        *foot.at(left, upper.height + GAP),
        blade(0, at, reach),
        *pictogram("scissors", SCISSORS, 2).at(reach - 1, at - SCISSORS / 2),
        *cut_letter(letter, style).at(reach + SCISSORS, at - side / 2),
    ]
    wide_ = reach + SCISSORS + side
    return Block(tuple(items), wide_, upper.height + GAP + foot.height)


def lengthways_picture(
    upper: CutNode, letters: Sequence[str], scale: PictureScale, style: Style
) -> Block:
    """Return the columns apart from each other, a lettered blade in each gap."""
    standing = replace(scale, turned=not upper.down)
    return _side_by_side(upper, Step.LENGTHWAYS, letters, standing, style)


def foot_and_columns(
    root: CutNode, foot: str, letters: Sequence[str], scale: PictureScale, style: Style
) -> Block:
    """Return a sheet's standing columns apart from each other, its foot cut off below them."""
    upper, falls = root.halves
    columns = lengthways_picture(upper, letters, scale, style)
    below, side = part(falls, scale), letter_side(style)
    at = columns.height + GAP / 2 - BEYOND
    reach = max(columns.width, below.width) + BEYOND
    items = [
        *cut_letter(foot, style).at(reach + SCISSORS, at - side / 2),
        *pictogram("scissors", SCISSORS, 2).at(reach - 1, at - SCISSORS / 2),
        blade(0, at, reach),
        *below.at((columns.width - below.width) / 2, at + GAP / 2),
        *columns.items,
    ]
    high = at + max(GAP / 2 + below.height, side / 2)
    return Block(tuple(items), reach + SCISSORS + side, high)


def _side_by_side(
    node: CutNode, step: int, letters: Sequence[str], scale: PictureScale, style: Style
) -> Block:
    side = letter_side(style)
    top = SCISSORS + side + 1.0
    items: list[Item] = []
    parts = list(node.after(step))
    gap = max(GAP, side + 0.6 - min(scale.size(one)[0] for one in parts[1:-1] or parts))
    high = 0.0
    x = max(0.0, (side - gap) / 2 - scale.size(parts[0])[0])  # the first letter is inside, too
    for index, one in enumerate(parts):
        block = part(one, scale)
        items += block.at(x, top + BEYOND)
        x, high = x + block.width, max(high, block.height)
        if index < len(parts) - 1:
            middle = x + gap / 2
            items.append(blade(middle, top, high + 2 * BEYOND, down=True))
            items += pictogram("scissors", SCISSORS, 1).at(
                middle - SCISSORS / 2, top - SCISSORS + 0.6
            )
            if letters[index]:
                items += cut_letter(letters[index], style).at(middle - side / 2, 0)
            x += gap
    return Block(tuple(items), x, top + high + 2 * BEYOND)


@frozen
class Run:
    """Parts of one kind below each other: what they are, how many, and what blocks hold.

    Of strips beside each other it counts the strips.
    """

    what: str
    count: int
    held: Pieces = Pieces()


def kind(node: CutNode) -> str:
    """Return what a part is after the cuts across: a piece, a strip, a block, or what falls off.

    Strips of ones that lie beside each other are ``"strips"``, cut apart before they are snipped.
    """
    held = {leaf.what.removeprefix("folded_") for leaf in node.ends() if leaf.what}
    if not held:
        return "falls"
    if not node.halves:
        return held.pop()
    if held != {"ones"}:
        return "block"
    return "strips" if _strips(node) > 1 else "strip"


def _strips(node: CutNode) -> int:
    """Return how many strips of ones come out of ``node``, which holds ones alone."""
    return max(1, sum(bool(part.halves) for part in beside(node)))


def beside(node: CutNode) -> list[CutNode]:
    """Return the parts of ``node`` that its cuts in one direction leave side by side."""
    waiting, found = [node], list[CutNode]()
    while waiting:
        one = waiting.pop()
        if one.halves and one.down == node.down:
            waiting += reversed(one.halves)
        else:
            found.append(one)
    return found


def runs(column: CutNode) -> tuple[Run, ...]:
    """Return what the cuts across make of a column, from its top."""
    found = []
    for what, same in groupby(column.after(Step.ACROSS), key=kind):
        parts = list(same)
        count = sum(map(_strips, parts)) if what == "strips" else len(parts)
        found.append(Run(what, count, _held(parts) if what == "block" else Pieces()))
    return tuple(found)


def _held(parts: Sequence[CutNode]) -> Pieces:
    """Return all pieces that come out of ``parts``."""
    many = Counter(leaf.what.removeprefix("folded_") for part in parts for leaf in part.ends())
    return Pieces(*(many[place] for place in PLACES))


def column_picture(column: CutNode, scale: PictureScale, widest: float, style: Style) -> Block:
    """Return the parts of a column below each other, blades between, and what they are beside.

    Words are broken where all would be more than ``widest`` mm wide.
    """
    standing = PictureScale(scale.times, scale.unit, turned=column.rect.width > column.rect.height)
    if column.halves and column.number == Step.ACROSS:
        standing = PictureScale(scale.times, scale.unit, turned=column.down)
    left = SCISSORS + BEYOND
    items: list[Item] = []
    y = wide_ = 0.0
    said: list[tuple[str, float]] = []
    before = ""
    many = Counter(map(kind, column.after(Step.ACROSS)))
    for what, same in groupby(column.after(Step.ACROSS), key=kind):
        start: float | None = None
        for one in same:
            block = _spread(one, standing)
            if before:
                close = before == what and block.height < GAP
                gap = (CLOSE if many[what] <= 12 else CLOSE / 2) if close else GAP
                items += _blades(block, left, y + gap / 2, close=close)
                y += gap
            start = y if start is None else start
            items += block.at(left, y)
            y, wide_ = y + block.height, max(wide_, block.width)
            before = what
        if what != "falls" and start is not None:
            said.append((what, (start + y) / 2))
    x = left + wide_ + BEYOND + 2
    counted = [run for run in runs(column) if run.what != "falls"]
    long = above = 0.0
    below, free = y, -y
    for run, (_, middle) in zip(counted, said, strict=True):
        told = _told(run, widest - x, style)
        top = max(middle - told.height / 2, free)
        items += told.at(x, top)
        long, free = max(long, told.width), top + told.height + _APART
        above, below = min(above, top), max(below, top + told.height)
    return Block(Block(tuple(items), x + long, y).at(0, -above), x + long, below - above)


def _spread(node: CutNode, scale: PictureScale) -> Block:
    """Return a part of a column; what is cut apart lengthways stands apart."""
    if kind(node) not in ("strips", "block"):
        return part(node, scale)
    return row([part(one, scale) for one in beside(node)], CLOSE)


def _blades(block: Block, left: float, middle: float, *, close: bool) -> list[Item]:
    """Return a blade above ``block``, only its ends where parts lie ``close``."""
    if close:
        return [
            blade(left - BEYOND, middle, BEYOND - 0.4),
            blade(left + block.width + 0.4, middle, BEYOND - 0.4),
        ]
    at = (left - BEYOND - SCISSORS + 1, middle - SCISSORS / 2)
    whole = blade(left - BEYOND, middle, block.width + 2 * BEYOND)
    return [whole, *pictogram("scissors", SCISSORS).at(*at)]


def _told(run: Run, most: float, style: Style) -> Block:
    """Return the words beside a run, those of a block in two lines, or in more in ``most`` mm."""
    text, setting = run_words(run, style), settings(style.look).text
    if run.what not in ("block", "strips"):
        return line(text, setting)
    longest = max(wide(word, setting) for word in text.split())
    room = max(min(0.6 * wide(text, setting), most), longest)
    return lines(text, setting, room + 0.01)


def run_words(run: Run, style: Style) -> str:
    """Return a run counted in words."""
    if run.what in PLACES:
        return phrases.count(style.words, PLACES.index(run.what), run.count)
    if run.what == "strip":
        return style.words.count("scissors.strip", run.count)
    if run.what == "strips":
        strips = style.words.count("scissors.strip", run.count)
        return style.words("scissors.block", pieces=strips)
    return style.words("scissors.block", pieces=phrases.pieces(style.words, run.held))
