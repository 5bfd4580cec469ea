"""A marker in a movie clip is followed: a known length scales it to within 3 %, and gaps and losses are told."""

from types import SimpleNamespace

import bpy
import numpy as np
import pytest
from leapwright.addon.footage.marker import FootageScale, clip_and_marker, sample_marker
from leapwright.addon.footage.settings import of_scene
from leapwright.addon.shots import shot as shots
from leapwright.analysis import Settings, SourceError, World, audit_track
from leapwright.analysis.shot import Extras

from tests.addon.day import saved
from tests.addon.filmed import POST, SCALE, THROW, film
from tests.analysis.closed_form import G

KNOWN = FootageScale(POST, between=("foot", "top"))


@pytest.fixture
def clip(scene, tmp_path):
    return film(tmp_path)


def audited(track):
    (jump,) = audit_track(track, Settings(world=World(gravity=G))).jumps
    return jump


def lose(clip, *frames):
    markers = clip.tracking.tracks["ball"].markers
    for frame in frames:
        markers.find_frame(frame).mute = True


def test_a_filmed_throw_is_measured_within_three_percent(scene, clip):
    jump = audited(sample_marker(scene, clip, "ball", KNOWN))
    crouch, takeoff, _, landing, _ = THROW.events()
    assert jump.flight.gravity.value == pytest.approx(G, rel=0.03)
    assert jump.flight.height.value == pytest.approx(THROW.height, rel=0.03)
    assert jump.push.distance.value == pytest.approx(THROW.push, rel=0.03)
    assert jump.push.ratio.value == pytest.approx(THROW.height / THROW.push, rel=0.03)
    assert jump.flight.airtime.value == pytest.approx(landing - takeoff, rel=0.03)
    assert jump.takeoff.frame - jump.crouch.frame == pytest.approx(takeoff - crouch, rel=0.1)
    assert jump.travel.distance.value == pytest.approx(THROW.distance, rel=0.03)


def test_the_audit_says_that_it_is_a_projection_and_by_which_length(scene, clip):
    notes = audit_track(sample_marker(scene, clip, "ball", KNOWN)).notes
    assert notes[0].startswith("read from footage, a projection: what goes toward the camera")
    assert "not for training, medical or safety decisions" in notes[1]
    assert notes[2] == f'1.5 m from "foot" to "top" taken for {POST * SCALE:.4g} pixels'


def test_a_size_in_pixels_does_as_well(scene, clip):
    by_markers = sample_marker(scene, clip, "ball", KNOWN).positions
    by_size = sample_marker(scene, clip, "ball", FootageScale(POST, pixels=POST * SCALE)).positions
    assert by_size == pytest.approx(by_markers, rel=2e-3)


def test_frames_are_those_at_which_the_scene_shows_the_clip(scene, clip):
    clip.frame_start = 101
    assert sample_marker(scene, clip, "ball", KNOWN).frames[0] == 101.0


def test_numbered_images_run_at_the_scene_s_rate(scene, clip):
    assert clip.fps == 0.0
    scene.render.fps, scene.render.fps_base = 30, 1.001
    assert sample_marker(scene, clip, "ball", KNOWN).fps == pytest.approx(30 / 1.001)


def test_a_short_gap_is_drawn_through_and_said(scene, clip):
    # Two frames in the air, one before the push.
    lose(clip, 12, 28, 29)
    track = sample_marker(scene, clip, "ball", KNOWN)
    assert np.diff(track.frames) == pytest.approx(1.0)
    assert track.notes[-1] == "3 frames without the marker are drawn through: 12, 28, 29 of the clip"
    jump = audited(track)
    assert jump.flight.gravity.value == pytest.approx(G, rel=0.03)
    assert jump.flight.height.value == pytest.approx(THROW.height, rel=0.03)


def test_a_long_gap_leaves_the_longest_stretch(scene, clip):
    lose(clip, *range(5, 10))
    track = sample_marker(scene, clip, "ball", KNOWN)
    assert track.frames[0] == 10.0
    assert 'the marker "ball" is lost over frames 5 to 9 of the clip' in track.notes[-1]
    assert audited(track).flight.height.value == pytest.approx(THROW.height, rel=0.03)


def test_a_length_that_changes_is_said(scene, clip):
    top = clip.tracking.tracks["top"].markers
    for frame in range(20, 30):
        top.find_frame(frame).co[1] += 0.05
    notes = sample_marker(scene, clip, "ball", KNOWN).notes
    assert any(note.startswith("that length changes by 9%") for note in notes), notes


