"""The script of a lesson: what the child does, what the adult asks, what may be said.

Each step names one move; its picture is the mat at that moment. Only the whole is built. Order
of the moves: ones first, exchanging where a column is short (common practice).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from kitbuilder.design.load import Words
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
)
from kitbuilder.kit.mat_needs import Arrangement
from kitbuilder.number import PLACES, Sum, digits
from kitbuilder.number.steps import Act, Step, short_place, steps
from kitbuilder.number.written import Column, columns


@dataclass(frozen=True, slots=True)
class Asked:
    """What the adult asks, and what the child may answer where one answer is meant."""

    asks: str
    says: str = ""


@dataclass(frozen=True, slots=True)
class LessonStep:
    """One move of a lesson: its heading, its picture, what to know, and what is said."""

    title: str
    scene: MatScene
    told: str
    asked: tuple[Asked, ...]


@dataclass(frozen=True, slots=True)
class Taught:
    """A lesson that fills pages of its own: its title, what is said first, its steps, its end.

    ``columns`` are its sum as it is worked in writing, ones first.
    """

    title: str
    lead: str
    steps: tuple[LessonStep, ...]
    columns: tuple[Column, ...]
    end: str

    @property
    def places(self) -> int:
        """How many places the sum has."""
        return len(self.columns)


def taught(sum_: Sum, title: str, words: Words, arrangement: Arrangement = "two") -> Taught:
    """Return the lesson with ``sum_`` under ``title``."""
    lead, end = words("guide_pages.lead"), words("guide_pages.end")
    return Taught(title, lead, script(sum_, words, arrangement), columns(sum_), end)


def script(sum_: Sum, words: Words, arrangement: Arrangement = "two") -> tuple[LessonStep, ...]:
    """Return the lesson with ``sum_``, step by step.

    Takings that follow each other are one step where the sum has more than two places.
    """
    return tuple(_Script(sum_, words, arrangement).steps())


class _Script:
    """The words and pictures of one sum's lesson."""

    def __init__(self, sum_: Sum, words: Words, arrangement: Arrangement) -> None:
        self.sum = sum_
        self.words = words
        self.mat = Mat.of(sum_, arrangement, words)
        self.done = steps(sum_)
        self.slots = {"whole": sum_.whole, "part": sum_.part, "rest": sum_.rest}

    def steps(self) -> Iterator[LessonStep]:
        at, looked = 0, set[int]()
        while at < len(self.done):
            step = self.done[at]
            run = 1
            if step.act is Act.BUILD:
                yield self._build(step)
            elif step.act is Act.EXCHANGE:
                place = short_place(self.done[at:])
                if place not in looked:
                    looked.add(place)
                    yield self._look(self.done[at - 1], place, step.place or 0)
                yield self._exchange(self.done[at - 1], step, place, again=self._follows(at))
            elif step.act is Act.TAKE:
                run = self._run(at, Act.TAKE) if self.sum.places > 2 else 1
                yield self._take(self.done[at - 1], self.done[at : at + run])
            elif step.act is Act.PARTS:
                yield self._read(step)
            elif step.act is Act.TOGETHER:
                yield self._push(self.done[at - 1], last=self._run(at + 1, Act.EXCHANGE_BACK) == 0)
            elif step.act is Act.EXCHANGE_BACK:
                run = self._run(at, Act.EXCHANGE_BACK)
                yield self._back(self.done[at - 1], self.done[at : at + run])
            at += run

    def _follows(self, at: int) -> bool:
        return self.done[at - 1].act is Act.EXCHANGE

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

    def _pieces(self, held: Sequence[int]) -> str:
        said = [self._count(k, n) for k, n in enumerate(held) if n]
        return phrases.joined(self.words, said[::-1])

    def _short_pieces(self, held: Sequence[int]) -> str:
        said = [self._count(k, n) for k, n in enumerate(held) if n]
        return ", ".join(said[::-1])

    def _build(self, step: Step) -> LessonStep:
        whole = counts(step.table.whole, self.mat)
        asked = (Asked(f"{self._say('build_asks')} {self._say('guess')}"),)
        told = self._say("build_told", pieces=self._pieces(whole))
        return LessonStep(self._say("build"), building(whole, self.mat), told, asked)

    def _look(self, before: Step, place: int, gets: int) -> LessonStep:
        """Return the look at a short column; across a zero, where ten could come from."""
        whole, part = (counts(p, self.mat) for p in (before.table.whole, before.table.part))
        need, held = digits(self.sum.part, self.sum.places)[place], whole[place]
        scene = short(whole, part, place, need, self.mat)
        slots = {"count": self._count(place, need), "place": self._place(place)}
        told = self._say("look_told", held=self._count(place, held))
        if not held:
            told = self._say("look_none", **slots)
        asked = [Asked(self._say("look_asks", **slots), self._say("look_says"))]
        if gets > place:
            none = self._place(gets)
            zones = tuple(
                replace(z, note=self._say("none", place=none), note_at=place + 1)
                if z.role == "whole"
                else z
                for z in scene.zones
            )
            scene = replace(scene, zones=zones)
        title = "look_one" if need == 1 else "look"
        return LessonStep(self._say(title, **slots), scene, told, tuple(asked))

    def _exchange(self, before: Step, step: Step, place: int, *, again: bool) -> LessonStep:
        gets = step.place or 0
        slots = {"ten": self._count(gets, 10), "one": self._count(gets + 1, 1)}
        key = "exchange"
        if gets > place and not again:
            key = "open"
            slots |= {
                "place": self._place(gets),
                "source": self.words(f"single.{PLACES[gets + 1]}"),
            }
        elif again:
            key = "exchange_now"
        held = counts(step.table.whole, self.mat)
        changed = [n if k in (gets, gets + 1) else 0 for k, n in enumerate(held)]
        asked = Asked(self._say("still"), f"{self._short_pieces(changed)}.")
        if key == "open":
            asked = Asked(self._say("zero_asks", place=self._place(place)))
        told = self._say("exchange_told", **slots)
        scene = exchanging(before, step, self.mat)
        return LessonStep(self._say(key, **slots), scene, told, (asked,))

    def _take(self, before: Step, taken: Sequence[Step]) -> LessonStep:
        scene = taking(before, taken, self.mat)
        if len(taken) == 1:
            place, count = taken[0].place or 0, taken[0].count
            left = taken[0].table.whole.counts[place]
            slots = {"count": self._count(place, count), "place": self._place(place)}
            told = self._say("take_one_told" if count == 1 else "take_told")
            asked = Asked(self._say("take_asks", **slots), self._count(place, left) + ".")
            return LessonStep(self._say("take", **slots), scene, told, (asked,))
        out = sum(step.count * 10 ** (step.place or 0) for step in taken)
        names = [self._place(step.place or 0) for step in taken]
        told = self._say(
            "take_all_told", first=names[0], then=phrases.joined(self.words, names[1:])
        )
        stays = taken[-1].table.whole.value
        asked = Asked(self._say("take_all_asks"), f"{stays}.")
        return LessonStep(self._say("take", count=out), scene, told, (asked,))

    def _read(self, step: Step) -> LessonStep:
        left, part = (counts(p, self.mat) for p in (step.table.whole, step.table.part))
        scene = both_parts(left, part, self.mat)
        key = "read_apart" if self.mat.apart else "read"
        asked = (Asked(self._say("read_asks"), f"{self.sum.part}."),)
        return LessonStep(self._say(key), scene, self._say("read_told"), asked)

    def _push(self, before: Step, *, last: bool) -> LessonStep:
        left, part = (counts(p, self.mat) for p in (before.table.whole, before.table.part))
        scene = together(left, part, self.mat)
        if last:
            scene = replace(scene, outcome=str(self.sum.whole))
        return LessonStep(
            self._say("push"), scene, self._say("push_told"), (Asked(self._say("push_asks")),)
        )

    def _back(self, before: Step, done: Sequence[Step]) -> LessonStep:
        scene = replace(back(before, done, self.mat), outcome=str(self.sum.whole))
        swaps = [
            self._say(
                "swap", ten=self._count(s.place or 0, 10), one=self._count((s.place or 0) + 1, 1)
            )
            for s in done
        ]
        title = (
            self._say("back", swap=swaps[0])
            if len(done) == 1
            else self._say("back_2" if len(done) == 2 else "back_3")
        )
        told = self._say("back_told")
        if len(done) > 1:
            told = f"{self._say('back_order', first=swaps[0], then=swaps[-1])} {told}"
        asked = Asked(self._say("back_asks"), self._say("back_says"))
        return LessonStep(title, scene, told, (asked,))
