"""The panels draw every state there can be, with its text and buttons. (How they look is checked in a window.)"""

from dataclasses import replace
from types import SimpleNamespace

import bpy
import pytest
from leapwright.addon import registration, results, view
from leapwright.addon.retiming import panel as retime_panel
from leapwright.addon.sidebar import details, judging, panel, setup, wrapping
from leapwright.addon.sidebar.jumps import LEAPWRIGHT_UL_jumps
from leapwright.addon.sidebar.meanings import MEANINGS
from leapwright.analysis.certainty import Certainty

from tests.addon.mismatched import BY_NAME, FLOATY, opened
from tests.addon.scenery import empty, hopping, key
from tests.addon.sidebar.drawn import audited, context


def names(sheet):
    return [button.name.partition(".")[2] for button in sheet.buttons]


def said(sheet):
    return " ".join(sheet.texts).replace("\N{NO-BREAK SPACE}", " ")


def doubt():
    """Make the jump of the audit that is shown a doubtful one."""
    scene = bpy.context.scene
    result = results.latest(scene)
    jumps = tuple(replace(jump, certainty=Certainty.DOUBTFUL) for jump in result.audit.jumps)
    results.keep(scene, replace(result, audit=replace(result.audit, jumps=jumps)))


def test_before_an_audit_the_button_comes_first_and_it_says_what_is_missing(draw):
    sheet = draw(panel._Audit)
    assert names(sheet) == ["audit_jump", "toggle_live", "toggle_overlay"]
    assert "Select an object or pose bone" in said(sheet)


def test_the_first_screen_has_the_verdict_both_figures_and_the_mend(draw, tmp_path):
    opened(FLOATY, tmp_path)
    bpy.ops.leapwright.audit_jump()
    sheet = draw(panel._Audit)
    text = said(sheet)
    assert "Floaty: 26 frames in air, 16 asked" in text
    assert "Push 6 10" in text and "Air 26 16.1" in text
    (mend,) = [button for button in sheet.buttons if button.name == "leapwright.mend_finding"]
    assert (mend.jump, mend.finding) == (1, 0)


def test_a_previewed_mend_shows_what_it_makes_and_is_done_or_left(draw, tmp_path):
    opened(FLOATY, tmp_path)
    bpy.ops.leapwright.audit_jump()
    bpy.ops.leapwright.mend_finding(jump=1, finding=0)
    sheet = draw(panel._Audit)
    assert "Now Mended" in said(sheet) and "Air 26 16" in said(sheet) and "landing 51 to 41" in said(sheet)
    assert names(sheet)[-2:] == ["retime_jump", "drop_forecast"]
    bpy.ops.leapwright.drop_forecast()
    assert "mend_finding" in names(draw(panel._Audit))


def test_the_button_names_what_it_reads_where_that_is_not_what_is_shown(draw):
    def button():
        return next(button for button in draw(panel._Audit).buttons if button.name == "leapwright.audit_jump")

    crate, barge = hopping(empty()), hopping(empty("Barge"))
    audited(crate)
    assert not button().text
    bpy.context.view_layer.objects.active = barge
    assert button().text == "Audit Barge"
    audited(barge)
    assert not button().text


def test_a_doubtful_jump_is_asked_about(draw):
    audited(hopping(empty()))
    doubt()
    sheet = draw(panel._Audit)
    assert "This may be no jump" in said(sheet)
    assert {"jump_here", "no_jump_here"} <= set(names(sheet))


def test_a_doubtful_jumps_notes_are_gone_to_as_any_finding(scene):
    audited(hopping(empty()))
    doubt()
    (jump,) = results.latest(scene).audit.jumps
    assert bpy.ops.leapwright.go_to_finding(jump=0, finding=0) == {"FINISHED"}
    assert scene.frame_current == round(jump.findings[0].frames[0])


def test_where_no_jump_was_found_the_parts_that_show_one_say_so(draw, scene):
    level = empty()
    key(level, ((1, (0.0, 0.0, 1.0)), (30, (0.0, 2.0, 1.0))))
    audited(level)
    assert not results.latest(scene).audit.jumps
    for part in (retime_panel._Retime, details._Details):
        assert draw(part).texts == ["There is no jump"]
    assert "pin its takeoff and landing under Setup, Marks" in said(draw(panel._Findings))
    with pytest.raises(RuntimeError, match="There is no jump"):
        bpy.ops.leapwright.choose_jump()


def test_one_jump_needs_no_list_and_of_more_the_next_is_a_click_away(draw, tmp_path):
    audited(hopping(empty()))
    assert "list of 1" not in draw(panel._Audit).texts
    opened(BY_NAME["tq090"], tmp_path)
    bpy.ops.leapwright.audit_jump()
    sheet = draw(panel._Audit)
    assert "list of 3" in sheet.texts and "Jump 1 of 3" in said(sheet)
    assert names(sheet).count("choose_jump") == 2


def test_in_the_timeline_the_verdict_stands_alone(draw):
    audited(hopping(empty()))
    sheet = draw(panel._Audit, space="DOPESHEET_EDITOR", mode="TIMELINE")
    assert "toggle_events" in names(sheet)
    assert not panel._Findings.poll(context("DOPESHEET_EDITOR", "TIMELINE"))
    assert panel._Findings.poll(context("DOPESHEET_EDITOR", "DOPESHEET"))


def test_what_has_changed_since_is_one_line_with_the_button_beside_it(draw, scene):
    audited(hopping(empty()))
    bpy.context.window_manager.leapwright_view.use_live = False
    try:
        scene.leapwright.kind = "cat"
        sheet = draw(panel._Audit)
        assert "Out of date" in sheet.texts and names(sheet).count("audit_jump") == 2
        bpy.data.objects.remove(bpy.data.objects["Crate"])
        assert "No longer in the scene" in said(draw(panel._Audit))
    finally:
        bpy.context.window_manager.leapwright_view.use_live = True


