"""Write a picture as a small PNG (ISO/IEC 15948): at most 128 colors, each pixel the nearest of them.

The commonest are taken, and of rarer ones the brightest.
"""

import struct
import zlib

import numpy as np

COLORS = 128
STEPS = 16
"""Levels of each channel among which the colors are told apart."""


def png(pixels: np.ndarray) -> bytes:
    """Encode (h, w, 3) pixels, 0 to 255, the top row first."""
    palette, picture = _reduced(pixels)
    high, wide = picture.shape
    head = struct.pack(">IIBBBBB", wide, high, 8, 3, 0, 0, 0)
    rows = np.hstack([np.zeros((high, 1), np.uint8), picture]).tobytes()
    parts = (b"IHDR", head), (b"PLTE", palette.tobytes()), (b"IDAT", zlib.compress(rows, 9)), (b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + b"".join(_chunk(*part) for part in parts)


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def _reduced(pixels: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Return the palette (c, 3), and for each pixel its color's number."""
    flat = pixels.reshape(-1, 3)
    _, where, counts = np.unique(flat // STEPS, axis=0, return_inverse=True, return_counts=True)
    where = where.reshape(-1)
    means = np.stack([np.bincount(where, flat[:, n]) for n in range(3)], axis=1) / counts[:, None]
    vivid = 1.0 + np.ptp(means, axis=1) / STEPS  # a picture of a few bright pixels is not to turn gray
    kept = means[np.argsort(-counts * vivid**2)[:COLORS]]
    away = ((means[:, None] - kept) ** 2).sum(axis=2)
    nearest = away.argmin(axis=1).astype(np.uint8)
    return kept.round().astype(np.uint8), nearest[where].reshape(pixels.shape[:2])
