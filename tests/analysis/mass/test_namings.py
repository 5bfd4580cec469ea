"""Bone names tell segments, whatever naming a skeleton has. The names are common practice, no source."""

import pytest
from leapwright.analysis.mass.namings import segments_of
from leapwright.analysis.mass.segments import LIMB_SEGMENTS, SEGMENTS


def skeleton(text: str) -> dict[str, str | None]:
    """Read "Hips > Spine > Neck; Hips > LeftUpLeg" as bone → parent."""
    parents: dict[str, str | None] = {}
    for line in text.split(";"):
        above = None
        for bone in (name.strip() for name in line.split(">")):
            parents.setdefault(bone, above)
            above = bone
    return parents


def mirrored(text: str) -> str:
    return ";".join((text, text.replace("Left", "Right").replace("left", "right").replace(".L", ".R")
                     .replace("_l", "_r").replace(" L ", " R ").replace("lThigh", "rThigh")))  # fmt: skip


NAMINGS = {
    "bones, as .bvh and .fbx name them": (
        "Hips > Spine > Spine1 > Neck > Head > HeadEnd",
        "Spine1 > LeftShoulder > LeftArm > LeftForeArm > LeftHand > LeftHandIndex1; "
        "Hips > LeftUpLeg > LeftLeg > LeftFoot > LeftToeBase",
    ),
    "with a namespace": (
        "goat:Hips > goat:Spine > goat:Neck > goat:Head",
        "goat:Spine > goat:LeftArm > goat:LeftForeArm > goat:LeftHand; "
        "goat:Hips > goat:LeftUpLeg > goat:LeftLeg > goat:LeftFoot",
    ),
    "motion capture with a hip joint between": (
        "Hips > LowerBack > Spine > Spine1 > Neck > Neck1 > Head",
        "Spine1 > LeftShoulder > LeftArm > LeftForeArm > LeftHand > LeftFingerBase; "
        "Hips > LHipJoint > LeftUpLeg > LeftLeg > LeftFoot",
    ),
    "joints": (
        "Hips > Chest > Neck > Head",
        "Chest > LeftCollar > LeftShoulder > LeftElbow > LeftWrist; Hips > LeftHip > LeftKnee > LeftAnkle > LeftToe",
    ),
    "points": (
        "hips > spine > chest > neck > head",
        "chest > shoulder.L > upper_arm.L > forearm.L > hand.L > f_index.01.L; hips > thigh.L > shin.L > foot.L",
    ),
    "underscores": (
        "pelvis > spine_01 > spine_02 > neck_01 > head",
        "spine_02 > clavicle_l > upperarm_l > lowerarm_l > hand_l; upperarm_l > upperarm_twist_01_l; "
        "pelvis > thigh_l > calf_l > foot_l > ball_l",
    ),
    "words": (
        "Puppet Pelvis > Puppet Spine > Puppet Neck > Puppet Head",
        "Puppet Spine > Puppet L UpperArm > Puppet L Forearm > Puppet L Hand; "
        "Puppet Pelvis > Puppet L Thigh > Puppet L Calf > Puppet L Foot",
    ),
}


@pytest.mark.parametrize("naming", NAMINGS)
def test_a_whole_body_is_told_from_its_names(naming: str) -> None:
    middle, left = NAMINGS[naming]
    naming = segments_of(skeleton(f"{middle};{mirrored(left)}"))
    assert naming.is_whole and not naming.creature
    by_segment = {segment: bone for bone, segment in naming.segments.items()}
    for side, letters in (("left", ("Left", ".L", "_l", " L ")), ("right", ("Right", ".R", "_r", " R "))):
        for limb in LIMB_SEGMENTS:
            assert any(mark in by_segment[f"{limb}_{side}"] for mark in letters)
    assert "ead" in by_segment["head"]


def test_collars_fingers_toes_and_ends_have_no_segment_of_their_own() -> None:
    for middle, left in NAMINGS.values():
        taken = segments_of(skeleton(f"{middle};{mirrored(left)}")).segments
        words = ("collar", "clavicle", "index", "finger", "toe", "ball", "end", "twist", "hipjoint")
        assert not [bone for bone in taken if any(word in bone.lower() for word in words)]


