"""The first bytes of a .blend file."""

import gzip

import bpy
import pytest
import zstandard
from leapwright.addon.shots.blend_header import check_header, saved_by
from leapwright.analysis import SourceError

from tests.addon.day import saved


def test_the_header_tells_a_newer_file_from_no_blend_file(tmp_path):
    path = tmp_path / "a.blend"
    path.write_bytes(b"BLENDER17-01v0502REND....")
    for reader in ((4, 5, 0), (5, 0, 1)):  # 4.5 can read what 5.0 writes
        check_header(path, newest=reader)
    with pytest.raises(SourceError, match=r"saved by Blender 5\.2, which this Blender 4\.2 cannot open"):
        check_header(path, newest=(4, 2, 23))
    assert saved_by(b"BLENDER_V279") == (2, 79) and saved_by(b"BLENDERS") is None
    assert saved_by(saved(tmp_path / "b.blend", compress=False).read_bytes()[:17]) == bpy.app.version[:2]


@pytest.mark.parametrize("pack", [gzip.compress, zstandard.compress])
def test_the_header_is_looked_for_within_a_compressed_file_too(tmp_path, pack):
    path = tmp_path / "a.blend"
    path.write_bytes(pack(b"BLENDER17-01v0502REND...."))
    with pytest.raises(SourceError, match=r"saved by Blender 5\.2, which this Blender 4\.2 cannot open"):
        check_header(path, newest=(4, 2, 23))
    path.write_bytes(pack(b"a letter from Brindle"))
    with pytest.raises(SourceError, match=r"its content is no \.blend file"):
        check_header(path, newest=(5, 0, 1))
    for length in (5, 12):
        path.write_bytes(pack(b"BLENDER17-01v0502REND....")[:length])
        with pytest.raises(SourceError, match="the file is cut short or damaged"):
            check_header(path, newest=(5, 0, 1))
    check_header(saved(tmp_path / "b.blend", compress=True), newest=bpy.app.version)
