"""Objects: what is read from the F-curves is what Blender shows.

The outside reference is the host: `frame_set` and the evaluated matrix, frame by frame.
"""

import pytest
from leapwright.addon.sources import SCENE_SOURCES
from leapwright.analysis.errors import SourceError

from tests.addon.scenery import assert_same, empty, key, turn


def test_keyed_object_is_read_as_shown(scene):
    track = assert_same(key(empty()))
    assert track.frames[0] == 1 and track.frames[-1] == 30
    assert track.key_frames.tolist() == [1, 7.5, 12, 20, 30]
    assert track.interpolation == "bezier"


def test_object_under_fixed_turned_and_scaled_parents_is_read_as_shown(scene):
    parent = turn(empty("Barge", parent=turn(empty("Quay"))))
    thing = key(empty(parent=parent))
    thing.matrix_parent_inverse = parent.matrix_basis.inverted()
    thing.delta_location = (0.2, 0.1, -0.4)
    assert_same(thing)


def test_keyed_delta_location_is_read_as_shown(scene):
    assert_same(key(turn(empty()), path="delta_location"))


def test_a_thing_without_keys_is_refused(scene):
    with pytest.raises(SourceError, match='"Crate" has no location keys'):
        SCENE_SOURCES["object"].sample(scene, empty())


def test_only_an_object_that_moves_is_offered(scene):
    still = key(empty("Bollard"), [(1, (0, 0, 1)), (20, (0, 0, 1))])
    assert SCENE_SOURCES["object"].poll(key(empty()))
    assert SCENE_SOURCES["object"].poll(key(empty("Lid"), path="delta_location"))
    assert not SCENE_SOURCES["object"].poll(still)
    assert not SCENE_SOURCES["object"].poll(empty("Rope"))
