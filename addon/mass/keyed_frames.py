"""When an armature is keyed, whichever bone it is: the poses of a body."""

import numpy as np
from bpy.types import FCurve, Object

from ...analysis.arrays import Array
from .. import host
from ..reading.curves import CONSTANT, LINEAR, Keys, read_keys
from ..reading.placement import TRANSFORMS


def transform_keys(rig: Object) -> tuple[Array | None, str | None]:
    """Return the frames of all transform keys that move the rig, before time remapping, and how they are joined.

    None where that is not known: nothing of its own is keyed, or NLA strips play along.
    """
    data = rig.animation_data
    if data is None or (data.use_nla and any(host.clips_of(data))):
        return None, None
    found = [read_keys(curve) for curve in host.curves_of(data) if _moves(curve)]
    moving = [keys for keys in found if len(keys.frames) and not keys.is_flat]
    if not moving:
        return None, None
    return np.unique(np.concatenate([keys.frames for keys in moving]).round(4)), _joined(moving)


def _moves(curve: FCurve) -> bool:
    return not host.is_silent(curve) and curve.data_path.endswith(TRANSFORMS)


def _joined(moving: list[Keys]) -> str:
    kinds = np.concatenate([keys.kinds[:-1] for keys in moving])
    if (kinds == CONSTANT).all():
        return "constant"
    return "linear" if (kinds == LINEAR).all() else "bezier"
