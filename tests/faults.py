"""Turns a call into one that is killed, or whose disk fails, at a chosen moment."""

import os
import resource
import signal
import sys
from collections.abc import Callable
from typing import Any

TOUCHES = {"open", "os.mkdir", "os.rename", "os.remove", "os.rmdir", "fcntl.flock"}
"""What Python tells its auditors before it asks the system to touch files."""

DONE, REFUSED, ESCAPED = 0, 2, 3


def in_child(call: Callable[[], object]) -> int:
    """Run ``call`` in a forked process and return how it ended: a status, or minus a signal."""
    from kitbuilder.errors import RefusedError

    child = os.fork()
    if child:
        return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    status = ESCAPED
    try:
        call()
        status = DONE
    except RefusedError:
        status = REFUSED
    finally:
        os._exit(status)


def touches(call: Callable[[], object]) -> int:
    """Return how many file operations ``call`` takes, fewer than 200."""

    def counted() -> None:
        seen: list[str] = []
        sys.addaudithook(lambda event, _: seen.append(event) if event in TOUCHES else None)
        call()
        os._exit(len(seen))

    return in_child(counted)


def at_touch(number: int, strike: Callable[[], None], lasting: bool = False) -> None:
    """Call ``strike`` before file operation ``number`` (from 0), or from there on if ``lasting``.

    It cannot be taken back: for a process of its own.
    """
    seen = -1

    def hook(event: str, args: tuple[Any, ...]) -> None:
        nonlocal seen
        if event in TOUCHES:
            seen += 1
            if seen == number or (lasting and seen > number):
                strike()

    sys.addaudithook(hook)


def kill() -> None:
    """End this process as a power cut would."""
    os.kill(os.getpid(), signal.SIGKILL)


def fail(number: int) -> Callable[[], None]:
    """Return what raises the system's error ``number``."""

    def strike() -> None:
        raise OSError(number, os.strerror(number))

    return strike


def full_after(size: int, killed: bool) -> None:
    """Let no file of this process grow past ``size`` bytes: writing fails there, or kills it."""
    signal.signal(signal.SIGXFSZ, signal.SIG_DFL if killed else signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))
