"""What the overlay writes: events with their frames, lengths in the scene's units, the push ratio."""

from bpy.types import UnitSettings

from ..sidebar.figures import in_units, to_digits
from .geometry import Kind, Label


def label_text(label: Label, units: UnitSettings) -> str:
    """Write a label."""
    if label.name == "ratio":
        return f"Push Ratio {to_digits(label.value, 2)}"
    if label.kind is Kind.EVENT:
        return f"{label.name.capitalize()} {to_digits(label.value, 1)}"
    return in_units(label.value, "LENGTH", units)
