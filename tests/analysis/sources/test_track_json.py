"""A JSON track file becomes a Track, or a sentence that says what is wrong and where."""

import json

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from leapwright.analysis import LeapwrightError, Marks
from leapwright.analysis.sources import read_file, track_json

GOOD = {
    "name": "Brindle",
    "fps": 24,
    "frames": [1, 2, 3, 4, 5, 6],
    "positions": [[0, 0.5, 1.0], [0, 0.5, 1.1], [0, 0.5, 1.3], [0, 0.5, 1.3], [0, 0.5, 1.1], [0, 0.5, 1.0]],
}


ALL = '"name", "fps", "frames", "positions"'
FEET = "must be 6 rows of points of x, y, z, one row a frame"
NO_JUMP = "marks, entry 1, no_jump must be"
EVENTS = '"crouch", "takeoff", "apex", "landing", "absorbed", "no_jump"'


def read(text, tmp_path):
    path = tmp_path / "tq010_barge_hop.json"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_file(path)


def refusal(text, tmp_path):
    with pytest.raises(LeapwrightError) as refused:
        read(text, tmp_path)
    assert "\n" not in str(refused.value)
    return str(refused.value)


def with_(**changes):
    return json.dumps({**GOOD, **changes})


def test_a_full_track_arrives_whole(tmp_path):
    feet = [[[0, 0, 0], [0, 1, 0]]] * 6
    text = with_(key_frames=[1, 3.5, 6], interpolation="bezier", feet=feet, marks=[{"takeoff": 2}, {"no_jump": [4, 6]}])
    (track,) = read(text, tmp_path).tracks
    assert (track.name, track.fps, track.interpolation, track.source) == ("Brindle", 24, "bezier", "file")
    assert track.frames.tolist() == GOOD["frames"] and track.positions.tolist() == GOOD["positions"]
    assert track.key_frames.tolist() == [1, 3.5, 6] and np.array_equal(track.feet, feet)
    assert track.marks == (Marks(takeoff=2), Marks(no_jump=(4, 6)))
    assert track.notes == ()


@pytest.mark.parametrize("mark", ["\ufeff", "\r\n\n", " "])
def test_byte_order_mark_and_blank_lines_before_the_object_are_no_matter(mark, tmp_path):
    assert read(mark + json.dumps(GOOD, indent=1).replace("\n", "\r\n") + "\r\n", tmp_path).tracks


def test_one_jump_may_be_marked_without_a_list(tmp_path):
    (track,) = read(with_(marks={"takeoff": 2, "landing": 5}), tmp_path).tracks
    assert track.marks == (Marks(takeoff=2, landing=5),)


def test_a_key_nobody_knows_is_ignored_and_said(tmp_path):
    (track,) = read(with_(foet=[1], studio="Tern Quay"), tmp_path).tracks
    assert track.notes == ('ignored in the track file: "foet", "studio"',)


