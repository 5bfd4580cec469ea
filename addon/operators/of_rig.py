"""What the operators share that change what is saved with the followed armature: its body, or its feet."""

from typing import ClassVar

from bpy.types import ID, Context, Object

from ..refusals import Refusing
from ..target import followed_rig


class OfRig(Refusing):
    """An operator on the followed armature.

    has: what it is about, as `followed_rig` says it
    """

    bl_options = {"REGISTER", "UNDO"}
    has: ClassVar[str]

    @classmethod
    def rig(cls, context: Context) -> Object:
        """Return the followed armature. Raises SourceError when something else is followed, or nothing."""
        return followed_rig(context, has=cls.has)

    @staticmethod
    def holder(rig: Object) -> ID:
        """Return what it is saved with: the object, or its armature."""
        return rig

    @classmethod
    def poll(cls, context: Context) -> bool:
        if not cls.allowed(lambda: cls.rig(context)):
            return False
        rig = cls.rig(context)
        if not cls.holder(rig).is_editable:
            linked = f'"{rig.name}"' if cls.holder(rig) == rig else f'The armature of "{rig.name}"'
            cls.poll_message_set(f"{linked} is linked: make it local, or a library override")
            return False
        if rig.mode == "EDIT":
            cls.poll_message_set("Leave Edit Mode first")
            return False
        return True
