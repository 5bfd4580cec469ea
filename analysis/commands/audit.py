"""`leapwright audit`: read the day's shots, audit every jump, write what was asked for."""

import argparse
import sys
from contextlib import closing, suppress
from pathlib import Path
from typing import Any

from ..day import AuditEach, Way, audit_files
from ..errors import SettingsError
from ..files import BLEND, MOTION, named_files
from ..finding import SEVERITIES
from ..options.day import add as add_options
from ..options.day import extras_of, outputs_of, settings_of
from ..report.labels import printable
from ..shot import Shot
from ..sources import READERS
from ..terminal import is_terminal, say, tell

SUMMARY = "read shots, find every jump in them, say what is off and how to mend it"
EXAMPLE = "leapwright audit dailies/ --report report/ --fail-on fix"
EPILOG = """\
A folder is searched through. In a .blend these are audited, unless --track names one: the center of mass of every
armature whose body is mapped, or whose bones are named like a person's; the root-most keyed bone of every other;
every keyed object without a parent.

exit code:
  0  done
  1  done, and something was found at or above --fail-on
  2  wrong call: nothing written
  3  some shot could not be read; all others are done and written (comes before 1)

examples:
  leapwright audit tq010_barge_hop.blend
  leapwright audit dailies/ --json audit.json --report report/ --fail-on fix
  leapwright audit tq020_crate_floaty.blend --track Brindle/root --gravity moon
  leapwright audit moss_hop.csv --fps 25 --kind person"""


def add(subparsers: Any) -> None:
    """Declare `audit` and its arguments."""
    parser = subparsers.add_parser(
        "audit",
        help=SUMMARY,
        description="Find every jump, measure its push and its flight, say what is off and how to mend it.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.set_defaults(run=run)
    add_options(parser)


def run(arguments: argparse.Namespace, audit_each: AuditEach) -> int:
    """Audit what the arguments name; raise SettingsError for a wrong call."""
    way = Way(
        settings_of(arguments),
        track=arguments.track,
        gravity=arguments.gravity,
        fps=arguments.fps,
        extras=extras_of(arguments),
        jobs=arguments.jobs,
        timeout=arguments.timeout,
    )
    outputs = outputs_of(arguments)
    outputs.check(arguments.paths)
    files = named_files(arguments.paths, (BLEND, MOTION, *READERS), outputs.earlier())
    outputs.check([named.path for named in files])
    shots: list[Shot | None] = [None] * len(files)
    with closing(audit_files(files, way, audit_each)) as found:  # whatever ends it, workers end with it
        for done, (place, shot) in enumerate(found, 1):
            shots[place] = shot
            _progress(done, len(files), shot)
    outputs.write([shot for shot in shots if shot is not None])
    if any(shot is not None and shot.reason is not None for shot in shots):
        return 3
    worst = max((shot.worst for shot in shots if shot is not None), default=-1)
    return int(arguments.fail_on is not None and worst >= SEVERITIES.index(arguments.fail_on))


def _progress(done: int, total: int, shot: Shot) -> None:
    """Say how far it is on stderr: one line rewritten on a terminal, a line a shot elsewhere."""
    name = printable(Path(shot.path).stem)
    line = f"[{done}/{total}] {name}" + (" unreadable" if shot.reason is not None else "")
    if not is_terminal(sys.stderr):
        tell(line)
    else:
        with suppress(SettingsError):
            say(f"\r\x1b[K{line[:79]}" if done < total else "\r\x1b[K", sys.stderr)
