"""Track: checked once, read-only, and refusals that say what is wrong and where."""

import numpy as np
import pytest
from leapwright.analysis import Marks, SettingsError, Track, TrackError

FRAMES = list(range(6))
STILL = [[0.0, 0.0, 1.0]] * 6


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"frames": [0, 1], "positions": STILL[:2]}, "at least 5 frames, this one has 2"),
        ({"frames": [0, 1, 2, 4, 3, 5]}, "3 follows 4 in row 5"),
        ({"frames": [0, 1, 1, 2, 3, 4]}, "1 follows 1 in row 3"),
        ({"frames": [1e12 + i for i in FRAMES]}, "within ±10 000 000: row 1 holds 1e\\+12"),
        ({"frames": [-1e8, *FRAMES[1:]]}, "within ±10 000 000: row 1 holds -100000000"),
        ({"frames": [i * 5e-324 for i in FRAMES]}, "1e-06 apart at least: rows 1 and 2 do not"),
        ({"frames": range(100_001), "positions": [STILL[0]] * 100_001}, "100000 frames at most, this one has 100001"),
        ({"positions": STILL[:5]}, "6 rows of x, y, z"),
        ({"positions": [[0.0, 1.0]] * 6}, "6 rows of x, y, z"),
        ({"positions": [*STILL[:3], [0, 0, float("nan")], *STILL[:2]]}, "row 4 holds nan"),
        ({"positions": [*STILL[:5], [0, 0, 1e7]]}, "frame 5 is outside"),
        ({"positions": [[0, 0, "high"]] * 6}, "must be numbers"),
        ({"positions": [[0, 0, 1], [0, 0]] * 3}, "must be numbers in even rows"),
        ({"fps": 0}, "fps must be above 0"),
        ({"fps": float("nan")}, "fps must be above 0"),
        ({"fps": "fast"}, "fps must be a number"),
        ({"interpolation": "wobbly"}, "interpolation must be one of"),
        ({"key_frames": [3, 1]}, "key_frames must rise"),
        ({"feet": [[[0, 0, 0]]] * 5}, "feet must be 6 rows"),
    ],
)
def test_a_track_that_cannot_be_used_is_refused_with_its_place(change: dict, says: str) -> None:
    with pytest.raises(TrackError, match=says):
        Track(**{"name": "root", "fps": 24, "frames": FRAMES, "positions": STILL, **change})


def test_a_track_keeps_its_own_numbers() -> None:
    positions = np.array(STILL)
    track = Track("root", 24, FRAMES, positions)
    positions[0, 2] = 9.0
    assert track.heights[0] == 1.0
    with pytest.raises(ValueError, match="read-only"):
        track.positions[0, 2] = 9.0


def test_seconds_count_from_the_first_frame() -> None:
    track = Track("root", 24, [101, 102, 103, 104, 125], [[0, 0, 1]] * 5)
    assert track.seconds[-1] == 1.0


@pytest.mark.parametrize(
    "marks",
    [
        {},
        {"takeoff": 20, "crouch": 24},
        {"takeoff": 20, "landing": 20},
        {"takeoff": float("nan")},
        {"takeoff": 20, "no_jump": (1, 9)},
        {"no_jump": (9, 1)},
    ],
)
def test_marks_that_make_no_sense_are_refused(marks: dict) -> None:
    with pytest.raises(SettingsError):
        Marks(**marks)


def test_marks_keep_what_is_pinned_in_its_order() -> None:
    assert Marks(landing=34, takeoff=21).pinned == {"takeoff": 21, "landing": 34}


def test_ground_is_one_height_or_one_for_each_frame_and_foot() -> None:
    feet = np.zeros((6, 2, 3))
    path = [[0, 0, 1]] * 6
    assert Track("a", 24, range(6), path, feet=feet, ground=0.5).ground.shape == (6, 2)
    assert Track("a", 24, range(6), path, ground=0.5).ground is None
    with pytest.raises(TrackError, match="6 × 2: one for each frame and foot"):
        Track("a", 24, range(6), path, feet=feet, ground=np.zeros((3, 2)))
    with pytest.raises(TrackError, match="ground must be finite"):
        Track("a", 24, range(6), path, feet=feet, ground=np.nan)
