"""The panels draw whatever state there is, with text and buttons for it. (How they look is seen in a window.)"""

from types import SimpleNamespace

import bpy
import pytest
from leapwright.addon import results
from leapwright.addon.sidebar import panel as panels
from leapwright.addon.sidebar import wrapping

from tests.addon.scenery import empty, hopping, key
from tests.addon.sheet import Sheet


@pytest.fixture
def draw(scene, monkeypatch):
    # Fonts are not loaded without a window: each letter is taken as 6 pixels wide.
    fonts = SimpleNamespace(size=lambda *_: None, dimensions=lambda _font, text: (6.0 * len(text), 11.0))
    monkeypatch.setattr(wrapping, "blf", fonts)
    names = "scene window_manager preferences mode active_object active_pose_bone"

    def drawn(part):
        known = {name: getattr(bpy.context, name, None) for name in names.split()}
        context = SimpleNamespace(region=SimpleNamespace(width=280), **known)
        sheet = Sheet()
        assert not hasattr(part, "poll") or part.poll(context)
        part.draw(SimpleNamespace(layout=sheet), context)
        return sheet

    return drawn


def audit(target):
    bpy.context.view_layer.objects.active = target
    bpy.ops.leapwright.audit_jump()


def test_before_an_audit_the_button_comes_first_and_says_what_is_missing(draw):
    sheet = draw(panels._Audit)
    assert [button.name for button in sheet.buttons] == ["leapwright.audit_jump", "leapwright.import_motion"]
    assert "Select an object or pose bone" in sheet.texts
    assert not panels._Findings.poll(bpy.context)


def test_with_footage_followed_no_motion_capture_is_offered(draw, scene):
    scene.leapwright.follow = "footage"
    assert [button.name for button in draw(panels._Audit).buttons] == ["leapwright.audit_jump"]


def test_after_an_audit_the_track_and_its_jumps_are_listed(draw):
    audit(hopping(empty()))
    sheet = draw(panels._Audit)
    assert "Crate, frames 1–45" in sheet.texts
    assert "list of 1" in sheet.texts


def test_each_finding_is_a_button_with_its_sentence(draw, scene):
    audit(hopping(empty()))
    sheet = draw(panels._Findings)
    findings = results.latest(scene).audit.jumps[0].findings
    assert [(button.jump, button.finding) for button in sheet.buttons] == [(0, n) for n in range(len(findings))]
    assert sheet.buttons[0].text.endswith(", 13–27")
    said = " ".join(sheet.texts).replace("\N{NO-BREAK SPACE}", " ")
    assert said.startswith(findings[0].message)


@pytest.mark.parametrize("part", ["_Timing", "_Sizes", "_Events"])
def test_figures_are_drawn_in_rows_of_three(draw, part):
    audit(hopping(empty()))
    texts = draw(getattr(panels, part)).texts
    assert len(texts) % 3 == 0 and len(texts) >= 15


def test_a_track_without_a_jump_shows_why(draw, scene):
    audit(key(empty(), [(1, (0, 0, 1)), (40, (3, 0, 1))]))
    said = " ".join(draw(panels._Audit).texts).lower()
    assert results.latest(scene).audit.notes[-1].lower() in said
    assert not panels._Timing.poll(bpy.context)


def test_settings_show_the_strength_only_when_it_is_typed(draw, scene):
    assert "gravity_custom" not in draw(panels._Settings).texts
    scene.leapwright.gravity = "custom"
    assert "gravity_custom" in draw(panels._Settings).texts


def test_the_list_hides_rows_another_scene_filled(scene):
    audit(hopping(empty()))
    rows = bpy.context.window_manager.leapwright
    listed = SimpleNamespace(bitflag_filter_item=1 << 30)
    assert panels.LEAPWRIGHT_UL_jumps.filter_items(listed, bpy.context, rows, "rows")[0] == [1 << 30]
    results.forget()
    assert panels.LEAPWRIGHT_UL_jumps.filter_items(listed, bpy.context, rows, "rows")[0] == [0]


def test_the_panel_is_in_three_editors_in_the_animation_tab():
    tops = [cls for cls in panels.CLASSES if getattr(cls, "bl_label", "") == "Leapwright"]
    assert {cls.bl_space_type for cls in tops} == {"VIEW_3D", "DOPESHEET_EDITOR", "GRAPH_EDITOR"}
    assert {cls.bl_category for cls in tops} == {"Animation"}
