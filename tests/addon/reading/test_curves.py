"""Curves read in one go give what Blender's own evaluation gives; that evaluation is the reference.

It solves the cubic in single precision: on key spacings under a frame, as some here are, it is itself off by 2e-5.
"""

import numpy as np
import pytest
from leapwright.addon import host
from leapwright.addon.reading.curves import _timing, read_keys, values_of

from tests.addon.scenery import empty

KINDS = ("CONSTANT", "LINEAR", "BEZIER", "BACK", "BOUNCE", "CIRC", "CUBIC", "ELASTIC", "EXPO", "QUAD", "SINE")
HANDLES = ("AUTO_CLAMPED", "AUTO", "VECTOR", "ALIGNED", "FREE")


def curve_of(*, kinds, handles, seed, count=40, wild=0.0):
    rng = np.random.default_rng(seed)
    thing = empty()
    for frame, height in zip(np.cumsum(rng.uniform(0.4, 9.0, count)), rng.normal(0.0, 2.0, count), strict=True):
        thing.location.z = height
        thing.keyframe_insert("location", index=2, frame=frame)
    (curve,) = host.curves_of(thing.animation_data)
    for point in curve.keyframe_points:
        point.interpolation = rng.choice(kinds)
        point.handle_left_type = point.handle_right_type = rng.choice(handles)
        if wild:
            point.handle_left = point.co[0] - rng.uniform(0, wild), point.co[1] + rng.normal()
            point.handle_right = point.co[0] + rng.uniform(0, wild), point.co[1] + rng.normal()
    curve.update()
    return curve


def assert_equal(curve, *, step=0.125, within=3e-5):
    first, last = curve.range()
    frames = np.arange(np.floor(first) - 5, last + 5, step)
    keys = read_keys(curve)
    # Within 1e-4 of a key the host takes either side; there the two differ by what moves in 1e-4 frames.
    if len(keys.frames):
        frames = frames[np.abs(frames[:, None] - keys.frames).min(axis=1) > 2e-4]
    (values,) = values_of([(curve, keys, frames)])
    np.testing.assert_allclose(values, [curve.evaluate(frame) for frame in frames], atol=within)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("seed", [1, 2])
def test_each_interpolation_is_the_hosts(scene, kind, seed):
    assert_equal(curve_of(kinds=[kind], handles=["AUTO_CLAMPED"], seed=seed))


@pytest.mark.parametrize("handle", HANDLES)
@pytest.mark.parametrize("seed", [3, 4])
def test_each_kind_of_handle_is_the_hosts(scene, handle, seed):
    assert_equal(curve_of(kinds=["BEZIER"], handles=[handle], seed=seed))


@pytest.mark.parametrize("seed", range(5, 11))
def test_wild_handles_and_mixed_keys_are_the_hosts(scene, seed):
    assert_equal(curve_of(kinds=KINDS, handles=["FREE"], seed=seed, wild=12.0), within=5e-5)


def test_a_line_beyond_the_keys_is_the_hosts(scene):
    curve = curve_of(kinds=["BEZIER"], handles=["AUTO"], seed=12)
    curve.extrapolation = "LINEAR"
    assert_equal(curve)


@pytest.mark.parametrize("modifier", ["STEPPED", "CYCLES", "NOISE", "LIMITS"])
def test_modifiers_are_the_hosts(scene, modifier):
    curve = curve_of(kinds=["BEZIER"], handles=["AUTO"], seed=13)
    curve.modifiers.new(modifier)
    assert_equal(curve)


def test_a_baked_curve_is_the_hosts(scene):
    curve = curve_of(kinds=["BEZIER"], handles=["AUTO"], seed=14)
    curve.convert_to_samples(1, 80)
    assert_equal(curve)


@pytest.mark.parametrize("count", [1, 2, 3])
def test_a_few_keys_are_the_hosts(scene, count):
    assert_equal(curve_of(kinds=["BEZIER"], handles=["AUTO"], seed=15, count=count), step=0.01)


def test_frames_on_and_beside_stepped_keys_are_the_hosts(scene):
    curve = curve_of(kinds=["CONSTANT"], handles=["AUTO"], seed=16)
    near = [0.0, -2e-3, 2e-3, -5e-6, 5e-6, *np.linspace(-0.3, 0.3, 9)]
    frames = np.sort(np.concatenate([read_keys(curve).frames + shift for shift in near]))
    (values,) = values_of([(curve, read_keys(curve), frames)])
    np.testing.assert_allclose(values, [curve.evaluate(frame) for frame in frames], atol=1e-6)


