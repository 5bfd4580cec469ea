"""What operators on an audit that has been made share: greyed out, and said why, until there is one."""

from bpy.types import Context

from . import results
from .refusals import Refusing

UNAUDITED = "Audit a jump first"


class OfAudit(Refusing):
    """An operator on the scene's latest audit."""

    @classmethod
    def poll(cls, context: Context) -> bool:
        if results.latest(context.scene) is None:
            cls.poll_message_set(UNAUDITED)
            return False
        return True


class OfJump(Refusing):
    """An operator on a jump of the scene's latest audit."""

    @classmethod
    def poll(cls, context: Context) -> bool:
        result = results.latest(context.scene)
        if result is None or not result.audit.jumps:
            cls.poll_message_set(UNAUDITED)
            return False
        return True
