"""Which retiming mends which finding of a jump: what is kept for it."""

from ...analysis.jump import Jump
from ...analysis.mend import KEPT_BY_WAY, Mend, MendWay
from ...analysis.mending.words import WAYS
from ...analysis.retiming.timing import PUSH_MENDED


def mends_for(jump: Jump, code: str) -> tuple[Mend, ...]:
    """List the mends of a jump that are for one of its findings, the nearest first.

    Of a push that is the one that keeps the flight, else the one that goes to real time.
    """
    mends = [mend for mend in jump.mends if mend.way in WAYS.get(code, frozenset())]
    return tuple(sorted(mends, key=lambda mend: not (code in PUSH_MENDED and mend.way is MendWay.FLIGHT)))


def keeps_for(jump: Jump, code: str) -> tuple[str, ...]:
    """List what the retimings keep that mend a finding, the nearest first; none where moving keys in time does not.

    A retiming goes to the very frames that its mend names, its takeoff held.
    """
    return tuple(dict.fromkeys(mend.keep for mend in mends_for(jump, code) if mend.keep is not None))


def may_be_mended(code: str) -> bool:
    """Say whether moving keys in time mends findings of this kind, as far as can be told before mends are planned."""
    return bool(WAYS.get(code, frozenset()) & KEPT_BY_WAY.keys())
