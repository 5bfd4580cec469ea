"""`leapwright merge`: the parts of a day that several machines audited, put together as if one had."""

import argparse
from typing import Any

from ..dailies.day import day_of
from ..dailies.document import merged, read_document
from ..dailies.notes import read_notes
from ..day import AuditEach
from ..finding import SEVERITIES
from ..options import review, values
from ..outputs import Outputs
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
    parser.add_argument("parts", nargs="+", metavar="PART", type=values.path, help="the JSON of each part")
    out = parser.add_argument_group("what to write")
    out.add_argument("--report", type=values.path, metavar="DIR", help="write DIR/index.html, a page with pictures")
    out.add_argument("--json", type=values.path, metavar="FILE", help="write every figure as JSON; - for stdout")
    out.add_argument("--csv", type=values.path, metavar="FILE", help="write a row a jump as CSV; - for stdout")
    out.add_argument("--junit", type=values.path, metavar="FILE", help="write findings as tests, JUnit XML")
    out.add_argument("--force", action="store_true", help="write over files that Leapwright did not write, too")
    out.add_argument("--fail-on", choices=SEVERITIES, metavar="SEVERITY",
                     help=f"exit 1 when something is found at or above: {', '.join(SEVERITIES)}")  # fmt: skip
    review.add(parser.add_argument_group("how to review"))


def run(arguments: argparse.Namespace, audit_each: AuditEach) -> int:
    """Merge what the arguments name; raise SettingsError for a wrong call."""
    outputs = Outputs(arguments.report, arguments.json, arguments.csv, arguments.junit, arguments.force)
    outputs.check(arguments.parts)
    document = merged([read_document(path) for path in arguments.parts])
    earlier = read_document(arguments.against) if arguments.against is not None else None
    file = review.notes_file(arguments)
    notes = read_notes(file) if file is not None else ()
    day = day_of(document, earlier=earlier, notes=notes, order=arguments.sort)
    outputs.write(day, fail_on=arguments.fail_on, show=arguments.open)
    return exit_code(day, arguments.fail_on)
