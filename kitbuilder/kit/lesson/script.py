"""The script of a lesson: what the child does, what the adult asks, what may be said, the marks.

A step names one move, or moves that belong together; its picture is the mat at that moment. Only
the whole is built. Order of the moves: ones first, exchanging where a column is short (common
practice).
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Literal

from kitbuilder.design.load import Words
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.kit.lesson.mat_scenes import MatScene
from kitbuilder.kit.lesson.moments import (
    Mat,
    back,
    both_parts,
    building,
    counts,
    exchanging,
    short,
    taking,
    together,
    wanting,
)
from kitbuilder.kit.mat_needs import Arrangement
from kitbuilder.number import PLACES, Sum, digits
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.scale import WHOLE, Scale
from kitbuilder.number.steps import Act, Step, short_place, steps
from kitbuilder.number.written import Column, columns


@frozen
class Asked:
    """What the adult asks, and what the child may answer where one answer is meant."""

    asks: str
    says: str = ""


Cue = Literal["build", "guess", "look", "hand", "fetch", "take", "read", "push", "back"]
"""What a child does in a move."""

_BUILDS: Cue = "build"
_TAKES: Cue = "take"
_LOOKS: Cue = "look"
_READS: Cue = "read"
_BACK: Cue = "back"


@frozen
class Seen:
    """Where moves are pictured: so many ``steps`` of the lesson with that ``title``."""

    title: str
    steps: tuple[int, ...]


@frozen
class LessonStep:
    """One step of a lesson: its heading, its picture, what to know, and what is said.

    ``cues`` are the moves in it, in their order. ``done`` counts the steps of the sum that are
    made when it ends: its marks are those written until then. ``move`` is the heading as a move
    alone, where it asks or goes on from a picture.
    """

    title: str
    scene: MatScene
    told: str
    asked: tuple[Asked, ...]
    cues: tuple[Cue, ...] = ()
    done: int = 0
    seen: Seen | None = None
    move: str = ""


@frozen
class Beside:
    """What lies beside a lesson: exchange ``cards``, a ``mat`` with boxes, pages for a ``week``.

    The first mat has columns for so many ``places``, the last for ``most``; 0 where there is none.
    In the week the sums ``asked`` are met. The pieces are for ``every`` sum below a limit.
    """

    cards: bool = False
    mat: bool = False
    week: bool = False
    places: int = 0
    most: int = 0
    asked: tuple[Sum, ...] = ()
    every: bool = False

    def end(self, sum_: Sum, words: Words) -> str:
        """Return where to go on after a later lesson with ``sum_``: where more such sums are."""
        if not self.week:
            return words("guide_pages.end")
        kinds = {(asked.places, pattern(asked).name) for asked in self.asked}
        met = (sum_.places, pattern(sum_).name) in kinds
        return words("guide_pages.end_asked" if met else "guide_pages.end_later")


NOTHING = Beside()


Kind = tuple[int, str]
"""A kind of sum: how many places it has, and the name of its pattern of exchanges."""


@frozen
class Taught:
    """A lesson that fills pages of its own: its title, what is said first, its steps, its end.

    ``columns`` are its sum as it is worked in writing, ones first; it is written on ``scale``.
    Where another lesson stands before, what is known from there has no picture: how it ``opens``
    and ``closes``; a ``note`` by the title may stand for what is said first. ``kinds`` of sums
    are those it teaches, each by its places and its exchanges.
    """

    title: str
    lead: str
    steps: tuple[LessonStep, ...]
    columns: tuple[Column, ...]
    end: str
    scale: Scale = WHOLE
    opens: LessonStep | None = None
    closes: LessonStep | None = None
    note: str = ""
    kinds: tuple[Kind, ...] = ()

    @property
    def places(self) -> int:
        """How many places the sum has."""
        return len(self.columns)


def taught(
    sum_: Sum,
    title: str,
    words: Words,
    arrangement: Arrangement = "two",
    beside: Beside = NOTHING,
) -> Taught:
    """Return the lesson with ``sum_`` under ``title``."""
    lead = words("guide_pages.lead")
    end = words("guide_pages.end_week" if beside.week else "guide_pages.end")
    short = sum_.short()
    told = script(sum_, words, arrangement, beside)
    return Taught(title, lead, told, columns(short), end, short.scale)


def script(
    sum_: Sum, words: Words, arrangement: Arrangement = "two", beside: Beside = NOTHING
) -> tuple[LessonStep, ...]:
    """Return the lesson with ``sum_``, step by step.

    Where the sum has more than two places, takings that follow each other are one step, with the
    look at the next column; where it has two short columns, with the reading of both parts.
    """
    return tuple(_Script(sum_, words, arrangement, beside).steps())


def brief(step: LessonStep) -> LessonStep:
    """Return ``step`` where there is little room: told only in which order exchanges go back.

    Where ten can come from has no answer: the next heading tells.
    """
    told = step.told if step.cues[1:] and set(step.cues) == {_BACK} else ""
    return replace(unanswered(step) if _LOOKS in step.cues else step, told=told)


def unanswered(step: LessonStep) -> LessonStep:
    """Return ``step`` in few lines: what is asked at the first in one, and no second answer."""
    if _BUILDS in step.cues:
        return replace(step, asked=(Asked(" ".join(asked.asks for asked in step.asked)),))
    return replace(step, asked=(*step.asked[:1], *(Asked(more.asks) for more in step.asked[1:])))


class _Script:
    """The words and pictures of one sum's lesson."""

    def __init__(self, sum_: Sum, words: Words, arrangement: Arrangement, beside: Beside) -> None:
        self.sum = sum_
        self.beside = beside
        self.words = words
        self.mat = Mat.of(sum_, arrangement, words)
        self.done = steps(sum_)
        self.slots = {"whole": sum_.whole, "part": sum_.part, "rest": sum_.rest}

    def steps(self) -> Iterator[LessonStep]:
        """Yield the steps, each with how much of the sum is done after it."""
        at, looked = 0, set[int]()
        while at < len(self.done):
            step = self.done[at]
            run = self._run(at, step.act) if self._joins(step.act) else 1
            end = at + run
            place = -1 if step.act is not Act.EXCHANGE else short_place(self.done[at:])
            if step.act is Act.EXCHANGE and place not in looked:
                looked.add(place)
                yield replace(self._look(self.done[at - 1], place, step.place or 0), done=at)
            if step.act is Act.TAKE and self._goes_on(end):
                looked.add(short_place(self.done[end:]))
            if step.act is Act.TAKE and self._reads_at_once(end):
                end += 1
            for found in self._told(at, at + run, place):
                yield replace(found, done=end)
            at = end

    def _told(self, at: int, end: int, place: int) -> Iterator[LessonStep]:
        """Yield the step of the acts from ``at`` to ``end``, if they have one."""
        step, before = self.done[at], self.done[at - 1]
        match step.act:
            case Act.BUILD:
                yield self._build(step)
            case Act.EXCHANGE:
                yield self._exchange(before, step, place, again=before.act is Act.EXCHANGE)
            case Act.TAKE:
                yield self._take(before, self.done[at:end], end)
            case Act.PARTS:
                yield self._read(step)
            case Act.TOGETHER:
                yield self._push(before, last=self._run(end, Act.EXCHANGE_BACK) == 0)
            case Act.EXCHANGE_BACK:
                yield self._back(before, self.done[at:end])
            case _:
                return

    def _joins(self, act: Act) -> bool:
        """Whether acts of that kind in a row are one step."""
        return act is Act.EXCHANGE_BACK or (act is Act.TAKE and self.sum.places > 2)

    def _goes_on(self, end: int) -> bool:
        """Whether the taking before ``end`` also looks whether the next column has enough."""
        return self.sum.places > 2 and self.done[end].act is Act.EXCHANGE

    def _reads_at_once(self, end: int) -> bool:
        """Whether both parts are read in the step of the last taking: where there is much to do."""
        looks = sum(
            a.act is not Act.EXCHANGE and b.act is Act.EXCHANGE for a, b in pairwise(self.done)
        )
        return looks > 1 and self.done[end].act is Act.PARTS and not self.mat.apart

    def _run(self, at: int, act: Act) -> int:
        """Return how many steps from ``at`` on are an ``act``."""
        found = 0
        while at + found < len(self.done) and self.done[at + found].act is act:
            found += 1
        return found

    def _say(self, key: str, **slots: object) -> str:
        return self.words(f"script.{key}", **self.slots, **slots)

    def _place(self, place: int) -> str:
        return self.words(f"place.{PLACES[place]}")

    def _count(self, place: int, number: int) -> str:
        return phrases.count(self.words, place, number)

    def _values(self, held: Sequence[int]) -> str:
        """Return how much lies in each column, the largest first: "500, 120 and 14"."""
        said = [str(self.sum.number(n * 10**k)) for k, n in enumerate(held) if n]
        return phrases.joined(self.words, said[::-1])

    def _build(self, step: Step) -> LessonStep:
        whole = counts(step.table.whole, self.mat)
        asked = (Asked(self._say("build_asks"), self._say("build_says")), Asked(self._say("guess")))
        scene = building(whole, self.mat)
        return LessonStep(self._say("build"), scene, "", asked, ("build", "guess"))

    def _look(self, before: Step, place: int, gets: int) -> LessonStep:
        """Return the look at a short column; across a zero, where ten could come from."""
        whole, part = (counts(p, self.mat) for p in (before.table.whole, before.table.part))
        need = digits(self.sum.part, self.sum.places)[place]
        scene = short(whole, part, place, need, self.mat)
        if gets > place:
            scene = self._noted(scene, place + 1)
        title = self._say("look_one" if need == 1 else "look", count=self._count(place, need))
        return LessonStep(title, scene, "", self._looked(place, gets), ("look",))

    def _looked(self, place: int, gets: int) -> tuple[Asked, ...]:
        """Return what is asked of a short ``place``: across a zero too where ten can come from."""
        named = {"place": self._place(place)}
        enough = Asked(self._say("look_asks", **named), self._say("look_says"))
        if gets <= place:
            return (enough,)
        none = [self._say("none", place=self._place(k)) for k in range(place + 1, gets + 1)]
        slots = {"none": phrases.capital(", ".join(none)), "source": self._opened(gets + 1)}
        return enough, Asked(self._say("zero_asks", **named), self._say("zero_says", **slots))

    def _opened(self, place: int) -> str:
        return self.words(f"opened.{PLACES[place]}")

    def _noted(self, scene: MatScene, place: int) -> MatScene:
        """Return ``scene`` with a word in the whole's column of ``place`` that it is empty."""
        note = self._say("none", place=self._place(place))
        zones = tuple(
            replace(zone, note=note, note_at=place) if zone.role == "whole" else zone
            for zone in scene.zones
        )
        return replace(scene, zones=zones)

    def _exchange(self, before: Step, step: Step, place: int, *, again: bool) -> LessonStep:
        gets = step.place or 0
        slots = {"ten": self._count(gets, 10), "one": self._count(gets + 1, 1)}
        key = "exchange"
        if gets > place and not again:
            key = "exchange_first"
        elif again:
            key = "exchange_now"
        carded = self.beside.cards and gets < 2  # a thousand has no card
        held = counts(step.table.whole, self.mat)
        out = step.table.part.value  # what is out belongs to it
        still, yes = ("still_in_all", "still_in_all_says") if out else ("still", "still_says")
        says = self._say(yes, held=self._values(held), out=self.sum.number(out))
        asked = Asked(self._say(still), says)
        told = self._say("exchange_card" if carded else "exchange_told", **slots)
        told = told if gets < 2 else self._say("unfold_told")
        if again:
            named = {"source": self._place(gets + 1), "target": self._place(gets)}
            asked = Asked(
                self._say("trace_asks", **named), self._say("trace_says", target=named["target"])
            )
            told = ""
        scene = exchanging(before, step, self.mat)
        found = LessonStep(self._say(key, **slots), scene, told, (asked,), ("hand", "fetch"))
        return replace(found, move=self._say("exchange", **slots)) if again else found

    def _take(self, before: Step, taken: Sequence[Step], end: int) -> LessonStep:
        scene = taking(before, taken, self.mat)
        cues = (_TAKES,) * len(taken)
        said, after = self._taken(taken), self.done[end]
        if self._goes_on(end):
            short = short_place(self.done[end:])
            need = digits(self.sum.part, self.sum.places)[short]
            scene = wanting(scene, short, need)
            if (after.place or 0) > short:
                scene = self._noted(scene, short + 1)
            said = self._then(said, taken, short, need)
            said = replace(said, asked=self._looked(short, after.place or 0))
            cues = (*cues, _LOOKS)
        elif self._reads_at_once(end):
            both = Asked(self._say("read_asks"), self._say("read_says"))
            told = f"{said.told} {self._read_told('read_also')}"
            move = f"{said.title} {self._say('read')}"
            said, cues = replace(said, told=told, asked=(both,), move=move), (*cues, _READS)
        return replace(said, scene=scene, cues=cues)

    def _taken(self, taken: Sequence[Step]) -> LessonStep:
        """Return what is said when pieces are taken out, of one column or of several."""
        if len(taken) == 1:
            place, count = taken[0].place or 0, taken[0].count
            left = taken[0].table.whole.counts[place]
            slots = {"count": self._count(place, count), "place": self._place(place)}
            told = self._say("take_one_told" if count == 1 else "take_told")
            asked = Asked(self._say("take_asks", **slots), f"{left}.")
            return LessonStep(self._say("take", **slots), self._empty, told, (asked,))
        out = self.sum.number(sum(step.count * 10 ** (step.place or 0) for step in taken))
        names = [self._place(step.place or 0) for step in taken]
        told = self._say(
            "take_all_told", first=names[0], then=phrases.joined(self.words, names[1:])
        )
        stays = self.sum.number(taken[-1].table.whole.value)
        asked = Asked(self._say("take_all_asks"), f"{stays}.")
        return LessonStep(self._say("take", count=out), self._empty, told, (asked,))

    def _then(self, said: LessonStep, taken: Sequence[Step], place: int, need: int) -> LessonStep:
        """Return ``said`` with the look at the next column, in which ``need`` are wanted.

        How many there are is left to the child.
        """
        out = [self._count(step.place or 0, step.count) for step in taken]
        more = self._count(place, need)
        title = self._say("take_then", count=phrases.joined(self.words, out), more=more)
        return replace(said, title=title, told="", move=said.title)

    @property
    def _empty(self) -> MatScene:
        return self.mat.scene({})

    def _read(self, step: Step) -> LessonStep:
        left, part = (counts(p, self.mat) for p in (step.table.whole, step.table.part))
        scene = both_parts(left, part, self.mat)
        key = "read_apart" if self.mat.apart else "read"
        asked = (Asked(self._say("read_asks"), self._say("read_says")),)
        return LessonStep(self._say(key), scene, self._read_told("read_boxes"), asked, ("read",))

    def _read_told(self, boxes: str) -> str:
        """Return what to do with both parts; ``boxes`` is the key where a mat has some."""
        if not self.beside.mat:
            return self._say("read_told")
        return self._say(boxes)

    def _push(self, before: Step, *, last: bool) -> LessonStep:
        left, part = (counts(p, self.mat) for p in (before.table.whole, before.table.part))
        scene = together(left, part, self.mat)
        if last:
            scene = replace(scene, outcome=str(self.sum.whole))
        asked = (Asked(self._say("push_asks"), self._say("push_says")),)
        return LessonStep(self._say("push"), scene, self._say("push_told"), asked, ("push",))

    def _back_order(self, done: Sequence[Step]) -> str:
        """Return in which order exchanges back are made, by their places."""
        places = [self._place(step.place or 0) for step in done]
        if len(places) == 2:
            return self._say("back_order", first=places[0], then=places[1])
        return self._say("back_order_3", first=places[0], middle=places[1], then=places[2])

    def _back(self, before: Step, done: Sequence[Step]) -> LessonStep:
        scene = replace(back(before, done, self.mat), outcome=str(self.sum.whole))
        place = done[0].place or 0
        ten, one = self._count(place, 10), self._count(place + 1, 1)
        title = (
            self._say("back", swap=self._say("swap", ten=ten, one=one))
            if len(done) == 1
            else self._say("back_2" if len(done) == 2 else "back_3")
        )
        told = self._say("back_told")
        if len(done) > 1:
            told = f"{self._back_order(done)} {told}"
        asked = Asked(self._say("back_asks"), self._say("back_says"))
        cues = (_BACK,) * len(done)
        return LessonStep(title, scene, told, (asked,), cues)
