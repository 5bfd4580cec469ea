"""What a shot's file name tells. The ways of writing takes are common practice, no source."""

import pytest
from leapwright.analysis.dailies.names import shot_name


@pytest.mark.parametrize(
    ("path", "base", "take", "number"),
    [
        ("day/tq020_crate_floaty_v03.blend", "tq020_crate_floaty", "v03", 3),
        ("tq020_crate.v12.blend", "tq020_crate", "v12", 12),
        ("tq020-take2.bvh", "tq020", "take2", 2),
        ("tq020 tk 4.blend", "tq020", "tk 4", 4),
        ("C:\\dailies\\tq020_V007.blend", "tq020", "V007", 7),
        ("tq020_crate_floaty.blend", "tq020_crate_floaty", "", 0),
        ("tq020_moon_vault3.blend", "tq020_moon_vault3", "", 0),
        ("v02.blend", "v02", "", 0),
        ("_v02.blend", "_v02", "", 0),
    ],
)
def test_a_take_at_the_end_of_a_name_is_told_from_the_shot(path, base, take, number):
    name = shot_name(path)
    assert (name.base, name.take, name.number) == (base, take, number)


@pytest.mark.parametrize(
    ("path", "sequence"),
    [
        ("tq010_barge_hop.blend", "tq"),
        ("sq010_sh020_anim_v02.blend", "sq010"),
        ("tq010_v02.blend", "tq"),
        ("barge_hop.blend", ""),
        ("Ufer3.blend", "Ufer"),
    ],
)
def test_the_sequence_is_the_first_group_or_the_letters_before_the_number(path, sequence):
    assert shot_name(path).sequence == sequence
