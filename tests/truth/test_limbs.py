"""A body whose center of mass flies freely, audited by its hips: what limbs and turns do is no fault of the jump.

The center of mass is built exactly ballistic (textbook kinematics, z = h + v t - g t² / 2, even speed along); the
hips are put where segments of known mass leave them. Legs are 0.397 of a man's mass (de Leva 1996, Table 4: thigh
14.16, shank 4.33, foot 1.37 per cent, twice), so that legs drawn up by x put the hips 0.397 x under the center of
mass they would have with straight legs.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from leapwright.analysis import Audit, Certainty, Followed, Limits, Settings, Track, World, audit_track
from leapwright.analysis.audit import judge
from leapwright.analysis.events import find_phases
from leapwright.analysis.jump import measure

from tests.analysis.closed_form import fitted

G, FPS = 9.80665, 24.0
LEGS = 0.397
AIR = ("air-", "arc-", "travel-")


def body(
    height: float, distance: float, *, tuck: float = 0.0, axis: float = 0.0, turns: float = 0.0
) -> dict[str, Track]:
    """Return the center of mass and the hips of one jump: legs drawn up by `tuck` m at the apex, hips `axis` m off the
    axis that the body turns about `turns` times in the air."""
    low, stands, toes = 0.57, 0.97, 1.02
    push, speed = toes - low, math.sqrt(2.0 * G * height)
    dips, held, crouch = 12.0, 22.0, 26.0
    takeoff, air = crouch + 2.0 * push / speed * FPS, 2.0 * speed / G * FPS
    landing = takeoff + air
    absorbed = landing + takeoff - crouch
    frames = np.arange(0.0, math.ceil(absorbed + 30.0) + 1)
    part = np.clip((frames - takeoff) / air, 0.0, 1.0)
    rise, sink = ((frames - start) / (takeoff - crouch) for start in (crouch, landing))
    t = (frames - takeoff) / FPS
    z = np.select(
        [frames < held, frames < crouch, frames < takeoff, frames <= landing, frames <= absorbed],
        [
            stands - (stands - low) * _eased((frames - dips) / (held - dips)),
            np.full_like(frames, low),
            low + push * rise**2,
            toes + speed * t - 0.5 * G * t * t,
            toes - push * (1.0 - (1.0 - sink) ** 2),
        ],
        low + (stands - low) * _eased((frames - absorbed - 4.0) / 14.0),
    )
    x = distance * part
    whole = np.stack((x, 0.0 * x, z), axis=1)
    drawn_up = tuck * np.sin(math.pi * part) ** 2
    turn = 2.0 * math.pi * turns * part
    off = np.stack((axis * (np.cos(turn) - 1.0), axis * np.sin(turn), -LEGS * drawn_up), axis=1)
    return {
        "hips": Track("hips", FPS, frames, whole + off),
        "center": Track("center", FPS, frames, whole, follows=Followed.CENTER_OF_MASS),
    }


def _eased(share: np.ndarray) -> np.ndarray:
    """Return 0 to 1 from rest to rest."""
    share = np.clip(share, 0.0, 1.0)
    return share**2 * (3.0 - 2.0 * share)


def told(audit: Audit) -> list[str]:
    """Return findings of arc, gravity and travel at check or above."""
    return [finding.code for jump in audit.jumps for finding in jump.findings
            if finding.rank > 0 and finding.code.startswith(AIR)]


CASES = {
    "a tuck": {"height": 0.45, "distance": 0.8, "tuck": 0.20},
    "a tuck in place": {"height": 0.6, "distance": 0.0, "tuck": 0.20},
    "a half tuck of a low jump": {"height": 0.30, "distance": 0.6, "tuck": 0.10},
    "a deep tuck": {"height": 0.30, "distance": 0.6, "tuck": 0.20},
    "a turn": {"height": 0.45, "distance": 0.8, "axis": 0.05, "turns": 1.0},
    "a half turn": {"height": 0.45, "distance": 1.2, "axis": 0.05, "turns": 0.5},
    "a tucked turn": {"height": 0.6, "distance": 1.0, "tuck": 0.15, "axis": 0.05, "turns": 1.0},
}


@pytest.mark.parametrize("case", CASES)
def test_limbs_and_turns_are_no_fault_of_the_arc(case: str) -> None:
    tracks = body(**CASES[case])
    assert len(audit_track(tracks["center"]).jumps) == 1
    assert not audit_track(tracks["center"]).jumps[0].findings
    (hips,) = audit_track(tracks["hips"]).jumps
    assert hips.certainty is not Certainty.DOUBTFUL
    assert not told(audit_track(tracks["hips"]))


@pytest.mark.parametrize("case", ["a tuck", "a deep tuck", "a turn", "a half turn", "a tucked turn"])
def test_the_audit_of_the_hips_says_the_way_to_the_center_of_mass(case: str) -> None:
    (jump,) = audit_track(body(**CASES[case])["hips"]).jumps
    notes = [finding for finding in jump.findings if finding.code.startswith(AIR)]
    assert notes
    assert all("against the center of mass, so follow that" in finding.mend for finding in notes)


@pytest.mark.parametrize("case", ["a deep tuck", "a turn", "a tucked turn"])
def test_the_way_to_the_center_of_mass_is_said(case: str) -> None:
    # The events are given: what is asked here is what is made of them.
    tracks = body(**CASES[case])
    (true,) = find_phases(tracks["center"], World(), Limits()).phases
    track = tracks["hips"]
    heights = np.interp([event.frame for event in (true.crouch, true.takeoff, true.apex, true.landing)],
                        track.frames, track.heights)
    events = (true.crouch, true.takeoff, true.apex, true.landing)
    crouch, takeoff, apex, landing = (replace(e, height=float(z)) for e, z in zip(events, heights, strict=True))
    arc = fitted(track, takeoff.frame, landing.frame)
    phases = replace(true, crouch=crouch, takeoff=takeoff, apex=apex, landing=landing, arc=arc)
    jump = judge(measure(track, phases, World()), Settings())
    notes = [finding for finding in jump.findings if finding.code.startswith(AIR)]
    assert notes and not [finding for finding in notes if finding.rank > 0]
    assert all("against the center of mass, so follow that" in finding.mend for finding in notes)


def test_what_no_limb_explains_is_told_of_the_hips_too() -> None:
    # Half the gravity after a push as quick as recorded ones in real time: a flight of 0.45 m takes 0.857 s, and
    # g T² / 16, 0.45 m, is far more than limbs move. The body stands 5 cm lower than its toes lift it.
    frames, first, push = np.arange(0.0, 92.0), 32.0, 1.6 * 0.4 / math.sqrt(2.0 * G * 0.45) * FPS
    t = (frames - first) / FPS
    rise = np.clip((frames - first + push) / push, 0.0, 1.0)
    flight = 0.97 + math.sqrt(G * 0.45) * t - 0.25 * G * t * t
    sink = np.clip((frames - first - 2.0 * math.sqrt(0.9 / (0.5 * G)) * FPS) / 8.0, 0.0, 1.0)
    stands, up = np.clip((frames - 12.0) / 8.0, 0.0, 1.0), np.clip((frames - 68.0) / 12.0, 0.0, 1.0)
    low = 0.57 + 0.35 * (1.0 - stands**2 * (3.0 - 2.0 * stands))
    after = 0.97 - 0.35 * sink * (2.0 - sink) + 0.3 * up**2 * (3.0 - 2.0 * up)
    z = np.where(t < 0.0, low + 0.4 * rise**2, np.where(sink > 0.0, after, flight))
    assert "air-floaty" in told(audit_track(Track("slow", FPS, frames, np.stack((0.0 * z, 0.0 * z, z), axis=1))))
