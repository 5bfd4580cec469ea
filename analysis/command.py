"""`leapwright`: reads the call, hands it to a subcommand, gives back its exit code.

Exit codes: 0 done; 1 a finding at or above --fail-on; 2 wrong call; 3 some shot could not be read.
"""

import argparse
from collections.abc import Iterable, Sequence
from types import ModuleType

from .commands import collected
from .day import AuditEach, audit_tracks
from .errors import LeapwrightError
from .terminal import tell
from .version import leapwright_version

DESCRIPTION = "Tell whether a jump's push off the ground fits its time in the air."
EPILOG = """\
Judges drawings of motion; not for training, medical or safety decisions about real jumpers.
"leapwright COMMAND --help" says more of each command."""


def main(
    argv: Sequence[str] | None = None, *, audit_each: AuditEach = audit_tracks, more: Iterable[ModuleType] = ()
) -> int:
    """Run a call of the command and return its exit code.

    audit_each reads and audits files, without it track files alone; more are subcommands beside those of this
    package.
    """
    try:
        arguments = parser((*collected(), *more)).parse_args(argv)
    except SystemExit as done:  # argparse has said all: its help, or what is wrong with the call
        return int(done.code or 0)
    try:
        return int(arguments.run(arguments, audit_each))
    except LeapwrightError as refusal:
        tell(f"leapwright {arguments.command}: {refusal}")
        return 2


def parser(commands: Iterable[ModuleType]) -> argparse.ArgumentParser:
    """Build the parser of the whole command line."""
    whole = argparse.ArgumentParser(
        prog="leapwright",
        description=DESCRIPTION,
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    whole.add_argument("--version", action="version", version=f"leapwright {leapwright_version()}")
    subparsers = whole.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for command in commands:
        command.add(subparsers)
    return whole
