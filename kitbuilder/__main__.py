"""``python -m kitbuilder``: the command line, which may be stopped at any moment."""

import gc
import os
import signal
import sys
from contextlib import suppress
from types import FrameType

from kitbuilder.errors import STOPPED, EndedError, status_of


def main() -> None:
    """Run the command line; Ctrl-C ends it in one line and 130, even before it has begun.

    So does the system's wish that it end (143), as when a terminal is closed (129).
    """
    sys.unraisablehook = _unraisable
    asked = [signal.SIGTERM] + ([signal.SIGHUP] if hasattr(signal, "SIGHUP") else [])
    for number in asked:  # Windows has no SIGHUP; nohup has it passed by
        if signal.getsignal(number) == signal.SIG_DFL:
            signal.signal(number, _end)
    gc.disable()  # nothing here goes round in a ring: looking for rings took a fifth of the time
    try:
        from kitbuilder.cli import main as run

        run(prog_name="kitbuilder")
    except KeyboardInterrupt as stopped:
        _say_stopped()
        sys.exit(status_of(stopped))


def _end(number: int, frame: FrameType | None) -> None:
    raise EndedError(number)


def _say_stopped() -> None:
    with suppress(OSError):  # the terminal may be gone
        print(f"\n{STOPPED}", file=sys.stderr, flush=True)


def _unraisable(error: "sys.UnraisableHookArgs") -> None:
    """Stop where Ctrl-C fell into a call from a library, which would go on regardless."""
    if not issubclass(error.exc_type, KeyboardInterrupt):
        sys.__unraisablehook__(error)
        return
    _say_stopped()
    os._exit(status_of(error.exc_value))


if __name__ == "__main__":
    main()
