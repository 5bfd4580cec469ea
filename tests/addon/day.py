"""A shot of the day as a .blend file: a crate makes a hop whose events are known."""

from pathlib import Path

import bpy

from tests.analysis.day import hop

MOTION = hop(3)


def keyed(name: str = "Crate") -> bpy.types.Object:
    """Add an object that makes the hop of MOTION, a key a frame."""
    thing = bpy.data.objects.new(name, None)
    bpy.context.scene.collection.objects.link(thing)
    for frame, position in zip(MOTION.track.frames, MOTION.track.positions, strict=True):
        thing.location = position
        thing.keyframe_insert("location", frame=frame)
    return thing


def saved(path: Path, **options: object) -> Path:
    """Save what is open as a shot."""
    bpy.ops.wm.save_as_mainfile(filepath=str(path), copy=True, **options)
    return path
