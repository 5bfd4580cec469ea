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


def link_barge(library: Path) -> None:
    """Write a barge to this library and link it from there; a shot misses it once the file is gone."""
    barge = keyed("Barge")
    bpy.data.libraries.write(str(library), {barge})
    bpy.data.objects.remove(barge)
    with bpy.data.libraries.load(str(library), link=True) as (_there, here):
        here.objects = ["Barge"]
    bpy.context.scene.collection.objects.link(here.objects[0])


def saved(path: Path, **options: object) -> Path:
    """Save what is open as a shot."""
    bpy.ops.wm.save_as_mainfile(filepath=str(path), copy=True, **options)
    return path
