"""What does not fit into a narrow sidebar stands elsewhere, or in fewer letters; nothing that tells is cut."""

from types import SimpleNamespace

import pytest
from leapwright.addon.sidebar import figures, panel, tables

from tests.addon.scenery import armature, empty, hopping
from tests.addon.sheet import Sheet, even_letters
from tests.addon.sidebar.drawn import audited, context


@pytest.mark.parametrize(("width", "buttons"), [(280, ["review_shots", "open_manual"]), (50, ["open_manual"])])
def test_the_head_has_the_days_shots_where_there_is_room_and_the_manual(monkeypatch, scene, width, buttons):
    even_letters(monkeypatch)
    sheet = Sheet()
    panel._Audit.draw_header_preset(SimpleNamespace(layout=sheet), context(width=width))
    assert [button.name for button in sheet.buttons] == [f"leapwright.{name}" for name in buttons]


def test_figures_stand_without_their_errors(draw):
    audited(hopping(empty()))
    wide, narrow = (draw(panel._Audit, width=width).texts for width in (280, 60))
    assert any("±" in text for text in wide) and not any("±" in text for text in narrow)


@pytest.mark.parametrize(("width", "is_stacked"), [(100, False), (30, True)])
def test_where_no_column_has_room_names_stand_over_their_figures(monkeypatch, scene, width, is_stacked):
    even_letters(monkeypatch)
    (jump,) = audited(hopping(empty())).jumps
    sheet = Splits()
    tables.draw_table(sheet, context(width=width), ("", "Frames", "Asked"), figures.first(jump))
    assert sheet.factors.count(0.5) == (3 if is_stacked else 0)
    assert ("" in sheet.texts) is not is_stacked


class Splits(Sheet):
    """A sheet that notes where it is split."""

    def __init__(self):
        super().__init__()
        self.factors = []

    def part(self, **settings):
        self.factors += [settings["factor"]] if "factor" in settings else []
        return self

    row = column = box = split = part


def test_a_findings_frames_stand_under_its_name(draw):
    (jump,) = audited(hopping(empty())).jumps
    first, last = (f"{frame:.0f}" for frame in jump.findings[0].frames)
    name = jump.findings[0].code.replace("-", " ").capitalize()
    for width, text in ((280, f"{name}, {first}–{last}"), (90, name)):
        sheet = draw(panel._Findings, width=width)
        assert next(button.text for button in sheet.buttons if button.name == "leapwright.go_to_finding") == text
        assert (f"{first}–{last}" in sheet.texts) is (width == 90)


def test_a_bone_stands_under_its_object(draw):
    rig = armature()
    hopping(rig.pose.bones["root"])
    name = audited(rig).name
    assert name in draw(panel._Audit).texts
    narrow = draw(panel._Audit, width=40).texts
    assert name not in narrow and set(name.split("/")) <= set(narrow)
