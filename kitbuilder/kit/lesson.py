"""Turns a sum's steps into what the adult does and says in the first lesson."""

from collections.abc import Iterator

from kitbuilder.designs import Words
from kitbuilder.kit import phrases
from kitbuilder.kit.records import Say
from kitbuilder.number import PLACES, Sum, digits
from kitbuilder.number.exchange import exchanges
from kitbuilder.number.steps import Act, Step, short_place, steps


def guide(sum_: Sum, words: Words) -> tuple[Say, ...]:
    """Return the guide to the first lesson with ``sum_``, in the order it is read."""
    first_short = exchanges(sum_)[-1].target if exchanges(sum_) else 0
    return (
        Say("title", words("guide.title", sum=sum_)),
        Say("body", words("guide.lead")),
        Say("heading", words("guide.before")),
        *_numbered(words.lines("guide.before_steps")),
        Say("heading", words("guide.lesson")),
        *_numbered(_lesson(sum_, words)),
        Say("heading", words("guide.after")),
        *_numbered(words.lines("guide.after_steps", place=words(f"place.{PLACES[first_short]}"))),
    )


def _numbered(sentences: Iterator[str] | tuple[str, ...]) -> Iterator[Say]:
    for number, sentence in enumerate(sentences, 1):
        yield Say("step", sentence, f"{number}.")


def _lesson(sum_: Sum, words: Words) -> Iterator[str]:
    asked: set[int] = set()
    done = steps(sum_)
    for position, step in enumerate(done):
        if step.act is Act.EXCHANGE:
            short = short_place(done[position:])
            if short not in asked:
                asked.add(short)
                needed = digits(sum_.part, sum_.places)[short]
                yield words(
                    "lesson.look",
                    count=phrases.count(words, short, needed),
                    place=words(f"place.{PLACES[short]}"),
                )
        yield _sentence(step, sum_, words)


def _sentence(step: Step, sum_: Sum, words: Words) -> str:
    slots: dict[str, object] = {"whole": sum_.whole, "part": sum_.part, "rest": sum_.rest}
    slots["pieces"] = phrases.pieces(words, step.table.whole)
    if step.place is not None:
        slots["count"] = phrases.count(words, step.place, step.count)
        slots |= phrases.swap(words, step.place + 1) if step.place < 3 else {}
    return words(f"lesson.{step.act.value}", **slots)
