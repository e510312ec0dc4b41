"""A checked request, and the reading of typed sums, names and numbers."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, fields, replace
from typing import Any, Literal, cast, get_args

from kitbuilder.design.load import Paper
from kitbuilder.errors import RefusedError, Said, named, out_of_range
from kitbuilder.kit.card_records import (
    BACKS,
    KINDS,
    STAGES,
    Backs,
    CardWishes,
    Kind,
    Pupil,
    Stage,
)
from kitbuilder.kit.mat_needs import ZONES, Headings, MatKind, MatWish
from kitbuilder.kit.records import MOST_KITS, CutWish, EstimateWish
from kitbuilder.kit.stories import fitting
from kitbuilder.number import Pieces, Sum
from kitbuilder.number.course.schedule import Task
from kitbuilder.number.scale import MOST_DECIMALS
from kitbuilder.number.sums import LARGEST, LEAST_WITH_EXCHANGE, most_ones
from kitbuilder.press.printing import Piled, Press
from kitbuilder.press.printing import fitted_paper as fitted_paper
from kitbuilder.request.typed_sum import read_sum as read_sum

Part = Literal[
    "pieces",
    "mats",
    "cards",
    "week",
    "guide",
    "progress",
    "differently",
    "evening",
    "outline",
    "demonstration",
]
Currency = Literal["GBP", "EUR", "USD", "MXN"]
"""Currencies that amounts may be of (ISO 4217, from memory)."""

PARTS: tuple[Part, ...] = get_args(Part)
DEFAULT_PARTS: tuple[Part, ...] = PARTS[:6]
"""The parts of a kit unless it is said."""

CLASS_PARTS: tuple[Part, ...] = ("pieces", "mats", "cards", "guide", "outline")
"""The parts of a class set unless it is said; a practice plan brings its weeks too."""

MOST_PIECES = 10_000
"""Pieces of one kind that may be asked for."""

MOST_CHILDREN = 10_000
"""Children that a class set may be for."""

DEFAULT_KINDS: tuple[Kind, ...] = ("exchange", "tasks")
"""Kinds of cards a kit holds unless it is said."""

ALL_FACTS = "facts-from-ten"
"""Small facts that begin at ten too: 45 cards, not 36."""

LEAST_WITHIN = 50
"""The least that the numbers of sums can be asked to lie below: for 43 − 17, the first taught, and
a week of sums like it."""

MOST_SUMS = 2000
"""Sums one kit may hold."""


@dataclass(frozen=True, slots=True)
class Request:
    """What someone wishes to have printed.

    ``sums`` are the kit's sums, of up to four places; ``within`` asks for pieces for every sum
    with numbers below it; ``extra`` are pieces wanted whatever the sums. ``paper`` already
    carries the margin and unit asked for. ``mats`` says which mats, ``cutting`` how many kits
    and how they are cut. ``parts`` are the parts of the kit to print, ``press`` says how. ``cards``
    says what cards are wished for; each of ``pupils`` gets a pack of their own. ``name``
    names the files; with ``each`` every pupil gets a file too. With ``money`` the numbers are
    amounts.
    """

    sums: tuple[Sum, ...]
    paper: Paper
    within: int | None = None
    extra: Pieces = Pieces()
    mats: MatWish = MatWish()
    cutting: CutWish = CutWish()
    parts: tuple[Part, ...] = DEFAULT_PARTS
    press: Press = field(default_factory=Press)
    estimate: EstimateWish = EstimateWish()
    piles: Piled | None = None
    mini: bool = False
    plan: tuple[Task, ...] = ()
    cards: CardWishes = CardWishes()
    pupils: tuple[Pupil, ...] = ()
    name: Literal["kit", "cards"] = "kit"
    each: bool = False
    money: Currency | None = None
    metre: bool = False

    @property
    def printed(self) -> tuple[Part, ...]:
        """The parts to print: all that were named, or what the kit or class set holds."""
        if self.cutting.kits == 1 or self.parts != DEFAULT_PARTS:
            return self.parts
        return (*CLASS_PARTS, "week") if self.plan else CLASS_PARTS

    @property
    def has_thousands(self) -> bool:
        """Whether a thousand is laid down, be it for one sum of many."""
        return (
            any(sum_.places > 3 and not sum_.scale.decimals for sum_ in self._asked)
            or (self.within or 0) > 1000
            or self.extra.thousands > 0
        )

    @property
    def storyless(self) -> tuple[Sum, ...]:
        """The sums that no story fits, where stories are wished for."""
        told = "cards" in self.printed and "stories" in self.cards.kinds and not self.plan
        return tuple(sum_ for sum_ in self._asked if told and not fitting(sum_))

    def __post_init__(self) -> None:
        if len(self.sums) > MOST_SUMS:
            raise RefusedError("sum.too-many", count=len(self.sums), most=MOST_SUMS, field="sums")
        typed = self._asked
        if self.money or any(sum_.scale.decimals for sum_ in typed):
            self._count_hundredths()
        if self.cutting.home and self.cutting.sharing > 1:  # the second child has it on other days
            undated = tuple(replace(task, when=None) for task in self.plan)
            object.__setattr__(self, "plan", undated)
        for sum_ in self._asked:
            if not sum_.whole:
                raise RefusedError("sum.nothing-to-build", sum=sum_, field="sums")
        if self.metre and self.has_thousands:
            raise RefusedError("metre.thousands", option="metre")
        press = self.press
        if self.pupils and (press.svg or press.dxf or press.dpi is not None):
            raise RefusedError("pupil.only-pdf", field="pupils")
        self._check_four_places(typed)
        if self.mini:
            self._check_mini()
        if self.storyless and len(self.storyless) == len(self._asked):
            raise RefusedError("kit.no-story", option="kinds", sums=named(self.storyless))
        if self.within in range(LEAST_WITH_EXCHANGE + 1):
            raise RefusedError(
                "choose.small-facts", option="within", given=self.within, least=LEAST_WITHIN
            )
        if self.within is not None and not LEAST_WITHIN <= self.within <= LARGEST + 1:
            raise out_of_range("within", self.within, LEAST_WITHIN, LARGEST + 1)

    def _check_four_places(self, typed: Sequence[Sum]) -> None:
        """Refuse sums of four places where nothing can show them: on small kits, with decimals.

        Of sums counted in hundredths it is told how they were ``typed``.
        """
        asked = [(task.sum, task.stage, task.line) for one in self.pupils for task in one.tasks]
        with_pieces = bool({*self.parts} - {"cards"})
        every = (*((sum_, self.cards.stage, None) for sum_ in self.sums), *asked)
        for (sum_, stage, line), given in zip(every, typed, strict=True):
            if sum_.places < 4:
                continue
            if sum_.scale.decimals and (with_pieces or stage != "written"):
                if given.scale.decimals and stage == "written" and line is None:
                    raise RefusedError(
                        "decimals.cards-alone", sum=sum_, option="only", field="sums"
                    )
                raise _beside_decimals(given, line, money=self._money_alone(typed))
            for option, wished, what in (
                ("mini", self.mini, Said("sum.tonight")),
                ("only", "demonstration" in self.parts, Said("sum.demonstration")),
            ):
                if wished:
                    raise RefusedError(
                        "sum.no-thousand", sum=sum_, what=what, option=option, field="sums"
                    )

    @property
    def _asked(self) -> tuple[Sum, ...]:
        """The kit's sums and those of all pupils."""
        return (*self.sums, *(task.sum for pupil in self.pupils for task in pupil.tasks))

    def _money_alone(self, typed: Iterable[Sum]) -> bool | None:
        """Whether nothing but money calls for hundredths in ``typed`` sums; None without money."""
        return None if self.money is None else not any(sum_.scale.decimals for sum_ in typed)

    def _check_thousandths(self) -> None:
        """Refuse thousandths where anything but written work is wished for: no piece is one."""
        tasks = [(t.sum, t.stage, t.line) for one in self.pupils for t in one.tasks]
        tasks += [(sum_, self.cards.stage, 0) for sum_ in self.sums]
        if self.money:
            sum_ = next(s for s in self._asked if s.scale.decimals == MOST_DECIMALS)
            raise RefusedError("money.thousandths", sum=sum_, option="money", field="sums")
        pieces = self.parts != ("cards",) or "exchange" in self.cards.kinds
        if pieces or any(stage != "written" for _, stage, _ in tasks):
            sum_, line = next((s, at) for s, _, at in tasks if s.scale.decimals == MOST_DECIMALS)
            where = "pupils" if line else "sums"
            refused = RefusedError("decimals.thousandths", sum=sum_, option="stage", field=where)
            raise refused.at(row=line or None)

    def _check_beside_decimals(self) -> None:
        """Refuse what is made of whole numbers alone, where some have decimals."""
        if self.within is not None:
            raise RefusedError("decimals.within", option="within", pieces="pieces")
        if _whole(self.plan):
            raise RefusedError("decimals.leave-out", option="plan")
        if "differently" in self.parts:
            raise RefusedError("decimals.parts", option="only")
        if {"stories", "arrows"} & {*self.cards.kinds}:
            raise RefusedError("decimals.kinds", option="kinds")

    def _count_hundredths(self) -> None:
        """Count every sum in hundredths, or thousandths where one has them, as the language does.

        Raises ``RefusedError`` for a sum that is too large beside them, and for what is made of
        whole numbers.
        """
        self._check_beside_decimals()
        plain = self.press.words
        most = max((sum_.scale.decimals for sum_ in self._asked), default=0)
        if most == MOST_DECIMALS:
            self._check_thousandths()
            words = plain.counting(most)
        else:
            words = plain.money(self.money) if self.money else plain.decimal
        lines = {task.sum: task.line for pupil in self.pupils for task in pupil.tasks}

        def counted(sum_: Sum) -> Sum:
            if sum_.whole > most_ones(words.scale.decimals - sum_.scale.decimals):
                line = lines.get(sum_)
                if words.scale.decimals == MOST_DECIMALS:
                    where = "pupils" if line else "sums"
                    refused = RefusedError("decimals.beside-thousandths", sum=sum_, field=where)
                    raise refused.at(row=line or None)
                raise _beside_decimals(sum_, line, money=self._money_alone(self._asked))
            return sum_.on(words.scale)

        pupils = tuple(
            replace(one, tasks=tuple(replace(t, sum=counted(t.sum)) for t in one.tasks))
            for one in self.pupils
        )
        plan = tuple(
            replace(task, item=counted(task.item)) if isinstance(task.item, Sum) else task
            for task in self.plan
        )
        for name, value in (
            ("sums", tuple(map(counted, self.sums))),
            ("pupils", pupils),
            ("plan", plan),
            ("press", replace(self.press, words=words)),
        ):
            object.__setattr__(self, name, value)

    def _check_mini(self) -> None:
        """Refuse what a mini kit cannot be: it is for one sum, one child and a pair of scissors."""
        if not self.sums:
            raise RefusedError("mini.no-sum", field="sums")
        cutting, cards, plain = self.cutting, self.cards, CardWishes()
        if cutting.kits > 1:
            raise RefusedError("mini.no-class", field="children")
        if "subtract" not in self.mats.kinds:
            raise RefusedError("mini.no-mat", field="mat")
        for option, wished in (
            ("within", self.within is not None),
            ("plan", bool(self.plan)),
            ("only", self.parts != DEFAULT_PARTS),
            ("sturdy", self.press.sturdy is not None),
            ("kerf", self.press.kerf_mm > 0),
            ("spares", cutting.spares > 0),
            ("layers", cutting.layers > 1),
            ("same-sheets", cutting.same_sheets),
            ("piles", self.piles is not None),
            ("metre", self.metre),
            ("kinds", cards.kinds != plain.kinds),
            ("backs", cards.backs != plain.backs),
        ):
            if wished:
                raise RefusedError("mini.leave-out", option=option)


