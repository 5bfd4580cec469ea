"""Marks by hand, saved with the scene: events of a jump pinned to frames, or frames said to hold no jump.

Frames are those of the timeline. A track is known by its name, as an audit shows it.
"""

from contextlib import suppress
from dataclasses import replace

import bpy
from bpy.props import BoolProperty, CollectionProperty, EnumProperty, FloatProperty, StringProperty
from bpy.types import PropertyGroup, Scene

from ...analysis.errors import SettingsError
from ...analysis.track import EVENTS, Marks, Track
from ..saved import Saved

PINNABLE = [
    ("crouch", "Crouch", "Pin the lowest point before the push", 1),
    ("takeoff", "Takeoff", "Pin the last contact with the ground", 2),
    ("apex", "Apex", "Pin the highest point of the flight", 4),
    ("landing", "Landing", "Pin the first contact after the flight", 8),
    ("absorbed", "Absorbed", "Pin the lowest point after the landing", 16),
]
"""Items of an enum or of a set of flags: files keep the numbers."""

FRAME_DIGITS = 3
"""Digits after the point that are kept of a frame: Blender keeps seven digits in all."""


def _frame(name: str, description: str) -> FloatProperty:  # type: ignore[valid-type]  # Blender defines properties so
    return FloatProperty(name=name, description=description, precision=1, step=100, options=set())


class LEAPWRIGHT_PG_marks(PropertyGroup):
    """The marks of one jump of one track, or of one stretch without a jump.

    It has no methods: Blender 4.2 as a module crashes at exit over those of a property group.
    """

    track: StringProperty(name="Track", description="Name the track these marks belong to", options=set())
    pinned: EnumProperty(
        name="Pinned", description="Choose the events that are pinned", items=PINNABLE, options={"ENUM_FLAG"}
    )
    crouch: _frame("Crouch", "Set the frame the crouch is pinned to")
    takeoff: _frame("Takeoff", "Set the frame the takeoff is pinned to")
    apex: _frame("Apex", "Set the frame the apex is pinned to")
    landing: _frame("Landing", "Set the frame the landing is pinned to")
    absorbed: _frame("Absorbed", "Set the frame at which the landing is absorbed")
    is_no_jump: BoolProperty(
        name="No Jump", description="Say that these frames hold no jump", options=set()
    )
    first: _frame("First", "Set the first frame without a jump")
    last: _frame("Last", "Set the last frame without a jump")


CLASSES = (LEAPWRIGHT_PG_marks,)


def marks_from(entry: LEAPWRIGHT_PG_marks) -> Marks:
    """Return marks as the analysis takes them. Raises SettingsError when they make no sense."""
    if entry.is_no_jump:
        return Marks(no_jump=(round(entry.first, FRAME_DIGITS), round(entry.last, FRAME_DIGITS)))
    return Marks.of({name: round(getattr(entry, name), FRAME_DIGITS) for name in EVENTS if name in entry.pinned})


def write_marks(entry: LEAPWRIGHT_PG_marks, marks: Marks) -> None:
    """Take over what is pinned, or the stretch without a jump."""
    entry.pinned = set(marks.pinned)
    for name, frame in marks.pinned.items():
        setattr(entry, name, frame)
    entry.is_no_jump = marks.no_jump is not None
    if marks.no_jump is not None:
        entry.first, entry.last = marks.no_jump


def rounded(marks: Marks) -> Marks:
    """Return marks as they will be read again once they are written."""
    if marks.no_jump is not None:
        first, last = marks.no_jump
        return Marks(no_jump=(round(first, FRAME_DIGITS), round(last, FRAME_DIGITS)))
    return Marks.of({name: round(frame, FRAME_DIGITS) for name, frame in marks.pinned.items()})


def all_of(scene: Scene) -> list[LEAPWRIGHT_PG_marks]:
    """List the marks of all tracks of a scene; none while the add-on is off."""
    return list(getattr(scene, "leapwright_marks", ()))


def of_track(scene: Scene, name: str) -> tuple[tuple[Marks, ...], tuple[str, ...]]:
    """Return the marks of a track, and a sentence for each of them that makes no sense."""
    sound, refused = [], []
    for entry in all_of(scene):
        if _is_of(entry, name):
            try:
                sound.append(marks_from(entry))
            except SettingsError as refusal:
                refused.append(f"marks were left out: {refusal}")
    return tuple(sound), tuple(refused)


def _is_of(entry: LEAPWRIGHT_PG_marks, name: str) -> bool:
    """Tell whether marks belong to a track; earlier files spell the center of mass otherwise."""
    return name in (entry.track, entry.track.replace("/centre of mass", "/center of mass"))


def with_marks(scene: Scene, track: Track) -> Track:
    """Return a track with the marks that the scene holds for it."""
    marks, notes = of_track(scene, track.name)
    return replace(track, marks=marks, notes=(*track.notes, *notes)) if marks or notes else track


def put(scene: Scene, name: str, marks: tuple[Marks, ...]) -> None:
    """Make these the marks of a track; those of other tracks stay, and those that make no sense."""
    listed = scene.leapwright_marks
    for number in reversed(range(len(listed))):
        if _is_of(listed[number], name):
            with suppress(SettingsError):
                marks_from(listed[number])
                listed.remove(number)
    for mark in marks:
        entry = listed.add()
        entry.track = name
        write_marks(entry, mark)


SAVED = Saved(bpy.types.Scene, "leapwright_marks", CLASSES, lambda: CollectionProperty(type=LEAPWRIGHT_PG_marks))
register, unregister, readable = SAVED.register, SAVED.unregister, SAVED.readable
