"""How far a long run is: one line rewritten on a terminal, a line a shot elsewhere; how long it will still take.

Ten lines of our own rather than a library: inside Blender there is none, and nobody wants a bar in a farm's log.
"""

import sys
import time
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import PurePath

from .errors import SettingsError
from .report.labels import cut, printable
from .terminal import is_terminal, say, tell

LINE_WIDTH = 79
SOON = 3.0
"""Seconds from the start before which the rate is too uncertain to tell."""


@dataclass(slots=True)
class Progress:
    """Counts shots as they are done, on stderr.

    total   how many there are; done so many already, from a cache, before it began
    """

    total: int
    done: int = 0
    began: float = field(default_factory=time.monotonic)
    first: int = field(init=False)

    def __post_init__(self) -> None:
        self.first = self.done

    def step(self, path: str, *, unreadable: bool = False) -> None:
        """Say that one more shot is done."""
        self.done += 1
        name = printable(PurePath(path).stem) + " unreadable" * unreadable
        head = f"[{self.done}/{self.total}] "
        if not is_terminal(sys.stderr):
            tell(head + name)
            return
        left = self.left()
        room = LINE_WIDTH - len(head) - len(left)
        with suppress(SettingsError):
            say(f"\r\x1b[K{head}{cut(name, room)}{left}" if self.done < self.total else "\r\x1b[K", sys.stderr)

    def left(self) -> str:
        """Tell how long the rest will take at the rate so far; empty where that cannot be told."""
        spent, read = time.monotonic() - self.began, self.done - self.first
        if spent < SOON or not read:
            return ""
        seconds = spent / read * (self.total - self.done)
        return f", {seconds:.0f} s left" if seconds < 90 else f", {seconds / 60:.0f} min left"