def _whole(plan: Iterable[Task]) -> bool:
    """Say whether ``plan`` holds a sum of whole numbers."""
    sums = (task.item for task in plan if isinstance(task.item, Sum))
    return any(not sum_.scale.decimals for sum_ in sums)


def _beside_decimals(sum_: Sum, line: int | None, *, money: bool | None = None) -> RefusedError:
    """Return the refusal of a sum too large beside decimals, in a ``line`` of a table or none.

    One that has them itself would not be printed on its own either, and none as an amount. Of
    ``money`` it is said whether all are of whole numbers, which would do without.
    """
    where = "sums" if line is None else "pupils"
    if sum_.scale.decimals:
        refused = RefusedError("decimals.too-large", sum=sum_, option="stage", field=where)
    elif money:
        refused = RefusedError("money.too-large", sum=sum_, option="money", field=where)
    elif money is not None:
        refused = RefusedError("money.alone", sum=sum_, option="money", field=where)
    elif line is None:
        refused = RefusedError("decimals.alone", sum=sum_, field=where)
    else:
        refused = RefusedError("decimals.pupils", sum=sum_, field=where)
    return refused.at(row=line or None)


def read_sums(text: str, point: str = ".") -> tuple[Sum, ...]:
    """Return the sums in ``text``, one a line; ``#`` starts a comment, empty lines are skipped.

    Raises ``RefusedError`` naming the line.
    """
    sums = []
    for number, line in enumerate(text.splitlines(), 1):
        typed = line.partition("#")[0].strip()
        if typed:
            try:
                sums.append(read_sum(typed, point))
            except RefusedError as error:
                raise error.at(row=number) from None
    if not sums:
        raise RefusedError("sum.none", field="sums")
    return tuple(sums)


