"""The feet of a track, read once: when they are on the ground, how high they stand, when no foot is down."""

from .contacts import Gap
from .feet import Feet, are_carried, feet_of

__all__ = ["Feet", "Gap", "are_carried", "feet_of"]
