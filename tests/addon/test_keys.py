"""Keys move as the time map says; no key is lost or joined with another, and nothing else changes."""

import bpy
import numpy as np
import pytest
from leapwright.addon import host, keys
from leapwright.analysis.errors import RetimeError
from leapwright.analysis.time_map import SAME_KEY_FRAMES, TimeMap

from tests.addon.key_state import CHOSEN, FLAGS, curve_state, fill, key_state, property_curves

BETWEEN = TimeMap((10, 16, 24, 30), (10, 20, 26, 32))


def moved(curves, time_map, *, ahead=0.0):
    """Move the keys of curves; return the table before."""
    table = keys.table_of(curves, ahead=[ahead] * len(curves))
    keys.write_changed(table, keys.moved(table, keys.new_frames(table, time_map), time_map))
    return table


def points_of(curve):
    return np.frombuffer(key_state(curve)["co"], np.float32).reshape(-1, 2).astype(float)


def drawn(frames, *, kind="FREE", interpolation="BEZIER"):
    """Return one curve with keys at these frames, handles a third of the way and of mixed heights."""
    _, (curve,) = property_curves(1)
    fill(curve, np.asarray(frames, float), np.random.default_rng(len(frames)))
    for point in curve.keyframe_points:
        point.interpolation, point.handle_left_type, point.handle_right_type = interpolation, kind, kind
    curve.extrapolation = "CONSTANT"
    curve.update()
    return curve


@pytest.fixture(scope="module")
def five_hundred():
    """Return seeded curves with keys on and off whole frames, close and far apart, and one map for each twenty of them.
    """
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    rng = np.random.default_rng(5)
    _, curves = property_curves(500)
    results = []
    for start in range(0, 500, 20):
        some = curves[start : start + 20]
        count = int(rng.integers(2, 6))
        old = np.cumsum(rng.integers(2, 20, count)).astype(float)
        new = np.concatenate((old[:1], old[0] + np.cumsum(rng.integers(1, 24, count - 1))))
        time_map = TimeMap(tuple(old), tuple(new), step=int(rng.choice([1, 1, 2])))
        for curve in some:
            most = int(rng.integers(1, 50))
            spread = rng.choice([1.0, 0.25]) * rng.choice(np.arange(-20, 400), most, replace=False)
            fill(curve, np.sort(spread), rng)
        states = [curve_state(curve) for curve in some]
        table = moved(some, time_map)
        results += [
            (before, curve_state(curve), time_map, table.values[:, slice(*table.starts[n : n + 2])])
            for n, (before, curve) in enumerate(zip(states, some, strict=True))
        ]
    return results


def test_no_key_is_lost_and_no_two_lie_on_one_frame(five_hundred):
    assert len(five_hundred) == 500
    for before, after, _, _ in five_hundred:
        old, new = (np.frombuffer(state["co"], np.float32).reshape(-1, 2) for state in (before, after))
        assert len(old) == len(new) > 0
        assert (np.diff(new[:, 0]) >= SAME_KEY_FRAMES * 0.99).all()
        np.testing.assert_array_equal(old[:, 1], new[:, 1])


def test_everything_but_frames_and_handles_stays(five_hundred):
    for before, after, _, _ in five_hundred:
        loose = {"co", "handle_left", "handle_right"}
        assert {k: v for k, v in before.items() if k not in loose} == {k: v for k, v in after.items() if k not in loose}


def test_keys_go_where_the_map_says_within_a_step(five_hundred):
    for before, after, time_map, _ in five_hundred:
        old, new = (np.frombuffer(s["co"], np.float32).reshape(-1, 2)[:, 0].astype(float) for s in (before, after))
        outside = time_map.spans(old) < 0
        np.testing.assert_allclose(new[outside], time_map.at(old[outside]), atol=1e-4)
        # Where poses crowd the whole frames, neighbors may push a pose to a later frame, but never past an anchor.
        for a, b in zip(time_map.old, time_map.new, strict=True):
            assert ((new > b + 1e-4) <= (old > a)).all() and ((new < b - 1e-4) <= (old < a)).all()


def test_free_handles_are_scaled_with_their_side_and_keep_their_height(five_hundred):
    checked = 0
    for _, after, _, values in five_hundred:
        # Blender itself turns a free handle beside an aligned one.
        types = [np.frombuffer(after[f"handle_{side}_type"], np.int32) for side in ("left", "right")]
        free = (types[0] == 0) & (types[1] == 0)
        new = np.frombuffer(after["co"], np.float32).reshape(-1, 2).astype(float)
        left = np.frombuffer(after["handle_left"], np.float32).reshape(-1, 2).astype(float)
        old = values.astype(float)
        gaps = np.diff(new[:, 0]) / np.diff(old[0, :, 0])
        expected = (old[1, 1:, 0] - old[0, 1:, 0]) * gaps
        inner = free[1:]
        np.testing.assert_allclose((left - new)[1:, 0][inner], expected[inner], atol=2e-3)
        np.testing.assert_array_equal(left[1:, 1][inner], values[1, 1:, 1][inner])
        checked += int(inner.sum())
    assert checked > 300


