"""What a panel draws, noted on a sheet, as in a window of 280 pixels."""

from functools import partial
from types import SimpleNamespace

import bpy
from leapwright.addon import results, view

from tests.addon.sheet import Sheet, even_letters

NAMES = "scene window_manager preferences mode active_object active_pose_bone"


def context(space="VIEW_3D", mode="", width=280):
    """Return the context of an editor's sidebar, of this width in pixels."""
    known = {name: getattr(bpy.context, name, None) for name in NAMES.split()}
    editor = SimpleNamespace(type=space, mode=mode)
    return SimpleNamespace(region=SimpleNamespace(width=width), space_data=editor, **known)


def audited(thing):
    """Audit a thing by the button, and return the audit."""
    bpy.context.view_layer.objects.active = thing
    bpy.ops.leapwright.audit_jump()
    return results.latest(bpy.context.scene).audit


def drawer(monkeypatch):
    """Return a function that draws a panel and returns its sheet."""
    even_letters(monkeypatch)

    def drawn(part, **editor):
        sheet, seen = Sheet(), context(**editor)
        if hasattr(part, "part"):
            setattr(view.of_window(), part.part_of, part.part)
        assert part.poll(seen)
        panel = SimpleNamespace(layout=sheet)
        if hasattr(part, "draw_jump"):
            panel.draw_jump = partial(part.draw_jump, panel)
        part.draw(panel, seen)
        return sheet

    return drawn
