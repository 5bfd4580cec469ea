"""The overlay as it is drawn: its pixels lie where the numbers say, and a redraw builds no batch again."""

import json
import subprocess
import sys

import pytest
from leapwright.addon.overlay.style import LOOKS, DotShape

AWAY = 2.0
"""Most pixels that a drawn pixel may lie off (ours)."""


@pytest.fixture(scope="module")
def painted(tmp_path_factory, root):
    """Return what a process of its own draws and looks up; skip where there is no graphics library."""
    path = tmp_path_factory.mktemp("painted") / "facts.json"
    command = [sys.executable, "-m", "tests.addon.overlay.painted", str(path)]
    done = subprocess.run(command, cwd=root, capture_output=True, text=True, timeout=300)
    if not path.exists() and done.returncode < 0:
        pytest.skip("this machine has no graphics library: Blender ended")
    assert path.exists(), done.stdout + done.stderr
    return json.loads(path.read_text(encoding="utf-8"))


@pytest.mark.parametrize("kind", [kind for kind, look in LOOKS.items() if look.width])
def test_lines_are_where_the_numbers_say_and_nowhere_else(painted, kind):
    missing, beyond = painted[f"line {kind}"]
    assert missing <= AWAY and beyond <= AWAY + 1.0  # half of the width of 2 pixels


@pytest.mark.parametrize("shape", DotShape, ids=lambda shape: shape.name)
def test_dots_are_where_the_numbers_say(painted, shape):
    off, reach = painted[f"dot {shape.name}"]
    assert off <= AWAY
    assert reach <= 11.0 / 2.0**0.5 + 1.0  # the corner of a square of 11 pixels


def test_a_ring_is_open_in_the_middle_and_the_other_shapes_are_not(painted):
    assert painted["middle RING"] > 2.0
    assert all(painted[f"middle {shape.name}"] < 1.0 for shape in DotShape if shape is not DotShape.RING)


def test_every_kind_is_seen_in_the_whole(painted):
    opaque = {kind: count for kind, count in painted["colors"].items() if LOOKS[kind].color[3] == 1.0}
    assert all(count > 5 for count in opaque.values()) and len(opaque) >= 7, opaque


def test_a_hundred_redraws_make_no_batch_and_take_under_a_millisecond_each(painted):
    redraws = painted["redraws"]
    assert redraws["points"] > 20 * 28  # twenty paths of a jump at least
    assert redraws["made"] == 1  # the first
    assert redraws["ms"] < 1.0
