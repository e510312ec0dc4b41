"""``python -m kitbuilder``: the command line, which may be stopped at any moment."""

import gc
import os
import signal
import sys

from kitbuilder.errors import STOPPED


def main() -> None:
    """Run the command line; Ctrl-C ends it in one line, even before it has begun.

    So does the system's wish that it end, as when a terminal is closed.
    """
    sys.unraisablehook = _unraisable
    asked = [signal.SIGTERM] + ([signal.SIGHUP] if hasattr(signal, "SIGHUP") else [])
    for number in asked:  # Windows has no SIGHUP; nohup has it passed by
        if signal.getsignal(number) == signal.SIG_DFL:
            signal.signal(number, signal.default_int_handler)
    gc.disable()  # nothing here goes round in a ring: looking for rings took a fifth of the time
    try:
        from kitbuilder.cli import main as run

        run(prog_name="kitbuilder")
    except KeyboardInterrupt:
        print(f"\n{STOPPED}", file=sys.stderr)
        sys.exit(130)


def _unraisable(error: "sys.UnraisableHookArgs") -> None:
    """Stop where Ctrl-C fell into a call from a library, which would go on regardless."""
    if error.exc_type is not KeyboardInterrupt:
        sys.__unraisablehook__(error)
        return
    print(f"\n{STOPPED}", file=sys.stderr, flush=True)
    os._exit(130)


if __name__ == "__main__":
    main()
