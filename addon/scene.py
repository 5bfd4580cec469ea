"""What a scene says of the world its jumps live in: rate, gravity, unit, and the time its keys live in.

Rates in frames per second, gravity in m/s², lengths in meters. Nothing here changes the scene.
"""

import math
from dataclasses import replace
from functools import lru_cache

import numpy as np
from bpy.types import Scene

from ..analysis.arrays import Array
from ..analysis.errors import SettingsError
from ..analysis.house import PRESETS
from ..analysis.settings import Settings
from ..analysis.world import GRAVITIES, STANDARD_GRAVITY, World

DOWN = np.array([0.0, 0.0, -1.0])


def frame_rate(scene: Scene) -> float:
    """Return frames per second: fps / fps_base."""
    return scene.render.fps / scene.render.fps_base


def key_time(scene: Scene) -> float:
    """Return by how much a scene frame is multiplied to get the frame its keys are read at.

    1 without time remapping; ½ when the old rate is half the new.
    """
    return scene.render.frame_map_old / scene.render.frame_map_new


def unit_scale(scene: Scene) -> float:
    """Return meters per Blender unit."""
    return scene.unit_settings.scale_length


def scene_gravity(scene: Scene) -> float:
    """Return the magnitude of the scene's gravity, m/s².

    Blender's setting is in m/s² whatever the length of a unit; 0 when it is set to nothing.
    """
    return math.sqrt(sum(float(f"{part:.7g}") ** 2 for part in scene.gravity))


def upright(scene: Scene) -> Array:
    """Return the (3, 3) rotation that turns the scene so that z runs against its gravity; it is read-only.

    The shortest turn; the identity when gravity already points down, or is nothing.
    """
    return to_track(tuple(scene.gravity), 1.0)[:3, :3]


@lru_cache(maxsize=8)
def to_track(gravity: tuple[float, float, float], scale: float) -> Array:
    """Return the read-only (4, 4) matrix that turns places in a scene into those of a track.

    gravity: the scene's; scale: meters per Blender unit.
    """
    turned = np.eye(4)
    turned[:3, :3] = _upright(*gravity) * scale
    turned.flags.writeable = False
    return turned


def _upright(x: float, y: float, z: float) -> Array:
    if x == 0.0 and y == 0.0 and z <= 0.0:
        return np.eye(3)
    pull = np.array((x, y, z)) / math.hypot(x, y, z)
    cosine = float(pull @ DOWN)
    if cosine > 1.0 - 1e-12:
        return np.eye(3)
    if cosine < -1.0 + 1e-12:
        return np.diag([1.0, -1.0, -1.0])
    x, y, z = np.cross(pull, DOWN)
    cross = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    return np.eye(3) + cross + cross @ cross / (1.0 + cosine)


def settings_of(scene: Scene) -> Settings:
    """Build what an audit is told from the scene and its Leapwright settings; from the scene alone while it has none.

    Raises SettingsError when gravity is to be the scene's and that is nothing.
    """
    chosen = getattr(scene, "leapwright", None)
    if chosen is None:
        return Settings(World(gravity=scene_gravity(scene) or STANDARD_GRAVITY))
    if chosen.gravity == "scene":
        strength = scene_gravity(scene)
        if strength == 0.0:
            raise SettingsError("the scene has no gravity: choose a world, or type one, under Settings")
    else:
        strength = GRAVITIES.get(chosen.gravity, chosen.gravity_custom * unit_scale(scene))
    smallest = chosen.smallest_hop * unit_scale(scene) if chosen.use_smallest_hop else None
    return _settings(strength, int(chosen.step), chosen.kind, chosen.judge, smallest)


@lru_cache(maxsize=8)
def _settings(strength: float, step: int, kind: str, judge: str, smallest: float | None) -> Settings:
    """Build them once for the same values: Live asks for them at every change."""
    limits = PRESETS[judge].limits
    if smallest is not None:
        limits = replace(limits, smallest_hop=smallest)
    return Settings(world=World(gravity=strength, step=step, kind=kind), limits=limits)
