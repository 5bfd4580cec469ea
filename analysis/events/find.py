"""find_phases: every rise and fall of a track, what speaks for and against its being a jump, and its events."""

import math
from collections.abc import Generator, Sequence
from dataclasses import replace

import numpy as np

from ..cases.case import Case
from ..cases.collect import cases_of
from ..certainty import Certainty, certainty_of
from ..contacts.arcs import AGREED
from ..feet import Feet, feet_of
from ..limits import Limits
from ..notes import Against, Note, Said
from ..phases import Found, Phases
from ..samples.flaws import BadFrame, Flaw
from ..samples.poses import poses_of
from ..steps import finished
from ..track import Track
from ..world import World
from .built import built
from .falls import falls_on_curve
from .marks import marked
from .testimony import ContactReading, Testimony, probability, weighed
from .weights import WEIGHTS
from .witnesses import WITNESSES

TOLD = 0.15
"""Probability from which a rise and fall is shown, as a doubtful jump; under it a note names it (ours)."""
HUGE, FAST = 30.0, 100.0
"""Rise in meters, and speed in m/s, past which the lengths are probably not in meters: no drawn jump reaches them
(ours)."""
OTHER_WORLD_FACTOR = 4.0
"""Factor between the gravity of all flights and the world's, either way, from which the world looks mistaken (ours)."""
AGAINST = {
    "pace": Against.SLOW, "parabola's pace": Against.SLOW, "rise": Against.UNDER, "stays under": Against.UNDER,
    "dip": Against.LEVEL, "fastest at": Against.CLIMB, "keyed over stand": Against.KEYED,
    "stand unseen": Against.BOB, "no parabola": Against.BOB, "no parabola in poses": Against.BOB,
    "bob is better": Against.BOB, "drawn parabola": Against.BOB, "measured parabola": Against.BOB,
    "contacts lost": Against.BOB, "held by keys": Against.HELD, "strides": Against.STRIDES, "foot down": Against.FEET,
}  # fmt: skip
"""What to say of the table that speaks most against."""


def find_phases(track: Track, world: World, limits: Limits, *, feet: Feet | None = None) -> Found:
    """Find every jump of a track, in order of time. feet: those of the track, where they have been read already.

    Every rise and fall that stands out is heard; marks by hand have the last word. Raises nothing: a track
    without a jump gives none, and notes that say what was nearest.
    """
    return finished(find_in_steps(track, world, limits, feet=feet))


def find_in_steps(
    track: Track, world: World, limits: Limits, *, feet: Feet | None = None
) -> Generator[None, None, Found]:
    """Find every jump as `find_phases` does, a case a step."""
    found, notes = yield from _heard(track, feet if feet is not None else feet_of(track), world, limits)
    result = marked(Found(tuple(found), tuple(notes)), track)
    if result.phases:
        other_world = _of_gravity(result.phases, world)
        return replace(result, notes=(*result.notes, *other_world)) if other_world else result
    sideways = [Note(Said.SIDEWAYS, {"axis": axis}) for axis in _axes_up(track, world, limits)]
    return replace(result, notes=(Note(Said.NO_JUMP), *result.notes, *sideways))


def _heard(
    track: Track, feet: Feet | None, world: World, limits: Limits
) -> Generator[None, None, tuple[list[Phases], list[Note]]]:
    """Yield the jumps by the evidence, and what there is to say of the rest."""
    poses = poses_of(track)
    notes = [_of_frame(bad) for bad in poses.bad]
    found: list[Phases] = []
    nearest: tuple[float, Case, list[Testimony]] | None = None
    for case in cases_of(track, poses, feet, world, limits):
        yield
        testimonies = [said for hear in WITNESSES if (said := hear(case)) is not None]
        certainty = probability(testimonies)
        if certainty < TOLD:
            if nearest is None or certainty > nearest[0]:
                nearest = certainty, case, testimonies
            continue
        phases = built(case, _contact(case, testimonies, "takeoff"), _contact(case, testimonies, "landing"))
        if phases is not None and _by_feet(testimonies):
            phases = replace(phases, notes=(*phases.notes, Note(Said.BY_FEET)))
        frame = float(poses.frames[case.turn.top])
        if phases is None:
            notes.append(_of_nearest(case, testimonies))
        elif not limits.slowest_pace <= (pace := _pace(phases, world, track.fps)) <= limits.fastest_pace:
            notes.append(Note(Said.GRAVITY, {"ratio": pace**2}))
        elif (certainty := certainty * _hops(case, phases, limits)) < TOLD:
            notes.append(Note(Said.LOW, {"frame": frame, "hop": limits.smallest_hop * 100}))
        else:
            found.append(replace(phases, certainty=certainty))
    found = _apart(found) if len(found) > 1 else found
    if poses.even:
        found += falls_on_curve(track, poses, world.gravity, limits, found)
    if not found and nearest is not None:
        notes.append(_of_nearest(*nearest[1:]))
    return sorted(found, key=lambda phases: phases.takeoff.frame), [*notes, *_of_lengths(track)]


def _contact(case: Case, testimonies: Sequence[Testimony], end: str) -> ContactReading | None:
    """Return what the witnesses agree on; where few poses tell the jump and one alone may be the contact, that one.

    What lies beyond a bottom is a contact of another rise and fall, such as a foot's that is put down for one frame.
    """
    poses: Sequence[tuple[float, float]] = getattr(case.posed, f"{end}s", ())
    if len(poses) == 1:
        return ContactReading(poses[0][0], AGREED, 1.0)
    for first, last in _spans(case, end):
        said = [[one for one in getattr(mine, end) if first <= one.frame <= last] for mine in testimonies]
        if any(said):
            return weighed(said, fps=case.fps)
    return None


