"""`leapwright`: reads the call, hands it to a subcommand, gives back its exit code.

Exit codes: 0 done; 1 a finding at or above --fail-on; 2 wrong call; 3 some shot could not be read.
"""

import sys
from collections.abc import Callable, Iterable, Sequence
from types import ModuleType

from .commands import COMMAND_NAMES, collected
from .day import AuditEach, audit_tracks
from .ending import Ended
from .errors import LeapwrightError
from .options.parser import parse
from .terminal import tell


def main(
    argv: Sequence[str] | None = None,
    *,
    audit_each: AuditEach = audit_tracks,
    more: Callable[[], Iterable[ModuleType]] = tuple,
) -> int:
    """Run a call of the command and return its exit code.

    audit_each reads and audits files, without it track files alone; more gives subcommands beside those of this
    package. Where one of this package is asked for, no other is loaded.
    """
    words = sys.argv[1:] if argv is None else argv
    known = collected(words[0]) if words and words[0] in COMMAND_NAMES else (*collected(), *more())
    try:
        arguments = parse(words, known)
    except Ended:
        raise
    except SystemExit as done:  # argparse has said all: its help, or what is wrong with the call
        return int(done.code or 0)
    try:
        return int(arguments.run(arguments, audit_each))
    except LeapwrightError as refusal:
        tell(f"leapwright {arguments.command}: {refusal}")
        return 2
