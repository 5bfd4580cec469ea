"""`leapwright audit`: read the day's shots, audit every jump, write what was asked for."""

import argparse
import sys
from collections.abc import Sequence
from typing import Any

from ..batch import INTERRUPTED, audited
from ..dailies.day import Day, day_of
from ..dailies.document import read_document
from ..dailies.notes import read_notes
from ..day import AuditEach
from ..files import BLEND_SUFFIX, MOTION_SUFFIX, Named, named_files
from ..finding import SEVERITIES
from ..options.day import add as add_options
from ..options.day import extras_of
from ..options.results import outputs_of
from ..options.review import notes_file
from ..sources import READERS
from ..terminal import say, tell
from ..ways import explained, ways_of

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
  leapwright audit dailies/ --report report/ --against yesterday/report
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
    outputs, extras = outputs_of(arguments), extras_of(arguments)
    outputs.check(arguments.paths)
    earlier = read_document(arguments.against) if arguments.against is not None else None
    file = notes_file(arguments)
    notes = read_notes(file) if file is not None else ()
    files = named_files(arguments.paths, (BLEND_SUFFIX, MOTION_SUFFIX, *READERS), outputs.earlier())
    if arguments.explain:
        say(explained([named.path for named in files], arguments), sys.stdout)
        return 0
    outputs.check([named.path for named in files])
    ways = ways_of(_part(files, arguments.shard), arguments, extras)
    for path, why in ways.skipped:
        tell(f"skipped: {path} ({why})")
    document, ended = audited(ways, audit_each, use_cache=not arguments.no_cache, shard=arguments.shard)
    if ended is not None:
        if not document["shots"]:
            raise ended
        tell(f"{len(document['shots'])} of {len(ways.files)} shots are done, and written")
    day = day_of(document, earlier=earlier, notes=notes, order=arguments.sort)
    code = exit_code(day, arguments.fail_on) if ended is None else INTERRUPTED
    outputs.write(day, code=code, fail_on=arguments.fail_on, show=arguments.open)
    if ended is not None:
        raise ended
    return code


def exit_code(day: Day, fail_on: str | None) -> int:
    """Return 3 where a shot could not be read, 1 where something is found at or above fail_on and not meant, else 0."""
    if day.unreadable:
        return 3
    return int(fail_on is not None and day.worst >= SEVERITIES.index(fail_on))


def _part(files: Sequence[Named], shard: tuple[int, int] | None) -> Sequence[Named]:
    """Return one part of the files: as many as in every other, side by side, so that parts come together in order."""
    part, parts = shard or (1, 1)
    return files[len(files) * (part - 1) // parts : len(files) * part // parts]
