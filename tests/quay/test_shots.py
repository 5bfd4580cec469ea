"""Every Tern Quay shot: the file holds the motion that it was built from, and an audit finds what is off and no more.

The truth is the plan each shot was keyed from (moves.py, shots.py), worked out by the law of fall alone.
"""

import itertools
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from leapwright.addon.shots.shot import read_shot
from leapwright.analysis import Settings
from leapwright.analysis.figures import value_of
from leapwright.analysis.shot import Shot as Audited
from leapwright.analysis.shot import audit_reading

from .build import bpy
from .moss import SEAT
from .motion import FPS, Built
from .moves import STANDING, Leap
from .pose import hoof
from .shots import SHOTS, Shot

SUB_FRAME = 0.02
"""Frames an event may lie off on a drawn curve."""
EXACT = 1e-3
"""Frames that an event may lie off on stepped and blocked poses, whose keys are the events: single precision."""
ROOT, MOSS = "Brindle/root", "Moss"

every_shot = pytest.mark.parametrize("shot", SHOTS, ids=lambda shot: shot.name)
every_arc = pytest.mark.parametrize("shot", [s for s in SHOTS if s.drawn == "arcs"], ids=lambda shot: shot.name)


@pytest.fixture(scope="session")
def folder(tmp_path_factory: pytest.TempPathFactory, root: Path) -> Path:
    """Build all shots once, as the demo does."""
    shots = tmp_path_factory.mktemp("quay")
    build = [sys.executable, "-m", "tests.quay.build", str(shots)]
    done = subprocess.run(build, cwd=root, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    assert [line.split(".")[0] for line in done.stdout.splitlines() if line.startswith("tq")] == [
        shot.name for shot in SHOTS
    ]
    return shots


@pytest.fixture(scope="session")
def audited(folder: Path) -> dict[str, Audited]:
    """Audit every file as the command does, each against its own scene's gravity."""
    paths = {shot.name: folder / f"{shot.name}.blend" for shot in SHOTS}
    return {name: audit_reading(str(path), read_shot(path), Settings()) for name, path in paths.items()}


@every_shot
def test_an_audit_takes_brindle_and_only_who_rides_with_her(shot: Shot, audited: dict[str, Audited]) -> None:
    audits = audited[shot.name].audits
    assert [audit.name for audit in audits] == [ROOT] + [MOSS] * shot.moss
    assert [audit.notes for audit in audits if audit.jumps] == [()] * sum(bool(audit.jumps) for audit in audits)
    assert audited[shot.name].gravity == pytest.approx(shot.gravity)


@every_shot
def test_an_audit_finds_what_the_shot_was_built_to_have_and_nothing_else(
    shot: Shot, audited: dict[str, Audited]
) -> None:
    for audit in audited[shot.name].audits:
        found = tuple({f.code: f.severity for f in jump.findings} for jump in audit.jumps)
        told = [f"{f.code}: {f.message}" for jump in audit.jumps for f in jump.findings]
        assert found == tuple(dict(findings) for findings in shot.findings), told


@every_shot
def test_events_lie_on_the_frames_they_were_keyed_on(shot: Shot, audited: dict[str, Audited]) -> None:
    within = SUB_FRAME if shot.drawn == "arcs" else EXACT
    for audit in audited[shot.name].audits:
        for jump, built in zip(audit.jumps, shot.motion().jumps, strict=True):
            events = {n: getattr(jump, n) for n in ("crouch", "takeoff", "apex", "landing", "absorbed")}
            for name, event in events.items():
                if event is None or getattr(built, name) is None:
                    assert event is getattr(built, name), name
                else:
                    assert event.frame == pytest.approx(getattr(built, name), abs=within), name


@every_shot
def test_heights_and_the_push_ratio_are_those_it_was_built_with(shot: Shot, audited: dict[str, Audited]) -> None:
    for audit, lift in zip(audited[shot.name].audits, (0.0, SEAT[1] - STANDING), strict=False):
        for jump, built in zip(audit.jumps, shot.motion().jumps, strict=True):
            key = next(k for k in shot.motion().keys if k.frame == built.apex)
            # Blender keeps places in single precision.
            assert jump.apex.height == pytest.approx(key.z + lift, abs=1e-5)
            for name in ("push_distance", "jump_height", "drop_height", "absorb_distance"):
                assert value_of(jump, name) == _about(getattr(built, name), abs=1e-4), name
            assert value_of(jump, "push_ratio") == _about(built.push_ratio)
            if jump.flight.gravity is not None:
                assert jump.flight.gravity.value == pytest.approx(built.gravity, rel=1e-3)


@every_arc
def test_the_keyed_flight_is_a_parabola_under_the_gravity_it_was_built_with(shot: Shot, folder: Path) -> None:
    heights = {f: place[2] for f, place in _places(folder, shot, "root").items()}
    for built in shot.motion().jumps:
        flight = [heights[f] for f in range(round(built.takeoff), round(built.landing) + 1)]
        # The second difference of a parabola is its acceleration over the square of the rate; single
        # precision at three meters leaves 5e-7 of each height.
        assert -np.diff(flight, 2) == pytest.approx(built.gravity / FPS**2, abs=2e-6)


@every_arc
def test_hooves_stay_where_they_were_put_down(shot: Shot, folder: Path) -> None:
    motion = shot.motion()
    for foot in "LR":
        for frame, place in _places(folder, shot, f"foot.{foot}", tail=True).items():
            assert place[[0, 2]] == pytest.approx(hoof(motion, foot, frame), abs=1e-4)
    for plant in motion.plants:
        assert plant.last > plant.first


@every_shot
def test_a_shot_built_as_believable_obeys_the_law_and_the_others_break_it(shot: Shot) -> None:
    leaps = [move for move in shot.moves if isinstance(move, Leap)]
    jumps = [(j, f) for j, f in zip(shot.motion().jumps, shot.findings, strict=True) if j.push_ratio]
    for leap, (jump, findings) in zip(leaps, jumps, strict=True):
        belongs = _push_share(jump) == pytest.approx(1.0, abs=1e-9)
        assert belongs == (not findings.keys() & {"push-long", "push-short"})
        real = np.sqrt(2 * jump.jump_height / shot.gravity) * FPS == pytest.approx(leap.rise, abs=1.0)
        assert real == (not findings.keys() & {"air-floaty", "air-snappy"})


def test_shots_are_named_and_numbered_by_tens() -> None:
    numbers = [int(shot.name[2:5]) for shot in SHOTS]
    assert all(b - a == 10 for a, b in itertools.pairwise(numbers)) and numbers[0] == 10


def _about(built: float | None, **within: float) -> object:
    """Return what a measure may be of what was built: 0.1 %, or None where there is nothing to measure."""
    return None if built is None else pytest.approx(built, rel=1e-3, **within)


def _push_share(jump: Built) -> float:
    """Return push frames over those a constant force takes: 2 d / v, with v = 2 h / rise frames."""
    expected = jump.push_distance / jump.jump_height * (jump.apex - jump.takeoff)
    return (jump.takeoff - jump.crouch) / expected


def _places(folder: Path, shot: Shot, bone: str, *, tail: bool = False) -> dict[int, np.ndarray]:
    """Return world place of a bone at every frame, as the host itself evaluates the saved file."""
    bpy.ops.wm.open_mainfile(filepath=str(folder / f"{shot.name}.blend"), load_ui=False)
    scene, rig = bpy.context.scene, bpy.data.objects["Brindle"]
    places = {}
    for frame in range(scene.frame_start, scene.frame_end + 1):
        scene.frame_set(frame)
        end = rig.pose.bones[bone].tail if tail else rig.pose.bones[bone].head
        places[frame] = np.array(rig.matrix_world @ end)
    return places
