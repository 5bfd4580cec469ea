"""A copy of the user's scene that holds one object, to be stepped in place of the user's own.

Blender evaluates it with whatever the object depends on, and nothing else: parents, constraint targets, drivers.
What it works out stays in the copy; the user's frame, selection, pose and undo steps are not touched. A copy,
not a new scene: whatever asks for the scene it is evaluated in finds the same properties there.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import cast

import bpy
from bpy.types import ID, CopyLocationConstraint, Depsgraph, Driver, DriverTarget, Object, Scene

from .. import host
from .dependencies import dependencies_of, driver_targets, drivers_of

PRIVATE_NAME = ".leapwright"


@dataclass(frozen=True, slots=True)
class PrivateScene:
    """The copy, for as long as its `with` lasts."""

    scene: Scene

    @property
    def depsgraph(self) -> Depsgraph:
        """What Blender evaluates here; not to be kept over a change of frame."""
        return self.scene.view_layers[0].depsgraph

    def show(self, frame: float) -> Depsgraph:
        """Evaluate a frame of the timeline, whole or not. Other add-ons' frame handlers hear of it."""
        whole = math.floor(frame)
        self.scene.frame_set(whole, subframe=frame - whole)
        return self.depsgraph


@contextmanager
def private_scene(
    scene: Scene, thing: Object, places: Sequence[str] = (), *, reads: Iterable[ID] = ()
) -> Iterator[PrivateScene]:
    """Copy a scene, keep one object in the copy, and remove the copy at the end, whatever happens.

    places: names of pose bones, "" for the object's own place: these are evaluated with what they follow from, and
    the rest of the object is not, which for a few bones of a large rig takes half the time. Without any, the object
    is evaluated whole. Either way it may be hidden in the viewports. reads: its dependencies, where they are known.
    Not to be called while a panel is drawn. Blender announces the removal in the user's scene by one
    `depsgraph_update_post`, which names no action.
    """
    held = bpy.data.objects.new(PRIVATE_NAME, None)
    copy = None
    asking: list[DriverTarget] = []
    reads = list(reads or dependencies_of(scene, thing))
    was = [(driver, driver.is_valid) for data in reads for driver in drivers_of(data)]
    try:
        copy = host.copy_scene(scene)
        _empty(copy)
        copy.collection.objects.link(held)
        if not places:
            copy.collection.objects.link(thing)
        # Blender evaluates what is shown, here the empty, and of other objects only what that depends on.
        for place in dict.fromkeys(("", *places)):
            hold = cast(CopyLocationConstraint, held.constraints.new("COPY_LOCATION"))
            hold.target, hold.subtarget = thing, place
        asking.extend(_asking(scene, reads))
        for target in (*asking, *_of(scene, driver_targets(copy))):
            target.id = copy
        own = zip(drivers_of(copy), [driver.is_valid for driver in drivers_of(scene)], strict=True)
        _make_valid([*was, *own])
        yield PrivateScene(copy)
    finally:
        for target in asking:
            target.id = scene
        _make_valid(was)
        bpy.data.batch_remove([held] if copy is None else [copy, held])


def _make_valid(was: Iterable[tuple[Driver, bool]]) -> None:
    """Let drivers be valid or not as they were: to set its target revives one that Blender had given up."""
    for driver, is_valid in was:
        if driver.is_valid != is_valid:
            driver.is_valid = is_valid


def _asking(scene: Scene, reads: Iterable[ID]) -> Iterator[DriverTarget]:
    """Find where drivers read the user's scene by its name: they would read it at the user's frame throughout."""
    for data in reads:
        if data != scene:
            yield from _of(scene, driver_targets(data))


def _of(scene: Scene, targets: Iterable[DriverTarget]) -> list[DriverTarget]:
    return [target for target in targets if target.id == scene]


def _empty(copy: Scene) -> None:
    """Take everything out of a copy that would be evaluated with it."""
    copy.background_set = None
    for layer in copy.view_layers[1:]:
        copy.view_layers.remove(layer)
    for child in copy.collection.children[:]:
        copy.collection.children.unlink(child)
    for thing in copy.collection.objects[:]:
        copy.collection.objects.unlink(thing)
