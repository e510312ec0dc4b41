"""The ready-made kit as it is laid out, once for all tests that look at its pages."""

from functools import lru_cache

from kitbuilder.design import load as designs
from kitbuilder.layout.model import Sheet
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request


def ready_request(paper: str = "a4", words: str = "en-GB", look: str = "plain") -> Request:
    """Return what asks for the ready-made kit."""
    press = Press(look=designs.look(look), words=designs.words(words))
    return Request(first_wishes().sums, fitted_paper(paper), press=press)


@lru_cache(24)
def ready_made(paper: str = "a4", words: str = "en-GB", look: str = "plain") -> tuple[Sheet, ...]:
    """Return the sheets of the ready-made kit."""
    request = ready_request(paper, words, look)
    return laid_out(held(request), request).sheets
