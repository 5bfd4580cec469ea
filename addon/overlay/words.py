"""What the overlay writes: events with their frames, lengths in the scene's units, the push ratio."""

from bpy.types import UnitSettings

from ..sidebar.figures import in_units, rounded
from .geometry import Kind, Label


def said(label: Label, units: UnitSettings) -> str:
    """Write a label."""
    if label.name == "ratio":
        return f"Push Ratio {rounded(label.value, 2)}"
    if label.kind is Kind.EVENT:
        return f"{label.name.capitalize()} {rounded(label.value, 1)}"
    return in_units(label.value, "LENGTH", units)
