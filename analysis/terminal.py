"""The terminal: text for whoever runs the command, whatever stdout and stderr are tied to, if to anything."""

import os
import sys
from contextlib import suppress
from typing import TextIO

from .ending import let_through
from .errors import SettingsError
from .report.labels import printable

PLAIN = (("…", "."), ("–", "-"), ("→", ">"), ("·", "/"), ("²", "2"), ("±", "+/-"), ("×", "x"), ("↑", "^"), ("↓", "v"))
"""What is printed where a stream knows no better."""


def say(text: str, stream: TextIO | None) -> None:
    """Print a text, in plain letters where the stream knows no others; nowhere where there is none.

    Raises SettingsError where the stream takes no more; one that nobody reads any more is left in peace.
    """
    if stream is None:  # closed before Python began
        return
    encoding = getattr(stream, "encoding", None) or "utf-8"
    try:
        text.encode(encoding)
    except UnicodeError:
        for letter, plain in PLAIN:
            text = text.replace(letter, plain)
        text = text.encode(encoding, "replace").decode(encoding)
    try:
        with let_through():  # whoever reads it may be slow
            stream.write(text)
            stream.flush()
    except BrokenPipeError:  # whoever read it has seen enough; Python would complain once more at exit
        _close(stream)
    except (OSError, ValueError) as error:
        _close(stream)
        reason = (getattr(error, "strerror", None) or str(error)).lower()
        raise SettingsError(f"stdout cannot be written: {reason}") from None


def tell(text: str) -> None:
    """Print lines on stderr, made printable; never fails, for there is nowhere to say so."""
    lines = [printable(line) for line in text.removesuffix("\n").split("\n")]
    with suppress(SettingsError):
        say("\n".join(lines) + "\n", sys.stderr)


def is_terminal(stream: TextIO | None) -> bool:
    """Say whether a person looks at a stream."""
    try:
        return stream is not None and stream.isatty()
    except ValueError:  # closed
        return False


def wants_color(stream: TextIO | None) -> bool:
    """Say whether colors are seen there, and wanted (NO_COLOR, no-color.org)."""
    return is_terminal(stream) and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def _close(stream: TextIO) -> None:
    """Send what is still held back nowhere; at exit Python would try once more, and complain."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
