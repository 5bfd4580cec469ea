"""Which retiming mends which finding: what is kept for it."""

from ...analysis.retiming.worth import FLOATY, PUSH, SNAPPY

KEPT = {FLOATY: "nothing", SNAPPY: "nothing"} | dict.fromkeys(PUSH, "flight")
"""By the finding's code: a flight out of time is brought to real time with its push, a push is fitted to its flight."""


def keep_for(code: str) -> str | None:
    """Return what a retiming keeps to mend a finding; None where moving keys in time does not mend it."""
    return KEPT.get(code)
