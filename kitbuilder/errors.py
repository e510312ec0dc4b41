"""Turns what cannot be done into one plain sentence for the person who asked."""

STOPPED = "Stopped; no file is left half written."
"""What is said after Ctrl-C."""


class RefusedError(Exception):
    """A wish that cannot be met.

    Its text is one sentence a parent can act on: what was given, what is allowed,
    what to do. The command line prints it and ends with status 2.
    """


class NameTooWideError(RefusedError):
    """A name that no label card or line holds; ``name`` is the name."""

    def __init__(self, name: str, paper: str) -> None:
        shown = name if len(name) <= 40 else name[:37] + "..."
        super().__init__(
            f"the name {shown!r} is too wide for its place on {paper}; "
            "shorten it, or choose a larger paper."
        )
        self.name = name
