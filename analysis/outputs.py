"""What an audit of a day writes: a table on the terminal, and the files asked for."""

import os
import shutil
import sys
import time
from collections.abc import Iterable
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from .dailies.day import Day
from .ending import held_back, let_through, stand
from .errors import SettingsError
from .targets import STDOUT, check_folder, check_targets, is_ours
from .terminal import is_terminal, say, tell, wants_color
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
    junit: Path | None = None
    otio: Path | None = None
    force: bool = False

    @property
    def page(self) -> Path | None:
        """The page in the report's folder."""
        return self.report / "index.html" if self.report is not None else None

    @property
    def texts(self) -> tuple[Path | None, ...]:
        """The files that may go to stdout in place of the table."""
        return self.json, self.csv, self.junit, self.otio

    @property
    def files(self) -> list[Path]:
        """The files to be written."""
        return [path for path in (self.page, *self.texts) if path not in (None, STDOUT)]

    def earlier(self) -> list[Path]:
        """Return those files that hold a result of ours already: never to be read as shots."""
        return [path for path in self.files if is_ours(path)]

    def check(self, inputs: Iterable[Path]) -> None:
        """Raise SettingsError where a file cannot be written, or would take the place of what it must not."""
        if self.texts.count(STDOUT) > 1:
            raise SettingsError("only one of --json, --csv, --junit and --otio can go to stdout")
        if self.otio is not None and find_spec("opentimelineio") is None:
            raise SettingsError("--otio needs OpenTimelineIO: pip install 'leapwright[otio]'")
        if self.report == STDOUT:
            raise SettingsError("--report needs a folder: a page with pictures does not go to stdout")
        if self.report is not None and self.report.exists() and not self.report.is_dir():
            raise SettingsError(f"--report needs a folder; {self.report} is a file")
        check_targets(self.files, inputs, force=self.force)
        for path in self.texts:
            if path not in (None, STDOUT):
                check_folder(path)

    def write(self, day: Day, *, code: int = 0, fail_on: str | None = None, show: bool = False) -> None:
        """Write all that is wanted, files first and the table last; show: open the page then.

        code: what the call ends with, from when the files are written on. Raises SettingsError where a file
        refuses, after the others.
        """
        with let_through():
            texts = [(path, text) for path, text in self._texts(day, fail_on) if path is not None]
        refused = []
        with held_back():
            for path, text in sorted(texts, key=lambda one: one[0] == STDOUT):
                refused += _put(path, text)
            if texts and not refused:
                stand(code)
        if STDOUT in self.texts:
            tell(day.summary())
        else:
            from .report.text import as_text

            width = shutil.get_terminal_size().columns if is_terminal(sys.stdout) else None
            say(as_text(day, width=width, color=wants_color(sys.stdout)), sys.stdout)
        if refused:
            raise SettingsError("; ".join(refused))
        if self.page is not None:
            self._point(show)

    def _texts(self, day: Day, fail_on: str | None) -> list[tuple[Path | None, str]]:
        """Return the files that are wanted, and what is to be in them."""
        texts: list[tuple[Path | None, str]] = []
        if self.json is not None:
            from .dailies.document import as_json

            texts.append((self.json, as_json(day.document)))
        if self.csv is not None:
            from .report.sheet import as_csv

            texts.append((self.csv, as_csv(day.document)))
        if self.junit is not None:
            from .report.junit import as_junit

            texts.append((self.junit, as_junit(day, fail_on=fail_on)))
        if self.otio is not None:
            from .report.otio import as_otio

            texts.append((self.otio, as_otio(day.document)))
        if self.report is not None:
            from .report.page import as_page

            texts.append((self.page, as_page(day, _head(self.report, day.document))))
        return texts

    def _point(self, show: bool) -> None:
        """Say where the page is, last of all; open it where that is wanted."""
        assert self.page is not None
        said = f"Page: {self.page}"
        if show and not _opened(self.page.absolute().as_uri()):
            said += " (there is no browser here to open it)"
        elif not show:
            said += " (open it in a browser, or add --open)"
        tell(said) if STDOUT in self.texts else say(said + "\n", sys.stdout)


def _opened(address: str) -> bool:
    import webbrowser  # seldom wanted, and slow to load

    return webbrowser.open(address)


def _head(folder: Path, document: Any) -> Any:
    from .report.page import Head

    made = time.strftime("%d %B %Y, %H:%M").lstrip("0")
    settings = tuple((str(name), str(value)) for name, value in document.get("settings", {}).items())
    version = str(document.get("leapwright") or leapwright_version())
    return Head(version, made, str(document.get("show", "")), settings, Path(os.path.realpath(folder)))


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
