"""Signals that ask to end: they raise where work may be left off, and wait where it may not.

Held back, a signal waits until it is let through; so what is begun, such as a file beside its target or a
worker with its folder, is finished or taken back. The kernel keeps the signals (POSIX.1-2017,
pthread_sigmask); where there is none, on Windows, they raise at once. Where Python can only drop what is
raised, in __del__ and in callbacks of weak references, the signal is sent again.
"""

import signal
import sys
import threading
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from types import FrameType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sys import UnraisableHookArgs

ENDINGS = tuple(getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name))
SHELL = 128
"""Exit codes above it are a signal's number, as shells count."""
STANDARD = (signal.SIG_DFL, signal.default_int_handler)
AGAIN = 0.01
"""Seconds after which a signal is sent again: by then the callback that dropped it has returned."""


class Ended(SystemExit):
    """What a signal raises: its code, the signal's number, and which signals were held back when it came."""

    def __init__(self, number: int, before: Iterable[int]) -> None:
        super().__init__(SHELL + number)
        self.number = number
        self.before = before


@contextmanager
def ends_in_order() -> Iterator[None]:
    """Let the signals that ask to end raise SystemExit with 128 + their number, once; held back at first.

    A signal that is ignored, as SIGHUP is under nohup, or that somebody else handles, is left alone; so is
    everything in a thread other than the main one.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    ours = [number for number in ENDINGS if signal.getsignal(number) in STANDARD]
    with held_back():
        before = {number: signal.signal(number, _leave) for number in ours}
        hook, sys.unraisablehook = sys.unraisablehook, _dropped
        try:
            yield
        except (Ended, RuntimeError) as error:
            # Raised while a class gives its fields their names, it comes wrapped (Python up to 3.11).
            ended = error if isinstance(error, Ended) else error.__cause__
            if not isinstance(ended, Ended):
                raise
            with suppress(OSError, ValueError, AttributeError):  # stderr is closed, or was when Python began
                sys.stderr.write("interrupted\n")
            raise ended from None
        finally:
            sys.unraisablehook = hook
            for number, handler in before.items():
                signal.signal(number, handler)


@contextmanager
def held_back() -> Iterator[None]:
    """Let no signal that asks to end interrupt the block."""
    before = _mask("SIG_BLOCK")
    try:
        yield
    finally:
        _mask("SIG_SETMASK", before)


@contextmanager
def let_through() -> Iterator[None]:
    """Let a signal that came, or comes, raise within the block."""
    before = _mask("SIG_UNBLOCK")
    try:
        yield
    finally:
        _mask("SIG_SETMASK", before)


def stand(code: int) -> None:
    """Let a signal from now on end with this code: results are written whole, so that its own would be untrue."""

    def finish(_number: int, _frame: FrameType | None) -> None:
        hold_to_the_end()
        raise SystemExit(code)

    if threading.current_thread() is threading.main_thread():
        for number in ENDINGS:
            if signal.getsignal(number) is _leave:
                signal.signal(number, finish)


def hold_to_the_end() -> None:
    """Hold the signals back until the process ends: what comes after its work is done changes nothing."""
    _mask("SIG_BLOCK")


def _leave(number: int, _frame: FrameType | None) -> None:
    before = _mask("SIG_BLOCK")  # a second signal must not stop what the first lets be taken back
    raise Ended(number, before)


def _dropped(unraisable: "UnraisableHookArgs") -> None:
    """Send a signal again that was raised where Python drops what is raised; pass on what else is dropped."""
    ended = unraisable.exc_value
    if not isinstance(ended, Ended) or not hasattr(signal, "pthread_kill"):
        sys.__unraisablehook__(unraisable)
        return
    again = threading.Timer(AGAIN, signal.pthread_kill, (threading.main_thread().ident, ended.number))
    again.daemon = True
    again.start()
    _mask("SIG_SETMASK", ended.before)


def _mask(how: str, signals: Iterable[int] = ENDINGS) -> Iterable[int]:
    """Change which signals are held back; return which were."""
    if not hasattr(signal, "pthread_sigmask"):
        return ()
    return signal.pthread_sigmask(getattr(signal, how), signals)
