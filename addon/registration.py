"""Register the add-on's classes, settings and handlers with Blender, and take them back in reverse."""

import atexit
from types import ModuleType

import bpy

from . import command, menus, operators, preferences, results, settings, view
from .feet import panel as feet_panel
from .feet import settings as feet_settings
from .footage import panel as footage_panel
from .footage import settings as footage_settings
from .live import changes, following, freshness
from .marks import marks
from .marks import panel as marks_panel
from .mass import panel as mass_panel
from .mass import settings as mass_settings
from .overlay import keyed_time, viewport
from .planning import panel as planning_panel
from .planning import settings as planning_settings
from .reading import sample_cache
from .retiming import panel as retiming_panel
from .retiming import settings as retiming_settings
from .sidebar import comparing, details, icons, judging, jumps, panel, rows, setup

REGISTERED: tuple[ModuleType, ...] = (
    sample_cache,
    results,
    view,
    preferences,
    freshness,
    changes,
    following,
    settings,
    mass_settings,
    feet_settings,
    footage_settings,
    marks,
    planning_settings,
    retiming_settings,
    rows,
    icons,
    jumps,
    viewport,
    keyed_time,
    operators,
    menus,
    panel,
    planning_panel,
    retiming_panel,
    comparing,
    details,
    setup,
    feet_panel,
    mass_panel,
    footage_panel,
    marks_panel,
    judging,
)
"""In the order in which they need each other; panels in the order in which they are shown."""

CLASSES = tuple(cls for part in REGISTERED for cls in getattr(part, "CLASSES", ()))

_commands: list[object] = []
"""Handles of the registered commands; not empty as long as the add-on is registered."""


def register() -> None:
    """Register everything; fail loudly."""
    for cls in CLASSES:
        bpy.utils.register_class(cls)
    for part in REGISTERED:
        getattr(part, "register", _nothing)()
    _commands.append(command.register())
    # Blender 4.2 and 4.5 as a module crash or hang at exit on whatever is then still registered.
    atexit.register(unregister)


def unregister() -> None:
    """Take everything back, in reverse; nothing to do when it is already."""
    if not _commands:
        return
    atexit.unregister(unregister)
    command.unregister(_commands.pop())
    for part in reversed(REGISTERED):
        getattr(part, "unregister", _nothing)()
    for cls in reversed(CLASSES):
        bpy.utils.unregister_class(cls)


def _nothing() -> None:
    """Do nothing, as a part without settings or handlers does."""
