"""Jump: the events of one jump and every quantity measured of it."""

from dataclasses import dataclass, replace
from functools import reduce
from math import gcd

from .certainty import Certainty, certainty_of
from .feet import Feet
from .finding import Finding
from .measures.contact import measure_contact
from .measures.flight import measure_flight
from .measures.landing import measure_landing
from .measures.push import measure_push
from .measures.travel import measure_travel
from .phases import Arc, Event, Phases
from .track import Track
from .world import World

FEWEST_KEYS = 6
"""Keys whose spacing tells the step: fewer are even by chance too often."""


@dataclass(frozen=True, slots=True, eq=False)
class Jump:
    """One jump, measured. Lengths in metres, durations in frames, angles none; None: cannot be known.

    The names are those of the audit's JSON. `_error` fields are one standard error of their quantity.
    """

    crouch: Event | None
    takeoff: Event
    apex: Event
    landing: Event
    absorbed: Event | None
    push_distance: float | None
    jump_height: float
    drop_height: float
    absorb_distance: float | None
    push_ratio: float | None
    absorb_ratio: float | None
    push_frames: float | None
    push_frames_expected: float | None
    rise_frames: float
    rise_frames_expected: float
    fall_frames: float
    fall_frames_expected: float
    airtime_frames: float
    fitted_gravity: float | None
    fitted_gravity_error: float | None
    air_pace: float | None
    push_pace: float | None
    agreement: float | None
    push_shape: float | None
    """k of physics: push time over 2 d / v, 1 for a constant force, 0.5 for a constant speed."""
    residual_rms: float | None
    top_quarter_share: float | None
    travel_speed: float
    travel_spread: float | None
    distance: float

    push_distance_error: float | None
    jump_height_error: float
    drop_height_error: float
    absorb_distance_error: float | None
    push_ratio_error: float | None
    absorb_ratio_error: float | None
    push_frames_error: float | None
    push_frames_expected_error: float | None
    rise_frames_error: float
    rise_frames_expected_error: float
    fall_frames_error: float
    fall_frames_expected_error: float
    airtime_frames_error: float
    air_pace_error: float | None
    push_pace_error: float | None
    agreement_error: float | None
    push_shape_error: float | None
    top_quarter_share_error: float | None
    travel_speed_error: float
    travel_spread_error: float | None
    distance_error: float

    body_weights: float | None
    """Mean force of the push over its distance, in body weights: R + 1 for any push."""
    push_excess: float | None
    """Push frames less expected ones, and the error of that difference: the two share the takeoff."""
    push_excess_error: float | None
    rebounds: bool
    """A push shorter than expected that follows a drop as fast as itself: a spring's release may be."""
    push_speed: float | None
    """m/s at the end of the push: of the speeds that the samples before takeoff allow, nearest the flight's."""
    push_speed_error: float | None
    push_peak_speed: float | None
    push_peak_frame: float | None
    takeoff_speed: float
    """m/s up, at the start of the flight."""
    landing_speed: float
    apex_skew: float | None
    """Apex before (under 0) or after where a parabola between the same ends has it, share of airtime."""
    apex_skew_error: float | None
    residual_worst: float | None
    residual_frames: tuple[float, float] | None
    rise_free: float | None
    fall_free: float | None
    """Frames of rise and fall that their lower three quarters ask for, where the arc does not hold."""
    air_samples: int
    """Samples strictly between takeoff and landing; of held poses, poses."""
    noise: float
    """Metres: how much the samples in the air scatter."""
    drawn_off: float | None
    """Metres: how far an eased curve runs from the arc through its poses, at most; and where."""
    drawn_off_frame: float | None
    absorb_frames: float | None
    absorb_frames_error: float | None
    absorb_frames_expected: float | None
    absorb_excess_error: float | None
    stops_dead: bool
    """The body neither sinks nor leaves after the landing."""
    travel_turn: float | None
    """Range of the horizontal direction in flight, radians."""
    travel_turn_error: float | None
    travel_slowest: float | None
    """Speed along the way of the slowest stretch, as a share of the mean; and its frames."""
    travel_slowest_frames: tuple[float, float] | None
    travel_start_speed: float | None
    travel_end_speed: float | None

    name: str
    source: str
    fps: float
    gravity: float
    """m/s² of the world it is judged in."""
    kind: str
    step: int
    held: bool
    method: str
    arc: Arc | None
    certainty: Certainty
    certainty_value: float
    """How sure it is that this is a jump: in words, and as a probability."""
    notes: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()

    feet_off: float | None = None
    feet_off_error: float | None = None
    feet_on: float | None = None
    feet_on_error: float | None = None
    """Frames at which the last foot leaves the ground and the first one touches it."""
    feet_slide: float | None = None
    feet_slide_frames: tuple[float, float] | None = None
    """Metres that a planted foot moves along the ground, at most; and when."""
    feet_sink: float | None = None
    feet_sink_frames: tuple[float, float] | None = None
    """Metres that a planted foot lies under where it stands, at most; and when."""
    feet_noise: float | None = None
    feet_below: float | None = None
    """Height of the track over its feet at takeoff, metres: the size of the body."""


def measure(track: Track, phases: Phases, world: World, *, feet: Feet | None = None) -> Jump:
    """Measure one jump of a track, given its events; its feet are read here where they are not given.

    Metres, seconds and frames in the track's own frame of reference, z up. Never raises for phases whose
    events rise in time; what they cannot tell is None.
    """
    step = max(_step(track, phases), world.step)
    if step != phases.step:
        phases = replace(phases, step=step)
    flight = measure_flight(track, phases, world)
    return Jump(
        crouch=phases.crouch,
        takeoff=phases.takeoff,
        apex=phases.apex,
        landing=phases.landing,
        absorbed=phases.absorbed,
        **flight._asdict(),
        **measure_push(track, phases, world, flight=flight)._asdict(),
        **measure_landing(track, phases, flight=flight)._asdict(),
        **measure_travel(track, phases, flight=flight)._asdict(),
        name=track.name,
        source=track.source,
        fps=track.fps,
        gravity=world.gravity,
        kind=world.kind,
        step=step,
        held=phases.held,
        method=phases.method,
        arc=phases.arc,
        certainty=certainty_of(phases.certainty),
        certainty_value=phases.certainty,
        notes=phases.notes,
        **measure_contact(track, phases, feet)._asdict(),
    )


def _step(track: Track, phases: Phases) -> int:
    """Frames from pose to pose: 2 or 3 where every keyed pose of the track lies on twos or threes."""
    keys = track.key_frames
    if phases.method != "keys" or phases.step > 1 or keys is None or len(keys) < FEWEST_KEYS:
        return phases.step
    gaps = [round(gap) for gap in (keys[1:] - keys[:-1]).tolist()]
    common = reduce(gcd, gaps)
    return next((step for step in (2, 3) if common and common % step == 0), 1)