def test_frames_may_fall(scene):
    curve = curve_of(kinds=KINDS, handles=["AUTO"], seed=20)
    frames = np.arange(1.0, 120.0, 0.125)
    (rising,), (falling,) = (values_of([(curve, read_keys(curve), order)]) for order in (frames, frames[::-1]))
    np.testing.assert_array_equal(rising, falling[::-1])


def test_curves_read_together_are_as_read_alone(scene):
    asked = []
    for seed in (17, 18, 19):
        curve = curve_of(kinds=KINDS, handles=["AUTO"], seed=seed)
        asked.append((curve, read_keys(curve), np.arange(1.0, 90.0 + seed, 0.125)))
    for one, together in zip(asked, values_of(asked), strict=True):
        np.testing.assert_array_equal(values_of([one])[0], together)


def test_curves_keyed_together_are_each_their_own(scene):
    thing = empty()
    rng = np.random.default_rng(21)
    for frame in np.cumsum(rng.uniform(2.0, 9.0, 40)):
        thing.location = rng.normal(0.0, 2.0, 3)
        thing.keyframe_insert("location", frame=frame)
    curves = host.curves_of(thing.animation_data)
    frames = np.arange(-10.0, 240.0)
    for kind in ("BEZIER", "LINEAR", "CONSTANT", "SINE"):
        for curve in curves:
            curve.keyframe_points[7].interpolation = kind
            curve.update()
        asked = [(curve, read_keys(curve), frames) for curve in curves]
        expected = [[curve.evaluate(frame) for frame in frames] for curve in curves]
        np.testing.assert_allclose(values_of(asked), expected, atol=1e-5)


def test_a_curve_whose_values_are_dragged_is_read_anew_by_times_that_are_kept(scene):
    curve = curve_of(kinds=["BEZIER"], handles=["AUTO"], seed=22)
    frames = np.arange(-5.0, 240.0)
    values_of([(curve, read_keys(curve), frames)])
    known = _timing.cache_info()
    point = curve.keyframe_points[20]
    for place in (point.co, point.handle_left):
        place.y += 1.0
    (dragged,) = values_of([(curve, read_keys(curve), frames)])
    assert _timing.cache_info().hits == known.hits + 1
    np.testing.assert_allclose(dragged, [curve.evaluate(frame) for frame in frames], atol=3e-5)
    point.co.x += 0.5
    (later,) = values_of([(curve, read_keys(curve), frames)])
    assert _timing.cache_info().misses == known.misses + 1
    np.testing.assert_allclose(later, [curve.evaluate(frame) for frame in frames], atol=3e-5)


def test_a_curve_that_is_not_dragged_is_not_worked_out_again(scene):
    curve = curve_of(kinds=["BEZIER"], handles=["AUTO"], seed=23)
    frames = np.arange(-5.0, 240.0)
    frames.flags.writeable = False
    (first,) = values_of([(curve, read_keys(curve), frames)])
    (again,) = values_of([(curve, read_keys(curve), frames)])
    assert again is first
    curve.extrapolation = "LINEAR"  # which keys alone do not tell
    (later,) = values_of([(curve, read_keys(curve), frames)])
    np.testing.assert_allclose(later, [curve.evaluate(frame) for frame in frames], atol=3e-5)
    assert later is not first and again is not values_of([(curve, read_keys(curve), frames[:220])])[0]


def test_what_only_the_host_can_tell_is_asked_again(scene):
    curve = curve_of(kinds=["BACK"], handles=["AUTO"], seed=24)
    frames = np.arange(-5.0, 240.0)
    frames.flags.writeable = False
    (first,) = values_of([(curve, read_keys(curve), frames)])
    for point in curve.keyframe_points:
        point.back += 2.0  # which is none of the keys' places
    (later,) = values_of([(curve, read_keys(curve), frames)])
    assert np.abs(later - first).max() > 0.1
    np.testing.assert_allclose(later, [curve.evaluate(frame) for frame in frames], atol=3e-5)


def test_times_of_few_curves_are_kept():
    """Eight: a target has three axes, its deltas as many; each is as long as the shot."""
    assert _timing.cache_info().maxsize == 8
