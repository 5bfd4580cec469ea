"""The options that say what is written of a day's shots, and what the exit code counts."""

import argparse

from ..finding import SEVERITIES
from ..outputs import Outputs
from . import values


def add(group: argparse._ArgumentGroup) -> None:
    """Declare the options."""
    group.add_argument("--report", type=values.file_path, metavar="DIR",
                       help="write DIR/index.html, a page with pictures")  # fmt: skip
    group.add_argument("--json", type=values.file_path, metavar="FILE", help="write every figure as JSON; - for stdout")
    group.add_argument("--csv", type=values.file_path, metavar="FILE", help="write a row a jump as CSV; - for stdout")
    group.add_argument("--junit", type=values.file_path, metavar="FILE", help="write findings as tests, JUnit XML")
    group.add_argument("--otio", type=values.file_path, metavar="FILE",
                       help="write events as markers, OpenTimelineIO (pip install leapwright[otio])")  # fmt: skip
    group.add_argument("--force", action="store_true", help="write over files that Leapwright did not write, too")
    group.add_argument("--fail-on", choices=SEVERITIES, metavar="SEVERITY",
                       help=f"exit 1 when something is found at or above: {', '.join(SEVERITIES)}")  # fmt: skip


def outputs_of(arguments: argparse.Namespace) -> Outputs:
    """Tell what to write."""
    texts = (arguments.json, arguments.csv, arguments.junit, arguments.otio)
    return Outputs(arguments.report, *texts, force=arguments.force)
