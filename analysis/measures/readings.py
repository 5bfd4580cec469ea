"""Readings: what the figures of a jump are computed from, and how unsure all of it is together.

No reading is unsure alone. Where the body takes off later, it does so higher by its speed there, and the crouch that
was fitted with the takeoff lies elsewhere too; a parabola that is off by its samples' noise is off at both ends, at
its top, and in its gravity. So what is unsure is told as independent errors, each with all that it moves: the columns
of L, where L Lᵀ = C is the covariance of the readings. A figure is computed of the readings as they are and moved a
little along each column, up and down; its variance is J C Jᵀ, whatever its formula.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from ..arrays import Array
from ..phases import Arc, Phases
from ..quantity import Quantity, Unit
from ..track import Track
from .arc import air_samples, frame_error, is_drawn, scatter

FITTED = math.sqrt(595.0) / 35.0
"""Share of one sample's noise in a height that a fit gives: 0.70 in the middle of a parabola through five, which
weighs them -3, 12, 17, 12, -3 over 35 (Savitzky & Golay 1964, Anal. Chem. 36:1627); less with more.
"""
NUDGE = 1e-3
"""Share of a standard error that readings are moved by, so that a figure answers by its slope."""
ON_ARC = 1e-6
"""Meters within which a height was read on the arc."""

(
    CROUCH_FRAME,
    TAKEOFF_FRAME,
    APEX_FRAME,
    LANDING_FRAME,
    ABSORBED_FRAME,
    CROUCH_HEIGHT,
    TAKEOFF_HEIGHT,
    APEX_HEIGHT,
    LANDING_HEIGHT,
    ABSORBED_HEIGHT,
    ARC_GRAVITY,
) = range(11)
"""Rows of the readings: frames of the events, meters at them, and the arc's gravity, m/s²."""


@dataclass(frozen=True, slots=True, eq=False)
class Readings:
    """The events of one jump as figures need them, each (1 + 2 m,): as read, then moved by m errors, up and down.

    crouch to absorbed   frames; NaN where there is none
    push, up             meters from crouch to takeoff, and from there to the apex
    down, sunk           from the apex to the landing, and from there to the lowest point
    gravity              m/s², of the arc; without one, that under which both heights take the airtime
    noise                m that the samples in the air scatter, one number
    fps                  frames per second
    air                  the samples strictly between takeoff and landing
    """

    crouch: Array
    takeoff: Array
    apex: Array
    landing: Array
    absorbed: Array
    push: Array
    up: Array
    down: Array
    sunk: Array
    gravity: Array
    noise: float
    fps: float
    air: slice


def measured(figures: Mapping[str, tuple[Array, Unit]]) -> dict[str, Quantity]:
    """Make quantities of figures that were computed of readings, by name: their values, and the roots of J C Jᵀ.

    figures: (1 + 2 m,) each, and its unit; all at once, since each takes little.
    """
    answers, units = zip(*figures.values(), strict=True)
    rows = np.array(answers)
    m = rows.shape[1] // 2
    moved = rows[:, 1 : m + 1] - rows[:, m + 1 :]
    errors = np.sqrt(np.matmul(moved[:, None, :], moved[:, :, None]).ravel()) / (2.0 * NUDGE)
    return dict(zip(figures, map(Quantity, rows[:, 0].tolist(), errors.tolist(), units), strict=True))


def read_events(track: Track, phases: Phases) -> Readings:
    """Read a jump's events and how unsure they are together."""
    fps, arc = track.fps, phases.arc if phases.arc is not None and phases.arc.gravity > 0.0 else None
    air = air_samples(track, phases)
    noise = scatter(track.heights[air]) if is_drawn(phases) else 0.0
    events = (phases.crouch, phases.takeoff, phases.apex, phases.landing, phases.absorbed)
    at = [math.nan if event is None else event.frame for event in events]
    at += [math.nan if event is None else event.height for event in events]
    as_read = np.array([*at, arc.gravity if arc is not None else math.nan])
    gravity = arc.gravity if arc is not None else _asked_gravity(phases, fps)
    errors = [*_of_contacts(phases, gravity, fps), *_of_heights(as_read, phases, arc, noise, fps)]
    moves = np.zeros((len(as_read), len(errors)))
    for column, moved in enumerate(errors):
        for row, by in moved.items():
            moves[row, column] = NUDGE * by
    rows = np.concatenate((as_read[:, None], as_read[:, None] + moves, as_read[:, None] - moves), axis=1)
    crouch, takeoff, apex, landing, absorbed, low, off, top, on, deep, pull = rows
    up, down = np.maximum(top - off, 0.0), np.maximum(top - on, 0.0)
    if arc is None:
        pull = 2.0 * ((np.sqrt(up) + np.sqrt(down)) * fps / (landing - takeoff)) ** 2
    return Readings(
        crouch, takeoff, apex, landing, absorbed, off - low, up, down, on - deep, pull, noise, fps, air
    )  # fmt: skip


