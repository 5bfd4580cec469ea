"""A CSV track file becomes a Track, or a sentence that says what is wrong and where."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from leapwright.analysis import LeapwrightError
from leapwright.analysis.sources import read_file, track_csv

HEAD = "frame,x,y,z\n"
ROWS = [f"{frame},0,0.5,{1 + frame / 10}" for frame in range(1, 7)]
GOOD = HEAD + "\n".join(ROWS) + "\n"
COMMAS = "save it with commas (and decimal points)"
ALPHABET = '0123456789.-+eE," \n\r\0na;\t'
NO_RATE = "a CSV track has no frame rate: 24 frames per second taken (--fps)"


def read(text, tmp_path, fps=None):
    path = tmp_path / "tq010_barge_hop.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    (track,) = read_file(path, fps=fps).tracks
    return track


def test_frames_and_positions_arrive_and_the_name_is_the_files(tmp_path):
    track = read(GOOD, tmp_path, fps=25)
    assert (track.name, track.fps, track.notes, track.key_frames) == ("tq010_barge_hop", 25, (), None)
    assert track.frames.tolist() == [1, 2, 3, 4, 5, 6]
    assert track.positions[-1].tolist() == [0, 0.5, 1.6]


def test_a_rate_nobody_gave_is_24_and_said(tmp_path):
    track = read(GOOD, tmp_path)
    assert track.fps == 24 and track.notes == (NO_RATE,)


@pytest.mark.parametrize(
    "text",
    [
        "\ufeff" + GOOD,
        GOOD.replace("\n", "\r\n"),
        GOOD.replace("\n", "\r"),
        GOOD.replace("\n", "\n\n") + "\n \n",
        GOOD.replace("\n", ",,\n"),
        GOOD.replace(",", " , "),
        GOOD.replace("frame,x", "Frame,X"),
        GOOD.replace("0.5", '"0.5"'),
        GOOD.replace("0.5", "5e-1"),
        GOOD.removesuffix("\n"),
    ],
    ids=[
        "BOM",
        "CRLF",
        "CR",
        "blank-lines",
        "trailing-commas",
        "spaces",
        "capitals",
        "quotes",
        "exponent",
        "no-end",
    ],
)
def test_how_a_spreadsheet_writes_it_is_no_matter(text, tmp_path):
    track, plain = read(text, tmp_path), read(GOOD, tmp_path)
    assert (track.frames == plain.frames).all() and (track.positions == plain.positions).all()


def test_columns_may_stand_in_any_order_and_others_are_ignored_and_said(tmp_path):
    rows = "".join(f"{i},note,0.5,{frame},0\n" for i, frame in enumerate(range(1, 7)))
    track = read("z,remark,y,frame,x\n" + rows, tmp_path, fps=24)
    assert track.heights.tolist() == [0, 1, 2, 3, 4, 5]
    assert track.notes == ('ignored in the track file: "remark"',)


def test_rows_marked_as_keys_are_the_key_frames(tmp_path):
    rows = "".join(f"{row},{i % 2}\n" for i, row in enumerate(ROWS))
    assert read("frame,x,y,z,key\n" + rows, tmp_path).key_frames.tolist() == [2, 4, 6]


def test_a_key_column_without_a_key_is_said(tmp_path):
    track = read("frame,x,y,z,key\n" + "".join(f"{row},0\n" for row in ROWS), tmp_path, fps=24)
    assert track.key_frames is None
    assert track.notes == ("no row is marked as a key: the track is taken as not keyed",)


REFUSED = [
    ("", "the file is empty"),
    ("\n\n , ,\n", "the file is empty"),
    (HEAD, "a track needs at least 5 frames, this one has 0"),
    (HEAD + "\n".join(ROWS[:2]), "a track needs at least 5 frames, this one has 2"),
    ("\n".join(ROWS), "its first row must name the columns frame, x, y, z; it lacks frame, x, y, z"),
    (GOOD.replace(",z", ""), "its first row must name the columns frame, x, y, z; it lacks z"),
    (
        GOOD.replace(",", ";"),
        f"its columns are separated by semicolons; {COMMAS}",
    ),
    (GOOD.replace(",", "\t"), f"its columns are separated by tabs; {COMMAS}"),
    (GOOD.replace("x,y,z", "x,y,z,x"), "its first row names the column x twice"),
    (GOOD.replace("3,0,0.5,1.3", "3,0,0.5"), "line 4 has no z: it has 3 of 4 cells"),
    (GOOD.replace("3,0,0.5,1.3", "3,0,0,5,1,3"), "line 4 has 6 cells, the first row names 4 columns"),
    (GOOD.replace("3,0,0.5,1.3", "3,,0.5,1.3"), 'line 4: x is "", not a finite number'),
    (GOOD.replace("1.3", "nan"), 'line 4: z is "nan", not a finite number'),
    (GOOD.replace("1.3", "-inf"), 'line 4: z is "-inf", not a finite number'),
    (GOOD.replace("1.3", "1e999"), 'line 4: z is "1e999", not a finite number'),
    (GOOD.replace("1.3", "1_3"), 'line 4: z is "1_3", not a finite number'),
    (GOOD.replace("1.3", "1.3 m"), 'line 4: z is "1.3 m", not a finite number'),
    (GOOD.replace("1.3", "١"), 'line 4: z is "١", not a finite number'),
    (GOOD.replace("1.3", "0x10"), 'line 4: z is "0x10", not a finite number'),
    (GOOD.replace("1.3", "1e12"), "positions must be meters within ±1 000 km: frame 3 is outside"),
    (GOOD.replace("\n4,", "\n2,"), "frames must rise: 2 follows 3 in row 4"),
    (GOOD.encode("utf-16"), "it is UTF-16 text; save it as UTF-8"),
    (GOOD.encode() + b"\xe9", "it is not UTF-8 text: byte 85, in line 8, fits none"),
    ("frame,x,y,z,key\n" + "".join(f"{row},2\n" for row in ROWS), 'line 2: key is "2"; it must be 0 or 1'),
    (GOOD + '"' + "x" * 200_000, "line 8 is not CSV: field larger than field limit (131072)"),
]


@pytest.mark.parametrize(("text", "sentence"), REFUSED, ids=[sentence[:40] for _, sentence in REFUSED])
def test_what_is_wrong_is_said_in_one_sentence(text, sentence, tmp_path):
    with pytest.raises(LeapwrightError) as refused:
        read(text, tmp_path)
    assert str(refused.value) == sentence


@settings(max_examples=300, deadline=None)
@given(st.binary(max_size=40), st.integers(0, 90), st.integers(0, 20))
def test_no_bytes_in_any_place_bring_more_than_a_refusal(junk, at, cut):
    data = GOOD.encode()
    try:
        track_csv.track_from(track_csv.decoded(data[:at] + junk + data[at + cut :]), name="Moss")
    except LeapwrightError as refused:
        assert str(refused)


@settings(max_examples=300, deadline=None)
@given(st.lists(st.lists(st.text(alphabet=ALPHABET, max_size=6), max_size=6), max_size=8))
def test_no_cells_bring_more_than_a_refusal(rows):
    try:
        track_csv.track_from(HEAD + "\n".join(",".join(row) for row in rows), name="Moss")
    except LeapwrightError as refused:
        assert str(refused)
