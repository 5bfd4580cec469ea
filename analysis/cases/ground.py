"""The ground: whether the bottom of a way up is the ground, or how deep a body crouches there, by its height over the
world's origin.
"""

from ..arrays import interpolated
from ..track import Track

POPPED_KNOTS = (-0.2, -0.1, 0.1, 0.3, 0.65, 0.8, 0.92, 1.0)
"""Height of a held bottom over the world's origin, as a share of the height at which a body that crouches there leaves
the ground."""
POPPED_SHARES = (0.35, 0.97, 0.97, 0.2, 0.2, 0.8, 0.8, 0.35)
"""Share of bodies that leave the ground without a crouch, at each of these heights, among those that are seen to stand
nowhere else (ours).

What lies on the origin is the ground itself, and no crouch. People crouch to 0.4 to 0.7 of that height: the center of
mass stands at 0.56 of the stature (de Leva 1996, J. Biomech. 29:1223), which is 0.97 m of 1.75 m, and is pushed 0.3 to
0.45 m up to 1.05 m. Nobody holds a crouch that is a tenth deep; but near 1, and under the origin, the ground may lie
anywhere, as on a ledge.
"""
GROUND_SHARE = 0.1
"""Most height over the world's origin, either way, at which a bottom is the ground, as a share of the rise from there
(ours)."""
FOOTAGE = "footage"
"""Source of tracks of markers in pictures."""


def is_over_ground(track: Track) -> bool:
    """Tell whether a track's heights are over the world's ground: those of a marker are over the edge of a picture."""
    return track.source != FOOTAGE


def popped_share(bottom: float, left: float) -> float:
    """Tell how likely a body leaves the ground from its held bottom, rather than crouches there and leaves at `left`.

    Heights in meters over the world's origin; left: 0 where its ground is not known.

    >>> popped_share(0.0, 0.5) > popped_share(0.9, 1.07) > 0.5 > popped_share(0.6, 1.07)
    True
    """
    return interpolated(bottom / left, POPPED_KNOTS, POPPED_SHARES) if left > 0.0 else POPPED_SHARES[0]


def is_ground(bottom: float, top: float) -> bool:
    """Tell whether a bottom lies on the world's origin, as that of a root between its body's feet; meters.

    >>> is_ground(0.01, 1.0), is_ground(0.4, 1.0)
    (True, False)
    """
    return abs(bottom) <= GROUND_SHARE * (top - bottom)
