"""Pick the one finding of a code out of a jump's findings."""

from leapwright.analysis import Finding, Jump, Settings
from leapwright.analysis.audit import judge

from tests.analysis.closed_form import Leap, measured


def only(code: str, of: Leap | Jump) -> Finding:
    """Return the finding of that code; fails unless there is exactly one, and its sentences are whole."""
    jump = measured(of) if isinstance(of, Leap) else of
    (finding,) = [finding for finding in judge(jump, Settings()).findings if finding.code == code]
    assert finding.message and "{" not in finding.message + finding.mend
    assert "None" not in finding.message + finding.mend
    assert finding.frames[0] <= finding.frames[1]
    return finding
