"""What an operator says when it cannot do what it is asked: grayed out with a reason, or refused with one."""

import textwrap
from collections.abc import Callable

import bpy
from bpy.types import Context

from ..analysis.errors import LeapwrightError
from .bases import OperatorPart
from .blender_words import Outcome, Report

POPUP_LINE = 60
"""Characters of a line in the pop-up of an error, which would else be as wide as its sentence is long (ours)."""


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
        said = capitalized(str(why))
        self.report({level}, said if bpy.app.background or level != "ERROR" else in_lines(said))
        return {"CANCELLED"}


class InWindow(Refusing):
    """An operator that needs a window."""

    @classmethod
    def poll(cls, context: Context) -> bool:
        if context.window_manager is None:
            cls.poll_message_set("Open a window first")
            return False
        return True


def capitalized(text: str) -> str:
    """Begin a text with a capital."""
    return text[:1].upper() + text[1:]


def in_lines(text: str) -> str:
    r"""Break a sentence into lines for a pop-up; the spaces stay, since the status bar shows it without the breaks.

    >>> in_lines("On whole frames this would leave the jump worse than it is: keep something else")
    'On whole frames this would leave the jump worse than it is: \nkeep something else'
    """
    return " \n".join(textwrap.wrap(text, POPUP_LINE, break_long_words=False, break_on_hyphens=False))
