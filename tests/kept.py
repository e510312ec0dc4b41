"""What is laid out for one test of a worker is kept for others.

A layout knows nothing of what was before it: a test in tests/test_kit.py compares processes. A
test that changes how things are laid out does so ``anew``.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import wraps
from importlib import import_module
from typing import Any

ROOM = "kitbuilder.layout."
LAID = {  # each before those that import it
    "lesson.lesson_pages": ("lesson_sheets", 128),
    "lesson.strip_pages": ("strip_sheets", 64),
    "lesson.writing_pages": ("writing_sheets", 128),
    "lesson.wrong_pages": ("wrong_sheets", 128),
    "mat.mat_plan": ("plan_mat", 128),
    "cards.answer_sheets": ("answer_sheets", 64),
    "cutting.scissors_page": ("scissors_pages", 64),
    "cutting.stack_page": ("stack_pages", 64),
    "assemble": ("lay_out", 64),
    "mini.mini_sheets": ("mini_sheets", 64),
}
"""What is kept, and how many of it."""

_off = False


def keep() -> None:
    """Keep what is laid out from now on; before tests import it."""
    for module, (name, most) in LAID.items():
        place = import_module(ROOM + module)
        setattr(place, name, _kept(getattr(place, name), most))


@contextmanager
def anew() -> Iterator[None]:
    """Lay out anew whatever is asked for."""
    global _off
    _off = True
    try:
        yield
    finally:
        _off = False


def _kept(lay: Callable[..., Any], most: int) -> Callable[..., Any]:
    from kitbuilder.design.style import Style

    found: dict[object, Any] = {}

    @wraps(lay)
    def once(*asked: Any) -> Any:  # noqa: ANN401  (whatever it lays out)
        if _off:
            return lay(*asked)
        # what is written in full, 3.00, makes no two sums differ, but what is shown of them
        key = tuple((a, repr(a.words.scale)) if isinstance(a, Style) else repr(a) for a in asked)
        sheets = found.pop(key, None) or lay(*asked)
        found[key] = sheets  # the last to go
        if len(found) > most:
            del found[next(iter(found))]
        return sheets

    return once
