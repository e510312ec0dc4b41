"""Packs of cards for tasks and wishes, with the adult's answers."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import TypeVar

from kitbuilder.design.load import Words
from kitbuilder.kit import phrases
from kitbuilder.kit.card_records import (
    Answer,
    Back,
    BlankCard,
    CardWishes,
    FactAnswer,
    FactCard,
    LabelCard,
    Pack,
    Pupil,
    RecordSheet,
    SaidCard,
    Stage,
    StoryCard,
    Task,
    TaskCard,
    Wrong,
)
from kitbuilder.kit.stories import Story, stories
from kitbuilder.number import PLACES, Sum
from kitbuilder.number.exchange import exchanges
from kitbuilder.number.facts import CROSSING_TEN, TEN_AND_CROSSING, Fact
from kitbuilder.number.mistakes.foreseen import Mistake, WrongAnswer, foreseen
from kitbuilder.number.mistakes.telling import alike
from kitbuilder.number.written import columns, small_ones

C = TypeVar("C", TaskCard, FactCard)

MOST_WRONG = 3
"""Wrong answers foreseen for one sum on the adult's sheet."""

LONGEST_OWN = 24
"""Letters of a name along a card's edge; the answers have it whole."""

_ADDED = ("build", "build", "push", "exchange", "left")
# The pictograms beside what is to be done on an addition card.

ALIKE = "answers.alike_note"
"""The note on a sum to which two mistakes give one answer."""


HUNDREDS = 3
"""Places of the largest sums whose ones are as wide as on any sheet."""


def built(tasks: Iterable[Task | TaskCard]) -> tuple[Sum, ...]:
    """Return the sums of ``tasks`` that pieces serve, each once; none where all are only written.

    Where any is built, those only written count too: a mistake is shown with pieces. They bring
    no thousands of their own, which would make all ones small.
    """
    shown = [task for task in tasks if task.sum.with_pieces]
    most = max((task.sum.places for task in shown if task.stage != "written"), default=0)
    held = max(most, HUNDREDS) if most else 0
    return tuple(dict.fromkeys(task.sum for task in shown if task.sum.places <= held))


def kit_pack(sums: tuple[Sum, ...], wishes: CardWishes, words: Words) -> Pack:
    """Return the cards of one family: no label, the stage as wished."""
    return _pack("", "", tuple(Task(sum_, wishes.stage) for sum_ in sums), wishes, words)


def pupil_packs(pupils: Iterable[Pupil], wishes: CardWishes, words: Words) -> tuple[Pack, ...]:
    """Return one pack for each pupil, headed by a label card with the name.

    The answer to a sum that several have is one for all of them: it knows the mistakes of each.
    """
    pupils, known = tuple(pupils), dict[Sum, dict[Mistake, None]]()
    for task in (task for pupil in pupils for task in pupil.tasks):
        known.setdefault(task.sum, {}).update(dict.fromkeys(task.practises))

    def shared(task: Task) -> Task:
        return replace(task, practises=tuple({**dict.fromkeys(task.practises), **known[task.sum]}))

    short = _short_names([pupil.name for pupil in pupils])
    return tuple(
        replace(
            _pack(pupil.name, short[pupil.name], tuple(map(shared, pupil.tasks)), wishes, words),
            why=_why(pupil, words),
        )
        for pupil in pupils
    )


def _why(pupil: Pupil, words: Words) -> str:
    """Return why a pupil has this pack, and why some sums are written before pieces are used."""
    why = pupil.why
    if not why and (own := dict.fromkeys(m for task in pupil.tasks for m in task.practises)):
        names = [phrases.mistaken(words, key, place) for key, place in own]
        why = words("pack_why.practises_these", mistakes="; ".join(names))
    stages = [task.stage for task in pupil.tasks]
    first = stages[:1] == ["written"] and set(stages) != {"written"}
    told = words("pack_why.written_first") if first else ""
    return f"{why} {told}".strip()


