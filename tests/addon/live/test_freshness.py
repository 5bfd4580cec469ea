"""After anything that a person does to the scene, it is known whether what is shown still belongs to it."""

import bpy
import pytest
from leapwright.addon import auditing, results
from leapwright.addon.host import curves_of
from leapwright.addon.live import changes
from leapwright.addon.live.freshness import State, state_of

from tests.addon.constrained import limb
from tests.addon.edits import EDITS
from tests.addon.scenery import empty, hopping
from tests.addon.skeletons import person


def audited(thing):
    bpy.context.view_layer.objects.active = thing
    return auditing.audit_followed(bpy.context)


def state():
    bpy.context.view_layer.update()
    scene = bpy.context.scene
    return state_of(scene, results.latest(scene))


def body():
    rig = person()
    rig.data.bones["Hips"].use_local_location = False
    hopping(rig.pose.bones["Hips"])
    return rig


def raise_a_key(thing):
    curve = next(curve for curve in curves_of(thing.animation_data) if curve.array_index == 2)
    curve.keyframe_points[3].co.y += 0.3
    curve.update()


THINGS = [lambda: hopping(empty()), body]


@pytest.fixture(params=THINGS, ids=["keyed", "center of mass"])
def thing(scene, request):
    return request.param()


def test_an_audit_is_fresh_until_a_key_moves_and_again_after_it_moves_back(thing):
    audited(thing)
    assert state() is State.FRESH
    curve = next(curve for curve in curves_of(thing.animation_data) if curve.array_index == 2)
    was = curve.keyframe_points[3].co.y
    raise_a_key(thing)
    assert state() is State.CHANGED
    curve.keyframe_points[3].co.y = was
    curve.update()
    changes._on_leap()  # after an undo the scene is looked at again at once
    assert state() is State.FRESH


def test_the_frame_the_selection_and_another_object_leave_it_fresh(thing, scene):
    audited(thing)
    scene.frame_set(17)
    thing.select_set(True)
    other = empty("Buoy")
    other.location.x = 3.0
    assert state() is State.FRESH


@pytest.mark.parametrize("name, value", [("gravity", "moon"), ("kind", "cat"), ("step", "2")])
def test_a_setting_of_the_shot_makes_it_old(thing, scene, name, value):
    audited(thing)
    setattr(scene.leapwright, name, value)
    assert state() is State.CHANGED


def test_the_frame_rate_and_a_mark_by_hand_make_it_old(thing, scene):
    audited(thing)
    scene.render.fps = 30
    assert state() is State.CHANGED
    scene.render.fps = 24
    assert state() is State.FRESH
    entry = scene.leapwright_marks.add()
    entry.track, entry.pinned, entry.takeoff = results.latest(scene).audit.name, {"takeoff"}, 14.0
    assert state() is State.CHANGED


def test_a_renamed_thing_is_known_and_a_deleted_one_is_gone(thing, scene):
    audited(thing)
    thing.name = "Bollard"
    assert state() is State.CHANGED
    assert audited(thing).audit.name.startswith("Bollard")
    bpy.data.objects.remove(thing)
    assert state() is State.GONE


def test_an_undo_and_a_redo_are_noticed(thing, scene):
    bpy.ops.ed.undo_push(message="keyed")
    audited(thing)
    name = thing.name
    raise_a_key(thing)
    bpy.ops.ed.undo_push(message="raised")
    assert state() is State.CHANGED
    bpy.ops.ed.undo()
    assert state() is State.FRESH
    bpy.ops.ed.redo()
    assert bpy.context.scene.objects[name] is not None
    assert state() is State.CHANGED


def test_a_loaded_file_shows_no_audit_of_another(thing):
    audited(thing)
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    assert results.latest(bpy.context.scene) is None


@pytest.mark.parametrize("edit", EDITS, ids=lambda edit: edit.__name__)
def test_every_change_that_moves_a_bone_makes_an_evaluated_audit_old(scene, edit):
    rig = limb(scene)
    scene.leapwright.follow, scene.leapwright.thing, scene.leapwright.bone = "bone", rig, "shin"
    audited(rig)
    assert results.latest(scene).basis.evaluated
    edit(rig)
    rig.update_tag()  # Blender tags what a person sets; a custom property that a script sets is not tagged
    assert state() is State.CHANGED


def test_a_second_audit_without_a_change_is_the_first(thing):
    first = audited(thing)
    assert audited(thing) is first
    raise_a_key(thing)
    assert audited(thing) is not first
