"""Tables of the masses of the human body's segments, and where in each its center of mass lies.

Masses in per cent of the body, as printed; they are normalized where they are used. Centers are shares of the
segment's length from its near joint (the head's: from the base of the neck; the trunk's: from between the hips).
A drawn character is not a measured one: not for training, medical or safety decisions.
"""

import math
from dataclasses import dataclass

SIDES = ("left", "right")
LIMB_SEGMENTS = ("upper_arm", "forearm", "hand", "thigh", "shank", "foot")
SEGMENTS = ("head", "trunk", *(f"{limb}_{side}" for limb in LIMB_SEGMENTS for side in SIDES))
OWN_MASS = "by_hand"
"""What a bone has instead of a segment when its mass is its own."""

MassAt = tuple[float, float]
"""A mass in per cent of the body, and its place as a share of the segment's length."""


@dataclass(frozen=True, slots=True)
class SegmentTable:
    """Masses and centers of one printed table; the head's include the neck's.

    limbs           (mass, center) by limb, for one side
    trunk           its parts, on the line from between the hips up the back
    trunk_to_neck   whether that line ends at the base of the neck, or between the shoulders
    """

    name: str
    label: str
    source: str
    head: MassAt
    trunk: tuple[MassAt, ...]
    limbs: dict[str, MassAt]
    trunk_to_neck: bool

    @property
    def segments(self) -> tuple[str, ...]:
        """The segments it knows: all of them."""
        return SEGMENTS

    @property
    def total(self) -> float:
        """What its masses sum to, per cent: 100, but for the rounding of print."""
        return math.fsum(mass for segment in SEGMENTS for mass, _ in self.masses(segment))

    def masses(self, segment: str) -> tuple[MassAt, ...]:
        """Return the masses of a segment, each with its place along it."""
        if segment == "trunk":
            return self.trunk
        return (self.head if segment == "head" else self.limbs[segment.rpartition("_")[0]],)


def _up_the_back(parts: tuple[tuple[float, float, float], ...]) -> tuple[MassAt, ...]:
    """Place the parts of a trunk, printed from the neck down as mass, center and length, from the hips up."""
    whole, above, placed = sum(length for *_, length in parts), 0.0, []
    for mass, center, length in parts:
        placed.append((mass, 1.0 - (above + center * length) / whole))
        above += length
    return tuple(placed)


DE_LEVA = "de Leva P (1996) Adjustments to Zatsiorsky-Seluyanov's segment inertia parameters, J Biomech 29:1223-1230"
FOOT = 0.5
"""Half way from ankle to ball, as Winter has it: a rig has no heel to measure de Leva's foot from."""

FEMALE = SegmentTable(
    name="female",
    label="Female (de Leva 1996)",
    source=f"{DE_LEVA}, Table 4, women; the trunk's parts laid end to end by their mean lengths (from memory)",
    # Printed from the vertex: 48.41 % of the way to the cervicale.
    head=(6.68, 1.0 - 0.4841),
    trunk=_up_the_back(((15.45, 0.5050, 228.0), (14.65, 0.4512, 205.3), (12.47, 0.4920, 181.5))),
    limbs={
        "upper_arm": (2.55, 0.5754),
        "forearm": (1.38, 0.4559),
        "hand": (0.56, 0.7474),
        "thigh": (14.78, 0.3612),
        "shank": (4.81, 0.4352),
        "foot": (1.29, FOOT),
    },
    trunk_to_neck=True,
)

MALE = SegmentTable(
    name="male",
    label="Male (de Leva 1996)",
    source=f"{DE_LEVA}, Table 4, men; the trunk's parts laid end to end by their mean lengths (from memory)",
    # Printed from the vertex: 50.02 % of the way to the cervicale.
    head=(6.94, 1.0 - 0.5002),
    trunk=_up_the_back(((15.96, 0.5066, 242.1), (16.33, 0.4502, 215.5), (11.17, 0.6115, 145.7))),
    limbs={
        "upper_arm": (2.71, 0.5772),
        "forearm": (1.62, 0.4574),
        "hand": (0.61, 0.7900),
        "thigh": (14.16, 0.4095),
        "shank": (4.33, 0.4395),
        "foot": (1.37, FOOT),
    },
    trunk_to_neck=True,
)

WINTER = SegmentTable(
    name="winter",
    label="Adult (Winter 2009)",
    source="Winter DA (2009) Biomechanics and Motor Control of Human Movement, 4th ed, Table 4.1 (after Dempster 1955)",
    # Printed at the ear canal: taken as half way from the base of the neck to the vertex (ours, as de Leva's men).
    head=(8.1, 0.5),
    trunk=((49.7, 0.5),),
    limbs={
        "upper_arm": (2.8, 0.436),
        "forearm": (1.6, 0.430),
        "hand": (0.6, 0.506),
        "thigh": (10.0, 0.433),
        "shank": (4.65, 0.433),
        "foot": (1.45, 0.5),
    },
    trunk_to_neck=False,
)

SEGMENT_TABLES = {table.name: table for table in (FEMALE, MALE, WINTER)}
