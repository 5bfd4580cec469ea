"""What the operators share that change what is saved with the followed armature: its body, or its feet."""

from typing import ClassVar

from bpy.types import ID, Context

from ...analysis.errors import SourceError
from ..refusals import Refusing
from ..rigs import Rig
from ..target import followed_rig


class OfRig(Refusing):
    """An operator on the followed armature.

    has: what it is about, as `followed_rig` says it
    """

    bl_options = {"REGISTER", "UNDO"}
    has: ClassVar[str]

    @classmethod
    def rig(cls, context: Context) -> Rig:
        """Return the followed armature. Raises SourceError when something else is followed, or nothing."""
        return followed_rig(context, has=cls.has)

    @staticmethod
    def holder(rig: Rig) -> ID:
        """Return what it is saved with: the object, or its armature."""
        return rig

    @classmethod
    def poll(cls, context: Context) -> bool:
        return cls.allowed(lambda: cls._ready(context))

    @classmethod
    def _ready(cls, context: Context) -> None:
        """Raise SourceError with the reason when what is saved with the armature cannot be changed."""
        rig = cls.rig(context)
        if not cls.holder(rig).is_editable:
            linked = f'"{rig.name}"' if cls.holder(rig) == rig else f'The armature of "{rig.name}"'
            raise SourceError(f"{linked} is linked: make it local, or a library override")
        if rig.mode == "EDIT":
            raise SourceError("Leave Edit Mode first")
