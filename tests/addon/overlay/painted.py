"""Draw a known jump off screen, look its pixels up, and write what was found as JSON to the file of the last argument.

It runs in its own process: where no graphics library is found, Blender ends the process without a message.
"""

import json
import sys
import time
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import bpy
import gpu
import numpy as np
from leapwright.addon.overlay import viewport
from leapwright.addon.overlay.batches import batches_of, draw
from leapwright.addon.overlay.geometry import Drawing, Kind, drawing_of
from leapwright.addon.overlay.style import LOOKS, DotShape
from leapwright.analysis import Track
from mathutils import Matrix

from tests.addon.overlay.flown import FINDING, jump, track

WIDE, HIGH = 800, 480
LEFT, RIGHT, LOW, TOP = -0.6, 1.8, 0.5, 1.94
"""Meters that the picture spans, as wide to high as its pixels."""


def start():
    """Make a graphics context: from 5.2 on Blender has one from the start, older releases have one after a render."""
    if hasattr(gpu, "init"):
        gpu.init()
        return
    scene = bpy.context.scene
    scene.render.engine, scene.render.resolution_x, scene.render.resolution_y = "BLENDER_WORKBENCH", 8, 8
    scene.camera = bpy.data.objects.new("Camera", bpy.data.cameras.new("Camera"))
    bpy.ops.render.render()


def view():
    """Return world to clip space: x to the right, z up."""
    wide, high = 2.0 / (RIGHT - LEFT), 2.0 / (TOP - LOW)
    return Matrix((
        (wide, 0.0, 0.0, -1.0 - LEFT * wide),
        (0.0, 0.0, high, -1.0 - LOW * high),
        (0.0, 0.01, 0.0, 0.0),
        (0.0, 0.0, 0.0, 1.0),
    ))  # fmt: skip


def pixels_of(drawing, looks):
    """Return (HIGH, WIDE, 4) bytes of a drawing on black."""
    canvas = gpu.types.GPUOffScreen(WIDE, HIGH)
    with canvas.bind():
        frame = gpu.state.active_framebuffer_get()
        frame.clear(color=(0.0, 0.0, 0.0, 0.0))
        gpu.state.face_culling_set("NONE")
        gpu.state.color_mask_set(True, True, True, True)
        with gpu.matrix.push_pop(), gpu.matrix.push_pop_projection():
            gpu.matrix.load_matrix(Matrix.Identity(4))
            gpu.matrix.load_projection_matrix(view())
            draw(batches_of(drawing), looks, view=view(), size=(WIDE, HIGH), scale=1.0, encoded=False)
        buffer = frame.read_color(0, 0, WIDE, HIGH, 4, 0, "UBYTE")
    buffer.dimensions = WIDE * HIGH * 4
    picture = np.array(buffer, np.uint8).reshape(HIGH, WIDE, 4)
    canvas.free()
    return picture


def where(points):
    """Return the pixels at which places of the scene lie."""
    x = (points[:, 0] - LEFT) / (RIGHT - LEFT) * WIDE
    return np.column_stack((x, (points[:, 2] - LOW) / (TOP - LOW) * HIGH))


def seen(picture, color):
    """Return the centers of the pixels that have this color."""
    apart = np.abs(picture[..., :3].astype(float) / 255.0 - color[:3]).max(axis=-1)
    rows, columns = np.nonzero((apart < 0.12) & (picture[..., 3] > 128))
    return np.column_stack((columns + 0.5, rows + 0.5))


def distances(expected, found):
    """Return the largest distance from an expected pixel to the nearest one found, and the other way round."""
    apart = np.linalg.norm(expected[:, None] - found[None], axis=-1)
    return float(apart.min(axis=1).max()), float(apart.min(axis=0).max())


def redraws():
    """Draw twenty jumps of 300 frames a hundred times: batches made, milliseconds of this thread for the quickest."""
    many = drawing_of(longer(), [jump()] * 20, 0, finding=FINDING, ghost=longer(), before=longer())
    made, spent, canvas = [], [], gpu.types.GPUOffScreen(WIDE, HIGH)
    seen_from = SimpleNamespace(perspective_matrix=view())
    region = SimpleNamespace(width=WIDE, height=HIGH)
    viewport.bpy = SimpleNamespace(
        context=SimpleNamespace(region=region, region_data=seen_from, preferences=bpy.context.preferences)
    )
    viewport._shown = lambda: many
    viewport.batches_of = lambda drawing: made.append(drawing) or batches_of(drawing)
    with canvas.bind():
        for _ in range(101):
            began = time.thread_time()
            viewport._draw_lines()
            spent.append(time.thread_time() - began)
    canvas.free()
    points = sum(len(part) for part in many.dots.values())
    return {"made": len(made), "ms": 1e3 * min(spent[1:]), "points": points}


def longer():
    """Return the path of the jump, 300 frames of it for each of the twenty."""
    short = track()
    frames = np.arange(1.0, 301.0)
    places = [np.interp(frames, short.frames, short.positions[:, axis]) for axis in range(3)]
    return Track("Moss", short.fps, frames, np.column_stack(places))


def main(path):
    """Draw each kind by itself and all together, then time and again."""
    start()
    whole = drawing_of(track(2.0), [jump(2.0)], 0, finding=FINDING, ghost=track(), before=track(1.5))
    facts = {}
    for kind, pieces in whole.lines.items():
        color = (0.2, 0.9, 0.4, 1.0)
        look = replace(LOOKS[kind], color=color, width=2.0, size=0.0)
        picture = pixels_of(Drawing({kind: pieces}, {}), {kind: look})
        along = pieces[:, None, 0] + np.linspace(0.0, 1.0, 40)[None, :, None] * (pieces[:, 1] - pieces[:, 0])[:, None]
        spots = where(along.reshape(-1, 3))
        inside = ((spots > 1.0) & (spots < (WIDE - 1.0, HIGH - 1.0))).all(axis=1)
        facts[f"line {kind}"] = distances(spots[inside], seen(picture, color))
    for shape in DotShape:
        dots = whole.dots[Kind.REAL]
        look = replace(LOOKS[Kind.REAL], color=(0.2, 0.9, 0.4, 1.0), width=0.0, size=11.0, shape=shape)
        found = seen(pixels_of(Drawing({}, {Kind.REAL: dots}), {Kind.REAL: look}), look.color)
        spots = where(dots)
        own = np.linalg.norm(found[:, None] - spots[None], axis=-1)
        means = [found[own.argmin(axis=1) == n].mean(axis=0) for n in range(len(spots))]
        facts[f"dot {shape.name}"] = [float(np.abs(np.array(means) - spots).max()), float(own.min(axis=1).max())]
        facts[f"middle {shape.name}"] = float(own.min())
    picture = pixels_of(whole, LOOKS)
    facts["colors"] = {kind: len(seen(picture, LOOKS[kind].color)) for kind in whole.lines}
    facts["redraws"] = redraws()
    Path(path).write_text(json.dumps(facts), encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[-1])
