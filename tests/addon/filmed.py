"""A ball thrown up and caught, as footage: numbered images drawn here, and markers placed where the images show it.

The ball is red, the ends of a post of known height are green and blue. Each is found again as the center of its color,
so that a marker knows no more than the picture shows.
"""

import struct
import zlib
from functools import cache
from pathlib import Path

import bpy
import numpy as np

from tests.analysis.closed_form import Leap, build

WIDE, HIGH = 320, 240
SCALE = 90.0
"""Pixels a meter."""
POST = 1.5
"""Meters from the foot of the post to its top."""
THROW = Leap(height=0.9, push=0.4, absorb=0.35, distance=1.2)
AT = np.array([60.0, 60.0])
"""Pixels of the hand at the start, of x, and of z = 1 m."""


def film(folder: Path, leap: Leap = THROW) -> bpy.types.MovieClip:
    """Write the images, load them as a clip and mark ball, foot and top on each."""
    images, rows = _drawn(leap)
    for number, image in enumerate(images, 1):
        (folder / f"throw_{number:04d}.png").write_bytes(image)
    clip = bpy.data.movieclips.load(str(folder / "throw_0001.png"))
    for column, name in enumerate(("ball", "foot", "top")):
        marker = clip.tracking.tracks.new(name=name, frame=1)
        for number, row in enumerate(rows, 1):
            marker.markers.insert_frame(number, co=row[column] / [WIDE, HIGH])
    clip.use_fake_user = True  # no window shows it, and a file keeps only what has a user
    bpy.context.scene.render.fps = round(leap.fps)
    return clip


@cache
def _drawn(leap: Leap) -> tuple[list[bytes], list[list[np.ndarray]]]:
    """Return the images as PNG, and the middle of red, green and blue on each, pixels."""
    track, _ = build(leap)
    images, rows = [], []
    for place in track.positions:
        ball = AT + SCALE * (place[[0, 2]] - [0.0, 0.6])
        post = np.array([[280.0, 20.0], [280.0, 20.0 + SCALE * POST]])
        image = np.stack([_disk(ball, 7.0), _disk(post[0], 4.0), _disk(post[1], 4.0)], axis=2)
        image = np.round(image * 255.0).astype(np.uint8)
        images.append(_png(image))
        rows.append([_center(image[:, :, channel]) for channel in range(3)])
    return images, rows


def _disk(center: np.ndarray, radius: float) -> np.ndarray:
    """Return a disk with soft edges, row 0 at the top of the picture."""
    y, x = np.mgrid[HIGH - 0.5 : 0.0 : -1.0, 0.5:WIDE]
    return np.clip(radius + 0.5 - np.hypot(x - center[0], y - center[1]), 0.0, 1.0)


def _center(channel: np.ndarray) -> np.ndarray:
    """Return the middle of what is bright, pixels from the lower left corner."""
    y, x = np.mgrid[HIGH - 0.5 : 0.0 : -1.0, 0.5:WIDE]
    weight = channel.astype(np.float64)
    return np.array([(x * weight).sum(), (y * weight).sum()]) / weight.sum()


def _png(image: np.ndarray) -> bytes:
    """Encode (h, w, 3) bytes as PNG (ISO/IEC 15948): header, one deflated block without filters, end."""
    raw = b"".join(b"\0" + row.tobytes() for row in image)
    head = struct.pack(">IIBBBBB", image.shape[1], image.shape[0], 8, 2, 0, 0, 0)
    parts = ((b"IHDR", head), (b"IDAT", zlib.compress(raw)), (b"IEND", b""))
    chunks = (struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
              for kind, data in parts)  # fmt: skip
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunks)
