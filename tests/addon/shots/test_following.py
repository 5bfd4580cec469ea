"""A show's choice of tracks replaces what a scene offers; a note names what is not there."""

import bpy
from leapwright.addon.shots.candidates import find_candidates
from leapwright.addon.shots.following import followed

from tests.addon.day import keyed
from tests.addon.skeletons import rig


def scene():
    """Add Brindle with a keyed root and hips, and a crate."""
    goat = rig()
    for name in ("root", "hips"):
        for frame, height in ((1, 0.0), (9, 0.5), (17, 0.0)):
            goat.pose.bones[name].location.y = height
            goat.pose.bones[name].keyframe_insert("location", frame=frame)
    keyed("Crate")
    return bpy.context.scene


def names(follow):
    of_scene = scene()
    found, notes = followed(of_scene, find_candidates(of_scene), follow)
    return {one.name: one.reason for one in found}, notes


def test_a_rule_takes_the_place_of_the_characters_own_track_alone():
    found, notes = names([("Brin*", "hips")])
    assert found == {"Brindle/hips": "the show's own choice", "Crate": "keyed object without a parent"}
    assert notes == ()


def test_the_last_rule_that_fits_counts_and_of_bones_the_one_nearest_the_root():
    assert "Brindle/hips" in names([("*", "root"), ("Brindle", "h*")])[0]
    bpy.ops.wm.read_homefile(use_empty=True)
    assert "Brindle/root" in names([("Brindle", "*o*")])[0]


def test_what_is_not_there_is_said_and_what_was_found_is_kept():
    found, (note,) = names([("Brindle", "pelvis")])
    assert set(found) == {"Brindle/root", "Crate"}
    assert note == (
        "the show's choice for Brindle is not there, what was found is taken: it has no bone \"pelvis\""
    )