def test_what_cannot_be_measured_is_a_sentence(scene, clip):
    with pytest.raises(SourceError, match='has no marker "crate"'):
        sample_marker(scene, clip, "crate", KNOWN)
    with pytest.raises(SourceError, match="the known length is nothing"):
        sample_marker(scene, clip, "ball", FootageScale(0.0, pixels=10.0))
    with pytest.raises(SourceError, match="takes up no pixels"):
        sample_marker(scene, clip, "ball", FootageScale(1.0))
    with pytest.raises(SourceError, match="lie at one place"):
        sample_marker(scene, clip, "ball", FootageScale(1.0, between=("top", "top")))
    lose(
        clip,
        *[frame for frame in range(1, 60) if frame % 6 < 4 and clip.tracking.tracks["ball"].markers.find_frame(frame)],
    )
    with pytest.raises(SourceError, match="is lost too often"):
        sample_marker(scene, clip, "ball", KNOWN)
    few = clip.tracking.tracks.new(name="few", frame=1)
    few.markers.insert_frame(2, co=(0.5, 0.5))
    with pytest.raises(SourceError, match=r'the marker "few" is followed over \d frames only'):
        sample_marker(scene, clip, "few", KNOWN)


def test_a_clip_whose_images_are_gone_is_measured_still(scene, tmp_path):
    film(tmp_path)
    for image in tmp_path.glob("throw_*.png"):
        image.unlink()
    path = saved(tmp_path / "tq.blend")
    bpy.ops.wm.open_mainfile(filepath=str(path))
    track = sample_marker(bpy.context.scene, bpy.data.movieclips[0], "ball", KNOWN)
    assert audited(track).flight.height.value == pytest.approx(THROW.height, rel=0.03)


def test_a_clip_without_a_size_is_refused(scene):
    lost = SimpleNamespace(name="throw", filepath="//throw_0001.png", size=(0, 0))
    with pytest.raises(SourceError, match=r'the clip "throw" is missing \(//throw_0001\.png\), and its size is not'):
        sample_marker(scene, lost, "ball", KNOWN)


def test_the_command_s_name_finds_a_marker_of_any_clip(scene, clip):
    assert clip_and_marker(bpy.data.movieclips, "ball") == (clip, "ball")
    assert clip_and_marker(bpy.data.movieclips, f"{clip.name}/top") == (clip, "top")
    with pytest.raises(SourceError, match=r'has a marker "crate"; the markers are: "throw_0001\.png/ball"'):
        clip_and_marker(bpy.data.movieclips, "crate")
    with pytest.raises(SourceError, match='the file has no movie clip, so no marker "ball"'):
        clip_and_marker([], "ball")


def test_the_command_measures_a_marker_by_its_own_length_or_the_saved_one(scene, clip, tmp_path):
    said = of_scene(scene)
    said.length, said.first, said.second = POST, "foot", "top"
    path = saved(tmp_path / "tq.blend")
    by_hand = shots.read_shot(path, track="marker:ball", extras=Extras(length=POST, pixels=POST * SCALE))
    by_file = shots.read_shot(path, track="marker:ball")
    for reading in (by_hand, by_file):
        assert audited(reading.tracks[0]).flight.height.value == pytest.approx(THROW.height, rel=0.03)


def test_without_a_length_the_command_asks_for_one(scene, clip, tmp_path):
    with pytest.raises(SourceError, match="Type a known length of the footage"):
        shots.read_shot(saved(tmp_path / "tq.blend"), track="marker:ball")


def test_a_pixel_may_be_wider_than_it_is_high(scene, clip):
    # Twice as wide: as far up, and twice as far across.
    square = sample_marker(scene, clip, "ball", KNOWN).positions
    clip.tracking.camera.pixel_aspect = 2.0
    wide = sample_marker(scene, clip, "ball", KNOWN).positions
    assert wide[:, 2] == pytest.approx(square[:, 2])
    assert np.ptp(wide[:, 0]) == pytest.approx(2.0 * np.ptp(square[:, 0]))


def test_a_known_length_may_lean(scene, clip):
    # 3 and 4 parts of a picture that is as wide as high: 5 parts are the length.
    wide, high = clip.size
    for marker in clip.tracking.tracks["top"].markers:
        foot = clip.tracking.tracks["foot"].markers.find_frame(marker.frame).co
        marker.co = foot[0] - 90.0 / wide, foot[1] + 120.0 / high
    leaning = sample_marker(scene, clip, "ball", FootageScale(1.0, between=("foot", "top"))).positions
    by_size = sample_marker(scene, clip, "ball", FootageScale(1.0, pixels=150.0)).positions
    assert leaning == pytest.approx(by_size, rel=1e-4)
