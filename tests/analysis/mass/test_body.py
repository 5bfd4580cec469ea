"""A body's center of mass follows its bones by their masses; what cannot be a body is refused."""

import numpy as np
import pytest
from leapwright.analysis.errors import SourceError
from leapwright.analysis.mass.body import BodyPart, body_of, kind_and_side, spoken
from leapwright.analysis.mass.segments import FEMALE, MALE, SEGMENT_TABLES, SEGMENTS, WINTER


def bone(*ends: tuple[float, float, float]) -> list[tuple[float, float, float]]:
    return list(ends)


FOREARM = [[[0, 0, 0], [0, 0, 9]], [[0, 0, 2], [0, 0, 3]]]
"""An upper arm whose tail lies anywhere, as imports leave it, and the forearm, whose head is the elbow."""


def test_masses_by_hand_balance_like_weights_on_a_beam() -> None:
    body = body_of([BodyPart("left", mass=1.0), BodyPart("right", mass=3.0)], [[[0, 0, 0]] * 2, [[4, 0, 0]] * 2])
    assert body.center_of_mass([[[[0, 0, 0]] * 2, [[4, 0, 0]] * 2]]) == pytest.approx(np.array([[3.0, 0.0, 0.0]]))
    assert body.unmapped == 0.0 and body.is_sound
    assert body.shares == pytest.approx([0.25, 0.75])


def test_a_mass_by_hand_lies_where_it_is_put_along_its_bone() -> None:
    body = body_of([BodyPart("club", mass=2.0, along=0.8)], [[[0, 0, 0], [0, 0, 1]]])
    assert body.center_of_mass([[[[1, 0, 0], [1, 0, 5]]]]) == pytest.approx(np.array([[1.0, 0.0, 4.0]]))


def test_a_mass_beside_its_bone_turns_with_it() -> None:
    body = body_of([BodyPart("back", mass=1.0, aside=(0.5, -1.0))], [[[0, 0, 0], [0, 2, 0]]])
    upright, rolled = [[0, 0, 0], [0, 2, 0], [2, 0, 0], [0, 0, 2]], [[0, 0, 0], [0, 2, 0], [0, 0, -2], [2, 0, 0]]
    assert body.center_of_mass([[upright], [rolled]]) == pytest.approx(np.array([[1, 1, -2], [-2, 1, -1]]))
    with pytest.raises(ValueError, match="off their bones"):
        body.center_of_mass([[upright[:2]]])


@pytest.mark.parametrize("table", SEGMENT_TABLES.values(), ids=SEGMENT_TABLES)
def test_weights_sum_to_one_however_many_bones_there_are(table) -> None:
    rng = np.random.default_rng(4)
    for count in range(1, len(SEGMENTS) + 1):
        parts = [BodyPart(segment, segment) for segment in SEGMENTS[:count]]
        body = body_of(parts, rng.normal(size=(count, 2, 3)), table)
        assert body.weights.sum() == pytest.approx(1.0, abs=1e-12)
        assert not body.weights.flags.writeable


def test_a_body_carried_along_carries_its_center_of_mass_along() -> None:
    rng = np.random.default_rng(7)
    rest = rng.normal(size=(len(SEGMENTS), 2, 3))
    body = body_of([BodyPart(segment, segment) for segment in SEGMENTS], rest, MALE)
    away = np.array([3.0, -2.0, 5.0])
    there, here = body.center_of_mass([rest + away, rest])
    assert there - here == pytest.approx(away, abs=1e-12)


def test_a_segment_ends_where_the_next_begins_not_at_its_bones_tail() -> None:
    parts = [BodyPart("arm", "upper_arm_left"), BodyPart("fore", "forearm_left")]
    alone = body_of(parts[:1], FOREARM[:1], WINTER).center_of_mass([FOREARM[:1]])[0, 2]
    both = body_of(parts, FOREARM, WINTER).center_of_mass([FOREARM])[0, 2]
    # Winter: upper arm 2.8 % of the body, center at 0.436 of it; forearm 1.6 %, center at 0.430.
    assert alone == pytest.approx(0.436 * 9)
    assert both == pytest.approx((2.8 * 0.436 * 2 + 1.6 * 2.430) / 4.4)


def test_a_segment_of_several_bones_bends_with_them() -> None:
    parts = [BodyPart("thigh", "thigh_left"), BodyPart("thigh.001", "thigh_left")]
    rest = [[[0, 0, 2], [0, 0, 1.8]], [[0, 0, 1.8], [0, 0, 0]]]
    body = body_of(parts, rest, WINTER)
    # 0.433 of 2 m are 0.866 m from the start: 0.666 m into the second bone, which begins after 0.2 m, straight or bent.
    assert body.center_of_mass([rest])[0, 2] == pytest.approx(2 - 0.866)
    bent = [rest[0], [[0, 0, 1.8], [1.8, 0, 1.8]]]
    assert body.center_of_mass([bent])[0] == pytest.approx([0.666, 0.0, 1.8])


