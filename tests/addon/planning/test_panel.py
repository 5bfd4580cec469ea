"""The plan's panel shows the frames as soon as the goal is given, or the reason why there are none."""

from types import SimpleNamespace

import bpy
import pytest
from leapwright.addon import view
from leapwright.addon.planning import panel as plan_panel
from leapwright.addon.planning.settings import plan_of
from leapwright.addon.sidebar.figures import KEPT

from tests.addon.plan_fields import fields
from tests.addon.sheet import Sheet, even_letters


class PlanSheet(Sheet):
    """A layout that also notes bars and buttons that switch."""

    def part(self, **_settings):
        return PlanSheet(self.texts, self.buttons)

    row = column = box = split = part

    def prop(self, data, name, text=None, expand=False):
        super().prop(data, name, text=text)

    def progress(self, *, factor, type, text, translate):
        assert 0.0 <= factor <= 1.0 and type == "BAR"
        self.texts.append(text)


@pytest.fixture
def draw(scene, monkeypatch):
    even_letters(monkeypatch)

    def drawn(part, shown=""):
        context = SimpleNamespace(
            region=SimpleNamespace(width=280), scene=bpy.context.scene, preferences=bpy.context.preferences,
            mode="OBJECT", active_object=bpy.context.view_layer.objects.active,
        )  # fmt: skip
        sheet = PlanSheet()
        view.of_window().plan = shown or getattr(part, "part", "goal")
        assert part.poll(context)
        part.draw(SimpleNamespace(layout=sheet), context)
        return sheet

    return drawn


def test_events_stand_with_their_frames_and_the_button_below(draw, scene):
    fields(height=1.0, push_distance=0.7)
    sheet = draw(plan_panel._Plan)
    plan = plan_of(scene)
    for key in plan.keys:
        assert sheet.texts[sheet.texts.index(key.event.capitalize()) + 1] == str(key.frame)
    assert [button.name for button in sheet.buttons] == ["leapwright.measure_push"] * 2 + ["leapwright.plan_jump"]
    assert [button.pose for button in sheet.buttons[:2]] == ["crouch", "takeoff"]


def test_a_goal_that_cannot_be_shows_why_and_no_button(draw):
    fields(height=0.3, landing_height=0.5)
    sheet = draw(plan_panel._Plan)
    assert "The landing would lie" in " ".join(sheet.texts)
    assert "leapwright.plan_jump" not in [button.name for button in sheet.buttons]
    assert not plan_panel._Frames.poll(bpy.context)


def test_notes_are_shown_in_the_scenes_units(draw, scene):
    fields(height=2.4384, push_distance=0.3048)
    said = " ".join(draw(plan_panel._Plan).texts).replace(KEPT, " ")
    assert "It rises 2.44 m from a push of 0.30 m" in said and "reaches 1.6" in said
    scene.unit_settings.system, scene.unit_settings.length_unit = "IMPERIAL", "FEET"
    said = " ".join(draw(plan_panel._Plan).texts)
    # A foot is exactly 0.3048 m. The exact value is converted, not the rounded one that is shown in meters.
    assert "It rises 8' from a push of 1'" in said


def test_only_the_fields_that_count_are_shown(draw):
    assert "lift" not in draw(plan_panel._Plan).texts
    fields(zero="standing", distance=1.0, use_keys=True)
    assert {"lift", "use_replace"} <= set(draw(plan_panel._Plan).texts)
    assert "heading" in draw(plan_panel._Plan, "more").texts
    fields(size_from="airtime")
    texts = draw(plan_panel._Plan).texts
    assert "airtime" in texts and "height" not in texts


def test_timing_shows_what_rounding_costs_and_the_neighbors(draw, scene):
    fields(height=0.508, push_distance=0.508)
    texts = draw(plan_panel._Frames).texts
    assert "Flight −1" in texts and "15.4" in texts
    assert "an air pace of 1.03" in " ".join(texts)


def test_each_pose_has_a_bar_and_long_plans_show_fewer(draw, scene):
    fields(height=0.4)
    plan = plan_of(scene)
    assert len(draw(plan_panel._Poses).texts) == 2 * len(plan.poses)
    fields(height=30.0, push_distance=20.0)
    shown = draw(plan_panel._Poses).texts
    assert len(shown) <= 2 * (30 + 5) and str(plan_of(scene).keys[2].frame) in shown


def test_the_panel_lies_under_the_main_one_in_all_editors():
    parents = {cls.bl_parent_id for cls in plan_panel.CLASSES if cls.bl_label == "Plan"}
    assert parents == {f"LEAPWRIGHT_PT_audit_{tag}" for tag in ("view3d", "dopesheet", "graph")}
    assert all(hasattr(bpy.types, parent) for parent in parents)
