"""What an audit of a day writes: a table on the terminal, and the files asked for."""

import os
import sys
import time
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TextIO

from .errors import SettingsError
from .report.data import SCHEMA, shot_data
from .shot import Shot
from .version import leapwright_version

STDOUT = Path("-")
RESULT_STARTS = (f'{{"schema": "{SCHEMA}"'.encode(), b"path,status,track,jump,")
"""How our own JSON and CSV begin: such a file may be written again, and is no track."""


@dataclass(frozen=True, slots=True)
class Outputs:
    """Where to write; None: not wanted, - : on stdout, then without the table.

    Check before the work, so that a wrong call is told at once and writes nothing.
    """

    report: Path | None
    json: Path | None
    csv: Path | None

    @property
    def files(self) -> list[Path]:
        """The files to be written."""
        page = [self.report / "index.html"] if self.report is not None else []
        return page + [path for path in (self.json, self.csv) if path not in (None, STDOUT)]

    def earlier(self) -> list[Path]:
        """Those files that hold a result of ours already, or a page: never to be read as shots."""
        return [path for path in self.files if path.suffix == ".html" or _is_result(path)]

    def check(self, inputs: Iterable[Path]) -> None:
        """Raise SettingsError where a file cannot be written, or would overwrite an input or another."""
        try:
            self._check(inputs)
        except OSError as error:  # a name too long, a folder closed to us
            reason = (error.strerror or str(error)).lower()
            raise SettingsError(f"{error.filename} cannot be written: {reason}") from None

    def _check(self, inputs: Iterable[Path]) -> None:
        if self.json == self.csv == STDOUT:
            raise SettingsError("only one of --json and --csv can go to stdout")
        if self.report == STDOUT:
            raise SettingsError("--report needs a folder: a page with pictures does not go to stdout")
        if self.report is not None and self.report.exists() and not self.report.is_dir():
            raise SettingsError(f"--report needs a folder; {self.report} is a file")
        given = {os.path.realpath(path) for path in inputs if "\0" not in str(path)}
        places = [os.path.realpath(path) for path in self.files]
        for path, place in zip(self.files, places, strict=True):
            if place in given:
                raise SettingsError(f"{path} is one of the shots: it would be written over")
            if places.count(place) > 1:
                raise SettingsError(f"{path} is named for two results")
            if path.is_dir():
                raise SettingsError(f"{path} is a folder; a file is needed")
            folder = next(parent for parent in path.absolute().parents if parent.exists())
            if not folder.is_dir():
                raise SettingsError(f"{path} cannot be written: {folder} is a file")
            if not os.access(folder, os.W_OK):
                raise SettingsError(f"{path} cannot be written: no permission in {folder}")
            if folder != path.absolute().parent and path in (self.json, self.csv):
                raise SettingsError(f"{path} cannot be written: there is no folder {path.parent}")

    def write(self, shots: Sequence[Shot]) -> None:
        """Write all that is wanted, the table last. Raises SettingsError where a file refuses, after the others."""
        from .report.data import as_json
        from .report.text import as_text, summary

        refused = []
        if self.json is not None:
            refused += _put(self.json, as_json(shots, leapwright_version()))
        if self.csv is not None:
            from .report.sheet import as_csv

            refused += _put(self.csv, as_csv(shots))
        if self.report is not None:
            from .report.page import Head, as_page

            document = {"schema": SCHEMA, "leapwright": leapwright_version(), "shots": list(map(shot_data, shots))}
            head = Head(leapwright_version(), time.strftime("%d %B %Y, %H:%M"), folder=self.report.absolute())
            refused += _put(self.report / "index.html", as_page(document, head))
        if STDOUT in (self.json, self.csv):
            say(summary(shots) + "\n", sys.stderr)
        else:
            say(as_text(shots, colour=_wants_colour(sys.stdout)), sys.stdout)
        if refused:
            raise SettingsError("; ".join(refused))


def say(text: str, stream: TextIO | None) -> None:
    """Print a text, in plain letters where the stream knows no others; nowhere where there is none.

    Raises SettingsError where the stream takes no more.
    """
    if stream is None:  # closed before Python began
        return
    encoding = getattr(stream, "encoding", None) or "utf-8"
    try:
        text.encode(encoding)
    except UnicodeError:
        for letter, plain in (("…", "."), ("–", "-"), ("→", ">"), ("·", "/"), ("²", "2"), ("±", "+/-")):
            text = text.replace(letter, plain)
        text = text.encode(encoding, "replace").decode(encoding)
    try:
        stream.write(text)
        stream.flush()
    except BrokenPipeError:  # whoever read it has seen enough; Python would complain once more at exit
        _close(stream)
    except OSError as error:
        _close(stream)
        raise SettingsError(f"stdout cannot be written: {(error.strerror or str(error)).lower()}") from None


def _close(stream: TextIO) -> None:
    """Send what is still held back nowhere; at exit Python would try once more, and complain."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _put(path: Path, text: str) -> list[str]:
    """Write a file; return what it refuses with, if it does."""
    if path == STDOUT:
        say(text, sys.stdout)
        return []
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", errors="replace", newline="")
    except OSError as error:
        return [f"{path} cannot be written: {(error.strerror or str(error)).lower()}"]
    return []


def _is_result(path: Path) -> bool:
    try:
        if not path.is_file():  # a pipe would be waited for
            return False
        with path.open("rb") as file:
            return file.read(64).startswith(RESULT_STARTS)
    except (OSError, ValueError):
        return False


def _wants_colour(stream: TextIO | None) -> bool:
    if stream is None or not stream.isatty():
        return False
    return not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
