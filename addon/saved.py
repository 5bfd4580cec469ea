"""Properties that the add-on saves in a file, and how they are read where it is off."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

import bpy


@dataclass(frozen=True, slots=True)
class Saved:
    """One property on all of a kind of Blender's data.

    owner     the kind: bpy.types.Scene, Object, Armature
    name      of the property
    classes   property groups it needs, in order
    make      defines it, once its classes are registered
    """

    owner: type
    name: str
    classes: tuple[type, ...]
    make: Callable[[], object]

    def register(self) -> None:
        """Give every owner the property; its classes are registered with all others."""
        setattr(self.owner, self.name, self.make())

    def unregister(self) -> None:
        """Take the property off the owners; what files hold of it stays in them."""
        delattr(self.owner, self.name)

    @contextmanager
    def readable(self) -> Iterator[None]:
        """Make what a file holds readable where the add-on is off, as in a worker of the command."""
        if hasattr(self.owner, self.name):
            yield
            return
        for cls in self.classes:
            bpy.utils.register_class(cls)
        self.register()
        try:
            yield
        finally:
            self.unregister()
            for cls in reversed(self.classes):
                bpy.utils.unregister_class(cls)
