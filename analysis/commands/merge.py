"""`leapwright merge`: the parts of a day that several machines audited, put together as if one had."""

import argparse
from typing import Any

from ..dailies.day import day_of
from ..dailies.document import merged, read_document
from ..dailies.notes import read_notes
from ..day import AuditEach
from ..errors import SettingsError
from ..options import results, review, values
from .audit import exit_code

SUMMARY = "put the parts of a day together"
EXAMPLE = "leapwright merge part1.json part2.json --report report/"
EPILOG = """\
Each part is the JSON of `leapwright audit PATH… --shard K/N --json FILE`, with the same PATHs and options.

exit code: as of leapwright audit

example:
  leapwright audit dailies/ --shard 1/2 --json part1.json
  leapwright audit dailies/ --shard 2/2 --json part2.json
  leapwright merge part1.json part2.json --report report/ --json audit.json"""


def add(subparsers: Any) -> None:
    """Declare `merge` and its arguments."""
    parser = subparsers.add_parser(
        "merge",
        help=SUMMARY,
        description="Put the parts of a day together, and write what one audit of all its shots would have.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.set_defaults(run=run)
    parser.add_argument("parts", nargs="+", metavar="PART", type=values.file_path, help="the JSON of each part")
    results.add(parser.add_argument_group("what to write"))
    review.add(parser.add_argument_group("how to review"))


def run(arguments: argparse.Namespace, audit_each: AuditEach) -> int:
    """Merge what the arguments name; raise SettingsError for a wrong call."""
    outputs = results.outputs_of(arguments)
    outputs.check(arguments.parts)
    parts = [read_document(path) for path in arguments.parts]
    for path, part in zip(arguments.parts, parts, strict=True):
        if "shard" not in part:
            raise SettingsError(f"{path} is no part of a day: it was not made with --shard")
    document = merged(parts)
    earlier = read_document(arguments.against) if arguments.against is not None else None
    file = review.notes_file(arguments)
    notes = read_notes(file) if file is not None else ()
    day = day_of(document, earlier=earlier, notes=notes, order=arguments.sort)
    code = exit_code(day, arguments.fail_on)
    outputs.write(day, code=code, fail_on=arguments.fail_on, show=arguments.open)
    return code
