"""Leapwright's analysis: a Track becomes Jumps, Jumps become an Audit. No Blender in here."""

from .audit import Audit, audit_track
from .certainty import Certainty
from .errors import LeapwrightError, PlanError, RetimeError, SettingsError, SourceError, TrackError
from .finding import Finding
from .jump import Jump
from .limits import Limits
from .phases import Event
from .planning.plan import Plan, plan_jump
from .planning.wish import Wish
from .settings import Settings
from .track import Followed, Marks, Track
from .world import GRAVITIES, KINDS, World

__all__ = [
    "GRAVITIES",
    "KINDS",
    "Audit",
    "Certainty",
    "Event",
    "Finding",
    "Followed",
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
    "Wish",
    "World",
    "audit_track",
    "plan_jump",
]
