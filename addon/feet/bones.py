"""The feet of a rig: which of its bones touch the ground, where they are, and how high the ground is under them."""

import re
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from bpy.types import Scene

from ...analysis.arrays import Array
from ...analysis.doubt import Stretch
from ...analysis.errors import SourceError
from ...analysis.track import Track
from ..mass.settings import of_armature
from ..reading.evaluated import evaluated_points
from ..rigs import Rig, is_rig
from ..scene import unit_scale, upright
from .ground import ground_under
from .settings import GROUND_HEIGHT, GROUND_MESH, of_rig

FOOT_WORDS = {"foot", "forefoot", "hindfoot", "toe", "toes", "toebase", "heel", "hoof", "paw", "ball"}
"""Words of a bone's name that mean a part that touches the ground."""
OTHER_WORDS = {
    "ik", "fk", "mch", "org", "vis", "ctrl", "control", "roll", "rocker", "pole", "target", "tweak", "parent",
    "master", "spin", "pivot", "socket", "hold",
}  # fmt: skip
"""Words of a bone's name that mean it drives or helps a foot rather than being one."""
SOLE = 0.35
"""Most that an end of a bone lies over the lowest end at rest for it to touch the ground, as a share of the longest
foot bone (ours): the ball and the toe do, the ankle does not."""
BONE_WORD = re.compile(r"[A-Z]+(?![a-z])|[A-Z]?[a-z]+")
FEET_NOTE_START = "feet: "
"""Beginning of the note that says which feet a track has."""


def find_feet(rig: Rig) -> tuple[str, ...]:
    """Find the bones of a rig that touch the ground, by their names; of a rig with bones that deform, those do.

    English names, in the spellings `foot.L`, `Foot_L`, `l_foot`, `LeftToeBase`, `DEF-toe.R`. Empty without any.
    """
    named = [bone for bone in rig.data.bones if _is_foot(bone.name)]
    marked = [bone for bone in named if bone.name.startswith("DEF-")] or [
        bone for bone in named if bone.use_deform and _owned(bone.name)
    ]
    chosen = marked or [bone for bone in named if _owned(bone.name)]
    return tuple(bone.name for bone in chosen)


def known_feet(rig: Rig) -> tuple[str, ...]:
    """Return the bones listed by hand, else those mapped as feet of the body, else those named like feet, or none."""
    settings = of_rig(rig)
    listed = dict.fromkeys(foot.bone for foot in settings.bones if foot.bone) if settings else {}
    return tuple(listed) or _mapped(rig) or find_feet(rig)


def foot_bones(rig: Rig) -> tuple[str, ...]:
    """Return what `known_feet` does. Raises SourceError where there are none, or one of them is gone."""
    bones = known_feet(rig)
    if not bones:
        raise SourceError(f'no bone of "{rig.name}" is named like a foot: list the bones that touch the ground')
    lacking = next((bone for bone in bones if bone not in rig.data.bones), None)
    if lacking is not None:
        raise SourceError(f'"{rig.name}" has no bone "{lacking}", which is listed among its feet')
    return bones


def with_feet(
    scene: Scene, rig: Rig, track: Track, stretches: Sequence[Stretch] = (), *, why: str = ""
) -> Track:
    """Return a rig's track with its feet and the ground under them, and notes that say which they are.

    stretches: first and last frames between which they are read; all frames without any. why: a phrase that the
    note goes on with. Raises SourceError for a rig without feet, and for a ground that is not there.
    """
    if not is_rig(rig):
        raise SourceError(f'"{rig.name}" has no bones, so it has no feet: follow an armature')
    bones = foot_bones(rig)
    ends = _soles(scene, rig, bones)
    wanted = np.full(len(track.frames), not stretches)
    for first, last in stretches:
        wanted |= (track.frames >= first) & (track.frames <= last)
    points = evaluated_points(scene, rig, bones, track.frames[wanted])
    feet = np.stack([points[:, bones.index(bone), end] for bone, end in ends], axis=1)
    ground, said = _ground(scene, rig, track.heights[wanted], track.frames[wanted], feet)
    names = ", ".join(dict.fromkeys(bone for bone, _ in ends))
    note = f"{FEET_NOTE_START}{names}{why}; ground: {said}"
    whole = np.full((len(wanted), *feet.shape[1:]), np.nan)
    whole[wanted] = feet
    under: Array | None = None
    if isinstance(ground, np.ndarray):
        under = np.zeros(whole.shape[:2])
        under[wanted] = ground
    elif ground is not None:
        under = np.full(whole.shape[:2], ground)
    return replace(track, feet=whole, ground=under, notes=(*track.notes, note))


def _mapped(rig: Rig) -> tuple[str, ...]:
    """Return the bones that the armature's saved body has for feet."""
    body = of_armature(rig.data)
    rows = body.bones if body else ()
    return tuple(row.bone for row in rows if row.segment.startswith("foot") and row.bone in rig.data.bones)


def _ground(
    scene: Scene, rig: Rig, heights: Array, frames: Array, feet: Array
) -> tuple[Array | float | None, str]:
    settings = of_rig(rig)
    if settings is not None and settings.ground == GROUND_HEIGHT:
        height = settings.ground_height * unit_scale(scene)
        return height, f"at {height:.3g} m"
    if settings is not None and settings.ground == GROUND_MESH:
        mesh = settings.ground_mesh
        if mesh is None:
            raise SourceError(f'choose the mesh that the feet of "{rig.name}" land on')
        over = float(np.median(heights - feet[:, :, 2].min(axis=1)))
        return ground_under(scene, mesh, feet, frames, above=max(0.5 * over, 0.01)), f'the mesh "{mesh.name}"'
    return None, "where they stand"


def _soles(scene: Scene, rig: Rig, bones: Sequence[str]) -> list[tuple[str, int]]:
    """Return the ends of bones that touch the ground: (bone, 0 for its head, 1 for its tail), each place once."""
    turn = upright(scene) @ np.array(rig.matrix_world)[:3, :3]
    at_rest = [(rig.data.bones[bone].head_local, rig.data.bones[bone].tail_local) for bone in bones]
    places = np.array([[tuple(end) for end in both] for both in at_rest]) @ turn.T
    heights, lengths = places[:, :, 2], np.linalg.norm(places[:, 1] - places[:, 0], axis=1)
    low = heights <= heights.min() + SOLE * lengths.max()
    taken: list[tuple[str, int]] = []
    seen: list[Array] = []
    for (row, end), place in zip(np.ndindex(heights.shape), places.reshape(-1, 3), strict=True):
        if low[row, end] and all(np.abs(place - other).max() > 1e-6 for other in seen):
            taken.append((bones[row], end))
            seen.append(place)
    return taken


def _is_foot(name: str) -> bool:
    return not FOOT_WORDS.isdisjoint(_words(name))


def _owned(name: str) -> bool:
    return OTHER_WORDS.isdisjoint(_words(name))


def _words(name: str) -> list[str]:
    """Return the words of a bone's name in lower case; a side's letter in front ("lFoot", "RToe") falls off.

    >>> _words("LeftToeBase"), _words("DEF-foot.L"), _words("RToe")
    (['left', 'toe', 'base'], ['def', 'foot', 'l'], ['r', 'toe'])
    """
    return [word.lower() for word in BONE_WORD.findall(name)]