def _pack(name: str, short: str, tasks: tuple[Task, ...], wishes: CardWishes, words: Words) -> Pack:
    kinds = wishes.kinds
    asked = tasks if "tasks" in kinds else ()
    facts: tuple[Fact, ...] = ()
    if "facts" in kinds:
        facts = CROSSING_TEN if wishes.facts == "crossing-ten" else TEN_AND_CROSSING
    largest = max((task.sum.places for task in tasks), default=3)
    backed = wishes.backs != "separate"
    return Pack(
        name=name,
        label=_label(name, len(asked), len(facts), words) if name and (asked or facts) else None,
        tasks=_owned(short, (task_card(task, wishes, words) for task in asked), words),
        facts=_owned(short, (_fact_card(fact, backed, words) for fact in facts), words),
        said=tuple(_said_cards(tasks, kinds, words)),
        arrows=arrow_numbers(largest) if "arrows" in kinds else (),
        digits=loose_digits(task.sum for task in tasks) if "digits" in kinds else (),
        record=_record(largest, words) if "record" in kinds else None,
        sheet=tuple(task.sum for task in tasks) if "sheet" in kinds else (),
        answers=tuple(_answers(tasks, kinds, words)),
        fact_answers=tuple(_fact_answer(fact, words) for fact in facts),
        key=_key(asked, words) if name else "",
        blank=replace(blank_card(asked, wishes, words), own=short) if asked else None,
    )


def _said_cards(
    tasks: tuple[Task, ...], kinds: Sequence[str], words: Words
) -> Iterator[SaidCard | StoryCard]:
    """Yield the story cards and the addition cards that are wished for."""
    sums = tuple(task.sum for task in tasks)
    if "stories" in kinds:
        foot = f"{words('stories.pieces')} {words('stories.say')}"
        for told in stories(sums, words):
            yield StoryCard(told.kind, words(f"stories.{told.kind}"), told.text, told.sum, foot)
    if "additions" in kinds:
        for sum_ in sums:
            lines = words.lines("addition.lines", part=sum_.part, rest=sum_.rest)
            yield SaidCard(f"{sum_.part} + {sum_.rest}", lines, _ADDED)


def _answers(tasks: tuple[Task, ...], kinds: Sequence[str], words: Words) -> Iterator[Answer]:
    """Yield the answers to the tasks, to the stories and to the additions that are wished for."""
    sums = tuple(task.sum for task in tasks)
    if "tasks" in kinds:
        yield from (answer(task.sum, words, task.practises) for task in tasks)
    if "stories" in kinds:
        yield from (_story_answer(told, words) for told in stories(sums, words))
    if "additions" in kinds:
        yield from (_addition_answer(sum_, words) for sum_ in sums)


def _addition_answer(sum_: Sum, words: Words) -> Answer:
    """Return the answer to an addition card: both parts, the exchanges upward, and the whole."""
    upward = tuple(
        words(
            "addition.swap",
            source=words(f"place.{PLACES[place - 1]}"),
            target=words(f"single.{PLACES[place]}"),
        )
        for place, small in enumerate(small_ones(sum_))
        if small
    )
    return Answer(
        sum_,
        columns(sum_.short()),
        upward,
        left=words("mat.add.second"),
        out=words("mat.add.first"),
        written=f"{sum_.part} + {sum_.rest} = {sum_.whole}",
        asked=False,
        added=True,
    )


def _story_answer(told: Story, words: Words) -> Answer:
    """Return the answer to a story, worked as it is done: what is told is taken from the whole."""
    heads = {
        "take": ("back.rest", "back.part"),
        "missing": ("back.part", "back.rest"),
        "difference": ("stories.more", "stories.smaller"),
    }
    left, out = map(words, heads[told.kind])
    kind = words(f"stories.{told.kind}")
    worked = answer(told.worked, words)
    return replace(worked, told=kind, written=told.written, note="", left=left, out=out)


def _owned(short: str, cards: Iterable[C], words: Words) -> tuple[C, ...]:
    """Return ``cards`` with the pupil's name and a number each, so that a mixed stack is sorted."""
    held = tuple(cards)
    if not short:
        return held
    count = len(held)
    return tuple(
        replace(card, own=words("label.own", name=short, number=number, count=count))
        for number, card in enumerate(held, 1)
    )


