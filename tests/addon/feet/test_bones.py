"""The feet of a rig are found by name, corrected by hand, and read where Blender shows them, over three kinds of
ground."""

import bpy
import numpy as np
import pytest
from leapwright.addon.feet import bones as feet
from leapwright.addon.feet.settings import of_rig
from leapwright.addon.shots.candidates import candidate_named
from leapwright.analysis import SourceError, audit_track

from tests.addon.scenery import armature, empty
from tests.addon.walker import floor, walker
from tests.analysis.closed_form import Leap
from tests.analysis.shod import Shoes, shod


def rig_with(names):
    rig = bpy.data.objects.new("Rig", bpy.data.armatures.new("Rig"))
    bpy.context.scene.collection.objects.link(rig)
    bpy.context.view_layer.objects.active = rig
    bpy.ops.object.mode_set(mode="EDIT")
    for row, name in enumerate(names):
        bone = rig.data.edit_bones.new(name)
        bone.head, bone.tail = (row, 0, 0), (row, 0.2, 0)
    bpy.ops.object.mode_set(mode="OBJECT")
    return rig


def audited(scene, rig):
    track = candidate_named(scene, f"{rig.name}/root").sample()
    return audit_track(feet.with_feet(scene, rig, track))


def contacts(scene, shoes):
    (jump,) = audited(scene, walker(shoes)).jumps
    return {finding.code for finding in jump.findings if finding.code.startswith("contact")}


@pytest.mark.parametrize(
    ("names", "taken"),
    [
        (["spine", "foot.L", "toe.L", "heel.02.L"], ["foot.L", "toe.L", "heel.02.L"]),
        (["LeftLeg", "LeftFoot", "LeftToeBase", "RightFoot"], ["LeftFoot", "LeftToeBase", "RightFoot"]),
        (["lShin", "lFoot", "lToe", "Foot_R"], ["lFoot", "lToe", "Foot_R"]),
        (
            ["foot_ik.L", "foot_spin_ik.L", "MCH-foot.L", "ORG-foot.L", "DEF-foot.L", "DEF-toe.L"],
            ["DEF-foot.L", "DEF-toe.L"],
        ),
        (["hoof_front_l", "paw.R", "eyeball", "footlight"], ["hoof_front_l", "paw.R"]),
        (["root", "hips"], []),
    ],
)
def test_feet_are_found_by_their_names(scene, names, taken):
    assert list(feet.find_feet(rig_with(names))) == taken


def test_an_ankle_does_not_touch_the_ground_a_heel_and_a_toe_do(scene):
    rig = rig_with(["foot.L", "toe.L", "heel.L"])
    bpy.ops.object.mode_set(mode="EDIT")
    for name, head, tail in (
        ("foot.L", (0, 0, 0.09), (0, -0.13, 0.02)),
        ("toe.L", (0, -0.13, 0.02), (0, -0.2, 0.02)),
        ("heel.L", (-0.03, 0.05, 0.0), (0.03, 0.05, 0.0)),
    ):
        bone = rig.data.edit_bones[name]
        bone.head, bone.tail = head, tail
    bpy.ops.object.mode_set(mode="OBJECT")
    soles = feet._soles(scene, rig, ("foot.L", "toe.L", "heel.L"))
    assert soles == [("foot.L", 1), ("toe.L", 1), ("heel.L", 0), ("heel.L", 1)]


def test_the_feet_are_where_blender_shows_them(scene):
    rig = walker()
    rig.location = (0.3, -1.0, 0.5)
    rig.rotation_euler = (0.0, 0.0, 0.7)
    track = feet.with_feet(scene, rig, candidate_named(scene, "Brindle/root").sample())
    for row in (0, 18, 30, len(track.frames) - 1):
        scene.frame_set(int(track.frames[row]))
        shown = rig.evaluated_get(bpy.context.evaluated_depsgraph_get())
        ends = [getattr(shown.pose.bones[bone], end) for bone in ("foot.L", "foot.R") for end in ("head", "tail")]
        np.testing.assert_allclose(track.feet[row], [(shown.matrix_world @ end)[:] for end in ends], atol=1e-5)


def test_feet_that_go_with_the_body_are_told_nothing(scene):
    assert contacts(scene, Shoes()) == set()


