"""What Live shows while keys are dragged is what an audit of the same scene, with nothing kept, finds.

The reference is the audit itself, mends aside, after all that is kept between readings was dropped.
"""

import sys
from dataclasses import asdict

import bpy
import numpy as np
import pytest
from leapwright.addon import auditing, results
from leapwright.addon.host import curves_of
from leapwright.analysis.audit import judged_track

from tests.addon.live.test_following import audited, idle, resting  # noqa: F401 (a fixture)
from tests.addon.live.test_steps import dragging
from tests.addon.scenery import HOP, armature, empty, hopping, turn

MOVES = 5
"""Places that a hand takes a key to, before it takes it back."""


def a_bone():
    rig = armature()
    hopping(rig.pose.bones["root"])
    return rig


def eased():
    """Have an interpolation that the host alone works out."""
    thing = hopping(empty())
    for curve in curves_of(thing.animation_data):
        curve.keyframe_points[2].interpolation = "SINE"
    return thing


def shifted():
    """Be raised by a second location, keyed by itself."""
    thing = hopping(empty())
    for frame, height in ((1, 0.0), (20, 0.05), (45, 0.0)):
        thing.delta_location.z = height
        thing.keyframe_insert("delta_location", index=2, frame=frame)
    return thing


def lasting():
    """Last for 300 frames: from 200 on the curves are not asked of the host."""
    thing = hopping(empty())
    thing.location = (0.0, 15.0, 1.0)
    thing.keyframe_insert("location", frame=300)
    return thing


THINGS = {
    "keyed": lambda: hopping(empty()),
    "bone": a_bone,
    "eased": eased,
    "two locations": shifted,
    "lasting": lasting,
    "under a turned parent": lambda: hopping(empty(parent=turn(empty("Barge")))),
}


def forget():
    """Drop all that is kept of earlier readings."""
    for name, module in list(sys.modules.items()):
        if name.startswith("leapwright."):
            for kept in list(vars(module).values()):
                if hasattr(kept, "cache_clear"):
                    kept.cache_clear()


def told(audit):
    """Return all that an audit says of its jumps, to the last bit."""
    return [repr(asdict(jump)) for jump in audit.jumps], audit.said


def offsets(rng):
    """Return where a hand takes a key, in frames and meters from where it was: on, back over one place, and home."""
    steps = [(float(rng.choice((-1.0, -0.25, 0.0, 0.5))), float(rng.uniform(-0.2, 0.2))) for _ in range(MOVES)]
    return [*steps, steps[1], (0.0, 0.0)]


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("kind", THINGS)
def test_a_drag_shows_at_every_move_what_an_audit_finds(monkeypatch, scene, kind, seed):
    thing, rng = THINGS[kind](), np.random.default_rng(seed)
    audited(thing)
    curves = curves_of(thing.animation_data)
    number = int(rng.integers(1, len(HOP) - 1))
    # All channels of a pose, as in the Dope Sheet, or its height alone, as in the Graph Editor.
    keys = [curve.keyframe_points[number] for curve in (curves[:3] if rng.random() < 0.5 else curves[2:3])]
    starts = [tuple(key.co_ui) for key in keys]
    dragging(monkeypatch)
    for frames, height in offsets(rng):
        for key, start in zip(keys, starts, strict=True):
            key.co_ui = start[0] + frames, start[1] + height
        for curve in curves:
            curve.update()
        idle()
        shown = results.latest(scene)
        assert shown.is_preview
        forget()
        read = auditing.read_followed(bpy.context)
        np.testing.assert_array_equal(shown.path.positions, read.path.positions)
        assert told(shown.audit) == told(judged_track(read.track, read.basis.settings))
