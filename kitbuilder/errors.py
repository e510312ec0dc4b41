"""Turns what cannot be done into one plain sentence for the person who asked."""


class RefusedError(Exception):
    """A wish that cannot be met.

    Its text is one sentence a parent can act on: what was given, what is allowed,
    what to do. The command line prints it and ends with status 2.
    """
