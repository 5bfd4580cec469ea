"""The sub-panel "Retime" offers what can be kept, and shows the jump before and after."""

from types import SimpleNamespace

import bpy
import pytest
from leapwright.addon import results
from leapwright.addon.retiming import panel as retime_panel
from leapwright.addon.retiming import settings as retime_settings
from leapwright.addon.retiming import words as retime_words
from leapwright.addon.retiming.settings import CHOICES, aim_of
from leapwright.analysis.retiming.fit import DrawnFit
from leapwright.analysis.retiming.forecast import Move

from tests.addon.mismatched import FLOATY, opened
from tests.addon.sheet import Sheet, even_letters


@pytest.fixture
def draw(scene, tmp_path, monkeypatch):
    even_letters(monkeypatch)
    opened(FLOATY, tmp_path)
    for name in CHOICES:
        bpy.context.window_manager.leapwright_retime.property_unset(name)
    bpy.ops.leapwright.audit_jump()

    def drawn():
        known = {name: getattr(bpy.context, name, None) for name in ("scene", "window_manager", "preferences")}
        context, sheet = SimpleNamespace(region=SimpleNamespace(width=280), **known), Sheet()
        assert retime_panel._Retime.poll(context)
        retime_panel._Retime.draw(SimpleNamespace(layout=sheet), context)
        return sheet

    return drawn


def test_without_an_audit_it_keeps_its_place_and_says_what_comes_first(draw):
    results.forget()
    sheet = draw()
    assert sheet.texts == ["Audit a jump first"] and not sheet.buttons


def test_the_choice_is_handed_to_both_buttons(draw):
    retime_settings.of_window(bpy.context.window_manager).keep = "push"
    retime_settings.of_window(bpy.context.window_manager).markers = True
    forecast, retime = draw().buttons
    assert (forecast.name, retime.name) == ("leapwright.forecast_retime", "leapwright.retime_jump")
    assert forecast.keep == retime.keep == "push" and retime.markers and retime.jump == 1


def test_the_pace_is_offered_only_where_nothing_is_kept(draw):
    assert "pace" not in draw().texts
    retime_settings.of_window(bpy.context.window_manager).keep = "nothing"
    assert "pace" in draw().texts


def test_a_pace_that_was_left_does_not_count_while_something_is_kept(draw):
    chosen = retime_settings.of_window(bpy.context.window_manager)
    chosen.pace = 1.4
    assert aim_of(chosen).pace == 1.0
    chosen.keep = "nothing"
    assert aim_of(chosen).pace == pytest.approx(1.4)


def test_the_forecast_stands_beside_the_jump_as_it_is(draw):
    bpy.ops.leapwright.forecast_retime(keep="flight")
    texts = draw().texts
    row = texts.index("Push Frames")
    assert texts[row + 1 : row + 3] == ["6.0", "10.0"] and "Forecast" in texts
    assert "Gone: push short, push speed" in " ".join(texts)


def test_after_the_keys_moved_the_same_table_says_so(draw):
    bpy.ops.leapwright.retime_jump(keep="flight")
    texts = draw().texts
    assert "After" in texts and "Forecast" not in texts and "Not as forecast" not in " ".join(texts)
    scene_of_the_table = draw().texts
    bpy.ops.leapwright.audit_jump()  # nothing has changed: the audit and the table beside it stay
    assert draw().texts == scene_of_the_table


def test_keeping_the_times_shows_what_they_fit_and_no_button(draw):
    retime_settings.of_window(bpy.context.window_manager).keep = "times"
    sheet = draw()
    assert not sheet.buttons
    assert "1.44" in " ".join(sheet.texts)


def test_lengths_are_in_the_scenes_units(scene):
    scene.unit_settings.system, scene.unit_settings.length_unit = "IMPERIAL", "FEET"
    said = retime_words.fit_sentence(DrawnFit(1.2192, None, None), scene.unit_settings)
    assert said == "In real time this airtime fits a jump of 4'"


def test_keys_that_go_between_frames_are_told_to_a_tenth_of_one():
    moves = [Move("crouch", 18.0, 18.7214), Move("takeoff", 25.0, 25.04), Move("landing", 51.0, 41.1186)]
    told = SimpleNamespace(moves=[*moves, Move("after", 67.0, 57.1)], time_map=SimpleNamespace(shift=-9.8814))
    assert retime_words.moves(told) == [
        "Crouch 18 to 18.7", "Landing 51 to 41.1", "Takeoff at 25 stays", "What follows moves by -9.9",
    ]  # fmt: skip