def test_the_trunk_goes_from_between_the_hips_to_the_base_of_the_neck() -> None:
    parts = [
        BodyPart("hips", "trunk"),
        BodyPart("head", "head"),
        BodyPart("l", "thigh_left"),
        BodyPart("r", "thigh_right"),
    ]
    rest = [bone((0, 5, 0), (0, 5, 1)), bone((0, 0, 1), (0, 0, 1.3)), bone((0.1, 0, 0.2), (0.1, 0, -0.2)),
            bone((-0.1, 0, 0.2), (-0.1, 0, -0.2))]  # fmt: skip
    trunk = body_of(parts, rest, FEMALE).center_of_mass([rest])[0]
    # Women (de Leva 1996): a head of 6.68 % at 0.5159 of its length, thighs of 14.78 % each at 0.3612, and a trunk of
    # 42.57 %.
    parts_of = [(mass, 0.2 + 0.8 * share) for mass, share in FEMALE.trunk]
    thighs = 0.2 - 0.4 * 0.3612
    whole = sum(m * z for m, z in [*parts_of, (6.68, 1 + 0.3 * 0.5159), (2 * 14.78, thighs)]) / (42.57 + 6.68 + 29.56)
    assert trunk == pytest.approx([0.0, 0.0, whole])


def test_what_has_no_bone_is_told_and_much_of_it_is_not_sound() -> None:
    rest = np.random.default_rng(1).normal(size=(len(SEGMENTS), 2, 3))

    def without(*segments: str):
        kept = [row for row, segment in enumerate(SEGMENTS) if segment not in segments]
        return body_of([BodyPart(SEGMENTS[row], SEGMENTS[row]) for row in kept], rest[kept], MALE)

    assert without().unmapped == 0.0 and without().missing == ()
    feet = without("foot_left", "foot_right")
    # de Leva 1996, men: a foot has 1.37 % of the body, the head 6.94 %.
    assert feet.unmapped == pytest.approx(0.0274) and feet.is_sound
    assert feet.missing == ("foot_left", "foot_right")
    head = without("head")
    assert head.unmapped == pytest.approx(0.0694) and not head.is_sound


def test_a_load_by_hand_is_in_per_cent_of_the_body() -> None:
    parts = [BodyPart("head", "head"), BodyPart("crate", mass=FEMALE.head[0])]
    rest = [bone((0, 0, 0), (0, 0, 1)), bone((4, 0, 0), (4, 0, 0))]
    assert body_of(parts, rest, FEMALE).center_of_mass([rest])[0, 0] == pytest.approx(2.0)


@pytest.mark.parametrize(
    ("refused", "said"),
    [
        (lambda: body_of([], np.zeros((0, 2, 3)), MALE), "no bone has a body segment or a mass: map the bones first"),
        (lambda: body_of([BodyPart("shin", "shank_left")], [[[1, 1, 1]] * 2], MALE), "the left shank has no length"),
        (lambda: body_of([BodyPart("a"), BodyPart("b")], np.zeros((2, 2, 3))), "the masses sum to nothing"),
        (lambda: body_of([BodyPart("shin", "shank_left")], [[[0, 0, 1], [0, 0, 0]]]), "there is no table"),
        (lambda: BodyPart("horn", mass=-1.0), 'the mass of "horn" must be a number of 0 or more, not -1.0'),
        (lambda: BodyPart("horn", mass=float("nan")), 'the mass of "horn" must be a number'),
    ],
)
def test_what_is_no_body_is_refused_in_a_sentence(refused, said: str) -> None:
    with pytest.raises(SourceError, match=said) as caught:
        refused()
    assert not str(caught.value).endswith(".")


@pytest.mark.parametrize("segment", SEGMENTS)
def test_a_segment_is_kind_and_side(segment: str) -> None:
    kind, side = kind_and_side(segment)
    assert f"{kind}_{side}".strip("_") == segment
    assert "_" not in spoken(segment)


def test_a_mass_beside_its_bone_is_carried_along_wherever_the_bone_begins() -> None:
    # From (1, 2, 3) a quarter of (0, 0, 2), half of (2, 0, 0) and a tenth of (0, 2, 0).
    body = body_of([BodyPart("back", mass=2.0, along=0.25, aside=(0.5, 0.1))], [[[0, 0, 0], [0, 0, 2]]])
    points = [[[[1, 2, 3], [1, 2, 5], [3, 2, 3], [1, 4, 3]]]]
    assert body.center_of_mass(points) == pytest.approx(np.array([[2.0, 2.2, 3.5]]))