def _spans(case: Case, end: str) -> tuple[tuple[float, float], ...]:
    """Return the frames that a contact may lie between, best first: at least a smallest hop under the top, as far as
    the way goes on from there; else anywhere between the bottoms.
    """
    first, last = (float(case.poses.frames[at]) for at in (case.turn.before, case.turn.after))
    side = (case.rising if end == "takeoff" else case.falling).samples
    passed = side.crossing(side.top - case.limits.smallest_hop)
    if passed is None:
        return ((first, last),)
    return ((first, passed[0]) if end == "takeoff" else (-passed[0], last), (first, last))


def _apart(found: list[Phases]) -> list[Phases]:
    """Of flights that share a time, the surest."""
    kept: list[Phases] = []
    for one in sorted(found, key=lambda phases: -phases.certainty):
        if all(one.takeoff.frame >= other.landing.frame or other.takeoff.frame >= one.landing.frame for other in kept):
            kept.append(one)
    return kept


def _by_feet(testimonies: Sequence[Testimony]) -> bool:
    """Tell whether the feet alone tell the jump: without them it would not be shown."""
    others = [said for said in testimonies if "feet off" not in said.seen]
    return len(others) < len(testimonies) and probability(others) < TOLD


def _pace(phases: Phases, world: World, fps: float) -> float:
    """Return the air pace that the heights and the airtime ask for, with a frame's grace for few frames."""
    up = max(phases.apex.height - phases.takeoff.height, 0.0)
    down = max(phases.apex.height - phases.landing.height, 0.0)
    real = ((2 * up / world.gravity) ** 0.5 + (2 * down / world.gravity) ** 0.5) * fps
    return real / max(phases.landing.frame - phases.takeoff.frame, 1e-6)


def _hops(case: Case, phases: Phases, limits: Limits) -> float:
    """Tell how sure it is that the body leaves the ground a smallest hop under its top, or lower."""
    passed = case.rising.samples.crossing(phases.apex.height - limits.smallest_hop)
    if passed is None:
        return float(phases.apex.height - phases.takeoff.height >= limits.smallest_hop)
    later = (passed[0] - phases.takeoff.frame) / max(phases.takeoff.frame_error, 1e-6)
    return 0.5 * (1.0 + math.erf(later / math.sqrt(2.0)))


def _of_frame(bad: BadFrame) -> Note:
    said = {Flaw.OFF: Said.OFF, Flaw.REPEATED: Said.REPEATED, Flaw.MISSING: Said.MISSING}[bad.flaw]
    return Note(said, {"frame": bad.frame, "centimeters": 100 * (bad.meters or 0.0)})


def _of_nearest(case: Case, testimonies: Sequence[Testimony]) -> Note:
    """Tell what was nearest to a jump, and what spoke most against it."""
    f = case.poses.frames
    first, last = float(f[case.turn.before]), float(f[case.turn.after])
    if case.rising.is_cut or case.falling.is_cut:
        return Note(Said.CUT_OFF, {"frame": float(f[case.turn.top])})
    seen = {name: value for said in testimonies for name, value in said.seen.items()}
    spoken = {name: WEIGHTS[name].at(value) for name, value in seen.items() if name in WEIGHTS}
    if "foot down" in seen:
        spoken = {"foot down": -np.inf}
    least = min(spoken, key=spoken.__getitem__, default="")
    against = AGAINST.get(least, Against.UNCLEAR) if spoken.get(least, 0.0) < 0.0 else Against.UNCLEAR
    text = against.value.format(seconds=(last - first) / case.fps)
    rise = case.rising.samples.top - case.rising.samples.bottom
    return Note(Said.NEAREST, {"first": first, "last": last, "rise": rise, "against": text})


def _of_lengths(track: Track) -> list[Note]:
    """Say that the track moves as if its lengths were not meters."""
    rise = float(track.heights.max() - track.heights.min())
    steps, gaps = track.positions[1:] - track.positions[:-1], track.frames[1:] - track.frames[:-1]
    if rise <= HUGE and math.sqrt(3.0) * float(np.abs(steps).max()) * track.fps <= FAST * float(gaps.min()):
        return []
    x, y, z = steps.T
    speed = math.sqrt(float(((x * x + y * y + z * z) / gaps**2).max())) * track.fps
    return [Note(Said.HUGE, {"meters": rise, "speed": speed})] if rise > HUGE or speed > FAST else []


def _of_gravity(phases: Sequence[Phases], world: World) -> list[Note]:
    """Say that all flights run as if in another world."""
    ratios = [one.arc.gravity / world.gravity for one in phases if one.arc is not None]
    if not ratios or (max(ratios) < OTHER_WORLD_FACTOR and min(ratios) > 1 / OTHER_WORLD_FACTOR):
        return []
    off = min(ratios) >= OTHER_WORLD_FACTOR or max(ratios) <= 1 / OTHER_WORLD_FACTOR
    return [Note(Said.GRAVITY, {"ratio": float(np.median(ratios))})] if off else []


def _axes_up(track: Track, world: World, limits: Limits) -> list[str]:
    """Return horizontal axes along which the track jumps, where it does not along its own z."""
    found = []
    for axis, name in enumerate("xy"):
        if float(np.ptp(track.positions[:, axis])) < limits.smallest_hop:
            continue
        turned = Track(track.name, track.fps, track.frames, np.roll(track.positions, 2 - axis, axis=1))
        jumps, _ = finished(_heard(turned, None, world, limits))
        if any(certainty_of(phases.certainty) is Certainty.SURE for phases in jumps):
            found.append(name)
    return found
