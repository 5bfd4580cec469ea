"""Low-poly bodies: prisms, boxes and rings gathered into one mesh, each face with its color and bone."""

import math
from dataclasses import dataclass, field

import bmesh
import bpy

from .palette import COLORS

Point = tuple[float, float, float]


@dataclass(slots=True)
class Shape:
    """Vertices, faces with a color each, and the bone every vertex belongs to."""

    vertices: list[Point] = field(default_factory=list)
    faces: list[tuple[int, ...]] = field(default_factory=list)
    colors: list[str] = field(default_factory=list)
    bones: list[str] = field(default_factory=list)

    def box(self, center: Point, size: Point, color: str, bone: str = "", taper: float = 1.0) -> None:
        """Add a box; its top is `taper` times as wide as its bottom."""
        x, y, z = (s / 2 for s in size)
        corners = [(-1, -1), (1, -1), (1, 1), (-1, 1)]
        ring = [(center[0] + a * x, center[1] + b * y, center[2] - z) for a, b in corners]
        top = [(center[0] + a * x * taper, center[1] + b * y * taper, center[2] + z) for a, b in corners]
        self._loft([ring, top], color, bone)

    def limb(
        self, a: Point, b: Point, radii: tuple[float, float], color: str, bone: str = "", sides: int = 6,
        flat: float = 1.0,
    ) -> None:  # fmt: skip
        """Add a tapered prism from a to b; `flat` squeezes it across y."""
        self.rings([(a, radii[0]), (b, radii[1])], [color], bone, sides=sides, flat=flat)

    def rings(
        self, rings: list[tuple[Point, float]], colors: list[str], bone: str = "", sides: int = 8,
        flat: float = 1.0,
    ) -> None:  # fmt: skip
        """Add a body through rings of a center and a radius each, one color between two rings."""
        first, last = rings[0][0], rings[-1][0]
        along = _unit(tuple(q - p for p, q in zip(first, last, strict=True)))
        side = (0.0, 1.0, 0.0) if abs(along[1]) < 0.9 else (1.0, 0.0, 0.0)
        up = _unit(_cross(side, along))
        across = _cross(along, up)
        loops = []
        for center, radius in rings:
            turn = [2 * math.pi * (i + 0.5) / sides for i in range(sides)]
            loops.append([
                tuple(c + radius * (math.cos(t) * u + flat * math.sin(t) * v)
                      for c, u, v in zip(center, up, across, strict=True))
                for t in turn
            ])  # fmt: skip
        for i, color in enumerate(colors):
            ends = (i == 0, i == len(colors) - 1)
            self._loft(loops[i : i + 2], color, bone, caps=ends)

    def _loft(self, loops: list[list[Point]], color: str, bone: str, caps=(True, True)) -> None:
        start, n = len(self.vertices), len(loops[0])
        for loop in loops:
            self.vertices += loop
            self.bones += [bone] * n
        sides = [(i, (i + 1) % n, n + (i + 1) % n, n + i) for i in range(n)]
        lids = [tuple(reversed(range(n)))] * caps[0] + [tuple(range(n, 2 * n))] * caps[1]
        for face in sides + lids:
            self.faces.append(tuple(start + i for i in face))
            self.colors.append(color)

    def build(self, name: str) -> bpy.types.Object:
        """Make the mesh object, link it to the scene and return it."""
        mesh = bpy.data.meshes.new(name)
        mesh.from_pydata(self.vertices, [], self.faces)
        shell = bmesh.new()
        shell.from_mesh(mesh)
        bmesh.ops.recalc_face_normals(shell, faces=shell.faces)
        shell.to_mesh(mesh)
        shell.free()
        used = sorted(set(self.colors))
        for color in used:
            mesh.materials.append(material(color))
        for polygon, color in zip(mesh.polygons, self.colors, strict=True):
            polygon.material_index = used.index(color)
        body = bpy.data.objects.new(name, mesh)
        bpy.context.scene.collection.objects.link(body)
        for bone in sorted(set(self.bones) - {""}):
            group = body.vertex_groups.new(name=bone)
            group.add([i for i, b in enumerate(self.bones) if b == bone], 1.0, "REPLACE")
        return body


def material(color: str) -> bpy.types.Material:
    """Return the flat material of a palette color, the same in render and in the viewport's solid mode."""
    found = bpy.data.materials.get(color)
    if found is not None:
        return found
    made = bpy.data.materials.new(color)
    if made.node_tree is None:  # before Blender 5.0
        made.use_nodes = True
    rgba = (*linear(COLORS[color]), 1.0)
    made.diffuse_color = rgba
    surface = next(node for node in made.node_tree.nodes if node.type == "BSDF_PRINCIPLED")
    surface.inputs["Base Color"].default_value = rgba
    surface.inputs["Roughness"].default_value = 0.35 if color.startswith("water") else 0.85
    return made


def linear(hexa: str) -> Point:
    """Turn #rrggbb into linear light (IEC 61966-2-1, sRGB)."""
    parts = (int(hexa[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return tuple(c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)


def _unit(v: Point) -> Point:
    length = math.hypot(*v)
    return tuple(c / length for c in v)


def _cross(a: Point, b: Point) -> Point:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