def read_pieces(text: str) -> Pieces:
    """Return the pieces typed as ``text``: hundreds, tens and ones with commas between.

    Thousands may stand before them.

    Raises ``RefusedError``.
    """
    typed = text.replace(" ", "").split(",")
    if len(typed) not in (3, 4) or not all(
        re.fullmatch(r"0|[1-9]\d{0,4}", count, re.ASCII) for count in typed
    ):
        raise RefusedError("pieces.unreadable", option="pieces", given=text)
    counts = tuple(map(int, reversed(typed)))
    if not any(counts):
        raise RefusedError("pieces.none", field="pieces")
    for count in counts:
        if count > MOST_PIECES:
            raise out_of_range("pieces", count, 0, MOST_PIECES)
    return Pieces.by_place(counts)


def mat_wish(mat: str = "two", headings: str = "words") -> MatWish:
    """Return the mats that ``mat`` names, with commas: the way of their zones, and their kinds.

    Where no kind is named it is the mat of subtraction. Raises ``RefusedError`` naming what may
    be chosen.
    """
    named = [word.strip() for word in mat.split(",")]
    for value, allowed, option in (
        *((word, (*ZONES, *get_args(MatKind)), "mat") for word in named),
        (headings, get_args(Headings), "headings"),
    ):
        if value not in allowed:
            raise not_among(option, value, allowed)
    ways = [way for way in ZONES if way in named]
    if len(ways) > 1:
        raise RefusedError("mat.two-ways", option="mat", given=mat, known=ZONES)
    kinds = tuple(kind for kind in get_args(MatKind) if kind in named) or ("subtract",)
    return MatWish(kinds, (ways or ZONES)[0], cast("Headings", headings))


