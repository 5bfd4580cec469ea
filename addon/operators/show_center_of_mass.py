"""Show Center of Mass: an empty that Blender itself keeps at the followed armature's center of mass."""

from typing import cast

import bpy
from bpy.types import Context, CopyLocationConstraint, Object, Operator

from ...analysis.errors import LeapwrightError
from ...analysis.mass.body import Body
from ..blender_words import Outcome
from ..mass.rig import body_of_rig
from ..refusals import Refusing
from ..rigs import Rig
from ..target import followed_rig

LIGHTEST = 1e-6
"""Share of the whole mass under which a bone is not worth a constraint."""


class LEAPWRIGHT_OT_show_center_of_mass(Refusing, Operator):
    """Add the empty, or bring it up to date."""

    bl_idname = "leapwright.show_center_of_mass"
    bl_label = "Show Center of Mass"
    bl_description = "Add an empty that follows the center of mass of the armature, by constraints"
    bl_options = {"REGISTER", "UNDO"}

    @classmethod
    def poll(cls, context: Context) -> bool:
        return cls.allowed(lambda: followed_rig(context, has="a body"))

    def execute(self, context: Context) -> Outcome:
        rig = followed_rig(context, has="a body")
        try:
            found = body_of_rig(rig)
        except LeapwrightError as refusal:
            return self.refuse(refusal)
        follow(context, rig, marker_of(rig) or _marker(context, rig), found.body)
        if found.warning:
            self.report({"WARNING"}, found.warning)
        return {"FINISHED"}


def marker_of(rig: Rig) -> Object | None:
    """Return the empty that shows an armature's center of mass; None where there is none."""
    marker = bpy.data.objects.get(_name(rig))
    return marker if marker is not None and marker.type == "EMPTY" else None


def follow(context: Context, rig: Rig, marker: Object, body: Body) -> None:
    """Make the marker follow the body: each constraint pulls it toward one bone by that bone's share so far.

    A mass beside its bone is pulled toward through an empty of its own, a child of the bone.
    """
    for constraint in marker.constraints[:]:
        if isinstance(constraint, CopyLocationConstraint) and constraint.target not in (None, rig):
            bpy.data.objects.remove(constraint.target)
    marker.constraints.clear()
    pulled = 0.0
    for bone, weights in zip(body.bones, body.weights.tolist(), strict=True):
        share = sum(weights)
        if share < LIGHTEST:
            continue
        along, x, z = (weight / share for weight in weights[1:])
        pulled += share
        constraint = cast(CopyLocationConstraint, marker.constraints.new("COPY_LOCATION"))
        constraint.name = bone
        constraint.influence = share / pulled
        if x == z == 0.0:
            constraint.target, constraint.subtarget, constraint.head_tail = rig, bone, along
        else:
            constraint.target = _anchor(context, rig, bone, (x, along - 1.0, z))


def _marker(context: Context, rig: Rig) -> Object:
    marker = _empty(context, _name(rig))
    marker.empty_display_type = "SPHERE"
    marker.empty_display_size = 0.06 * max(rig.dimensions)
    marker.show_in_front = True
    return marker


def _anchor(context: Context, rig: Rig, bone: str, place: tuple[float, float, float]) -> Object:
    """Put an empty beside a bone, its place counted from the tail, in lengths of the bone."""
    anchor = _empty(context, f"{_name(rig)}: {bone}")
    anchor.parent, anchor.parent_type, anchor.parent_bone = rig, "BONE", bone
    anchor.location = [part * rig.data.bones[bone].length for part in place]
    anchor.hide_viewport = anchor.hide_select = True
    return anchor


def _empty(context: Context, name: str) -> Object:
    empty = bpy.data.objects.new(name, None)
    context.scene.collection.objects.link(empty)
    return empty


def _name(rig: Rig) -> str:
    return f"{rig.name} center of mass"


CLASSES = (LEAPWRIGHT_OT_show_center_of_mass,)
