"""A live audit takes several steps, each in its own frame of the window; mends come last."""

import bpy
import pytest
from leapwright.addon import auditing, results, view
from leapwright.addon.live import following
from leapwright.addon.live.freshness import State, state_of

from tests.addon.live.test_following import audited, height, idle, looks, resting  # noqa: F401 (a fixture)
from tests.addon.live.test_freshness import raise_a_key
from tests.addon.scenery import empty, hopping


def dragging(monkeypatch, is_so=True):
    monkeypatch.setattr(following, "_is_dragged", lambda: is_so)


def test_while_keys_are_dragged_no_mends_are_planned_and_then_they_are(monkeypatch, scene):
    thing = hopping(empty())
    first = audited(thing)
    dragging(monkeypatch)
    raise_a_key(thing)
    assert idle() == following.LOOK
    dragged = results.latest(scene)
    assert dragged.is_preview and not any(jump.mends for jump in dragged.audit.jumps)
    assert height() > first.audit.jumps[0].apex.height
    assert looks() == following.LOOK and results.latest(scene) is dragged  # nothing more was done
    raise_a_key(thing)
    bpy.context.view_layer.update()
    assert looks() == following.LOOK and results.latest(scene) is not dragged
    dragging(monkeypatch, False)
    assert looks() is None
    rested = results.latest(scene)
    assert not rested.is_preview and state_of(scene, rested) is State.FRESH
    assert [jump.findings for jump in rested.audit.jumps] == [
        jump.findings for jump in auditing.read_followed(bpy.context).audit.jumps
    ]


def test_what_is_edited_while_an_audit_is_under_way_is_followed_too(scene):
    thing = hopping(empty())
    audited(thing)
    raise_a_key(thing)
    bpy.context.view_layer.update()
    assert following._tick() == following.SECONDS_BETWEEN_STEPS and following._work
    raise_a_key(thing)
    bpy.context.view_layer.update()
    looks()
    assert state_of(scene, results.latest(scene)) is State.FRESH
    assert height() == pytest.approx(auditing.read_followed(bpy.context).audit.jumps[0].apex.height)


def test_an_audit_under_way_is_dropped_when_the_thing_is_audited_anew_or_live_is_turned_off(scene):
    thing = hopping(empty())
    audited(thing)
    raise_a_key(thing)
    bpy.context.view_layer.update()
    following._tick()
    new = audited(thing)
    looks()
    assert results.latest(scene) is new
    raise_a_key(thing)
    bpy.context.view_layer.update()
    following._tick()
    view.of_window().use_live = False
    assert following._tick() is None and not following._work
    assert results.latest(scene) is new


def test_a_window_that_draws_slowly_leaves_room_for_more_steps(monkeypatch, scene):
    thing = hopping(empty())
    audited(thing)
    raise_a_key(thing)
    bpy.context.view_layer.update()
    monkeypatch.setattr(following, "SHARE", 0.03)
    following._called[0] -= 100.0  # as if the timer had not been called for so many seconds
    assert following._tick() == following.SECONDS_BETWEEN_AUDITS and not following._work
    assert looks() is None
    assert state_of(scene, results.latest(scene)) is State.FRESH