def test_a_shoulder_is_the_upper_arm_only_where_joints_are_named() -> None:
    joints = segments_of(skeleton("Chest > LeftShoulder > LeftElbow > LeftWrist")).segments
    bones = segments_of(skeleton("Spine > LeftShoulder > LeftArm > LeftForeArm")).segments
    assert joints["LeftShoulder"] == "upper_arm_left"
    assert "LeftShoulder" not in bones and bones["LeftArm"] == "upper_arm_left"


def test_a_leg_is_the_thigh_where_there_is_no_upper_leg() -> None:
    assert segments_of(skeleton("leg.L > shin.L")).segments == {"leg.L": "thigh_left", "shin.L": "shank_left"}
    assert segments_of(skeleton("UpLeg.L > Leg.L")).segments["Leg.L"] == "shank_left"


def test_a_back_without_a_head_is_cut_where_the_arms_begin() -> None:
    back = "spine > spine.001 > spine.002 > spine.003 > spine.004 > spine.005"
    told = segments_of(skeleton(f"{back}; spine.003 > shoulder.L > upper_arm.L")).segments
    assert [bone for bone, segment in told.items() if segment == "head"] == ["spine.004", "spine.005"]


def test_of_a_generated_rig_the_deforming_bones_are_taken_alone_in_chains() -> None:
    rig = "root > ORG-spine > DEF-thigh.L > DEF-thigh.L.001 > DEF-shin.L; root > thigh_ik.L; root > MCH-thigh.L"
    assert segments_of(skeleton(rig)).segments == {
        "DEF-thigh.L": "thigh_left",
        "DEF-thigh.L.001": "thigh_left",
        "DEF-shin.L": "shank_left",
    }


def test_bones_beside_a_chain_are_left_out() -> None:
    assert segments_of(skeleton("root > spine > chest; root > body")).segments == {"spine": "trunk", "chest": "trunk"}


def test_only_bones_that_deform_are_taken_where_they_are_known() -> None:
    told = segments_of(skeleton("hips > spine > torso"), deforming={"hips", "spine"})
    assert list(told.segments) == ["hips", "spine"]


@pytest.mark.parametrize(
    ("text", "segments"),
    [
        (
            "root > body > head; body > tail; body > foreleg.L; root > thigh.L > shin.L > foot.L",
            {"body": "trunk", "head": "head", "foreleg.L": "upper_arm_left", "foot.L": "foot_left"},
        ),
        (
            "spine > front_thigh.L > front_shin.L > front_foot.L; spine > thigh.L > shin.L > foot.L",
            {"front_thigh.L": "upper_arm_left", "front_shin.L": "forearm_left", "front_foot.L": "hand_left",
             "thigh.L": "thigh_left"},
        ),
        (
            "Hind_UpLeg_L > Hind_Leg_L > Hind_Paw_L; Fore_UpLeg_L",
            {"Hind_UpLeg_L": "thigh_left", "Hind_Leg_L": "shank_left", "Hind_Paw_L": "foot_left",
             "Fore_UpLeg_L": "upper_arm_left"},
        ),
    ],
)  # fmt: skip
def test_a_creature_is_known_as_one_and_its_forelegs_are_its_arms(text: str, segments: dict[str, str]) -> None:
    told = segments_of(skeleton(text))
    assert told.creature
    assert segments.items() <= told.segments.items()


@pytest.mark.parametrize("bones", ["LeftForeArm", "pony_tail", "Head"])
def test_a_forearm_and_a_pony_tail_make_no_creature(bones: str) -> None:
    assert not segments_of({bones: None}).creature


def test_names_that_say_nothing_tell_nothing() -> None:
    told = segments_of(skeleton("Bone > Bone.001 > Bone.002; Bone > rope_end"))
    assert told.segments == {} and not told.is_whole


def test_parents_in_a_circle_end() -> None:
    assert set(segments_of({"spine": "chest", "chest": "spine"}).segments.values()) == {"trunk"}


def test_every_segment_told_is_one_of_the_bodys() -> None:
    for middle, left in NAMINGS.values():
        assert set(segments_of(skeleton(f"{middle};{mirrored(left)}")).segments.values()) <= set(SEGMENTS)
