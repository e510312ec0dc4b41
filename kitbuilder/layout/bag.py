"""What goes into each bag of a class set, in words."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from kitbuilder.design.load import Words
from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.kit.bank import Bank
from kitbuilder.kit.course.course_records import CoursePages
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.model import Sheet, SheetKind

STAYS = (
    SheetKind.LESSON,
    SheetKind.WEEK,
    SheetKind.WORKSHEET,
    SheetKind.WORKSHEET_KEY,
    SheetKind.GUIDE,
    SheetKind.FOLDING,
    SheetKind.ANSWERS,
    SheetKind.PROGRESS,
    SheetKind.DIFFERENTLY,
)
"""Pages that stay at home, one for each child, in the order a label names them."""

HOME = (*STAYS, SheetKind.SLIP)
"""Pages that go home in a bag; the slips come back."""


@frozen
class Bag:
    """What each bag holds, in words: pieces, mats and cards, pages, and slips for the teacher.

    ``pages`` and ``slips`` are whole sentences, empty where there are none; ``kept`` is what a
    label says of them: what stays at home, and what comes back. ``bank`` says what goes into the
    box that a class shares. The pieces of a single kit go into envelopes. All is needed ``again``
    where sums come back later in the year. A shared bag has a turn for each child and week.
    """

    pieces: tuple[str, ...] = ()
    things: tuple[str, ...] = ()
    pages: str = ""
    slips: str = ""
    kept: str = ""
    bank: str = ""
    again: bool = False
    turns: int = 0

    @property
    def beside(self) -> tuple[str, ...]:
        """What is put to the pieces, a sentence each, but for mats and cards."""
        return tuple(said for said in (self.bank, self.pages, self.slips) if said)


def bag_of(
    held: Bank,
    own: Sequence[Sheet],
    read: Sequence[Sheet],
    course: CoursePages,
    cutting: CutWish,
    style: Style,
) -> Bag:
    """Return what each bag holds: pieces ``held``, what is on ``own`` sheets, what is ``read``.

    Pages to read go only into kits that are taken home, those of later weeks of a ``course`` after
    the first.
    """
    if cutting.kits == 1 and not cutting.home:
        return Bag()
    words = style.words
    pieces = [phrases.count(words, k, n) for k, n in enumerate(held.in_bag.counts) if n][::-1]
    box = words("bank.packed", thousands=held.counted(words)) if held.at_once else ""
    weeks = course.weeks
    again = any(week.later for week in weeks)
    turns = cutting.sharing * len(weeks) if cutting.home and cutting.sharing > 1 else 0
    held_pieces = tuple(pieces) if cutting.kits > 1 else ()
    bag = Bag(held_pieces, _things(own, words), bank=box, again=again, turns=turns)
    if not cutting.home:
        return bag
    apart = [sheet for sheet in read if cut_apart(sheet.kind, sheet.copies, cutting)]
    there = {sheet.kind for sheet in read if not sheet.later and sheet not in apart}
    keep, every = (_named(kinds, there, words) for kinds in (STAYS, HOME))
    slip, alone = words(f"title.{SheetKind.SLIP}"), cutting.readers == 1
    shared = "_shared" if cutting.sharing > 1 else ""
    back = words("bag.alone_back" if alone else "bag.back", slip=slip)
    stays = words(f"bag.home{shared}", things=keep) if keep and not alone else ""
    more = words(f"bag.more{shared}") if stays and len(weeks) > 1 else ""
    pages = words("bag.pages", things=every) if every else ""
    return replace(
        bag,
        pages=f"{pages} {more}".strip(),
        slips=words.count(f"bag.slips{shared}", course.slips) if apart else "",
        kept=" ".join(said for said in (stays, more, back) if said),
    )


def _named(kinds: Sequence[SheetKind], there: set[SheetKind], words: Words) -> str:
    """Return the titles of those of ``kinds`` that are ``there``."""
    return "; ".join(words(f"title.{kind}") for kind in kinds if kind in there)


def cut_apart(kind: SheetKind, copies: int, cutting: CutWish) -> bool:
    """Say whether sheets of ``kind`` are slips that are cut apart for all children."""
    return kind is SheetKind.SLIP and copies < cutting.readers


def _things(own: Sequence[Sheet], words: Words) -> tuple[str, ...]:
    """Return mats and cards, each kind with how many cards there are, those left blank last."""
    mats = dict.fromkeys(sheet.kind for sheet in own if sheet.stock == "paper")
    cards = Counter[str]()
    blank = Counter[str]()
    for sheet in own:
        if sheet.stock == "card" and sheet.flip is None:
            held = Counter(item.what for item in sheet.items)
            blank[words("bag.blank")] += held["blank_card"] + held["card_frame"]
            named = sum(n for what, n in held.items() if what.endswith("_card"))
            cards[words(f"title.{sheet.kind}")] += named - held["blank_card"]
    return (
        *(words(f"title.{kind}") for kind in mats),
        *(words("bag.cards", cards=k, count=n) for k, n in (*cards.items(), *blank.items()) if n),
    )
