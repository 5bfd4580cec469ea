"""Leapwright's analysis: a Track becomes Jumps, Jumps become an Audit. No Blender in here.

A name is loaded when it is asked for: a day that is all in the cache needs none of the analysis.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .audit import Audit, audit_track
    from .certainty import Certainty
    from .errors import LeapwrightError, PlanError, RetimeError, SettingsError, SourceError, TrackError
    from .finding import Finding
    from .jump import Jump
    from .limits import Limits
    from .phases import Event
    from .planning.goal import Goal
    from .planning.plan import Plan, plan_jump
    from .settings import Settings
    from .track import Followed, Marks, Track
    from .world import GRAVITIES, JUMPERS, World

__all__ = [
    "GRAVITIES",
    "JUMPERS",
    "Audit",
    "Certainty",
    "Event",
    "Finding",
    "Followed",
    "Goal",
    "Jump",
    "LeapwrightError",
    "Limits",
    "Marks",
    "Plan",
    "PlanError",
    "RetimeError",
    "Settings",
    "SettingsError",
    "SourceError",
    "Track",
    "TrackError",
    "World",
    "audit_track",
    "plan_jump",
]

HOMES = {
    "audit": ("Audit", "audit_track"),
    "certainty": ("Certainty",),
    "errors": ("LeapwrightError", "PlanError", "RetimeError", "SettingsError", "SourceError", "TrackError"),
    "finding": ("Finding",),
    "jump": ("Jump",),
    "limits": ("Limits",),
    "phases": ("Event",),
    "planning.plan": ("Plan", "plan_jump"),
    "planning.goal": ("Goal",),
    "settings": ("Settings",),
    "track": ("Followed", "Marks", "Track"),
    "world": ("GRAVITIES", "JUMPERS", "World"),
}
"""Modules, each with what of it is offered here."""
HOME_OF = {name: module for module, names in HOMES.items() for name in names}


def __getattr__(name: str) -> Any:
    """Load what is asked for (PEP 562)."""
    if name not in HOME_OF:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f".{HOME_OF[name]}", __name__), name)
