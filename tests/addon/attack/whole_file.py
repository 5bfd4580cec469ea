"""Read all that the open file holds, through Blender's own description of its types, to tell whether any of it changed.
"""

import bpy
from bpy.types import ID, bpy_struct

from tests.addon.key_state import key_state

BLOCKS = ("scenes", "objects", "armatures", "actions", "meshes", "curves", "collections", "cameras", "lights",
          "shape_keys", "libraries", "texts", "worlds")  # fmt: skip
PLAIN = {"BOOLEAN", "INT", "FLOAT", "STRING", "ENUM"}
LEFT_OUT = {"rna_type", "session_uid", "depsgraph", "original", "sequences_all", "library_weak_reference",
            "is_library_indirect", "use_nodes", "uv_sculpt"}  # fmt: skip
"""Properties that are not compared: those that a later release drops; those that name the session, or are made anew
each time they are read; whether a linked block is linked indirectly, which the host changes by itself when it evaluates
a second scene that needs the block; and the brush of a mode that was never entered, which crashes 4.2 when it is read.
"""
WORKED_OUT = {"matrix_world", "matrix_local", "matrix", "matrix_channel", "dimensions", "bound_box", "head", "tail",
              "length"}  # fmt: skip
"""Properties that the host computes at each evaluation and does not save. With cyclic dependencies they differ each
time."""
DEPTH = 6


def whole_file() -> dict[str, object]:
    """Return every data-block with all that can be read of it, what is selected and active, and the mode."""
    found = {
        (kind, block.name_full): (_told(block, DEPTH), _own(block))
        for kind in BLOCKS
        for block in getattr(bpy.data, kind)
    }
    layer = bpy.context.view_layer
    found["chosen"] = (
        bpy.context.mode,
        layer.objects.active and layer.objects.active.name,
        sorted(thing.name for thing in layer.objects if thing.select_get()),
        sorted(thing.name for thing in layer.objects if thing.hide_get()),
    )
    return found


def changes(before: dict[str, object], after: dict[str, object]) -> list[str]:
    """Name each value that has changed, with what it was and what it is."""
    return [
        f"{key}{_difference(before.get(key), after.get(key))}"
        for key in {**before, **after}
        if before.get(key) != after.get(key)
    ]


def _difference(one: object, other: object) -> str:
    """Return the path to the first value that differs, and both values."""
    if isinstance(one, dict) and isinstance(other, dict):
        name = next(name for name in {**one, **other} if one.get(name) != other.get(name))
        return f".{name}{_difference(one.get(name), other.get(name))}"
    if isinstance(one, list | tuple) and isinstance(other, list | tuple) and len(one) == len(other):
        number = next(number for number in range(len(one)) if one[number] != other[number])
        return f"[{number}]{_difference(one[number], other[number])}"
    return f": {one!r} -> {other!r}"[:300]


def _told(struct: bpy_struct, depth: int) -> object:
    if depth == 0:
        return None
    told: dict[str, object] = {}
    for entry in struct.bl_rna.properties:
        name = entry.identifier
        if name in LEFT_OUT or name in WORKED_OUT:
            continue
        try:
            value = getattr(struct, name)
        except (AttributeError, RuntimeError):
            continue
        if entry.type in PLAIN:
            told[name] = repr(tuple(value)) if getattr(entry, "is_array", False) else repr(value)
        elif entry.type == "POINTER":
            is_block = value is None or isinstance(value, ID)
            told[name] = getattr(value, "name_full", None) if is_block else _told(value, depth - 1)
        elif name == "keyframe_points":
            told[name] = key_state(struct)
        else:
            told[name] = [item.name_full if isinstance(item, ID) else _told(item, depth - 1) for item in value[:200]]
    return told


def _own(block: ID) -> list[tuple[str, str]]:
    """Return its custom properties."""
    values = ((name, value.to_dict() if hasattr(value, "to_dict") else value) for name, value in block.items())
    return sorted((name, repr(value)) for name, value in values)
