"""Plan and audit are each other's inverse: a plan laid into a scene and audited there gives the plan back."""

import bpy
import numpy as np
import pytest
from leapwright.addon import results
from leapwright.addon.planning.settings import plan_of

from tests.addon.plan_fields import active, fields, lay
from tests.addon.scenery import armature, empty, turn

RATES = ((24, 1.0), (25, 1.0), (30, 1.0), (24, 1.001), (60, 1.0))
EVENTS = ("crouch", "takeoff", "apex", "landing", "absorbed")


def asked(random):
    """Return random fields of a jump of 11 frames in the air or more.

    Where a flight has an odd number n of frames, its apex lies half a frame from the apex key, which the audit reads.
    The key is lower by 1 / n² of the height: under 1 % from 11 frames on.
    """
    height = random.uniform(0.45, 1.5)
    ratio = random.uniform(0.6, 2.0)
    return {
        "height": height,
        "push_distance": height / ratio,
        "landing_height": random.choice([0.0, random.uniform(-0.5, 0.3) * height]),
        "use_absorb": True,
        "absorb_distance": height / ratio * random.uniform(0.4, 1.2),
        "distance": random.choice([0.0, random.uniform(0.2, 3.0)]),
        "heading": random.uniform(-3.0, 3.0),
        "air_pace": random.choice([1.0, 0.85, 1.2]),
        "start_frame": int(random.integers(-30, 300)),
    }


@pytest.mark.parametrize("tens", range(20))
def test_ten_plans_laid_and_audited_are_themselves(tens, scene):
    for seed in range(10 * tens, 10 * tens + 10):
        random = np.random.default_rng(seed)
        scene.render.fps, scene.render.fps_base = RATES[seed % len(RATES)]
        scene.leapwright.gravity = ("scene", "earth", "mars", "moon")[seed // 5 % 4]
        crate = empty(f"Crate {seed}")
        crate.location = random.uniform(-3, 3, 3)
        active(turn(crate) if seed % 2 else crate)
        fields(use_keys=True, use_guide=False, use_markers=False, **asked(random))
        assert lay() == {"FINISHED"}
        assert_given_back(scene, seed)


def test_plans_on_twos_are_themselves_but_for_the_height_of_their_apex_key(scene):
    scene.leapwright.step = "2"
    for seed in range(200, 220):
        crate = active(empty(f"Crate {seed}"))
        assert crate.animation_data is None
        fields(use_keys=True, use_guide=False, use_markers=False, **asked(np.random.default_rng(seed)))
        assert lay() == {"FINISHED"}
        assert all((key.frame - plan_of(scene).keys[0].frame) % 2 == 0 for key in plan_of(scene).keys)
        assert_given_back(scene, seed)


def test_a_plan_on_a_bone_is_itself_too(scene):
    rig = active(turn(armature()))
    rig.data.bones.active = rig.data.bones["root"]
    bpy.ops.object.mode_set(mode="POSE")
    fields(use_keys=True, height=0.8, push_distance=0.5, distance=1.2, landing_height=0.2)
    lay()
    assert_given_back(scene, "bone")


def assert_given_back(scene, name):
    bpy.ops.leapwright.audit_jump()
    plan, (jump,) = plan_of(scene), results.latest(scene).audit.jumps
    step, air = plan.goal.world.step, plan.timing.airtime_frames
    found = {event: getattr(jump, event).frame for event in EVENTS}
    for key in plan.keys:
        exact = key.frame if key.event != "apex" else plan.apex_frame
        # An audit puts the apex on the top of the arc or on its key, which lies on the whole frame nearest to that top.
        near = 0.5 * step if key.event == "apex" else 0.05
        assert found[key.event] == pytest.approx(exact, abs=near + 1e-6), (name, key.event)
        assert abs(found[key.event] - key.frame) <= 0.5 * step + 1e-5, (name, key.event)
    assert jump.flight.gravity.value == pytest.approx(plan.fitted_gravity, rel=0.01), name
    assert jump.push.ratio.value == pytest.approx(plan.push_ratio, rel=max(0.01, (step / air) ** 2)), name
    assert jump.push.agreement.value == pytest.approx(plan.timing.agreement, rel=max(0.01, (step / air) ** 2)), name
    assert jump.travel.distance.value == pytest.approx(plan.goal.distance, abs=1e-4), name
