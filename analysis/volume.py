"""The volume of a mesh by the bones it is bound to: masses for creatures that no table knows.

Lengths in metres, volumes in m³. Of each bone's share of the surface the flow of a field across the bone is added
up: r⊥ / 2, whose divergence is 1 (divergence theorem), and which passes along the cut where the next bone's share
begins. So a limb cut across its bone needs no lid: its volume is exact.
"""

import numpy as np
from numpy.typing import ArrayLike


def volumes(
    vertices: ArrayLike, triangles: ArrayLike, weights: ArrayLike, rest: ArrayLike
) -> tuple[np.ndarray, np.ndarray]:
    """Return (m,) volumes and (m,) centres along the bones, 0 at the head and 1 at the tail.

    vertices (v, 3) and rest (m, 2, 3), heads and tails, in one frame of reference; triangles (t, 3) indices, turned
    outward or all inward; weights (v, m), each row summing to 1 or, where no bone moves the vertex, 0. A bone
    without volume has 0 and its middle; centres are kept within the bone.

    >>> block = [[x, y, z] for x in (0, 1) for y in (0, 1) for z in (0, 1)]
    >>> sides = [[0, 1, 3, 2], [4, 6, 7, 5], [0, 4, 5, 1], [2, 3, 7, 6], [0, 2, 6, 4], [1, 5, 7, 3]]
    >>> halves = [[a, c, d] for a, b, c, d in sides] + [[a, b, c] for a, b, c, d in sides]
    >>> volumes(block, halves, np.ones((8, 1)), [[[0, 0, 0], [0, 0, 1]]])
    (array([1.]), array([0.5]))
    """
    corners = np.asarray(vertices, np.float64)[np.asarray(triangles, np.intp)]
    by_corner = np.asarray(weights, np.float64)[np.asarray(triangles, np.intp)]
    rest = np.asarray(rest, np.float64)
    heads, axes = rest[:, 0], rest[:, 1] - rest[:, 0]
    lengths = np.linalg.norm(axes, axis=1)
    axes = axes / np.where(lengths > 0.0, lengths, 1.0)[:, None]
    normals = 0.5 * np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    # The middles of the sides, a third of the area each: exact for what is quadratic across a triangle.
    middles = 0.5 * (corners + np.roll(corners, -1, axis=1))
    shares = 0.5 * (by_corner + np.roll(by_corner, -1, axis=1))
    sizes, centres = np.zeros(len(rest)), np.full(len(rest), 0.5)
    for row, (head, axis, length) in enumerate(zip(heads, axes, lengths, strict=True)):
        touched = shares[:, :, row].any(axis=1)
        away = middles[touched] - head
        along = away @ axis
        across = 0.5 * (away - along[..., None] * axis)
        flow = np.einsum("tsx,tx->ts", across, normals[touched]) * shares[touched, :, row] / 3.0
        sizes[row] = flow.sum()
        if sizes[row] and length > 0.0:
            centres[row] = np.clip((flow * along).sum() / sizes[row] / length, 0.0, 1.0)
    sizes = sizes if sizes.sum() >= 0.0 else -sizes
    return np.maximum(sizes, 0.0), np.where(sizes > 0.0, centres, 0.5)
