"""Go to Finding moves to the frame, as one step back, and says why it cannot."""

import bpy
import pytest
from leapwright.addon import results

from tests.addon.scenery import empty, hopping


@pytest.fixture
def audited(scene):
    bpy.context.view_layer.objects.active = hopping(empty())
    bpy.ops.leapwright.audit_jump()
    return results.latest(scene).audit


def go(finding=0, *, undo=False):
    return bpy.ops.leapwright.go_to_finding("EXEC_DEFAULT", undo, jump=0, finding=finding)


def test_each_finding_leads_to_its_first_frame(scene, audited):
    findings = audited.jumps[0].findings
    assert findings, "this hop is drawn to be off"
    for number, finding in enumerate(findings):
        scene.frame_set(1)
        assert go(number) == {"FINISHED"}
        assert scene.frame_current == round(finding.frames[0])


def test_the_scene_is_evaluated_at_the_frame(scene, audited):
    go()
    crate = scene.objects["Crate"]
    assert crate.matrix_world.translation.y == pytest.approx(0.05 * scene.frame_current, rel=1e-5)
    assert crate.matrix_world.translation.y > 0.1


def test_it_is_a_step_that_can_be_undone(scene, audited):
    bpy.ops.ed.undo_push(message="before")
    go(undo=True)
    assert scene.frame_current != 1
    bpy.ops.ed.undo()
    assert bpy.context.scene.frame_current == 1


def test_the_row_tells_the_whole_finding(scene, audited):
    operator = bpy.types.Operator.bl_rna_get_subclass_py("LEAPWRIGHT_OT_go_to_finding")
    properties = type("Properties", (), {"jump": 0, "finding": 0})
    assert audited.jumps[0].findings[0].message in operator.description(bpy.context, properties)


def test_without_an_audit_it_says_so(scene):
    results.forget()
    with pytest.raises(RuntimeError, match="Audit a jump first"):
        go()


def test_a_finding_that_is_not_there_is_refused(scene, audited, capfd):
    assert go(finding=99) == {"CANCELLED"}
    assert "no such finding" in capfd.readouterr().out