def _short_names(names: Sequence[str]) -> dict[str, str]:
    """Return each name as small cards have it, cut short, no two alike where a cut can do that.

    The last word stays, as it may alone tell two apart; else as much of the end as does.
    """
    for first in (None, *range(LONGEST_OWN - 5, 2, -1)):
        found = {name: _short(name, first) for name in names}
        if len({*found.values()}) == len(found):
            return found
    return {name: _short(name) for name in names}


def _short(name: str, first: int | None = None) -> str:
    """Return a name with its ``first`` letters and its end, or with its last word."""
    if len(name) <= LONGEST_OWN:
        return name
    if first is not None:
        return f"{name[:first].rstrip()}…{name[first + 1 - LONGEST_OWN :].lstrip()}"
    begin, _, last = name.rpartition(" ")
    end = f"… {last}" if begin and len(last) < LONGEST_OWN // 2 else "…"
    return f"{name[: LONGEST_OWN - len(end)].rstrip()}{end}"


def _key(asked: tuple[Task, ...], words: Words) -> str:
    """Return what is left in each task, by its number: "1. 23   2. 157"."""
    return "   ".join(
        words("answers.key_item", number=number, rest=task.sum.rest).replace(" ", "\xa0")
        for number, task in enumerate(asked, 1)
    )


def task_card(task: Task, wishes: CardWishes, words: Words) -> TaskCard:
    """Return the card that asks ``task``, with its back where backs are wished for."""
    sum_ = task.sum
    whole, part = {"whole": sum_.whole}, {"part": sum_.part}
    build = words("task.draw", **whole) if task.stage == "drawn" else words("task.build", **whole)
    lines = (build, words("task.take", **part), *_after(task.stage, words))
    return TaskCard(
        sum=sum_,
        stage=task.stage,
        lines=() if task.stage == "written" else lines,
        headings=_headings_of(sum_, words) if wishes.headings else (),
        back=None if wishes.backs == "separate" else _back(sum_, words),
    )


def blank_card(tasks: Sequence[Task], wishes: CardWishes, words: Words) -> BlankCard:
    """Return the card for a sum of one's own, as large as the largest of ``tasks``."""
    places = max(max(task.sum.places for task in tasks), 2)
    return own_card(places, words, tasks[-1].stage, headings=wishes.headings)


def own_card(
    places: int, words: Words, stage: Stage = "pieces", *, headings: bool = False
) -> BlankCard:
    """Return the card for a sum of one's own of so many ``places``, practised at ``stage``."""
    build = words("task.draw_own") if stage == "drawn" else words("task.build_own")
    lines = (build, words("task.take_own"), *_after(stage, words))
    named = _headings(places, words) if headings else ()
    return BlankCard(places, stage, () if stage == "written" else lines, named)


def _after(stage: str, words: Words) -> tuple[str, ...]:
    """Return what is to be done after the part was taken out."""
    if stage in ("both", "drawn"):  # beside columns there is room for few words
        check = words("task.add_beside") if stage == "drawn" else words("task.check_beside")
        return words("task.exchange_beside"), words("task.left_beside"), check
    return words("task.exchange"), words("task.left"), words("task.check")


def _back(sum_: Sum, words: Words) -> Back:
    slots = {"whole": sum_.whole, "part": sum_.part, "rest": sum_.rest}
    return Back(
        sum_,
        columns(sum_.short()),
        words("back.part"),
        words("back.rest"),
        _exchanges(sum_, words),
        words("back.check", **slots),
        words("back.adult"),
        words("back.end"),
    )


def _exchanges(sum_: Sum, words: Words) -> tuple[str, ...]:
    """Return the exchanges of ``sum_`` in the order they are made."""
    return tuple(
        words("answers.swap", **phrases.swap(words, made.source)) for made in exchanges(sum_)
    )


def _headings_of(sum_: Sum, words: Words) -> tuple[str, ...]:
    """Return the headings of the columns that ``sum_`` is written in: for 99.9 no hundredths."""
    short = sum_.short()
    if short.scale.decimals != words.scale.decimals:
        words = words.counting(short.scale.decimals)
    return _headings(short.places, words)


def _headings(places: int, words: Words) -> tuple[str, ...]:
    return tuple(words(f"column.{place}") for place in PLACES[:places])


