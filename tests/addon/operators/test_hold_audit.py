"""An audit is held, compared with later ones, and let go; the file never holds it."""

import bpy
import pytest
from leapwright.addon import results
from leapwright.addon.sidebar import comparing

from tests.addon.live.test_freshness import raise_a_key
from tests.addon.scenery import empty, hopping
from tests.addon.sidebar.drawn import drawer


@pytest.fixture
def crate(scene):
    thing = hopping(empty())
    bpy.context.view_layer.objects.active = thing
    bpy.ops.leapwright.audit_jump()
    return thing


def test_before_and_now_stand_side_by_side(scene, crate, monkeypatch):
    draw = drawer(monkeypatch)
    assert bpy.ops.leapwright.hold_audit() == {"FINISHED"}
    assert "Change something to compare" in draw(comparing._Compare).texts
    raise_a_key(crate)
    bpy.ops.leapwright.audit_jump()
    texts = draw(comparing._Compare).texts
    row = texts.index("Jump Height")
    before, now = texts[row + 1 : row + 3]
    assert before != now and texts[:3] == ["", "Before", "Now"]
    assert bpy.ops.leapwright.let_go() == {"FINISHED"}
    assert draw(comparing._Compare).texts == []


def test_what_is_held_ends_with_the_file(scene, crate):
    bpy.ops.leapwright.hold_audit()
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    assert results.held(bpy.context.scene) is None


def test_nothing_is_held_before_an_audit_and_nothing_let_go_before_that(scene):
    with pytest.raises(RuntimeError, match="Audit a jump first"):
        bpy.ops.leapwright.hold_audit()
    with pytest.raises(RuntimeError, match="No audit is held"):
        bpy.ops.leapwright.let_go()
