"""Stick figures for a report: where the bones of a rig are at the events of its jumps, seen from the side."""

from collections.abc import Sequence

import numpy as np
from bpy.types import Bone, Scene

from ...analysis.arrays import Array
from ...analysis.audit import Audit
from ...analysis.jump import Jump
from ...analysis.shot import Pose
from ...analysis.track import Track
from ..reading.evaluated import evaluated_points
from ..rigs import Rig

POSED_EVENTS = ("crouch", "takeoff", "apex", "landing")
MOST_BONES = 60
"""Most bones that are drawn, the longest ones: more only blacken a figure of 120 pixels (ours)."""
TRAVELS = 0.1
"""Distance over the ground, in meters, from which a jump is seen across its travel, and not across the way the rig
faces (ours)."""
TOGETHER = 0.02
"""Distance within which a bone begins where another ends, as a share of its length: the two are drawn as one line
(ours)."""
CENTIMETER_DIGITS = 2
"""Centimeters."""


def rig_poses(scene: Scene, rig: Rig, track: Track, audit: Audit) -> tuple[tuple[Pose, ...], ...]:
    """Return the poses of each jump of a track that a rig makes, the travel to the right, heights as in the track.

    Raises SourceError where the rig has no pose to be read.
    """
    bones = drawn_bones(rig)
    if not audit.jumps or not bones:
        return ()
    events = [
        [(name, round(event.frame)) for name in POSED_EVENTS if (event := getattr(jump, name)) is not None]
        for jump in audit.jumps
    ]
    frames = sorted({frame for of_jump in events for _, frame in of_jump})
    ends = dict(zip(frames, evaluated_points(scene, rig, [bone.name for bone in bones], frames), strict=True))
    chains = _chains(bones)
    return tuple(
        tuple(Pose(name, frame, _flat(ends[frame], chains, side)) for name, frame in of_jump)
        for of_jump, side in zip(events, (_travel(rig, track, jump) for jump in audit.jumps), strict=True)
    )


def drawn_bones(rig: Rig) -> list[Bone]:
    """Return the bones that deform the body, or all where none does; of many the longest, in the order of the rig."""
    bones = [bone for bone in rig.data.bones if bone.use_deform] or list(rig.data.bones)
    longest = set(sorted(bones, key=lambda bone: -bone.length)[:MOST_BONES])
    return [bone for bone in bones if bone in longest]


def _chains(bones: Sequence[Bone]) -> list[list[int]]:
    """Return numbers of bones that go on where the one before ends, at rest: each chain is one line."""
    chains: list[list[int]] = []
    last: dict[str, list[int]] = {}
    for number, bone in enumerate(bones):
        parent = bone.parent
        chain = last.pop(parent.name, None) if parent is not None else None
        if parent is None or chain is None or (bone.head_local - parent.tail_local).length > TOGETHER * bone.length:
            if parent is not None and chain is not None:
                last[parent.name] = chain  # for a sister that does go on
            chain = [number]
            chains.append(chain)
        else:
            chain.append(number)
        last[bone.name] = chain
    return chains


def _flat(ends: Array, chains: Sequence[Sequence[int]], side: Array) -> tuple[tuple[float, ...], ...]:
    """Lay (m, 2, 3) heads and tails flat: across along side, from the middle of the body, and up."""
    across = ends @ side
    flat = np.round(np.stack([across - across.mean(), ends[..., 2]], axis=-1), CENTIMETER_DIGITS) + 0.0
    return tuple(
        tuple(flat[chain[0], 0].tolist() + [value for number in chain for value in flat[number, 1].tolist()])
        for chain in chains
    )


def _travel(rig: Rig, track: Track, jump: Jump) -> Array:
    """Return the level direction that is drawn to the right: where the jump goes, else where the rig faces (its own
    -y).
    """
    start, end = (int(np.searchsorted(track.frames, event.frame)) for event in (jump.takeoff, jump.landing))
    way = (track.positions[min(end, len(track.frames) - 1)] - track.positions[start]) * (1.0, 1.0, 0.0)
    if np.hypot(*way[:2]) < TRAVELS:
        way = -np.array(rig.matrix_world.col[1][:3]) * (1.0, 1.0, 0.0)
    length = np.hypot(*way[:2])
    return way / length if length > 0.0 else np.array([1.0, 0.0, 0.0])
