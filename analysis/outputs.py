"""What an audit of a day writes: a table on the terminal, and the files asked for."""

import sys
import time
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from .ending import let_through
from .errors import SettingsError
from .report.data import SCHEMA, as_json, shot_data
from .shot import Shot
from .targets import STDOUT, check_folder, check_targets, is_ours
from .terminal import say, tell, wants_color
from .version import leapwright_version
from .writing import write_whole


@dataclass(frozen=True, slots=True)
class Outputs:
    """Where to write; None: not wanted, - : on stdout, then without the table.

    force: also over files that are no results of ours. Check before the work, so that a wrong call is told at
    once and writes nothing.
    """

    report: Path | None = None
    json: Path | None = None
    csv: Path | None = None
    force: bool = False

    @property
    def page(self) -> Path | None:
        """The page in the report's folder."""
        return self.report / "index.html" if self.report is not None else None

    @property
    def files(self) -> list[Path]:
        """The files to be written."""
        return [path for path in (self.page, self.json, self.csv) if path not in (None, STDOUT)]

    def earlier(self) -> list[Path]:
        """Those files that hold a result of ours already: never to be read as shots."""
        return [path for path in self.files if is_ours(path)]

    def check(self, inputs: Iterable[Path]) -> None:
        """Raise SettingsError where a file cannot be written, or would take the place of what it must not."""
        if self.json == self.csv == STDOUT:
            raise SettingsError("only one of --json and --csv can go to stdout")
        if self.report == STDOUT:
            raise SettingsError("--report needs a folder: a page with pictures does not go to stdout")
        if self.report is not None and self.report.exists() and not self.report.is_dir():
            raise SettingsError(f"--report needs a folder; {self.report} is a file")
        check_targets(self.files, inputs, force=self.force)
        for path in (self.json, self.csv):
            if path not in (None, STDOUT):
                check_folder(path)

    def write(self, shots: Sequence[Shot]) -> None:
        """Write all that is wanted, the table last. Raises SettingsError where a file refuses, after the others."""
        from .report.text import as_text, summary

        with let_through():
            texts = [(path, text) for path, text in self._texts(shots) if path is not None]
        refused = []
        for path, text in texts:
            refused += _put(path, text)
        if STDOUT in (self.json, self.csv):
            tell(summary(shots))
        else:
            say(as_text(shots, colour=wants_color(sys.stdout)), sys.stdout)
        if refused:
            raise SettingsError("; ".join(refused))

    def _texts(self, shots: Sequence[Shot]) -> list[tuple[Path | None, str]]:
        """The files that are wanted, and what is to be in them."""
        texts = []
        if self.json is not None:
            texts.append((self.json, as_json(shots, leapwright_version())))
        if self.csv is not None:
            from .report.sheet import as_csv

            texts.append((self.csv, as_csv(shots)))
        if self.report is not None:
            from .report.page import Head, as_page

            document = {"schema": SCHEMA, "leapwright": leapwright_version(), "shots": list(map(shot_data, shots))}
            head = Head(leapwright_version(), time.strftime("%d %B %Y, %H:%M"), folder=self.report.absolute())
            texts.append((self.page, as_page(document, head)))
        return texts


def _put(path: Path, text: str) -> list[str]:
    """Write a file; return what it refuses with, if it does."""
    if path == STDOUT:
        say(text, sys.stdout)
        return []
    try:
        write_whole(path, text)
    except OSError as error:
        return [f"{path} cannot be written: {(error.strerror or str(error)).lower()}"]
    return []
