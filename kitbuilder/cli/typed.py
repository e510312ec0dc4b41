"""The options about mats, cards and a class set, a record a group."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields, replace
from functools import wraps
from typing import TYPE_CHECKING, Any

import click

from kitbuilder.cli.options import NUMBER, WHOLE

if TYPE_CHECKING:
    from kitbuilder.kit.card_records import CardWishes
    from kitbuilder.kit.mat_needs import MatWish
    from kitbuilder.kit.records import CutWish, EstimateWish
    from kitbuilder.number import Sum
    from kitbuilder.number.course.schedule import PlanWish
    from kitbuilder.press.printing import Piled

_KINDS = "two,ones,tens,both,across-zero"
_STAGES = "pieces, both, drawn or written"

Command = Callable[..., Any]
Option = Callable[[Command], Command]


@dataclass(frozen=True, slots=True)
class SetTyped:
    """What was typed about a class set; None where nothing was said."""

    kits: int | None
    children: int | None
    share: int | None
    spares: float
    layers: int
    same_sheets: bool
    piles: str | None
    cuts_per_minute: float | None
    grammage: float | None
    per_sheet: float | None
    home: bool = False

    def cutting(self) -> "CutWish":
        """Return how many kits to cut and how. Raises ``RefusedError``."""
        from kitbuilder.request.request import cut_wish, kits_for

        kits = kits_for(self.kits, self.children, self.share)
        made = cut_wish(kits, self.layers, self.same_sheets, self.spares)
        return replace(made, children=self.children, home=self.home)

    def piled(self) -> "Piled | None":
        """Return the order of the pile asked for. Raises ``RefusedError``."""
        from kitbuilder.request.request import piled

        return piled(self.piles)

    def estimate(self) -> "EstimateWish":
        """Return what to reckon the estimate with. Raises ``RefusedError``."""
        from kitbuilder.request.request import estimate_wish

        return estimate_wish(self.cuts_per_minute, self.grammage, self.per_sheet)


@dataclass(frozen=True, slots=True)
class CardTyped:
    """What was typed about cards."""

    kinds: str | None
    stage: str
    backs: str
    facts: str

    def wish(
        self, usual: str | None = None, headings: bool = True, each: bool = False
    ) -> "CardWishes":
        """Return the wishes for cards; ``usual`` kinds where none were named.

        Raises ``RefusedError``.
        """
        from kitbuilder.request.request import card_wish

        kinds = usual if self.kinds is None else self.kinds
        return card_wish(kinds, self.stage, self.backs, self.facts, headings, each)


@dataclass(frozen=True, slots=True)
class WeeksTyped:
    """What was typed about weeks of practice; ``weeks`` is None where nothing was said."""

    weeks: int | None = None
    days: int = 5
    start: str | None = None
    skip: str | None = None
    first: str | None = None

    def wish(self, sums: Sequence["Sum"] = ()) -> "PlanWish":
        """Return the plan asked for; ``sums`` open their kinds, from that of the first one on.

        Raises ``RefusedError``.
        """
        from kitbuilder.request.weeks import plan_wish

        return plan_wish(
            self.weeks if self.weeks is not None else 4,
            self.days,
            self.start,
            tuple(name.strip() for name in self.skip.split(",")) if self.skip else (),
            self.first,
            tuple(sums),
        )


@dataclass(frozen=True, slots=True)
class MatTyped:
    """What was typed about mats."""

    mat: str = "two"
    mats: str | None = None
    headings: str = "words"

    def wish(self) -> "MatWish":
        """Return the mats asked for. Raises ``RefusedError``."""
        from kitbuilder.request.request import mat_wish

        return mat_wish(self.mat, self.mats, self.headings)


_OF_SET = (
    click.option("--kits", type=WHOLE, metavar="N", help="Kits to print and cut."),
    click.option("--children", type=WHOLE, metavar="N", help="Children in the class."),
    click.option("--share", type=WHOLE, metavar="M", help="Children who share one kit."),
    click.option(
        "--spares", type=NUMBER, default=0.0, metavar="PERCENT", help="Ones and tens to add."
    ),
    click.option("--layers", type=WHOLE, default=1, metavar="K", help="Layers cut in one stroke."),
    click.option("--same-sheets", is_flag=True, help="Few different sheets before few strokes."),
    click.option(
        "--piles",
        metavar="ORDER",
        help="Also the whole pile, for a print shop: sheets (sheet by sheet) or sets (set by set).",
    ),
    click.option("--cuts-per-minute", type=NUMBER, metavar="PACE", help="Straight cuts a minute."),
    click.option("--grammage", type=NUMBER, metavar="GSM", help="Weight of the card in g/m²."),
    click.option("--per-sheet", type=NUMBER, metavar="PRICE", help="Price of a printed sheet."),
    click.option("--home", is_flag=True, help="Lesson, answers, slip and label for each bag."),
)


_OF_CARDS = (
    click.option(
        "--kinds",
        metavar="KINDS",
        help="Kinds of cards: exchange,tasks,stories,additions,facts,arrows,digits,record,sheet.",
    ),
    click.option(
        "--stage", default="pieces", metavar="STAGE", help="pieces, both, drawn or written."
    ),
    click.option(
        "--backs",
        default="separate",
        metavar="WAY",
        help="Where answers go: separate, long-edge, short-edge or fold.",
    ),
    click.option(
        "--facts",
        default="crossing-ten",
        metavar="PACK",
        help="Small facts: crossing-ten (36) or ten-and-crossing (45).",
    ),
)

_OF_WEEKS = (
    click.option("--start", metavar="DATE", help="The first day, such as 2027-01-11."),
    click.option("--days", type=WHOLE, default=5, show_default=True, help="Days a week."),
    click.option("--skip", metavar="KINDS", help=f"Kinds of sums done before: {_KINDS}."),
    click.option("--from", "first", metavar="STAGE", help=f"Where the first begins: {_STAGES}."),
)

_OF_MATS = (
    click.option("--mat", default="two", metavar="WAY", help="Zones: two, three or beside."),
    click.option("--mats", metavar="KINDS", help="Mats to print: subtract, add, exchange."),
    click.option("--headings", default="words", metavar="WAY", help="words, numbers, letters."),
)


def _gathered(record: type, name: str, options: Sequence[Option]) -> Option:
    """Return what adds ``options``; the command gets them as one ``record`` called ``name``."""

    def add(command: Command) -> Command:
        @wraps(command)
        def gathering(**given: Any) -> Any:
            said = {f.name: given.pop(f.name) for f in fields(record)}
            return command(**{name: record(**said)}, **given)

        wrapped: Command = gathering
        for option in reversed(options):
            wrapped = option(wrapped)
        return wrapped

    return add


set_options = _gathered(SetTyped, "of_set", _OF_SET)
"""Adds the options of a class set; the command gets them as one ``of_set``."""

card_options = _gathered(CardTyped, "card", _OF_CARDS)
"""Adds the options of cards; the command gets them as one ``card``."""


def weeks_options(usual: int | None) -> Option:
    """Return what adds the options of weeks of practice, ``usual`` as many unless it is said."""
    weeks = click.option(
        "--weeks",
        type=WHOLE,
        default=usual,
        metavar="N",
        help="Weeks of practice.",
        show_default=usual is not None,
    )
    return _gathered(WeeksTyped, "practice", (weeks, *_OF_WEEKS))


mat_options = _gathered(MatTyped, "mat", _OF_MATS)
"""Adds the options of mats; the command gets them as one ``mat``."""
