"""From a judged jump to its mends: whole plans, each right by itself, of which an artist chooses one."""

from dataclasses import replace

from ..jump import Jump
from ..settings import Settings
from ..track import Track
from .heights import heights
from .landing import landings
from .times import times
from .words import worded

__all__ = ["with_mends"]


def with_mends(track: Track, jump: Jump, settings: Settings) -> Jump:
    """Return the judged jump with its mends, and its findings with what they say of them.

    Followed to the letter each leaves no finding of the kind it is for; a jump without such a finding has none.
    """
    if not jump.findings:
        return jump
    codes = frozenset(finding.code for finding in jump.findings)
    mends = (
        *times(track, jump, codes, settings),
        *heights(jump, codes, settings.limits),
        *landings(jump, codes, settings.limits),
    )
    findings = tuple(worded(finding, jump, mends, codes) for finding in jump.findings)
    return replace(jump, mends=mends, findings=findings)
