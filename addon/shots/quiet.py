"""Keep Blender off stdout; it prints when it starts, and when it opens a file."""

import ctypes
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stdout, suppress
from pathlib import Path


@contextmanager
def silent() -> Iterator[None]:
    """Keep what Blender prints, from C and from Python, off stdout: there is the table."""
    flush()
    kept = os.dup(1)
    with Path(os.devnull).open("w") as nowhere:
        os.dup2(nowhere.fileno(), 1)
        try:
            with redirect_stdout(nowhere):
                yield
        finally:
            flush()
            os.dup2(kept, 1)
            os.close(kept)


def flush() -> None:
    """Send on what Python and the C library still hold back for stdout."""
    sys.stdout.flush()
    with suppress(OSError, AttributeError):
        ctypes.CDLL("ucrtbase" if os.name == "nt" else None).fflush(None)
