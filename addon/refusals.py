"""What an operator says when it cannot do what it is asked: grayed out with a reason, or refused with one."""

from collections.abc import Callable

from bpy.types import Context

from ..analysis.errors import LeapwrightError
from .bases import OperatorPart
from .blender_words import Outcome, Report


class Refusing(OperatorPart):
    """An operator that says why not."""

    @classmethod
    def allowed(cls, ask: Callable[[], object]) -> bool:
        """Tell whether `ask` raises no LeapwrightError; what it raises is the reason that the button is gray."""
        try:
            ask()
        except LeapwrightError as refusal:
            cls.poll_message_set(str(refusal))
            return False
        return True

    def refuse(self, why: LeapwrightError | str, *, level: Report = "ERROR") -> Outcome:
        """Say why nothing was done; level: what Blender reports it as."""
        self.report({level}, sentence(str(why)))
        return {"CANCELLED"}


class InWindow(Refusing):
    """An operator that needs a window."""

    @classmethod
    def poll(cls, context: Context) -> bool:
        if context.window_manager is None:
            cls.poll_message_set("Open a window first")
            return False
        return True


def sentence(text: str) -> str:
    """Begin a text with a capital."""
    return text[:1].upper() + text[1:]
