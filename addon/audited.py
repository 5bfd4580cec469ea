"""What operators on an audit that has been made share: grayed out, and said why, until there is one."""

from bpy.types import Context

from ..analysis.errors import SourceError
from . import results
from .refusals import Refusing

UNAUDITED = "Audit a jump first"
JUMPLESS = "There is no jump"
"""What is said where an audit found none."""
VANISHED = "What was audited is gone"
"""What is said where its jumps are those of a thing that is no longer in the scene."""


def audit_in(context: Context) -> results.Result:
    """Return the latest audit of the scene. Raises SourceError where there is none, which polls see to."""
    result = results.latest(context.scene)
    if result is None:
        raise SourceError(UNAUDITED)
    return result


def lacking(context: Context) -> str:
    """Say what is missing where no jump is shown: an audit, a jump in it, or what was audited."""
    result = results.latest(context.scene)
    if result is None:
        return UNAUDITED
    return VANISHED if result.audit.jumps else JUMPLESS


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
            cls.poll_message_set(lacking(context))
            return False
        return True
