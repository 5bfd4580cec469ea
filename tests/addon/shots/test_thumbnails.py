"""A thumbnail shows the top of the jump, is small, and changes nothing; where there can be none, a note says so."""

import json
from collections.abc import Callable
from pathlib import Path

import addon_utils
import bpy
import numpy as np
import pytest
from leapwright.addon import command
from leapwright.addon.shots.shot import audit_file
from leapwright.addon.shots.thumbnails import MOST_THUMBNAIL_BYTES, THUMBNAIL_WIDTH
from leapwright.analysis import Settings
from leapwright.analysis.day import DayRequest
from leapwright.analysis.shot import Extras, Shot, Thumbnail

from tests.addon.day import MOTION, keyed, saved

WAY = DayRequest(Settings(), extras=Extras(thumbnails=True))


@pytest.fixture
def crate(tmp_path: Path) -> Callable[..., Path]:
    """Save a crate of 40 cm that makes the hop, seen by a camera or by none."""

    def save(*, camera: bool = False, wide: tuple[int, int] = (1920, 1080)) -> Path:
        thing = keyed()
        mesh = bpy.data.meshes.new("Crate")
        corners = [(x, y, z) for x in (-0.2, 0.2) for y in (-0.2, 0.2) for z in (-0.2, 0.2)]
        faces = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
        mesh.from_pydata(corners, [], faces)
        body = bpy.data.objects.new("Body", mesh)
        bpy.context.scene.collection.objects.link(body)
        body.parent = thing
        scene = bpy.context.scene
        scene.render.resolution_x, scene.render.resolution_y = wide
        if camera:  # from above, north up, 8 m wide, on the spot of the apex
            lens = bpy.data.cameras.new("Camera")
            lens.type, lens.ortho_scale = "ORTHO", 8.0
            scene.camera = bpy.data.objects.new("Camera", lens)
            scene.collection.objects.link(scene.camera)
            x, y, _ = apex()
            scene.camera.location = (x - 2.0, y, 20.0)
        return saved(tmp_path / "tq010.blend")

    return save


def apex() -> np.ndarray:
    """Return the frame at which the hop has its apex."""
    track = MOTION.track
    return track.positions[int(abs(track.frames - MOTION.truth[0].apex).argmin())]


def only(shot: Shot) -> Thumbnail:
    ((thumbnail,),) = shot.thumbnails
    assert thumbnail is not None
    return thumbnail


def pixels(jpeg: bytes, tmp_path: Path) -> np.ndarray:
    """Return rows from the top, gray, as Blender's own reader of JPEG has them."""
    file = tmp_path / "read.jpg"
    file.write_bytes(jpeg)
    image = bpy.data.images.load(str(file))
    wide, tall = image.size
    gray = np.array(image.pixels[:]).reshape(tall, wide, 4)[::-1, :, 0]
    bpy.data.images.remove(image)
    return gray


def middle(gray: np.ndarray) -> tuple[float, float]:
    """Return where the pixels lie that differ from the corner's, as shares of the width from the middle of the picture.
    """
    rows, columns = np.nonzero(abs(gray - gray[0, 0]) > 0.1)
    tall, wide = gray.shape
    return (columns.mean() - (wide - 1) / 2) / wide, ((tall - 1) / 2 - rows.mean()) / wide


def test_without_a_camera_it_looks_at_the_top_of_the_jump_from_the_side(crate, tmp_path):
    thumbnail = only(audit_file(crate(), WAY))
    gray = pixels(thumbnail.jpeg, tmp_path)
    assert thumbnail.frame == round(MOTION.truth[0].apex) and len(thumbnail.jpeg) <= MOST_THUMBNAIL_BYTES
    assert gray.shape == (THUMBNAIL_WIDTH * 1080 // 1920, THUMBNAIL_WIDTH)
    assert middle(gray) == pytest.approx((0.0, 0.0), abs=0.02)


def test_it_looks_through_the_shots_own_camera_at_the_apex(crate, tmp_path):
    gray = pixels(only(audit_file(crate(camera=True, wide=(1000, 1000)), WAY)).jpeg, tmp_path)
    assert gray.shape == (THUMBNAIL_WIDTH, THUMBNAIL_WIDTH)
    assert middle(gray) == pytest.approx((2.0 / 8.0, 0.0), abs=0.005)  # 2 m right of the middle, of 8 m


def test_the_shot_and_its_figures_are_as_without_it(crate, tmp_path):
    path = crate()
    before = path.read_bytes()
    documents = []
    for more in ([], ["--thumbnails"]):
        out = tmp_path / f"{len(more)}.json"
        assert command.main(["audit", str(path), "--no-cache", "--json", str(out), *more]) == 0
        (shot,) = json.loads(out.read_text())["shots"]
        documents.append(shot | {"seconds": 0})
    plain, rendered = documents
    (jump,) = rendered["tracks"][0]["jumps"]
    assert jump.pop("thumbnail")["frame"] == round(MOTION.truth[0].apex)
    assert rendered == plain and path.read_bytes() == before
    assert [one.name for one in tmp_path.glob("*.blend*")] == ["tq010.blend"]


def test_a_busy_picture_is_made_small_enough(crate, tmp_path, monkeypatch):
    path = crate()
    most = len(only(audit_file(path, WAY)).jpeg) - 1
    monkeypatch.setattr("leapwright.addon.shots.thumbnails.MOST_THUMBNAIL_BYTES", most)
    assert len(only(audit_file(path, WAY)).jpeg) <= most


def test_where_nothing_is_rendered_a_note_says_so(tmp_path):
    keyed()  # an empty shows nothing
    shot = audit_file(saved(tmp_path / "tq010.blend"), WAY)
    assert shot.thumbnails == () and "no thumbnails: nothing in it is rendered" in shot.notes
    assert len(shot.audits[0].jumps) == 1


def test_a_blender_without_cycles_gives_the_figures_and_a_note(crate):
    path = crate()
    addon_utils.disable("cycles")
    try:
        shot = audit_file(path, WAY)
    finally:
        addon_utils.enable("cycles")
    assert "no thumbnails: this Blender has no Cycles" in shot.notes and len(shot.audits[0].jumps) == 1


def test_a_track_file_has_none(tmp_path):
    from tests.analysis.day import track_file

    assert audit_file(track_file(tmp_path / "tq010.json"), WAY).thumbnails == ()
