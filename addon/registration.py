"""Register the add-on's classes, settings and handlers with Blender, and take them back in reverse."""

import atexit

import bpy

from . import (
    body_panel,
    body_settings,
    command,
    feet_panel,
    feet_settings,
    footage_panel,
    footage_settings,
    marks,
    marks_panel,
    operators,
    panels,
    plan_panel,
    plan_settings,
    results,
    retime_panel,
    retime_settings,
    rows,
    settings,
)

CLASSES = (
    *settings.CLASSES,
    *body_settings.CLASSES,
    *feet_settings.CLASSES,
    *footage_settings.CLASSES,
    *marks.CLASSES,
    *plan_settings.CLASSES,
    *retime_settings.CLASSES,
    *rows.CLASSES,
    *operators.CLASSES,
    *panels.CLASSES,
    *body_panel.CLASSES,
    *plan_panel.CLASSES,
    *retime_panel.CLASSES,
    *marks_panel.CLASSES,
    *feet_panel.CLASSES,
    *footage_panel.CLASSES,
)

_commands: list[object] = []
"""Handles of the registered commands; not empty as long as the add-on is registered."""


def register() -> None:
    """Register everything; fail loudly."""
    for cls in CLASSES:
        bpy.utils.register_class(cls)
    settings.register()
    body_settings.register()
    feet_settings.register()
    footage_settings.register()
    marks.register()
    plan_settings.register()
    retime_settings.register()
    rows.register()
    results.register()
    _commands.append(command.register())
    # Blender 4.2 and 4.5 as a module crash or hang at exit on whatever is then still registered.
    atexit.register(unregister)


def unregister() -> None:
    """Take everything back, in reverse; nothing to do when it is already."""
    if not _commands:
        return
    atexit.unregister(unregister)
    command.unregister(_commands.pop())
    results.unregister()
    rows.unregister()
    retime_settings.unregister()
    plan_settings.unregister()
    marks.unregister()
    footage_settings.unregister()
    feet_settings.unregister()
    body_settings.unregister()
    settings.unregister()
    for cls in reversed(CLASSES):
        bpy.utils.unregister_class(cls)
