"""Where the operators are found without the sidebar: menus, the search over them, and the keymap."""

import bpy
from bpy.types import Context, KeyMap, KeyMapItem, Menu

from .blender_words import Space

MENUS = ("VIEW3D_MT_object_animation", "DOPESHEET_MT_key", "GRAPH_MT_key")
"""Object › Animation, which is Pose › Animation too, and Key of the Dope Sheet and the Graph Editor."""
OPERATORS = (
    "leapwright.audit_jump",
    "leapwright.choose_jump",
    "leapwright.forecast_retime",
    "leapwright.retime_jump",
    "leapwright.plan_jump",
    "leapwright.hold_audit",
)
SWITCHES = ("leapwright.toggle_live", "leapwright.toggle_overlay", "leapwright.toggle_events")
KEYED = ("leapwright.audit_jump", "leapwright.choose_jump", "leapwright.toggle_overlay")
KEYMAPS: tuple[tuple[str, Space], ...] = (
    ("3D View", "VIEW_3D"),
    ("Dopesheet", "DOPESHEET_EDITOR"),
    ("Graph Editor", "GRAPH_EDITOR"),
)

_keys: list[tuple[KeyMap, KeyMapItem]] = []


class LEAPWRIGHT_MT_jumps(Menu):
    """What can be done with jumps."""

    bl_idname = "LEAPWRIGHT_MT_jumps"
    bl_label = "Leapwright"

    def draw(self, _context: Context) -> None:
        """Draw the operators, then the switches."""
        for name in OPERATORS:
            self.layout.operator(name)
        self.layout.operator_menu_enum("leapwright.pin_event", "event", text="Pin Event")
        self.layout.operator("leapwright.review_shots", text="Review Shots…")
        self.layout.separator()
        for name in SWITCHES:
            self.layout.operator(name, text=f"Toggle {_label(name)}")
        self.layout.separator()
        self.layout.operator("leapwright.open_manual")


CLASSES = (LEAPWRIGHT_MT_jumps,)


def _label(name: str) -> str:
    group, _, verb = name.partition(".")
    return getattr(getattr(bpy.ops, group), verb).get_rna_type().name


def _draw(menu: Menu, _context: Context) -> None:
    menu.layout.separator()
    menu.layout.menu(LEAPWRIGHT_MT_jumps.bl_idname)


def _menus() -> list[type[Menu]]:
    return [getattr(bpy.types, name) for name in MENUS if hasattr(bpy.types, name)]


def register() -> None:
    """Stand in the menus, and in the keymap without a key: which one is free is for the person to say."""
    for menu in _menus():
        menu.append(_draw)  # type: ignore[arg-type]  # Blender gives the menu too
    kept = bpy.context.window_manager.keyconfigs.addon
    if kept is None:
        return
    for name, space in KEYMAPS:
        keymap = kept.keymaps.new(name=name, space_type=space)
        _keys.extend((keymap, keymap.keymap_items.new(operator, "NONE", "PRESS")) for operator in KEYED)


def unregister() -> None:
    """Leave menus and keymap."""
    for menu in _menus():
        menu.remove(_draw)  # type: ignore[arg-type]  # as above
    for keymap, item in _keys:
        keymap.keymap_items.remove(item)
    _keys.clear()
