"""Forecast: a jump before and after its keys are moved, side by side, and the findings that go and come."""

from collections.abc import Mapping
from dataclasses import dataclass

from ..audit import Audit
from ..errors import RetimeError
from ..figures import value_of
from ..finding import Finding
from ..jump import Jump
from ..phases import Event
from ..time_map import TimeMap
from .spacing import Spacing

SAME_FRAME = 0.5
"""Frames within which two audits agree on an event."""
FOLLOWS = 3.0
"""Frames on either side of where its takeoff should be, within which the jump is looked for after."""

FORECAST_ROWS = (
    ("Push Frames", "push_frames", 1),
    ("Rise Frames", "rise_frames", 1),
    ("Fall Frames", "fall_frames", 1),
    ("Airtime Frames", "airtime_frames", 1),
    ("Absorb Frames", "absorb_frames", 1),
    ("Push Ratio", "push_ratio", 2),
    ("Air Pace", "air_pace", 2),
    ("Push Pace", "push_pace", 2),
    ("Agreement", "agreement", 2),
)
"""Labels of the rows, the figures they show, and digits after the point."""


@dataclass(frozen=True, slots=True)
class ForecastRow:
    """One figure before and after, and what the jump after asks for; None: not known, or nothing is asked.

    digits: after the point, to which it is worth showing
    """

    label: str
    digits: int
    before: float | None
    after: float | None
    expected: float | None = None


@dataclass(frozen=True, slots=True)
class Move:
    """An event of a jump, or what lies "before" or "after" it, and the frames its keys lie on before and after."""

    event: str
    old: float
    new: float


@dataclass(frozen=True, slots=True, eq=False)
class Forecast:
    """What moving keys by time_map does to a jump.

    before, after   the jump, measured and judged
    goes            codes of findings that are no longer there; those of the track's other jumps included
    come_ranks      codes of its findings that were not there or are graver now, with their ranks
    elsewhere       the same of the track's other jumps, the gravest rank of each
    names           what each anchor of time_map is: an event of the jump, or "before" and "after" for what stays
    pace            air pace that was asked for: 1 is real time; None where none is known
    respaced        where poses leave the beat they were drawn on
    rehearsed       whether `after` is what the host itself plays; else it is worked out from the track alone
    left            frames the push is over (above 0) or short of what the flight asks for; None without a push
    """

    time_map: TimeMap
    before: Jump
    after: Jump
    goes: tuple[str, ...]
    come_ranks: Mapping[str, int]
    elsewhere: Mapping[str, int]
    names: tuple[str, ...] = ()
    pace: float | None = 1.0
    respaced: tuple[Spacing, ...] = ()
    rehearsed: bool = False

    @property
    def comes(self) -> tuple[str, ...]:
        """Codes of findings that were not there, or are graver now."""
        return tuple(dict.fromkeys((*self.come_ranks, *self.elsewhere)))

    @property
    def moves(self) -> tuple[Move, ...]:
        """Where the anchors of the time map go, in order; those that stay too."""
        return tuple(map(Move, self.names, self.time_map.old, self.time_map.new))

    @property
    def left(self) -> float | None:
        """Frames that the push after is over, or short of, what its flight asks for."""
        return value_of(self.after, "push_excess")

    @property
    def rows(self) -> tuple[ForecastRow, ...]:
        """Frames, then ratios and paces."""
        flight, pace = self.after.flight, self.pace or 1.0
        asked = {name: value_of(self.after, f"{name}_expected") for name in ("push_frames", "absorb_frames")}
        asked |= {
            "rise_frames": flight.rise_expected.value / pace,
            "fall_frames": flight.fall_expected.value / pace,
            "airtime_frames": flight.expected / pace,
            "air_pace": self.pace,
            "push_pace": value_of(self.after, "air_pace"),
            "agreement": 1.0,
        }
        return tuple(
            ForecastRow(label, digits, value_of(self.before, name), value_of(self.after, name), asked.get(name))
            for label, name, digits in FORECAST_ROWS
        )


def compare(
    before: Audit,
    after: Audit,
    number: int,
    *,
    time_map: TimeMap,
    names: tuple[str, ...] = (),
    pace: float | None = 1.0,
    respaced: tuple[Spacing, ...] = (),
    rehearsed: bool = False,
) -> Forecast:
    """Set a jump of one audit beside itself in the audit after its keys were moved.

    number: its place in the audit before, from 0; names, pace, respaced and rehearsed as in Forecast. Raises
    RetimeError when no jump is found there any more.
    """
    was = before.jumps[number]
    now = _followed(was, after, time_map)
    others = zip(_others(before, was), _others(after, now), strict=False)
    pairs = [(was, now), *others]
    if len(before.jumps) != len(after.jumps):
        raise RetimeError("another jump of the track would no longer read as one")
    elsewhere: dict[str, int] = {}
    for a, b in pairs[1:]:
        for code, rank in _graver(a, b).items():
            elsewhere[code] = max(rank, elsewhere.get(code, rank))
    goes = [code for a, b in pairs for code in _ranks(a) if code not in _ranks(b)]
    return Forecast(
        time_map, was, now, tuple(dict.fromkeys(goes)), _graver(was, now), elsewhere,
        names=names, pace=pace, respaced=respaced, rehearsed=rehearsed,
    )  # fmt: skip


def differences(forecast: Forecast, audit: Audit) -> tuple[str, ...]:
    """Say in what an audit made after the keys were moved differs from its forecast; nothing where it agrees."""
    try:
        jump = _followed(forecast.before, audit, forecast.time_map)
    except RetimeError as refusal:
        return (str(refusal),)
    said = []
    for name in ("crouch", "takeoff", "apex", "landing", "absorbed"):
        a, b = getattr(forecast.after, name), getattr(jump, name)
        if (a is None) != (b is None) or (a and abs(a.frame - b.frame) > SAME_FRAME):
            said.append(f"{name} at {_frame(b)}, not {_frame(a)}")
    if _ranks(forecast.after) != _ranks(jump):
        said.append(f"findings {_listed(jump.findings)}, not {_listed(forecast.after.findings)}")
    return tuple(said)


def _followed(was: Jump, after: Audit, time_map: TimeMap) -> Jump:
    wanted = float(time_map.at([was.takeoff.frame])[0])
    near = [jump for jump in after.jumps if abs(jump.takeoff.frame - wanted) <= FOLLOWS]
    if not near:
        raise RetimeError(
            "with its keys moved that far the jump would no longer be found: keep something else, or add poses to it"
        )
    return min(near, key=lambda jump: abs(jump.takeoff.frame - wanted))


def _others(audit: Audit, jump: Jump) -> list[Jump]:
    return [other for other in audit.jumps if other is not jump]


def _ranks(jump: Jump) -> dict[str, int]:
    return {finding.code: finding.rank for finding in jump.findings}


def _graver(a: Jump, b: Jump) -> dict[str, int]:
    old = _ranks(a)
    return {code: rank for code, rank in _ranks(b).items() if rank > old.get(code, -1)}


def _frame(event: Event | None) -> str:
    return f"frame {event.frame:.1f}" if event else "none"


def _listed(findings: tuple[Finding, ...]) -> str:
    return ", ".join(finding.code for finding in findings) or "none"