REFUSED = [
    ("", "the file is empty"),
    (" \n", "the file is empty"),
    ("Brindle jumps", "it is not JSON: expecting value in line 1, column 1"),
    ('{"name": "Brindle",\n "fps": }', "it is not JSON: expecting value in line 2, column 9"),
    ("[" * 100_000, "it is not JSON that can be read: its brackets are nested too deeply"),
    ("[]", "a track must be one JSON object, {…}, not a list"),
    ("null", "a track must be one JSON object, {…}, not null"),
    ("{}", f"it lacks {ALL}; a track needs {ALL}"),
    (b"\xff\xfe{\x00}\x00", "it is UTF-16 text; save it as UTF-8"),
    (b'{"name":\n "caf\xe9"}', "it is not UTF-8 text: byte 15, in line 2, fits none"),
    ('{"fps": 24, "fps": 25}', '"fps" occurs twice'),
    ('{"schema": "leapwright-audit/1"}', "it is a result (leapwright-audit/1), not a track"),
    (with_(positions=[[0, 0, float("nan")]] * 6), "it holds NaN; every number must be finite"),
    (with_(positions=[[0, 0, float("-inf")]] * 6), "it holds -Infinity; every number must be finite"),
    (with_(fps=1).replace('"fps": 1', '"fps": 1e999'), "fps is too large a number"),
    (with_(fps=10**350), "fps is too large a number"),
    (with_(fps=1).replace('"fps": 1', f'"fps": {"1" * 5000}'), "it holds a number of 5000 digits, too large"),
    (with_(fps="24"), "fps must be a number, not a text"),
    (with_(fps=True), "fps must be a number, not true or false"),
    (with_(fps=None), "fps must be a number, not null"),
    (with_(fps=0), "fps must be above 0 and at most 100 000, not 0.0"),
    (with_(name=7), "name must be a text, not a number"),
    (with_(name=" "), "name must not be empty"),
    (with_(frames=5), "frames must be a list, not a number"),
    (with_(frames=[1, 2, 3, "4", 5, 6]), "frames, item 4, must be a number, not a text"),
    (with_(frames=[1, 2], positions=[[0, 0, 0]] * 2), "a track needs at least 5 frames, this one has 2"),
    (with_(frames=[]), "a track needs at least 5 frames, this one has 0"),
    (with_(frames=[1, 2, 3, 3, 5, 6]), "frames must rise: 3 follows 3 in row 4"),
    (with_(frames=[1, 2, 3, 2, 5, 6]), "frames must rise: 2 follows 3 in row 4"),
    (with_(positions=[[0, 0, 0]] * 5), "positions must be 6 rows of x, y, z, one a frame, not 5 × 3"),
    (with_(positions=[]), "positions must have 2 dimension(s), not 0"),
    (with_(positions=[[0, 0, 0]] * 5 + [[0, 0]]), "positions, row 6 must be x, y, z, not 2 numbers"),
    (with_(positions=[0] * 6), "positions, row 1 must be a list, not a number"),
    (with_(positions=[[0, 0, 0]] * 5 + [[0, 0, "1"]]), "positions, row 6, z, must be a number, not a text"),
    (with_(positions=[[0, 0, 0]] * 5 + [[0, None, 0]]), "positions, row 6, y, must be a number, not null"),
    (
        with_(positions=[[0, 0, 0]] * 5 + [[0, 0, 1e9]]),
        "positions must be meters within ±1 000 km: frame 6 is outside",
    ),
    (with_(positions=[[0, 0, 0]] * 5 + [[0, 0, 10**350]]), "positions, row 6, z, is too large a number"),
    (with_(key_frames=[2, 1]), "key_frames must rise: 1 follows 2 in row 2"),
    (with_(key_frames=None), "key_frames must be a list, not null"),
    (with_(interpolation="wobbly"), "interpolation must be one of constant, linear, bezier, not 'wobbly'"),
    (
        with_(feet=[[[0, 0, 0]]] * 5),
        f"feet {FEET}, not 5 × 1 × 3",
    ),
    (with_(feet=[[[0, 0, 0]]] * 5 + [[]]), "feet, row 6, has no point; each row needs one at least"),
    (with_(feet=[[[0, 0, 0]]] * 5 + [[[0, 0]]]), "feet, row 6, row 1 must be x, y, z, not 2 numbers"),
    (with_(marks=21), 'marks, entry 1, must be an object such as {"takeoff": 21}, not a number'),
    (with_(marks={"takoff": 21}), f'marks, entry 1, names "takoff"; it may name {EVENTS}'),
    (with_(marks=[{"takeoff": 2}, {"apex": "3"}]), "marks, entry 2, apex, must be a number, not a text"),
    (with_(marks={}), "marks pin no event"),
    (with_(marks={"takeoff": 5, "landing": 3}), "marks must rise from crouch to absorbed, not [5.0, 3.0]"),
    (
        with_(marks={"no_jump": [3]}),
        f"{NO_JUMP} its first and its last frame, not 1 number",
    ),
    (with_(marks={"no_jump": 3}), f"{NO_JUMP} a list, not a number"),
]


@pytest.mark.parametrize(("text", "sentence"), REFUSED, ids=[sentence[:40] for _, sentence in REFUSED])
def test_what_is_wrong_is_said_in_one_sentence(text, sentence, tmp_path):
    assert refusal(text, tmp_path) == sentence


JSON_VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=4),
    lambda inner: (
        st.lists(inner, max_size=6) | st.dictionaries(st.sampled_from(track_json.TRACK_KEYS), inner, max_size=4)
    ),
    max_leaves=12,
)


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(track_json.TRACK_KEYS), JSON_VALUES)
@example("frames", [1, 2, 3, 4, 5, 2**70])
@example("marks", {"no_jump": [None, 1]})
def test_no_value_in_any_place_brings_more_than_a_refusal(key, value):
    try:
        track_json.track_from(track_json.json_object(json.dumps({**GOOD, key: value})))
    except LeapwrightError as refused:
        assert str(refused)


@settings(max_examples=300, deadline=None)
@given(st.binary(max_size=60), st.integers(0, 200), st.integers(0, 30))
def test_no_bytes_in_any_place_bring_more_than_a_refusal(junk, at, cut):
    data = json.dumps(GOOD).encode()
    try:
        track_json.track_from(track_json.json_object(track_json.decoded(data[:at] + junk + data[at + cut :])))
    except LeapwrightError as refused:
        assert str(refused)
