"""The plain values of data-blocks and of what they hold: numbers, choices and names, as they were set.

Those that a curve or a driver moves are left out: they follow the user's frame.
"""

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from typing import Any

import numpy as np
from bpy.types import bpy_prop_collection, bpy_struct
from bpy.utils import escape_identifier

from ...analysis.arrays import Array

TYPES = {"BOOLEAN": np.bool_, "INT": np.int32, "FLOAT": np.float32, "ENUM": np.int32}
ONLY_SHOWN = ("show_", "select", "hide", "lock_location", "lock_rotation", "lock_scale", "display_", "active", "color")
"""Beginnings of the names of what an evaluation does not read."""
WORKED_OUT = {"matrix", "matrix_basis", "matrix_world", "matrix_local", "dimensions", "influence_time", "strip_time"}
"""Properties that can be set, but follow from others and from the frame."""

Moved = dict[str, set[int]]
"""Of one holder: the properties that a curve or a driver sets, each with the indices."""
Movements = dict[str, Moved]
"""Of a data-block: what is moved, by the data path of the holder; "" is the data-block itself."""
Rows = dict[str, list[tuple[int, int]]]
"""Rows of a collection, and indices of their array, in which a property of a name is moved."""


def holder_and_property(path: str) -> tuple[str, str]:
    """Split a data path into its holder's and the property's name, a custom one with its brackets.

    >>> split('pose.bones["hips"].location'), split('["tide"]')
    (('pose.bones["hips"]', 'location'), ('', '["tide"]'))
    """
    if path.endswith('"]'):
        start = path.rindex('["')
        return path[:start], path[start:]
    holder, _, name = path.rpartition(".")
    return holder, name


def custom(holder: "bpy_struct[Any]", moved: Moved) -> Iterator[object]:
    """Yield names and values of what people and generators added, but those that are moved.

    Not of what add-ons register: that is read where a driver asks for it.
    """
    for name, value in holder.items():
        if f'["{escape_identifier(name)}"]' not in moved and name not in holder.bl_rna.properties:
            told = value.to_list() if hasattr(value, "to_list") else value
            yield name, told.to_dict() if hasattr(told, "to_dict") else told


def plain(holder: "bpy_struct[Any]", moved: Moved) -> list[object]:
    """Return the values of the plain properties that can be set, but those that are moved."""
    entries = _settable(type(holder))  # type: ignore[arg-type]  # a class can be hashed: mypy asks its instances
    values = [getattr(holder, name)[:] if length else getattr(holder, name) for name, length in entries]
    if moved:
        for place, (name, length) in enumerate(entries):
            still = moved.get(name)
            if still and length:
                values[place] = [None if index in still else part for index, part in enumerate(values[place])]
            elif still:
                values[place] = None
    return values


def columns(holders: "bpy_prop_collection[Any]", moved: Rows, more: Sequence[str] = ()) -> Iterator[bytes]:
    """Yield the same of every member of a collection, a property at a time."""
    if not len(holders):
        return
    kind = type(holders[0])
    named = [(name, kind.bl_rna.properties[name].array_length) for name in more]
    for name, length in (*_settable(kind), *named):  # type: ignore[arg-type]  # a class can be hashed: mypy asks its instances
        entry = kind.bl_rna.properties[name]
        if entry.type in TYPES:
            width = 16 if name == "matrix_local" else max(length, 1)
            yield column(holders, name, TYPES[entry.type], width, moved.get(name, ()))


def column(
    holders: "bpy_prop_collection[Any]", name: str, kind: type, width: int, moved: Iterable[tuple[int, int]] = ()
) -> bytes:
    """Return one property of every member, (n, width) numbers, nothing where it is moved."""
    values: Array = np.zeros((len(holders), width), kind)
    holders.foreach_get(name, values.reshape(-1))
    for row, index in moved:
        values[row, index] = 0
    return values.tobytes()


@cache
def _settable(kind: "type[bpy_struct[Any]]") -> tuple[tuple[str, int], ...]:
    """Return names of plain properties that can be set and that an evaluation reads, with the length of arrays, else 0.

    Blender's own: those that add-ons register come and go with them.
    """
    return tuple(
        (entry.identifier, getattr(entry, "array_length", 0))
        for entry in kind.bl_rna.properties
        if entry.type in (*TYPES, "STRING")
        and not (entry.is_readonly or entry.is_runtime)
        and not getattr(entry, "is_enum_flag", False)
        and entry.identifier not in WORKED_OUT
        and not entry.identifier.startswith(ONLY_SHOWN)
    )
