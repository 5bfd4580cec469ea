"""What each bone carries of the meshes bound to it, as a mass: for creatures that no table knows.

Meshes as they are in Object Mode, undeformed; masses in kg at the density of water, which most bodies are near.
"""

from collections.abc import Iterator

import bmesh
import numpy as np
from bmesh.types import BMesh
from bpy.types import ArmatureModifier, Bone, Mesh, Object
from mathutils import Matrix, Vector

from ...analysis.arrays import Array
from ...analysis.errors import SourceError
from ...analysis.mass.body import BodyPart
from ...analysis.mass.segments import OWN_MASS
from ...analysis.mass.volume import volumes
from ..rigs import Rig

DENSITY = 1000.0
"""kg/m³: water's, a body's to within a tenth (ours). A uniform density leaves the center of mass where it is."""
WELD = 1e-6
"""Distance within which vertices are one, as a share of the mesh's size: parts that only touch close each other."""


def bound_parts(rig: Rig, unit: float) -> list[BodyPart]:
    """Weigh every bone that a visible mesh is bound to, by an Armature modifier or by its parent bone.

    unit: meters per Blender unit. Raises SourceError when no mesh is bound, or has no volume, and for one that a
    modifier mirrors, whose other half is not there to be weighed.
    """
    bones = [bone.name for bone in rig.data.bones]
    place = np.array(rig.matrix_world, np.float64)[:3, :3] * unit
    rest = np.array([_points(bone) for bone in rig.data.bones], np.float64) @ place.T
    masses, moments = np.zeros(len(bones)), np.zeros((len(bones), 3))
    bound = list(_bound(rig))
    if not bound:
        raise SourceError(f'no mesh is bound to "{rig.name}": type the masses of its bones, or map them by name')
    for thing, mesh, at in bound:
        mirror = next((item.name for item in thing.modifiers if item.type == "MIRROR"), None)
        if mirror is not None:
            raise SourceError(f'"{thing.name}" is mirrored by a modifier: apply "{mirror}" first, or type the masses')
        vertices, triangles, weights = _surface(thing, mesh, bones)
        local = vertices @ np.array(at, np.float64)[:3, :3].T + np.array(at, np.float64)[:3, 3]
        sizes, centers = volumes(local @ place.T, triangles, weights, rest)
        masses += sizes
        moments += sizes[:, None] * centers
    if not masses.any():
        raise SourceError(f'the meshes bound to "{rig.name}" enclose no volume: type the masses of its bones')
    return [
        BodyPart(bone, OWN_MASS, DENSITY * mass, moment[0] / mass, (moment[1] / mass, moment[2] / mass))
        for bone, mass, moment in zip(bones, masses.tolist(), moments.tolist(), strict=True)
        if mass > 0.0
    ]


def _points(bone: Bone) -> list[Vector]:
    """Return head, tail, and the ends of the x and z axes laid off from the head, as long as the bone."""
    ends = ((0.0, 0.0, 0.0), (0.0, bone.length, 0.0), (bone.length, 0.0, 0.0), (0.0, 0.0, bone.length))
    return [bone.matrix_local @ Vector(end) for end in ends]


def _bound(rig: Rig) -> Iterator[tuple[Object, Mesh, Matrix]]:
    """Yield each bound object with its mesh and the matrix from it to the armature at rest."""
    for scene in rig.users_scene:
        for thing in scene.objects:
            if not isinstance(thing.data, Mesh) or thing.hide_render:
                continue
            if thing.parent == rig and thing.parent_type == "BONE" and thing.parent_bone in rig.data.bones:
                bone = rig.data.bones[thing.parent_bone]
                end = Matrix.Translation((0.0, bone.length, 0.0))
                yield thing, thing.data, bone.matrix_local @ end @ thing.matrix_parent_inverse @ thing.matrix_basis
            elif any(isinstance(item, ArmatureModifier) and item.object == rig for item in thing.modifiers):
                yield thing, thing.data, rig.matrix_world.inverted_safe() @ thing.matrix_world
        return  # an object in several scenes is weighed once


def _surface(thing: Object, mesh: Mesh, bones: list[str]) -> tuple[Array, Array, Array]:
    """Return vertices (v, 3), triangles (t, 3) and weights (v, m), from a copy that is welded and turned outward."""
    shell = bmesh.new()
    try:
        shell.from_mesh(mesh)
        bmesh.ops.remove_doubles(shell, verts=shell.verts[:], dist=WELD * max(thing.dimensions))
        bmesh.ops.recalc_face_normals(shell, faces=shell.faces[:])
        bmesh.ops.triangulate(shell, faces=shell.faces[:])
        shell.verts.index_update()
        vertices = np.array([vertex.co for vertex in shell.verts], np.float64).reshape(-1, 3)
        triangles = np.array([[vertex.index for vertex in face.verts] for face in shell.faces], np.intp)
        return vertices, triangles.reshape(-1, 3), _weights(thing, shell, bones)
    finally:
        shell.free()


def _weights(thing: Object, shell: BMesh, bones: list[str]) -> Array:
    """Return (v, m) weights that sum to 1 a vertex, or 0 where no bone of the rig moves it."""
    weights = np.zeros((len(shell.verts), len(bones)))
    rows = {name: row for row, name in enumerate(bones)}
    if thing.parent_type == "BONE" and thing.parent_bone in rows:
        weights[:, rows[thing.parent_bone]] = 1.0
        return weights
    row_of_group = {group.index: rows[group.name] for group in thing.vertex_groups if group.name in rows}
    layer = shell.verts.layers.deform.verify()
    for vertex in shell.verts:
        for group, weight in vertex[layer].items():
            if group in row_of_group:
                weights[vertex.index, row_of_group[group]] += weight
    sums = weights.sum(axis=1, keepdims=True)
    return np.divide(weights, sums, out=np.zeros_like(weights), where=sums > 0.0)