def answer(sum_: Sum, words: Words, own: Sequence[Mistake] = ()) -> Answer:
    """Return ``sum_`` worked for the adult, with the wrong answers most likely to come.

    First come those of the child's ``own`` mistakes.
    """
    wrong = tuple(_wrong(likely, sum_, words) for likely in foreseen(sum_, own)[:MOST_WRONG])
    return Answer(
        sum_,
        columns(sum_.short()),
        _exchanges(sum_, words),
        noted(sum_, words),
        wrong,
        words("back.rest"),
        words("back.part"),
        words("answers.says"),
        words("answers.asks"),
    )


def _wrong(likely: WrongAnswer, sum_: Sum, words: Words) -> Wrong:
    first, *more = likely.keys[:2]
    name = phrases.mistake(words, first, sum_, likely.place)
    others = [phrases.mistake(words, key, sum_) for key in more]
    names = words("answers.also", name=name, other=others[0]) if others else ""
    return Wrong(likely.answer, name, phrases.asks(words, likely.keys[0], sum_), names)


def note(sum_: Sum) -> str | None:
    """Return the key of the note on why ``sum_`` teaches little, or None if it teaches."""
    if sum_.part == 0:
        return "answers.part_zero_note"
    if sum_.rest == 0:
        return "answers.part_whole_note"
    if not exchanges(sum_):
        return "answers.no_exchange_note"
    return None if alike(sum_) is None else ALIKE


def noted(sum_: Sum, words: Words) -> str:
    """Return why ``sum_`` teaches little, empty if it teaches; with the answer that is two's."""
    key, two = note(sum_), alike(sum_)
    return words(key, answer="" if two is None else sum_.number(two)) if key else ""


def _fact_card(fact: Fact, backed: bool, words: Words) -> FactCard:
    key = "fact.hint" if fact.crosses_ten else "fact.hint_ten"
    hint = words.lines(key, whole=fact.whole)
    return FactCard(fact, hint, _fact_steps(fact) if backed else ())


def _fact_steps(fact: Fact) -> tuple[str, ...]:
    """Return the fact's steps, then the fact: 13 − 3 = 10, 10 − 2 = 8, so 13 − 5 = 8."""
    if not fact.crosses_ten:
        return (f"{fact} = {fact.rest}",)
    first, second = fact.through_ten
    return (
        f"{fact.whole} − {first} = 10",
        f"10 − {second} = {fact.rest}",
        f"{fact} = {fact.rest}",
    )


def _fact_answer(fact: Fact, words: Words) -> FactAnswer:
    said = words("fact.one_step")
    if fact.crosses_ten:
        first, second = fact.through_ten
        said = words("fact.two_steps", first=first, second=second, rest=fact.rest)
    return FactAnswer(f"{fact} = {fact.rest}", said)


def _label(name: str, tasks: int, facts: int, words: Words) -> LabelCard:
    counts = (("label.sums", tasks), ("label.facts", facts))
    return LabelCard(name, tuple(words.count(key, n) for key, n in counts if n))


def _record(places: int, words: Words) -> RecordSheet:
    return RecordSheet(words("title.record"), _headings(max(places, 2), words))


def arrow_numbers(places: int) -> tuple[int, ...]:
    """Return the numbers on arrow cards: 1 to 9 of each place, hundreds at least."""
    return tuple(d * 10**k for k in reversed(range(max(places, 3))) for d in range(1, 10))


def loose_digits(sums: Iterable[Sum]) -> tuple[str, ...]:
    """Return digits and signs that lay the written columns of any one of ``sums``.

    Each digit is there as often as any of the sums needs it at once: in the whole, the part,
    the rest and the numbers that replace digits of the whole.
    """
    most: Counter[str] = Counter()
    points: tuple[str, ...] = ()
    for sum_ in sums:
        short = sum_.short()
        marks = "".join(str(c.marks[-1]) for c in columns(short) if c.marks)
        numbers = "".join(map(short.in_columns, (short.whole, short.part, short.rest)))
        most |= Counter(f"{numbers}{marks}")
        if short.scale.decimals:
            points = (sum_.scale.point,) * 3
    return (*(d for d in "0123456789" for _ in range(most[d])), *points, "−", "=", "+")
