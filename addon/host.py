"""Every difference between Blender 4.2 and 5.2, in this module and nowhere else."""

import re
from collections.abc import Iterator
from contextlib import suppress
from typing import Literal

import bpy
from bpy.types import Action, AnimData, FCurve, ImageFormatSettings, Material, NlaStrip, NodeTree, Scene, World

HAS_SLOTS = "slots" in Action.bl_rna.properties
"""Whether an action has slots, as from 4.4 on."""
BONE_PATH = re.compile(r'^pose\.bones\["((?:[^"\\]|\\.)*)"\]\.(\w+)$')


def curves_of(holder: AnimData | NlaStrip) -> list[FCurve]:
    """List the F-curves that an assigned action or an NLA strip plays; none without an action.

    From 4.4 on an action has slots, and a holder that has no slot plays nothing; before, an action's
    curves are its own. `Action.fcurves` shows only the first slot where both exist, and is gone in 5.0.
    """
    action: Action | None = holder.action
    if action is None:
        return []
    if not HAS_SLOTS:
        return list(action.fcurves)  # type: ignore[attr-defined]  # the stubs are of the newest release
    slot = holder.action_slot
    if slot is None:
        return []
    keyed = bpy.types.ActionKeyframeStrip
    bags = [strip.channelbag(slot) for layer in action.layers for strip in layer.strips if isinstance(strip, keyed)]
    return [curve for bag in bags if bag is not None for curve in bag.fcurves]


def lacks_slot(holder: AnimData | NlaStrip) -> bool:
    """Say whether none of the slots of its action is chosen for it, so that it plays nothing of it."""
    return hasattr(holder, "action_slot") and holder.action_slot is None


def all_curves_of(action: Action) -> list[FCurve]:
    """List the F-curves of an action, whoever plays them."""
    if not HAS_SLOTS:
        return list(action.fcurves)  # type: ignore[attr-defined]  # the stubs are of the newest release
    strips = (strip for layer in action.layers for strip in layer.strips)
    keyed = (strip for strip in strips if isinstance(strip, bpy.types.ActionKeyframeStrip))
    return [curve for strip in keyed for bag in strip.channelbags for curve in bag.fcurves]


def is_silent(curve: FCurve) -> bool:
    """Say whether a curve moves nothing: muted, broken or empty.

    Muting the channel group silences it only where actions have no slots.
    """
    if curve.mute or curve.is_empty or not curve.is_valid:
        return True
    return not HAS_SLOTS and curve.group is not None and curve.group.mute


def bone_of_path(data_path: str) -> tuple[str, str] | None:
    """Split a pose bone's data path into the bone's name and the channel; None for any other path.

    >>> bone_of_path('pose.bones["hips"].location')
    ('hips', 'location')
    """
    match = BONE_PATH.match(data_path)
    return (bpy.utils.unescape_identifier(match[1]), match[2]) if match else None


def clips_of(data: AnimData) -> Iterator[NlaStrip]:
    """Yield the NLA clips that play, from the top track down, meta strips opened, muted ones left out."""
    tracks = [track for track in data.nla_tracks if track.is_solo] or [
        track for track in data.nla_tracks if not track.mute
    ]
    for track in reversed(tracks):
        yield from _clips(track.strips)


def _clips(strips: Iterator[NlaStrip]) -> Iterator[NlaStrip]:
    for strip in strips:
        if strip.mute:
            continue
        if strip.type == "META":
            yield from _clips(strip.strips)
        elif strip.type == "CLIP":
            yield strip


def scene_key(scene: Scene) -> int:
    """Return what tells this scene from every other for as long as the file is open."""
    return scene.session_uid


def copy_scene(scene: Scene) -> Scene:
    """Copy a scene with its properties and their animation.

    Before 4.5 a copied scene counts a user too many for each object and collection in it, for good; there
    a new scene is told the same, and holds no object.
    """
    if bpy.app.version >= (4, 5):
        return scene.copy()
    new = bpy.data.scenes.new(scene.name)
    for told, from_whom in ((new, scene), (new.render, scene.render), (new.unit_settings, scene.unit_settings)):
        for entry in from_whom.bl_rna.properties:
            plain = entry.type in {"BOOLEAN", "INT", "FLOAT", "ENUM"} and not entry.is_readonly
            if plain and not entry.identifier.startswith("frame_current"):
                with suppress(TypeError):  # an engine or a view that is not there
                    setattr(told, entry.identifier, getattr(from_whom, entry.identifier))
    for name, value in scene.items():
        new[name] = value.to_dict() if hasattr(value, "to_dict") else value
    if (data := scene.animation_data) is not None:
        own = new.animation_data_create()
        own.action = data.action
        for curve in data.drivers:
            own.drivers.from_existing(src_driver=curve)
    return new


def play_copy(data: AnimData, action: Action, *, like: AnimData) -> None:
    """Let an object play a copy of the action that another plays, through the same slot."""
    data.action = action
    slot = getattr(like, "action_slot", None)
    if slot is not None:
        data.action_slot = action.slots[slot.identifier]


def node_tree_of(data: Material | World) -> NodeTree:
    """Return the nodes of a material or a world, which has them by itself from 5.0 on."""
    if bpy.app.version < (5, 0):
        data.use_nodes = True
    return data.node_tree


def write_images(settings: ImageFormatSettings, kind: Literal["JPEG"], colors: Literal["RGB"]) -> None:
    """Let a scene's renders be written as images of a kind; from 5.0 on it says first that they are images."""
    if bpy.app.version >= (5, 0):
        settings.media_type = "IMAGE"
    settings.file_format, settings.color_mode = kind, colors


def takes_scroll_bars_away() -> bool:
    """Say whether the Timeline shows its scroll bar only under the pointer: seen in 5.2; in 4.3 it always does."""
    return bpy.app.version >= (5, 2)
