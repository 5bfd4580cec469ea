"""Blender's data become plain values, whatever other add-ons register and unregister."""

import bpy
from leapwright.addon.reading.plain_values import columns, plain

from tests.addon.scenery import armature


def test_a_property_that_an_add_on_takes_back_is_not_missed(scene):
    rig = armature()
    bpy.types.PoseBone.tide_of_the_quay = bpy.props.FloatProperty()
    try:
        before = list(columns(rig.pose.bones, {})), plain(rig.pose.bones[0], {})
    finally:
        del bpy.types.PoseBone.tide_of_the_quay
    assert (list(columns(rig.pose.bones, {})), plain(rig.pose.bones[0], {})) == before


def test_what_is_set_is_told(scene):
    rig = armature()
    before = plain(rig.pose.bones[0], {})
    rig.pose.bones[0].location.x = 0.5
    assert plain(rig.pose.bones[0], {}) != before
    moved = plain(rig.pose.bones[0], {"location": {0}})
    rig.pose.bones[0].location.x = 0.7
    assert plain(rig.pose.bones[0], {"location": {0}}) == moved