def test_each_finding_is_a_button_with_its_sentence(draw, scene):
    audited(hopping(empty()))
    sheet = draw(panel._Findings)
    findings = results.latest(scene).audit.jumps[0].findings
    rows = [button for button in sheet.buttons if button.name == "leapwright.go_to_finding"]
    assert [(button.jump, button.finding) for button in rows] == [(0, n) for n in range(len(findings))]
    assert rows[0].text.endswith(", 13–27")
    assert said(sheet).startswith(findings[0].message)


def test_a_finding_that_keys_in_time_mend_has_the_button_and_another_has_not(draw, tmp_path):
    opened(FLOATY, tmp_path)
    bpy.ops.leapwright.audit_jump()
    codes = [finding.code for finding in results.latest(bpy.context.scene).audit.jumps[0].findings]
    assert codes == ["air-floaty", "push-short", "push-speed"]
    assert names(draw(panel._Findings)).count("mend_finding") == 3
    opened(BY_NAME["tq070"], tmp_path)
    bpy.ops.leapwright.audit_jump()
    assert "mend_finding" not in names(draw(panel._Findings))


def test_a_mend_that_would_be_cut_beside_its_name_stands_under_what_it_mends(draw, tmp_path, monkeypatch):
    monkeypatch.setattr(wrapping, "_scale", lambda _context: 1.0)  # without a window it is 0
    opened(FLOATY, tmp_path)
    bpy.ops.leapwright.audit_jump()
    # "Mend…" takes 30 pixels here, what stands around it and the manual's button 26 of them: 56. They have 0.32 of
    # the box's width, which is 68 less than the sidebar's: 56.3 of 244, and 55.7 of 242.
    for width, order in ((244, ["mend_finding", "open_manual"]), (242, ["open_manual", "mend_finding"])):
        assert names(draw(panel._Findings, width=width)) == ["go_to_finding", *order] * 3


@pytest.mark.parametrize("part", [details._Timing, details._Sizes, details._Events])
def test_figures_are_drawn_in_rows_of_three_and_their_names_have_a_meaning(draw, part):
    audited(hopping(empty()))
    texts = draw(part).texts
    assert len(texts) >= 15
    assert set(texts[3:15:3]) <= set(MEANINGS)


def test_panels_keep_their_place_without_an_audit(draw):
    for part in (panel._Findings, details._Details):
        assert draw(part).texts


def test_a_track_without_a_jump_shows_why(draw, scene):
    audited(key(empty(), [(1, (0, 0, 1)), (40, (3, 0, 1))]))
    assert results.latest(scene).audit.notes[-1].lower() in said(draw(panel._Audit)).lower()


def test_setup_asks_what_to_follow_and_with_footage_offers_no_motion_capture(draw, scene):
    assert names(draw(setup._Follow)) == ["import_motion"]
    scene.leapwright.follow = "footage"
    assert names(draw(setup._Follow)) == []


def test_settings_show_the_strength_only_when_it_is_typed(draw, scene):
    assert "gravity_custom" not in draw(judging._Settings).texts
    scene.leapwright.gravity = "custom"
    assert "gravity_custom" in draw(judging._Settings).texts


def test_the_list_hides_rows_another_scene_filled(scene):
    audited(hopping(empty()))
    rows = bpy.context.window_manager.leapwright
    listed = SimpleNamespace(bitflag_filter_item=1 << 30)
    assert LEAPWRIGHT_UL_jumps.filter_items(listed, bpy.context, rows, "rows")[0][0] == 1 << 30
    results.forget()
    assert not any(LEAPWRIGHT_UL_jumps.filter_items(listed, bpy.context, rows, "rows")[0])


def test_the_panel_is_in_three_editors_in_the_animation_tab():
    tops = [cls for cls in panel.CLASSES if getattr(cls, "bl_label", "") == "Leapwright"]
    assert {cls.bl_space_type for cls in tops} == {"VIEW_3D", "DOPESHEET_EDITOR", "GRAPH_EDITOR"}
    assert {cls.bl_category for cls in tops} == {"Animation"}


def test_panels_stand_in_the_order_in_which_they_are_needed_and_the_last_are_closed(scene):
    made = [cls for cls in registration.CLASSES if cls.__name__.endswith("_view3d")]
    under = [cls.bl_label for cls in made if getattr(cls, "bl_parent_id", "") == "LEAPWRIGHT_PT_audit_view3d"]
    assert under == ["Findings", "Plan", "Retime", "Compare", "Details", "Setup"]
    in_setup = [cls.bl_label for cls in made if getattr(cls, "bl_parent_id", "") == "LEAPWRIGHT_PT_setup_view3d"]
    assert in_setup == ["Follow", "Feet", "Center of Mass", "Footage", "Marks", "Settings"]
    chosen = [cls.part for cls in made if getattr(cls, "part_of", "") == "setup"]
    assert chosen == [name for name, *_ in view.SETUP]
    closed = {cls.bl_label for cls in made if "DEFAULT_CLOSED" in getattr(cls, "bl_options", ())}
    assert {"Leapwright", "Findings", *under} - closed == {"Leapwright", "Findings"}


def test_where_what_was_audited_is_gone_the_parts_that_show_a_jump_say_so(draw):
    thing = hopping(empty())
    audited(thing)
    bpy.data.objects.remove(thing)
    for part in (retime_panel._Retime, details._Details, panel._Findings):
        assert draw(part).texts == ["What was audited is gone"]
