"""A stand-in for a panel's layout, and for the fonts it measures."""

from types import SimpleNamespace

import bpy
from leapwright.addon.sidebar import wrapping
from leapwright.addon.sidebar.jumps import LEAPWRIGHT_UL_jumps


def even_letters(monkeypatch):
    """Take each letter as 6 pixels wide: fonts are not loaded without a window."""
    fonts = SimpleNamespace(size=lambda *_: None, dimensions=lambda _font, text: (6.0 * len(text), 11.0))
    monkeypatch.setattr(wrapping, "blf", fonts)


def check_icon(name):
    """Check that this Blender has an icon of this name."""
    assert name in bpy.types.UILayout.bl_rna.functions["label"].parameters["icon"].enum_items


class Sheet:
    """A layout that records what is drawn on it."""

    def __init__(self, texts=None, buttons=None):
        self.texts, self.buttons = [] if texts is None else texts, [] if buttons is None else buttons

    def part(self, **_settings):
        return Sheet(self.texts, self.buttons)

    row = column = box = split = part

    def label(self, *, text="", icon="NONE", icon_value=0, translate=True):
        check_icon(icon)
        self.texts.append(text)

    def prop(self, data, name, text=None, **_settings):
        assert name in data.bl_rna.properties
        self.texts.append(name)

    def prop_search(self, data, name, where, collection, text=None):
        assert name in data.bl_rna.properties and hasattr(where, collection)

    def prop_enum(self, data, name, value):
        assert value in {item.identifier for item in data.bl_rna.properties[name].enum_items}

    def operator(self, name, text=None, icon="NONE", **_settings):
        check_icon(icon)
        group, _, verb = name.partition(".")
        assert verb in dir(getattr(bpy.ops, group))
        if verb == "explain_figure":  # a figure's name, which tells what it means
            self.texts.append(text)
            return SimpleNamespace()
        self.buttons.append(SimpleNamespace(name=name, text=text))
        return self.buttons[-1]

    def template_list(self, name, _id, data, items, active, chosen, /, **_settings):
        assert name == LEAPWRIGHT_UL_jumps.bl_idname
        self.texts.append(f"list of {len(getattr(data, items))}")
