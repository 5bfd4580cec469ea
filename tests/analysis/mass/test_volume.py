"""Volumes by bone against solids whose volume and center geometry gives in closed form."""

import numpy as np
import pytest
from leapwright.analysis.mass.volume import volumes

UP = [[[0, 0, 0], [0, 0, 2.0], [2.0, 0, 0], [0, 2.0, 0]]]


def bone(head, tail):
    """Return a bone with its side axes, square to it and as long."""
    head, along = np.array(head, float), np.subtract(tail, head).astype(float)
    x = np.cross(along, np.roll(along, 1))
    x *= np.linalg.norm(along) / np.linalg.norm(x)
    return [head, head + along, head + x, head + np.cross(along, x) / np.linalg.norm(along)]


def frustum(sides: int, *, bottom: float, top: float, height: float, rings: int = 2):
    """Return a closed tube around z of regular polygons: (vertices, triangles); the lids meet at their middles."""
    angles = 2 * np.pi * np.arange(sides) / sides
    levels = np.linspace(0.0, 1.0, rings)
    radii = bottom + (top - bottom) * levels
    points = [[r * np.cos(a), r * np.sin(a), height * u] for r, u in zip(radii, levels, strict=True) for a in angles]
    points += [[0, 0, 0], [0, 0, height]]
    faces = []
    for ring in range(rings - 1):
        for n in range(sides):
            a, b = ring * sides + n, ring * sides + (n + 1) % sides
            faces += [[a, b, b + sides], [a, b + sides, a + sides]]
    low, high, last = rings * sides, rings * sides + 1, (rings - 1) * sides
    for n in range(sides):
        faces += [[low, (n + 1) % sides, n], [high, last + n, last + (n + 1) % sides]]
    return np.array(points), np.array(faces)


def polygon(sides: int, radius: float = 1.0) -> float:
    """Return the area of a regular polygon in a circle."""
    return 0.5 * sides * radius**2 * np.sin(2 * np.pi / sides)


def test_a_prism_has_the_volume_of_its_base_and_height_and_its_center_half_way() -> None:
    vertices, faces = frustum(7, bottom=1.0, top=1.0, height=2.0)
    size, center = volumes(vertices, faces, np.ones((len(vertices), 1)), UP)
    assert size == pytest.approx([2 * polygon(7)]) and center == pytest.approx(np.array([[0.5, 0, 0]]))


def test_a_cone_balances_a_quarter_up() -> None:
    vertices, faces = frustum(12, bottom=1.0, top=0.0, height=2.0)
    size, center = volumes(vertices, faces, np.ones((len(vertices), 1)), UP)
    assert size == pytest.approx([2 * polygon(12) / 3]) and center == pytest.approx(np.array([[0.25, 0, 0]]))


def test_a_frustum_has_its_textbook_volume_and_center() -> None:
    # V = h A (1 + k + k²) / 3 and z = h (1 + 2 k + 3 k²) / 4 (1 + k + k²), k the ratio of the radii.
    vertices, faces = frustum(9, bottom=1.0, top=0.4, height=2.0)
    size, center = volumes(vertices, faces, np.ones((len(vertices), 1)), UP)
    assert size == pytest.approx([2 * polygon(9) * 1.56 / 3])
    assert center == pytest.approx(np.array([[(1 + 0.8 + 0.48) / (4 * 1.56), 0, 0]]))


def test_a_limb_cut_across_its_bones_needs_no_lid() -> None:
    """A tube of five rings, the lower half bound to one bone and the upper to another, blended at the middle ring."""
    vertices, faces = frustum(8, bottom=1.0, top=1.0, height=4.0, rings=5)
    upper = np.clip((vertices[:, 2] - 1.0) / 2.0, 0.0, 1.0)
    bones = [bone((0, 0, 0), (0, 0, 2)), bone((0, 0, 2), (0, 0, 4))]
    size, _ = volumes(vertices, faces, np.stack([1 - upper, upper], axis=1), bones)
    assert size == pytest.approx([2 * polygon(8)] * 2)


def test_separate_solids_are_told_apart_wherever_their_bones_lie() -> None:
    body, faces = frustum(6, bottom=1.0, top=1.0, height=1.0)
    horn = 0.1 * body + [5, 5, 5]
    weights = np.repeat(np.eye(2), len(body), axis=0)
    bones = [bone((3, 0, 0), (3, 1, 0)), bone((0, 9, 9), (1, 9, 9))]
    size, center = volumes(np.concatenate([body, horn]), np.concatenate([faces, faces + len(body)]), weights, bones)
    assert size == pytest.approx([polygon(6), 0.001 * polygon(6)])
    for (head, *ends), at, middle in zip(bones, center, [(0, 0, 0.5), (5, 5, 5.05)], strict=True):
        assert head + at @ (np.array(ends) - head) == pytest.approx(middle)


def test_a_mesh_turned_inside_out_has_the_same_volume() -> None:
    vertices, faces = frustum(6, bottom=1.0, top=0.5, height=1.0)
    weights = np.ones((len(vertices), 1))
    outward, inward = volumes(vertices, faces, weights, UP), volumes(vertices, faces[:, ::-1], weights, UP)
    assert inward[0] == pytest.approx(outward[0]) and inward[1] == pytest.approx(outward[1])


def test_a_block_beside_its_bone_balances_in_its_own_middle() -> None:
    vertices, faces = frustum(8, bottom=0.5, top=0.5, height=1.0)
    at = bone((0, 0, 0), (1, 2, 3))
    size, center = volumes(np.add(vertices, [4, -1, 2]), faces, np.ones((len(vertices), 1)), [at])
    assert size == pytest.approx([polygon(8, 0.5)])
    assert at[0] + center[0] @ (np.array(at[1:]) - at[0]) == pytest.approx([4.0, -1.0, 2.5])


def test_a_bone_that_nothing_is_bound_to_has_no_volume() -> None:
    vertices, faces = frustum(6, bottom=1.0, top=1.0, height=1.0)
    weights = np.repeat([[1.0, 0.0]], len(vertices), axis=0)
    size, center = volumes(vertices, faces, weights, UP * 2)
    assert size[1] == 0.0 and center[1].tolist() == [0.5, 0.0, 0.0]


def test_a_skin_that_fades_from_one_bone_to_the_next_shares_its_volume_evenly() -> None:
    # A share that falls evenly from 1 to 0 over the height h of a prism holds half of it, and balances at h / 3; the
    # other half at 2 h / 3.
    vertices, faces = frustum(7, bottom=1.0, top=1.0, height=2.0)
    upper = vertices[:, 2] / 2.0
    size, center = volumes(vertices, faces, np.column_stack((1.0 - upper, upper)), UP * 2)
    assert size == pytest.approx([polygon(7), polygon(7)])
    assert center == pytest.approx(np.array([[1 / 3, 0, 0], [2 / 3, 0, 0]]), abs=1e-9)


def test_a_skin_that_fades_along_a_limb_that_tapers_shares_it_by_its_sections() -> None:
    # Sections shrink as (1 - 0.6 u)²: of h A the share 1 - u holds ∫ (1 - u)(1 - 0.6 u)² du = 0.33, u the rest of 0.52.
    vertices, faces = frustum(9, bottom=1.0, top=0.4, height=2.0)
    upper = vertices[:, 2] / 2.0
    size, _ = volumes(vertices, faces, np.column_stack((1.0 - upper, upper)), UP * 2)
    assert size == pytest.approx([2 * polygon(9) * 0.33, 2 * polygon(9) * 0.19])