def estimate_wish(said: Mapping[str, Any]) -> EstimateWish:
    """Return the prices and paces among what a request file ``said``. Raises ``RefusedError``."""
    names = [one.name for one in fields(EstimateWish)]
    return EstimateWish(**{name: said[name] for name in names if name in said})


def kits_for(children: int | None, share: int | None) -> int:
    """Return how many kits ``children`` need of whom ``share`` have one together."""
    if children is None:
        if share is not None:
            raise RefusedError("class.share-alone", option="share", needed="children")
        return 1
    if share is not None and not 1 <= share <= MOST_CHILDREN:
        raise out_of_range("share", share, 1, MOST_CHILDREN)
    if children < 1:
        raise out_of_range("children", children, 1, MOST_KITS * (share or 1))
    kits = -(-children // (share or 1))
    if kits > MOST_KITS:
        raise RefusedError(
            "class.too-many-kits", children=children, kits=kits, most=MOST_KITS, option="share"
        )
    return kits


def cut_wish(
    children: int | None = None,
    share: int | None = None,
    **how: Any,  # noqa: ANN401
) -> CutWish:
    """Return how many kits to cut, and ``how``: further fields of the wish, as typed.

    Raises ``RefusedError``.
    """
    return CutWish(kits_for(children, share), children=children, **how)


def card_wish(
    kinds: str | None = None,
    stage: str = "pieces",
    backs: str = "separate",
    headings: bool = True,
    each: bool = False,
) -> CardWishes:
    """Return the wishes for cards, typed as words; ``kinds`` stand with commas between."""
    named = DEFAULT_KINDS if kinds is None else tuple(k.strip() for k in kinds.split(","))
    typed = (("stage", stage, STAGES), ("backs", backs, BACKS))
    allowed = (*KINDS, ALL_FACTS)
    for option, word, known in (*typed, *(("kinds", kind, allowed) for kind in named)):
        if word not in known:
            raise not_among(option, word, known)
    return CardWishes(
        stage=cast("Stage", stage),
        backs=cast("Backs", backs),
        kinds=tuple(kind for kind in KINDS if kind in _plainly(named)),
        facts="ten-and-crossing" if ALL_FACTS in named else "crossing-ten",
        headings=headings,
        each=each,
    )


def _plainly(named: Iterable[str]) -> set[str]:
    return {"facts" if kind == ALL_FACTS else kind for kind in named}


def currency(typed: str | None) -> Currency | None:
    """Return the currency typed, in small letters or large; None where numbers are no amounts."""
    code = None if typed is None else typed.strip().upper()
    if code is not None and code not in get_args(Currency):
        raise not_among("money", typed or "", get_args(Currency))
    return cast("Currency | None", code)


def piled(typed: str | None) -> Piled | None:
    """Return the order of a pile, typed as a word, or None where no pile is wished for."""
    if typed is not None and typed not in get_args(Piled):
        raise not_among("piles", typed, get_args(Piled))
    return cast("Piled | None", typed)


def read_parts(names: Iterable[str]) -> tuple[Part, ...]:
    """Return the named parts in the order they are printed."""
    asked = tuple(names)
    for name in asked:
        if name not in PARTS:
            raise RefusedError("kit.no-such-part", given=name, option="only", known=PARTS)
    if not asked:
        raise RefusedError("kit.no-part", option="only", known=PARTS)
    return tuple(part for part in PARTS if part in asked)


def not_among(option: str, given: str, known: Iterable[str]) -> RefusedError:
    """Return the refusal of a word ``given`` for ``option`` that is none of those ``known``."""
    return RefusedError("option.choice", option=option, given=given, known=tuple(known))