def test_a_curve_keeps_its_shape_between_its_keys():
    curve = drawn([4, 10, 13, 16, 24, 27, 30, 40])
    old = points_of(curve)[:, 0]
    before = [[curve.evaluate(a + share * (b - a)) for share in (0.2, 0.5, 0.9)]
              for a, b in zip(old, old[1:], strict=False)]  # fmt: skip
    moved([curve], BETWEEN)
    new = points_of(curve)[:, 0]
    after = [[curve.evaluate(a + share * (b - a)) for share in (0.2, 0.5, 0.9)]
             for a, b in zip(new, new[1:], strict=False)]  # fmt: skip
    assert new.tolist() == [4, 10, 15, 20, 26, 29, 32, 42]
    np.testing.assert_allclose(after, before, atol=1e-3)


def test_stepped_keys_stay_stepped_and_go_to_whole_frames():
    curve = drawn([10, 11, 12, 13, 14, 15, 16], interpolation="CONSTANT")
    moved([curve], TimeMap((10, 16), (10, 20)))
    assert {point.interpolation for point in curve.keyframe_points} == {"CONSTANT"}
    new = points_of(curve)[:, 0]
    assert (new == np.rint(new)).all() and new[0] == 10 and new[-1] == 20


def test_a_key_a_frame_keeps_its_proportions_instead_of_jittering():
    curve = drawn(np.arange(10.0, 17.0))
    moved([curve], TimeMap((10, 16), (10, 20)))
    np.testing.assert_allclose(points_of(curve)[:, 0], np.linspace(10, 20, 7), atol=1e-5)


def test_keys_of_one_pose_stay_together_whatever_else_their_curves_hold():
    _, curves = property_curves(3)
    rng = np.random.default_rng(1)
    for curve, frames in zip(curves, ([10, 13, 16], [10, 12, 13, 16], [11, 13, 15]), strict=True):
        fill(curve, np.array(frames, float), rng)
        for point in curve.keyframe_points:
            point.interpolation = "LINEAR"
    moved(curves, TimeMap((10, 16), (10, 14)))
    assert [points_of(curve)[:, 0].tolist() for curve in curves] == [
        [10, 12, 14],
        [10, 11, 12, 14],
        pytest.approx([10 + 2 / 3, 12, 13 + 1 / 3]),  # a run of keys moves in proportion
    ]


def test_the_identity_writes_nothing():
    _, curves = property_curves(40)
    rng = np.random.default_rng(2)
    for curve in curves:
        fill(curve, np.sort(rng.uniform(0, 90, 20)), rng)
    before = [curve_state(curve) for curve in curves]
    same = TimeMap((12, 31.5, 60), (12, 31.5, 60))
    table = keys.table_of(curves, ahead=[0.0] * 40)
    assert keys.write_changed(table, keys.moved(table, keys.new_frames(table, same), same)) == 0
    assert [curve_state(curve) for curve in curves] == before


def test_an_action_that_runs_ahead_of_the_timeline_is_moved_in_its_own_frames():
    curve = drawn([110, 116, 124, 130, 140])
    moved([curve], BETWEEN, ahead=100.0)
    assert points_of(curve)[:, 0].tolist() == [110, 120, 126, 132, 142]


def test_keys_that_would_become_one_are_refused_and_nothing_is_written():
    curve = drawn([10, 12.0, 12.012, 16])
    before = key_state(curve)
    with pytest.raises(RetimeError, match=r'keys of \["p0"\]\[0\] near frame 12.012 would become one'):
        moved([curve], TimeMap((10, 16), (10, 11)))
    assert key_state(curve) == before


def test_markers_move_to_whole_frames():
    scene = bpy.context.scene
    for name, frame in (("crouch", 10), ("takeoff", 16), ("look", 19), ("after", 40), ("before", 3)):
        scene.timeline_markers.new(name, frame=frame)
    keys.move_markers(scene.timeline_markers, BETWEEN)
    found = {marker.name: marker.frame for marker in scene.timeline_markers}
    assert found == {"crouch": 10, "takeoff": 20, "look": 22, "after": 42, "before": 3}


def test_the_tables_flags_are_those_of_blender():
    points = host.curves_of(property_curves(1)[0].animation_data)[0].keyframe_points
    assert {*FLAGS, *CHOSEN} <= {p.identifier for p in points[0].bl_rna.properties}
    assert points[0].bl_rna.properties["interpolation"].enum_items["CONSTANT"].value == keys.CONSTANT
