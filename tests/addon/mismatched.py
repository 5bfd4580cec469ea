"""Shots of Tern Quay whose push does not belong to their flight, in each way that keys can be joined."""

from dataclasses import replace
from pathlib import Path

import bpy
from leapwright.addon import host

from tests.quay.build import build
from tests.quay.moves import Leap, Stand
from tests.quay.shots import SHOTS, Shot

BY_NAME = {shot.name[:5]: shot for shot in SHOTS}
FLOATY, LATE, TWOS = (BY_NAME[name] for name in ("tq020", "tq050", "tq080"))
RUSHED = replace(
    BY_NAME["tq060"],
    name="tq061_rushed_leap",
    moves=(Stand(7), Leap(push=4, rise=8, fall=12, absorb=6, distance=1.9, push_real=8)),
)
ON_TWOS = replace(
    FLOATY,
    name="tq021_on_twos",
    moves=(Stand(8), Leap(push=6, rise=14, fall=14, absorb=8, distance=1.9, pace=0.62, push_real=10, hold=4)),
)
RUSHED_ON_TWOS = replace(
    ON_TWOS,
    name="tq022_rushed_on_twos",
    moves=(Stand(8), Leap(push=6, rise=14, fall=14, absorb=8, distance=1.9, pace=0.62, push_real=12, hold=4)),
)
"""A push so short that even poses held on twos, or joined by straight lines, show it."""
LATE_ON_TWOS = replace(
    LATE,
    name="tq051_late_on_twos",
    moves=(Stand(8), Leap(push=8, rise=6, fall=6, absorb=4, distance=1.1, pace=1.4, push_real=4, hold=4)),
)
MISMATCHED = (FLOATY, LATE, RUSHED)


def opened(
    shot: Shot, folder: Path, *, drawn: str = "arcs", stepped: bool = False, joined: str = ""
) -> bpy.types.Object:
    """Build a shot in the running Blender and return its rig.

    stepped: each pose is held until the next one; joined: the interpolation between poses otherwise, with Blender's own
    handles.
    """
    build(replace(shot, drawn=drawn), folder)
    rig = bpy.data.objects["Brindle"]
    if stepped or joined:
        for curve in host.curves_of(rig.animation_data):
            for point in curve.keyframe_points:
                point.interpolation = joined or "CONSTANT"
                if joined:
                    point.handle_left_type = point.handle_right_type = "AUTO_CLAMPED"
            curve.update()
    bpy.context.view_layer.objects.active = rig
    return rig
