"""Worth: whether a jump is better off for a retiming, or in what it would be worse. Frames."""

import math
from dataclasses import dataclass
from enum import Enum

from ..finding import SEVERITIES
from .aim import Aim
from .forecast import Forecast
from .timing import PUSH_MENDED

ROUNDED = 0.6
"""Frames that a push in whole frames may be off what its flight asks for: half of one, and what a fit scatters."""
WORST = SEVERITIES.index("check")
"""Rank from which a finding that comes is harm; a note is not."""
ARC_BETWEEN = "arc-between"
"""What the host's own handles draw between keys is no harm of a timing; a forecast names it all the same."""
FLOATY, SNAPPY = "air-floaty", "air-snappy"


class Harm(Enum):
    """In what a jump may be worse than it was."""

    FINDING = "finding"
    PACE = "pace"
    AGREEMENT = "agreement"


@dataclass(frozen=True, slots=True)
class Worth:
    """What a retiming is worth.

    harms   in what the jump would be worse than it was; empty where it would not
    new     codes of findings that would come at check or above and were not asked for
    left    how many findings come, or are left of what it was to mend
    """

    harms: tuple[Harm, ...]
    new: tuple[str, ...]
    left: int


def worth(forecast: Forecast, aim: Aim) -> Worth:
    """Weigh the jump after against the jump before, and against what was asked for.

    A pace of the air that was asked for is no harm; the opposite one is.
    """
    asked = _asked(aim.pace_of(forecast.before))
    comes = [*((code, rank) for code, rank in forecast.come_ranks.items() if code not in asked),
             *forecast.elsewhere.items()]  # fmt: skip
    new = tuple(dict.fromkeys(code for code, rank in comes if rank >= WORST and code != ARC_BETWEEN))
    meant = {*PUSH_MENDED, *({FLOATY, SNAPPY} if aim.keep == "nothing" else ())} - asked
    left = len(comes) + sum(finding.code in meant for finding in forecast.after.findings)
    harms = [Harm.FINDING] * bool(new)
    harms += [Harm.PACE] * _off_pace(forecast, aim)
    harms += [Harm.AGREEMENT] * _off_push(forecast)
    return Worth(tuple(harms), new, left)


def _asked(pace: float | None) -> frozenset[str]:
    """Return the finding of the air that a pace brings with it."""
    return frozenset() if pace is None or pace == 1.0 else frozenset({SNAPPY if pace > 1.0 else FLOATY})


def _off_pace(forecast: Forecast, aim: Aim) -> bool:
    """Tell whether the flight is further from the pace asked for, by more than a frame of rounding."""
    pace, (was, now) = aim.pace_of(forecast.before), (forecast.before.flight, forecast.after.flight)
    if aim.keep == "flight" or not (pace and was.pace and now.pace):
        return False
    before = was.airtime.value * abs(math.log(was.pace.value / pace))
    after = now.airtime.value * abs(math.log(now.pace.value / pace))
    return after > max(before, 0.5 + 0.5 * forecast.before.step)


def _off_push(forecast: Forecast) -> bool:
    """Tell whether the push is further from what the flight asks for, by more than half a frame of rounding."""
    before, after = forecast.before.push, forecast.after.push
    if after is None or before is None:
        return before is not None
    return abs(after.excess.value) > max(abs(before.excess.value), ROUNDED)
