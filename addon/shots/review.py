"""A review of a folder in a process of its own: this Blender, its scene and its user go on meanwhile."""

import queue
import re
import subprocess
import sys
import threading
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

import bpy

from ..inside import in_blender

REVIEW_FOLDER, REVIEW_PAGE = "leapwright_review", "index.html"
"""Where the page lies in the folder of the shots."""
DONE = re.compile(r"\[(\d+)/(\d+)\] (.*)")
UNREADABLE_EXIT = 3
"""Exit code: done, but for shots that could not be read."""


def call_of(shots: Path, report: Path) -> list[str]:
    """Return the call that audits a folder and writes its page: by Blender's own program, or by Python with bpy in
    it.
    """
    words = ["audit", str(shots), "--report", str(report)]
    if in_blender():
        ours = __package__.removesuffix(".addon.shots")  # enabled there, too, where preferences were not saved
        return [bpy.app.binary_path, "--background", "--addons", ours, "--command", "leapwright", *words]
    return [sys.executable, "-c", f"from {__package__.rpartition('.')[0]}.command import command_line; command_line()",
            *words]  # fmt: skip


@dataclass(slots=True)
class Review:
    """A process that audits a folder, and what it has said so far.

    done, total   shots; total is 0 until the first is done
    name          of the shot that was done last
    said          what it said besides, the last line of it
    """

    shots: Path
    done: int = 0
    total: int = 0
    name: str = ""
    said: str = ""
    process: subprocess.Popen[str] | None = None
    lines: "queue.SimpleQueue[str]" = field(default_factory=queue.SimpleQueue)

    @property
    def page(self) -> Path:
        """The page that it writes."""
        return self.shots / REVIEW_FOLDER / REVIEW_PAGE

    def start(self) -> None:
        """Start the process. Raises OSError where that cannot be."""
        self.process = subprocess.Popen(
            call_of(self.shots, self.shots / REVIEW_FOLDER), stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE, text=True, encoding="utf-8", errors="replace",
        )  # fmt: skip
        threading.Thread(target=_read, args=(self.process, self.lines), daemon=True).start()

    def look(self) -> int | None:
        """Take in what was said meanwhile; return the exit code once it has ended."""
        assert self.process is not None
        code = self.process.poll()
        while True:
            try:
                line = self.lines.get_nowait()
            except queue.Empty:
                break
            if found := DONE.match(line):
                self.done, self.total, self.name = int(found[1]), int(found[2]), found[3]
            elif line.strip():
                self.said = line.strip()
        return code

    def stop(self) -> None:
        """End the process, if it is still there; its workers go with it."""
        if self.process is None or self.process.poll() is not None:
            return
        self.process.terminate()
        with suppress(subprocess.TimeoutExpired):
            self.process.wait(10.0)
            return
        self.process.kill()
        self.process.wait()


def _read(process: "subprocess.Popen[str]", lines: "queue.SimpleQueue[str]") -> None:
    assert process.stderr is not None
    for line in process.stderr:
        lines.put(line)
