"""Where the jumps of a track lie: crouch, takeoff, apex, landing, absorbed, each with its error."""

from .find import find_phases

__all__ = ["find_phases"]
