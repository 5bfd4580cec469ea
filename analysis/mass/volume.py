"""The volume of a mesh by the bones it is bound to: masses for creatures that no table knows.

Lengths in meters, volumes in m³. Of each bone's share of the surface the flow of a field across the bone is added
up: r⊥ / 2, whose divergence is 1 (divergence theorem), and which passes along the cut where the next bone's share
begins. So a limb cut across its bone needs no lid: its volume is exact.
"""

import numpy as np
from numpy.typing import ArrayLike

from ..arrays import Array

FARTHEST_CENTER = 10.0
"""Lengths of the bone past which a center is a fault of the mesh: one that does not close (ours)."""


def volumes(
    vertices: ArrayLike, triangles: ArrayLike, weights: ArrayLike, rest: ArrayLike
) -> tuple[Array, Array]:
    """Return (m,) volumes and (m, 3) centers: along each bone from its head, and aside along its x and z axes.

    Centers are in lengths of the bone. vertices (v, 3) and rest (m, 4, 3), head, tail and the ends of the x and z
    axes laid off from the head, as long as the bone, are in one frame of reference; triangles (t, 3) are indices,
    turned outward or all inward; weights (v, m), each row summing to 1 or, where no bone moves the vertex, 0. A
    bone without volume has 0 and its middle.

    >>> block = [[x, y, z] for x in (0, 1) for y in (0, 1) for z in (0, 1)]
    >>> sides = [[0, 1, 3, 2], [4, 6, 7, 5], [0, 4, 5, 1], [2, 3, 7, 6], [0, 2, 6, 4], [1, 5, 7, 3]]
    >>> halves = [[a, c, d] for a, b, c, d in sides] + [[a, b, c] for a, b, c, d in sides]
    >>> volumes(block, halves, np.ones((8, 1)), [[[0, 0, 0], [0, 0, 1], [1, 0, 0], [0, 1, 0]]])
    (array([1.]), array([[0.5, 0.5, 0.5]]))
    """
    corners = np.asarray(vertices, np.float64)[np.asarray(triangles, np.intp)]
    by_corner = np.asarray(weights, np.float64)[np.asarray(triangles, np.intp)]
    normals = 0.5 * np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    # The middles of the sides, a third of the area each: exact for what is quadratic across a triangle.
    middles = 0.5 * (corners + np.roll(corners, -1, axis=1))
    shares = 0.5 * (by_corner + np.roll(by_corner, -1, axis=1)) / 3.0
    rest = np.asarray(rest, np.float64)
    sizes, centers = np.zeros(len(rest)), np.zeros((len(rest), 3))
    centers[:, 0] = 0.5
    for row, (head, *ends) in enumerate(rest):
        axes = np.array(ends) - head
        length = float(np.linalg.norm(axes[0]))
        touched = shares[:, :, row].any(axis=1)
        if not touched.any() or length == 0.0:
            continue
        local = (middles[touched] - head) @ axes.T / length
        facing = normals[touched] @ axes.T / length
        across = np.einsum("tsa,ta->ts", local[:, :, 1:], facing[:, 1:]) * shares[touched, :, row]
        sizes[row] = 0.5 * across.sum()
        # Fields whose divergence is the coordinate itself: s r⊥ / 2 along the bone, x r⊥ / 3 across it.
        moments = np.einsum("ts,tsa->a", across, local) * np.array([1 / 2, 1 / 3, 1 / 3])
        if sizes[row]:
            centers[row] = np.clip(moments / sizes[row] / length, -FARTHEST_CENTER, FARTHEST_CENTER)
    sizes = sizes if sizes.sum() >= 0.0 else -sizes
    centers[sizes <= 0.0] = 0.5, 0.0, 0.0
    return np.maximum(sizes, 0.0), centers
