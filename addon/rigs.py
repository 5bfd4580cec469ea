"""Rig: an object that is an armature, with the data and the pose that only those have."""

from typing import TYPE_CHECKING, TypeGuard

from bpy.types import ID, Object

if TYPE_CHECKING:
    from bpy.types import Armature, Pose

    class Rig(Object):
        """An armature's object, as the type checker sees it."""

        data: Armature
        pose: Pose
else:
    Rig = Object


def is_rig(thing: ID | None) -> TypeGuard[Rig]:
    """Say whether a thing is an armature's object."""
    return getattr(thing, "pose", None) is not None
