"""The plain values of data-blocks and of what they hold: numbers, choices and names, as they were set.

Those that a curve or a driver moves are left out: they follow the user's frame.
"""

from collections.abc import Iterable, Iterator, Sequence
from functools import cache

import numpy as np
from bpy.types import bpy_struct
from bpy.utils import escape_identifier

TYPES = {"BOOLEAN": np.bool_, "INT": np.int32, "FLOAT": np.float32, "ENUM": np.int32}
ONLY_SHOWN = ("show_", "select", "hide", "lock_location", "lock_rotation", "lock_scale", "display_", "active", "color")
"""Beginnings of the names of what an evaluation does not read."""
WORKED_OUT = {"matrix", "matrix_basis", "matrix_world", "matrix_local", "dimensions", "influence_time", "strip_time"}
"""Properties that can be set, but follow from others and from the frame."""

Moved = dict[str, set[int]]
"""Data paths that a curve or a driver sets, each with the indices."""


Rows = dict[str, list[tuple[int, int]]]
"""Rows of a collection, and indices of their array, in which a property of a name is moved."""


def custom(holder: bpy_struct, path: str, moved: Moved) -> Iterator[object]:
    """Yield names and values of what people and generators added, but those that are moved.

    Not of what add-ons register: that is read where a driver asks for it.
    """
    for name, value in holder.items():
        if f'{path}["{escape_identifier(name)}"]' not in moved and name not in holder.bl_rna.properties:
            told = value.to_list() if hasattr(value, "to_list") else value
            yield name, told.to_dict() if hasattr(told, "to_dict") else told


def plain(holder: bpy_struct, path: str, moved: Moved) -> list[object]:
    """Return the values of the plain properties that can be set, but those that are moved."""
    values = []
    for name, length in _settable(type(holder)):
        still = moved.get(path + name) if moved else None
        if not length:
            values.append(None if still else getattr(holder, name))
        elif still:
            values.append([None if row in still else part for row, part in enumerate(getattr(holder, name))])
        else:
            values.append(getattr(holder, name)[:])
    return values


def columns(holders: Sequence[bpy_struct], moved: Rows, more: Sequence[str] = ()) -> Iterator[bytes]:
    """Yield the same of every member of a collection, a property at a time."""
    if not len(holders):
        return
    kind = type(holders[0])
    for name, length in (*_settable(kind), *((name, kind.bl_rna.properties[name].array_length) for name in more)):
        entry = kind.bl_rna.properties[name]
        if entry.type in TYPES:
            width = 16 if name == "matrix_local" else max(length, 1)
            yield column(holders, name, TYPES[entry.type], width, moved.get(name, ()))


def column(
    holders: Sequence[bpy_struct], name: str, kind: type, width: int, moved: Iterable[tuple[int, int]] = ()
) -> bytes:
    """Return one property of every member, (n, width) numbers, nothing where it is moved."""
    values = np.zeros((len(holders), width), kind)
    holders.foreach_get(name, values.reshape(-1))
    for row, index in moved:
        values[row, index] = 0
    return values.tobytes()


@cache
def _settable(kind: type[bpy_struct]) -> tuple[tuple[str, int], ...]:
    """Names of plain properties that can be set and that an evaluation reads, with the length of arrays, else 0."""
    return tuple(
        (entry.identifier, getattr(entry, "array_length", 0))
        for entry in kind.bl_rna.properties
        if entry.type in (*TYPES, "STRING")
        and not entry.is_readonly
        and not getattr(entry, "is_enum_flag", False)
        and entry.identifier not in WORKED_OUT
        and not entry.identifier.startswith(ONLY_SHOWN)
    )
