"""Live: what is shown follows the keys by itself, and leaves no trace."""

import bpy
import pytest
from leapwright.addon import auditing, results, view
from leapwright.addon.feet.settings import of_rig
from leapwright.addon.live import changes, following
from leapwright.addon.live.freshness import State, state_of

from tests.addon.live.test_freshness import body, raise_a_key
from tests.addon.scene_state import state
from tests.addon.scenery import empty, hopping
from tests.addon.walker import walker


@pytest.fixture(autouse=True)
def resting(scene, monkeypatch):
    """Live is on, no timer waits, the hand rests, and each call takes one step."""
    monkeypatch.setattr(following, "REST", 0.0)
    monkeypatch.setattr(following, "SHARE", 0.0)
    view.of_window().use_live = True
    yield
    if bpy.app.timers.is_registered(following._tick):
        bpy.app.timers.unregister(following._tick)
    view.of_window().use_live = True


def audited(thing):
    bpy.context.view_layer.objects.active = thing
    return auditing.audit_followed(bpy.context)


def idle():
    """Run the timers, as Blender does when it has nothing else to do; Blender as a module has no such loop."""
    bpy.context.view_layer.update()
    if bpy.app.timers.is_registered(following._tick):
        bpy.app.timers.unregister(following._tick)
        return looks()
    return None


def looks():
    """Call the timer until no audit is under way; return when it wants to be called again."""
    wait = following._tick()
    while following._work or wait == following.SECONDS_BETWEEN_AUDITS:
        assert wait in (following.SECONDS_BETWEEN_STEPS, following.SECONDS_BETWEEN_AUDITS)
        wait = following._tick()
    return wait


def height():
    return results.latest(bpy.context.scene).audit.jumps[0].apex.height


@pytest.mark.parametrize("make", [lambda: hopping(empty()), body], ids=["keyed", "center of mass"])
def test_a_moved_key_is_followed(make):
    thing = make()
    first = audited(thing)
    raise_a_key(thing)
    assert idle() is None
    assert results.latest(bpy.context.scene) is not first
    assert results.latest(bpy.context.scene).audit.jumps != first.audit.jumps


def test_an_undo_and_a_redo_are_followed(scene):
    thing = hopping(empty())
    bpy.ops.ed.undo_push(message="keyed")
    audited(thing)
    before = height()
    raise_a_key(thing)
    bpy.ops.ed.undo_push(message="raised")
    idle()
    raised = height()
    assert raised > before + 0.2
    bpy.ops.ed.undo()
    idle()
    assert height() == before
    bpy.ops.ed.redo()
    idle()
    assert height() == raised


def test_an_evaluated_path_waits_for_the_hand_to_rest(monkeypatch):
    rig = body()
    first = audited(rig)
    monkeypatch.setattr(following, "REST", 1e6)
    raise_a_key(rig)
    assert idle() == following.LOOK
    assert results.latest(bpy.context.scene) is first
    monkeypatch.setattr(following, "REST", 0.0)
    assert looks() is None
    assert results.latest(bpy.context.scene) is not first


def test_with_live_off_nothing_runs(scene):
    thing = hopping(empty())
    first = audited(thing)
    view.of_window().use_live = False
    raise_a_key(thing)
    bpy.context.view_layer.update()
    assert not bpy.app.timers.is_registered(following._tick)
    assert results.latest(scene) is first


def test_no_timer_runs_when_nothing_has_changed_or_nothing_was_audited(scene):
    thing = hopping(empty())
    bpy.context.view_layer.update()
    assert not bpy.app.timers.is_registered(following._tick)
    audited(thing)
    idle()
    scene.frame_set(9)
    bpy.context.view_layer.update()
    idle()
    assert not bpy.app.timers.is_registered(following._tick)


def test_following_changes_nothing_of_the_scene(scene):
    rig = body()
    audited(rig)
    raise_a_key(rig)
    scene.frame_set(17, subframe=0.25)
    bpy.context.view_layer.update()
    before = state(scene)
    idle()
    assert state(scene) == before


def test_following_leaves_no_undo_step(scene):
    thing = hopping(empty())
    audited(thing)
    raise_a_key(thing)
    for step in (1, 2):
        bpy.context.scene["step"] = step
        bpy.ops.ed.undo_push(message=f"step {step}")
    idle()
    bpy.ops.ed.undo()
    assert bpy.context.scene["step"] == 1


def test_what_is_deleted_is_not_followed_and_its_audit_stays_to_be_seen(scene):
    thing = hopping(empty())
    first = audited(thing)
    bpy.data.objects.remove(thing)
    assert idle() is None
    assert results.latest(scene) is first


def test_a_path_that_can_no_longer_be_read_keeps_its_audit(scene):
    thing = hopping(empty())
    first = audited(thing)
    thing.animation_data_clear()
    assert idle() is None
    assert results.latest(scene) is first


def test_the_chosen_jump_stays_chosen(scene):
    thing = hopping(empty())
    audited(thing)
    raise_a_key(thing)
    idle()
    assert bpy.context.window_manager.leapwright.chosen == 0


def test_changes_of_a_scene_without_an_audit_are_not_counted(scene):
    hopping(empty())
    count = changes.count_of(scene)
    bpy.context.view_layer.update()
    assert changes.count_of(scene) == count


def test_a_body_with_feet_is_followed_while_it_is_dragged_and_its_feet_when_the_hand_rests(monkeypatch, scene):
    rig = walker()
    of_rig(rig).reading = "on"
    scene.leapwright.follow, scene.leapwright.thing, scene.leapwright.bone = "bone", rig, "root"
    first = audited(rig)
    assert first.basis.has_feet and not first.basis.evaluated
    monkeypatch.setattr(following, "REST", 1e6)
    raise_a_key(rig)
    assert idle() == following.LOOK
    dragged = results.latest(scene)
    assert dragged.is_preview and dragged.track.feet is not None
    assert abs(dragged.path.heights - first.path.heights).max() > 0.2
    assert looks() == following.LOOK
    assert results.latest(scene) is dragged  # nothing more was done
    monkeypatch.setattr(following, "REST", 0.0)
    assert looks() is None
    rested = results.latest(scene)
    assert not rested.is_preview and state_of(scene, rested) is State.FRESH


def test_what_an_undo_brings_back_is_not_shown_with_the_feet_of_before(monkeypatch, scene):
    rig = walker()
    of_rig(rig).reading = "on"
    scene.leapwright.follow, scene.leapwright.thing, scene.leapwright.bone = "bone", rig, "root"
    bpy.ops.ed.undo_push(message="keyed")
    first = audited(rig)
    raise_a_key(rig)
    bpy.ops.ed.undo_push(message="raised")
    monkeypatch.setattr(following, "REST", 0.0)
    assert idle() is None
    raised = results.latest(scene)
    monkeypatch.setattr(following, "REST", 1e6)
    bpy.ops.ed.undo()
    assert idle() == following.LOOK
    assert results.latest(bpy.context.scene) is raised  # the feet are still to be read
    monkeypatch.setattr(following, "REST", 0.0)
    assert looks() is None
    undone = results.latest(bpy.context.scene)
    assert not undone.is_preview
    assert undone.audit.jumps[0].apex.height == pytest.approx(first.audit.jumps[0].apex.height, abs=1e-6)
