"""Batches of a drawing, made when it changes, and drawn as often as Blender asks."""

from dataclasses import dataclass
from typing import Any, Literal

import gpu
import numpy as np
from gpu.types import GPUBatch, GPUShader
from gpu_extras.batch import batch_for_shader
from mathutils import Matrix

from ...analysis.arrays import Array
from . import shader
from .geometry import Drawing, Kind
from .style import EDGE_COLOR, Look

HALO = 2.0
"""Pixels by which the edge of a line is wider than the line."""


@dataclass(frozen=True, slots=True, eq=False)
class Batches:
    """What the graphics card holds of a drawing, by kind."""

    lines: dict[Kind, GPUBatch]
    dots: dict[Kind, GPUBatch]


def batches_of(drawing: Drawing) -> Batches:
    """Hand a drawing over to the graphics card."""
    return Batches(
        {kind: _batch(shader.strokes(), "LINES", pieces.reshape(-1, 3)) for kind, pieces in drawing.lines.items()},
        {kind: _batch(shader.dot_shader(), "POINTS", points) for kind, points in drawing.dots.items()},
    )


def draw(
    batches: Batches,
    looks: dict[Kind, Look],
    *,
    view: Matrix,
    size: tuple[float, float],
    scale: float,
    encoded: bool = True,
) -> None:
    """Draw lines and dots.

    view: world to clip space; size: of the region in pixels; scale: of the interface; encoded: as in `shader.dots`.
    """
    gpu.state.blend_set("ALPHA")
    gpu.state.depth_test_set("NONE")
    gpu.state.program_point_size_set(True)
    strokes, dots = shader.strokes(), shader.dot_shader()
    for kind, look in looks.items():
        if (batch := batches.lines.get(kind)) is not None and look.width > 0.0:
            strokes.bind()
            strokes.uniform_float("viewportSize", size)
            for width, color in ((look.width + HALO, EDGE_COLOR), (look.width, look.color)):
                strokes.uniform_float("lineWidth", width * scale)
                strokes.uniform_float("color", color)
                batch.draw(strokes)
        if (batch := batches.dots.get(kind)) is not None and look.size > 0.0:
            dots.bind()
            dots.uniform_float("view", view)  # type: ignore[arg-type]  # a matrix is taken as well
            dots.uniform_float("color", look.color)
            dots.uniform_float("edge", EDGE_COLOR)
            dots.uniform_float("size", look.size * scale + 3.0)
            dots.uniform_int("shape", int(look.shape))
            dots.uniform_int("encoded", int(encoded))
            batch.draw(dots)
    gpu.state.program_point_size_set(False)
    gpu.state.blend_set("NONE")


def _batch(of_shader: GPUShader, kind: Literal["LINES", "POINTS"], points: Array) -> GPUBatch:
    at: Any = np.ascontiguousarray(points, dtype=np.float32)  # taken as it is, with no list made of it
    return batch_for_shader(of_shader, kind, {"pos": at})