@pytest.mark.parametrize(
    ("shoes", "told"),
    [
        (Shoes(off=-0.5, on=0.5, slide=0.01, sink=0.01), set()),
        (Shoes(off=-3.0), {"contact-early"}),
        (Shoes(on=-3.0), {"contact-early"}),
        (Shoes(off=3.0), {"contact-late"}),
        (Shoes(on=3.0), {"contact-late"}),
        (Shoes(slide=0.06), {"contact-slides"}),
        (Shoes(push_slide=0.08), {"contact-slides"}),
        (Shoes(sink=0.05), {"contact-sinks"}),
    ],
)
def test_each_thing_off_with_the_feet_is_told_when_it_is_off(scene, shoes, told):
    assert contacts(scene, shoes) == told


def test_what_is_off_is_told_in_a_scene_of_centimeters_too(scene):
    rig = walker(Shoes(slide=0.06))
    scene.unit_settings.scale_length = 0.01
    rig.scale = (100.0, 100.0, 100.0)
    (jump,) = audited(scene, rig).jumps
    assert "contact-slides" in {finding.code for finding in jump.findings}
    assert jump.feet.below == pytest.approx(1.0, abs=0.02)


def test_bones_chosen_by_hand_come_before_names(scene):
    rig = walker()
    settings = of_rig(rig)
    settings.bones.add().bone = "foot.R"
    settings.bones.add().bone = ""
    assert feet.foot_bones(rig) == ("foot.R",)
    track = feet.with_feet(scene, rig, candidate_named(scene, "Brindle/root").sample())
    assert track.feet.shape[1] == 2
    assert track.notes[-1] == "feet: foot.R; ground: where they stand"


def test_a_foot_that_stays_sunk_is_told_over_a_typed_height(scene):
    rig = walker(Shoes(floor=0.0))
    of_rig(rig).ground, of_rig(rig).ground_height = "height", 0.05
    (jump,) = audited(scene, rig).jumps
    assert jump.feet.sink.distance == pytest.approx(0.05, abs=1e-5)
    assert "contact-sinks" in {finding.code for finding in jump.findings}


def test_the_mesh_to_land_on_gives_the_ground_on_either_level(scene):
    # From a deck at 0 to one 0.4 m lower, 0.3 m on: the closed-form jump travels 0.8 m.
    leap = Leap(lower=0.4)
    rig = walker(Shoes(), leap)
    deck = floor(-0.4)
    step = floor(0.0, "Step", size=0.35)
    step.parent = deck
    of_rig(rig).ground, of_rig(rig).ground_mesh = "mesh", joined(deck, step)
    track = feet.with_feet(scene, rig, candidate_named(scene, "Brindle/root").sample())
    _, phases = shod(leap=leap)
    assert track.ground[0] == pytest.approx(0.0, abs=1e-5)
    assert track.ground[-1] == pytest.approx(-0.4, abs=1e-5)
    (jump,) = audit_track(track).jumps
    assert jump.feet.off.value == pytest.approx(phases.takeoff.frame, abs=0.1)
    assert jump.feet.on.value == pytest.approx(phases.landing.frame, abs=0.1)
    assert jump.feet.sink.distance == pytest.approx(0.0, abs=1e-4)


def joined(*things):
    with bpy.context.temp_override(active_object=things[0], selected_editable_objects=list(things)):
        bpy.ops.object.join()
    return things[0]


def test_what_is_wrong_with_feet_or_ground_is_a_sentence(scene):
    rig = walker()
    track = candidate_named(scene, "Brindle/root").sample()
    bare = armature("Moss")
    with pytest.raises(SourceError, match='no bone of "Moss" is named like a foot: list the bones that touch'):
        feet.with_feet(scene, bare, track)
    with pytest.raises(SourceError, match='"Crate" has no bones, so it has no feet'):
        feet.with_feet(scene, empty("Crate"), track)
    of_rig(rig).ground = "mesh"
    with pytest.raises(SourceError, match='choose the mesh that the feet of "Brindle" land on'):
        feet.with_feet(scene, rig, track)
    of_rig(rig).bones.add().bone = "tail"
    with pytest.raises(SourceError, match='"Brindle" has no bone "tail", which is listed among its feet'):
        feet.with_feet(scene, rig, track)
