"""Where a location channel's values lie in the world: parents, rest pose and object, held where they are.

Everything that places a point is affine in its location, so it is worked out once as (4, 4) matrices in
Blender units. Rotation and scale come from the stored transforms, never from an evaluated scene.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

import numpy as np
from bpy.types import Bone, Constraint, Curve, Object, PoseBone
from mathutils import Matrix

from ...analysis.arrays import Array
from ..rigs import Rig
from .channels import Motion

TRANSFORMS = ("location", "rotation_euler", "rotation_quaternion", "rotation_axis_angle", "scale")
DELTAS = ("delta_location", "delta_rotation_euler", "delta_rotation_quaternion", "delta_scale")


class Role(NamedTuple):
    """What something above a track is to it: as the note calls it, and as its constraints' note does."""

    it: str
    of: str


BONE = Role("its parent bone", "the bone")
ARMATURE = Role("its armature", "the armature")
PARENT = Role("its parent", "the parent")
UNPARENTED = np.eye(4)
"""Where an object without a parent has its location: in the world. Read-only."""
UNPARENTED.flags.writeable = False


def of_object(thing: Object, *, done: str = "read") -> tuple[Array, list[str]]:
    """Place an object's location (its deltas included) in the world.

    Returns the (4, 4) matrix and a sentence for each thing that could not be taken along; done: what it begins with.
    """
    notes = list(_constraint_notes(thing.constraints, done=done))
    if thing.parent is None:
        return UNPARENTED, notes
    place, parent_notes = _parents(thing, done)
    return np.array(place, dtype=np.float64), notes + parent_notes


def of_bone(thing: Rig, bone: PoseBone, motion: Motion, *, done: str = "read") -> tuple[Array, list[str]]:
    """Place a pose bone's location, which moves its head, in the world.

    Returns the (4, 4) matrix and a sentence for each thing that could not be taken along; done: what it begins with.
    """
    notes = list(_constraint_notes(bone.constraints, done=done))
    for above in bone.parent_recursive:
        notes.extend(_motion_notes(motion, above, BONE, done))
    notes.extend(_motion_notes(motion, thing, ARMATURE, done))
    if thing.data.pose_position == "REST":
        notes.append(f"{done} as posed, although the armature shows its rest position")
    world, parent_notes = _parents(thing, done)
    world = world @ thing.matrix_basis
    heads = [_pose_matrix(bone, Matrix.Translation(step)) for step in ((0, 0, 0), *Matrix.Identity(3))]
    columns = [np.array(world @ head, dtype=np.float64)[:, 3] for head in heads]
    place = np.eye(4)
    place[:, 3] = columns[0]
    place[:, :3] = np.stack([column - columns[0] for column in columns[1:]], axis=1)
    return place, notes + parent_notes


def _parents(thing: Object, done: str) -> tuple[Matrix, list[str]]:
    """Work out the matrix that an object's own transform is applied under, and what was left out."""
    place, notes = Matrix.Identity(4), []
    while (parent := thing.parent) is not None:
        motion = Motion(parent)
        link = Matrix.Identity(4)
        if thing.parent_type == "BONE" and thing.parent_bone:
            link, bone_notes = _bone_link(parent, thing.parent_bone, motion, done)
            notes.extend(bone_notes)
        elif thing.parent_type in {"VERTEX", "VERTEX_3"}:
            notes.append(f'{done} as if it were parented to "{parent.name}" whole, not to its vertices')
        elif isinstance(parent.data, Curve) and parent.data.use_path:
            notes.append(f'{done} without following the path "{parent.name}"')
        notes.extend(_motion_notes(motion, parent, PARENT, done))
        place = parent.matrix_basis @ link @ thing.matrix_parent_inverse @ place
        thing = parent
    return place, notes


def _bone_link(armature: Object, name: str, motion: Motion, done: str) -> tuple[Matrix, list[str]]:
    bone = armature.pose.bones.get(name) if armature.pose else None
    if bone is None:
        return Matrix.Identity(4), []
    notes = []
    for link in (bone, *bone.parent_recursive):
        notes.extend(_motion_notes(motion, link, BONE, done))
    pose = _pose_matrix(bone, bone.matrix_basis)
    if bone.bone.use_relative_parent:
        return pose @ bone.bone.matrix_local.inverted_safe(), notes
    return pose @ Matrix.Translation((0.0, bone.bone.length, 0.0)), notes


def _pose_matrix(bone: PoseBone, basis: Matrix) -> Matrix:
    """Work out a bone's matrix in its armature's space, by the host's own rule of inheritance."""
    rest: Bone = bone.bone
    if bone.parent is None or rest.parent is None:
        return rest.convert_local_to_pose(basis, rest.matrix_local)
    return rest.convert_local_to_pose(
        basis,
        rest.matrix_local,
        parent_matrix=_pose_matrix(bone.parent, bone.parent.matrix_basis),
        parent_matrix_local=rest.parent.matrix_local,
    )


def _motion_notes(motion: Motion, thing: Object | PoseBone, role: Role, done: str) -> Iterator[str]:
    """Say that something above the track moves of itself; it is read where it stands."""
    prefix = thing.path_from_id() + "." if isinstance(thing, PoseBone) else ""
    if any(motion.moves(prefix + path) for path in (TRANSFORMS if prefix else TRANSFORMS + DELTAS)):
        yield f'{done} with {role.it} "{thing.name}" held where it stands: it is animated'
    yield from _constraint_notes(thing.constraints, f'{role.of} "{thing.name}"', done=done)


def _constraint_notes(constraints: Iterable[Constraint], of: str = "", *, done: str) -> Iterator[str]:
    names = ", ".join(f'"{con.name}"' for con in constraints if not con.mute and con.influence > 0.0)
    if names:
        yield f"{done} without {f'the constraints of {of}' if of else 'its constraints'}: {names}"
