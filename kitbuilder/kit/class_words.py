"""What the children of a class need next, in words: the same wherever it is told."""

from collections.abc import Iterator, Sequence

from kitbuilder.design.load import Words
from kitbuilder.number.mistakes.groups import Groups


def others_said(
    found: Groups, names: Sequence[str], words: Words, most: int | None = None
) -> Iterator[str]:
    """Yield what those need who are not taught together, each with their ``names``.

    A sentence names ``most`` of them, if given.
    """
    for key, children in found.others:
        each = most or len(children) or 1
        for start in range(0, len(children), each):
            said = ", ".join(names[at] for at in children[start : start + each])
            named = said.removesuffix(".")  # the sentence ends with a point
            yield words(f"marks.group.{key}", names=named)
