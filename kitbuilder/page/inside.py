"""The engine inside the packed page: called from JavaScript, answering in text and bytes."""

import json
from collections.abc import Callable

from kitbuilder.page.contract import Engine

MOST_TASKS = 2000
"""Cards that a browser makes at once: about ten seconds on a slow device."""

MOST_ANSWERS = 600
"""Answers that a browser reads at once: a class of 30 with twenty each, or a school's year of 60
with ten. Two hundred children took twenty seconds, a thousand more than three minutes.
"""

_engine = Engine(MOST_TASKS, MOST_ANSWERS)


def call(method: str, given: str, progress: Callable[[int, int], None]) -> tuple[str, bytes]:
    """Do what the screen calls for; return the answer as JSON, and a file or nothing."""
    answer, file = _engine.call(method, json.loads(given), progress)
    return json.dumps(answer), file