def _asked_gravity(phases: Phases, fps: float) -> float:
    """Return m/s² under which both heights take the airtime: 2 (sqrt h + sqrt drop)² / T², which needs no apex."""
    up = max(phases.apex.height - phases.takeoff.height, 0.0)
    down = max(phases.apex.height - phases.landing.height, 0.0)
    pace = (math.sqrt(up) + math.sqrt(down)) * fps / (phases.landing.frame - phases.takeoff.frame)
    return 2.0 * (pace * pace)


def _of_contacts(phases: Phases, gravity: float, fps: float) -> list[dict[int, float]]:
    """Return the errors of time: of a contact, with the height there and the bottom beside it; and of each bottom
    alone. Each is a column of L: what one standard error moves, by its row.

    A keyed pose is rounded in time alone: it has its own height.
    """
    errors: list[dict[int, float]] = []
    sides = (
        (phases.takeoff, phases.crouch, TAKEOFF_FRAME, TAKEOFF_HEIGHT, CROUCH_FRAME, 1.0),
        (phases.landing, phases.absorbed, LANDING_FRAME, LANDING_HEIGHT, ABSORBED_FRAME, -1.0),
    )
    for contact, bottom, frame, height, far, sign in sides:
        # However unsure a fit is of a contact, it lies within as much as the flight lasts.
        error = min(frame_error(contact, phases=phases), phases.landing.frame - phases.takeoff.frame)
        rise = 0.0 if phases.method == "keys" else max(phases.apex.height - contact.height, 0.0)
        speed = math.sqrt(2.0 * gravity * rise)
        own = 0.0 if bottom is None else frame_error(bottom, phases=phases)
        shared = 0.0 if bottom is None else math.copysign(min(abs(bottom.along) * error, own), bottom.along)
        errors.append({frame: error, height: sign * speed * error / fps, far: shared})
        errors.append({far: math.sqrt(own**2 - shared**2)})
    return errors


def _of_heights(as_read: Array, phases: Phases, arc: Arc | None, noise: float, fps: float) -> list[dict[int, float]]:
    """Return the errors of height by the samples' noise, and what they do to the top and to the gravity."""
    own = arc is not None and phases.apex.frame == arc.apex_frame
    ends = [i for i in (TAKEOFF_HEIGHT, LANDING_HEIGHT) if arc is None or not _is_on(as_read, i, arc, fps)]
    errors = [{i: FITTED * noise} for i in (CROUCH_HEIGHT, ABSORBED_HEIGHT, *ends)]
    if not own:
        errors.append({APEX_FRAME: frame_error(phases.apex, phases=phases)})
    if arc is None or arc.count < 4:
        return errors
    reach = [i for i in (TAKEOFF_HEIGHT, LANDING_HEIGHT) if i not in ends]
    return errors + _of_arc(as_read, arc, [*reach, APEX_HEIGHT] if own else reach, own=own, fps=fps)


def _is_on(as_read: Array, height: int, arc: Arc, fps: float) -> bool:
    frame = as_read[height - CROUCH_HEIGHT]
    return abs(float(as_read[height]) - float(arc.heights(frame, fps))) <= ON_ARC


def _of_arc(as_read: Array, arc: Arc, heights: list[int], *, own: bool, fps: float) -> list[dict[int, float]]:
    """Return a least-squares parabola's errors, by its orthogonal parts: mean, slope and bend over n even samples.

    Each sample's noise s gives them s / sqrt(n), s / sqrt(S₂) and s / sqrt(S₄), with S₂ = n (n² - 1) / 12 and
    S₄ = S₂ (n² - 4) / 15 in samples² and ⁴; s is what the error of the gravity, twice the bend's, was made of.
    """
    n, span = arc.count, (arc.last - arc.first) / fps
    step, middle = span / (n - 1), 0.5 * (arc.first + arc.last)
    square, fourth = n * (n**2 - 1.0) / 12.0, n * (n**2 - 1.0) * (n**2 - 4.0) / 180.0
    bend = 0.5 * arc.gravity_error
    spread = bend * step**2 * math.sqrt(fourth)
    seconds = (as_read[:CROUCH_HEIGHT] - middle) / fps
    apex = float(seconds[APEX_FRAME])
    parts = (
        (spread / math.sqrt(n), np.ones(CROUCH_HEIGHT), 0.0, 0.0),
        (spread / (step * math.sqrt(square)), seconds, 1.0, 0.0),
        (bend, seconds**2 - step**2 * square / n, 2.0 * apex, -2.0),
    )
    errors = []
    for size, shape, slope, pull in parts:
        moved = {i: size * float(shape[i - CROUCH_HEIGHT]) for i in heights}
        if own:
            moved[APEX_FRAME] = size * slope / arc.gravity * fps
        errors.append({**moved, ARC_GRAVITY: size * pull})
    return errors
