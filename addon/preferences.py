"""What belongs to the person: colors and sizes of what is drawn over the scene."""

from dataclasses import dataclass, replace

from bpy.props import BoolProperty, FloatProperty, FloatVectorProperty
from bpy.types import AddonPreferences, Context

from .overlay.geometry import Kind
from .overlay.style import LOOKS, Color, Look

OWNER = __package__.rpartition(".")[0]
"""The extension's own package: what Blender keeps its preferences under."""
COLORED = {
    Kind.TRACK: ("Track", "Set the color of the path as it is keyed"),
    Kind.FITTED: ("Fitted Flight", "Set the color of the parabola through the flight, and of the jump height"),
    Kind.REAL: ("Real Time", "Set the color of the flight that gravity asks for"),
    Kind.PUSH: ("Push", "Set the color of the push distance"),
    Kind.FINDING: ("Finding", "Set the color of the frames of a finding"),
    Kind.GHOST: ("Mend", "Set the color of the path as a mend makes it"),
    Kind.BEFORE: ("Before", "Set the color of the path that is held to be compared"),
}


def _color(kind: Kind) -> FloatVectorProperty:  # type: ignore[valid-type]  # Blender defines properties so
    name, description = COLORED[kind]
    return FloatVectorProperty(
        name=name, description=description, subtype="COLOR_GAMMA", size=4, min=0.0, max=1.0, default=LOOKS[kind].color
    )


class LEAPWRIGHT_AP_preferences(AddonPreferences):
    """Colors and sizes; where the add-on runs without being enabled as one, the defaults hold."""

    bl_idname = OWNER

    color_track: _color(Kind.TRACK)
    color_fitted: _color(Kind.FITTED)
    color_real: _color(Kind.REAL)
    color_push: _color(Kind.PUSH)
    color_finding: _color(Kind.FINDING)
    color_ghost: _color(Kind.GHOST)
    color_before: _color(Kind.BEFORE)
    scale: FloatProperty(
        name="Overlay Size", description="Set the size of lines, dots and texts", default=1.0, min=0.3, max=4.0
    )
    select_keys: BoolProperty(
        name="Select Keys", description="Select the keys of a finding when going to it", default=False
    )

    def draw(self, _context: Context) -> None:
        """Draw what the overlay looks like under each other, then the rest."""
        self.layout.use_property_split = True
        overlay = self.layout.column()
        for kind in COLORED:
            overlay.prop(self, f"color_{kind}")
        overlay.prop(self, "scale")
        self.layout.column(heading="Go to Finding").prop(self, "select_keys")


CLASSES = (LEAPWRIGHT_AP_preferences,)


@dataclass(frozen=True, slots=True)
class Chosen:
    """Looks of all kinds, the scale of everything, and whether going to a finding selects its keys."""

    looks: dict[Kind, Look]
    scale: float = 1.0
    select_keys: bool = False


Said = tuple[tuple[Color, ...], float, bool]
"""What the preferences say: colors in the order of COLORED, size, whether keys are selected."""
_made: list[tuple[Said | None, Chosen]] = []


def of_person(context: Context) -> Chosen:
    """Return what the person has chosen, the same object while that stays."""
    entry = context.preferences.addons.get(OWNER)
    kept = entry.preferences if entry is not None else None
    said: Said | None = None
    if isinstance(kept, LEAPWRIGHT_AP_preferences):
        said = tuple(tuple(getattr(kept, f"color_{kind}")) for kind in COLORED), kept.scale, kept.select_keys
    if not _made or _made[0][0] != said:
        _made[:] = [(said, _chosen(said))]
    return _made[0][1]


def _chosen(said: Said | None) -> Chosen:
    if said is None:
        return Chosen(LOOKS)
    colors, scale, select_keys = said
    looks = dict(LOOKS)
    for kind, color in zip(COLORED, colors, strict=True):
        looks[kind] = replace(looks[kind], color=color)
    looks[Kind.HEIGHT] = replace(looks[Kind.HEIGHT], color=looks[Kind.FITTED].color)
    return Chosen(looks, scale, select_keys)
