"""Track: the path of one point over frames, checked once so that nothing after it has to."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache
from typing import Self

import numpy as np
from numpy.typing import ArrayLike

from .arrays import Array
from .errors import SettingsError, TrackError

INTERPOLATIONS = ("constant", "linear", "bezier")
EVENTS = ("crouch", "takeoff", "apex", "landing", "absorbed")
FEWEST_FRAMES = 5
MOST_FRAMES = 100_000
"""More than an hour of film; a search for jumps takes about 10 kB a frame."""
LAST_FRAME = 1e7
"""Frame number past which, either way, a frame is taken for a mistake; Blender's own end is at 1 048 574."""
LEAST_SAMPLE_GAP = 1e-6
"""Frames apart under which two samples are taken for one."""
FARTHEST_POSITION = 1e6
"""Meters from the origin past which a position is taken for a mistake."""


class Followed(StrEnum):
    """What the point of a track is to the body that jumps."""

    BODY = "body"
    """A point of it: its hips, its root, a marker on it. Limbs move the center of mass against it."""
    CENTER_OF_MASS = "center of mass"
    """What a free flight carries along a parabola, whatever the limbs do."""
    THING = "thing"
    """A body without limbs: a crate, a ball."""


@dataclass(frozen=True, slots=True)
class Marks:
    """Events of one jump pinned by hand, in frames; or a range of frames said to hold no jump.

    A jump takes the marks whose frames lie within it. Marks with takeoff and landing make a jump
    where none was found. Raises SettingsError when nothing is pinned or the events do not rise.

    >>> Marks(takeoff=21).takeoff
    21
    """

    crouch: float | None = None
    takeoff: float | None = None
    apex: float | None = None
    landing: float | None = None
    absorbed: float | None = None
    no_jump: tuple[float, float] | None = None

    def __post_init__(self) -> None:
        pinned = list(self.pinned.values())
        if self.no_jump is not None:
            if pinned:
                raise SettingsError("marks either pin events or say that there is no jump, not both")
            pinned = list(self.no_jump)
        if not pinned:
            raise SettingsError("marks pin no event")
        if not all(np.isfinite(pinned)):
            raise SettingsError(f"marks must be frames, finite numbers, not {pinned}")
        if any(b <= a for a, b in zip(pinned, pinned[1:], strict=False)):
            raise SettingsError(f"marks must rise from crouch to absorbed, not {pinned}")

    @classmethod
    def of(cls, pinned: Mapping[str, float]) -> Self:
        """Mark events by their names; each its frame. Raises what the marks themselves do."""
        crouch, takeoff, apex, landing, absorbed = map(pinned.get, EVENTS)
        return cls(crouch, takeoff, apex, landing, absorbed)

    @property
    def pinned(self) -> dict[str, float]:
        """The pinned events by name, in their order in time."""
        return {name: getattr(self, name) for name in EVENTS if getattr(self, name) is not None}


@dataclass(frozen=True, slots=True, eq=False)
class Track:
    """One point's world path: meters, z up, one row a frame.

    name            what the animator calls it
    fps             frames per second (fps / fps_base of a scene)
    frames          (n,) rising, n ≥ 5, whole or not
    positions       (n, 3) meters, z against gravity
    key_frames      (k,) rising: frames that carry a key of this point; None when not known
    interpolation   how the keys are joined: constant (stepped), linear or bezier; None when not known
    feet            (n, m, 3) meters: m points that touch the ground; None when not known; a row that is not a
                    number throughout was not read
    ground          height of the ground under them, meters: one number, or (n, m); None when not known
    source          where it came from: file, object, bone, …
    notes           sentences the audit passes on ("read without its constraints")
    marks           events pinned by hand
    follows         what the point is to the body that jumps
    placed_by_keys  its own location keys alone say where it is

    Arrays are copied and read-only; what makes one, such as a list, is taken as well. Raises TrackError that says
    what is wrong and where.

    >>> Track("root", 24, range(5), [[0, 0, 1]] * 5).seconds[-1]
    0.16666666666666666
    """

    name: str
    fps: float
    frames: Array
    positions: Array
    key_frames: Array | None = None
    interpolation: str | None = None
    feet: Array | None = None
    source: str = "file"
    notes: tuple[str, ...] = ()
    marks: tuple[Marks, ...] = ()
    ground: Array | None = None
    follows: Followed = Followed.BODY
    placed_by_keys: bool = False

    def __post_init__(self) -> None:
        frames = _array("frames", self.frames, 1)
        n = len(frames)
        if n < FEWEST_FRAMES:
            raise TrackError(f"a track needs at least {FEWEST_FRAMES} frames, this one has {n}")
        if n > MOST_FRAMES:
            raise TrackError(f"a track may have {MOST_FRAMES} frames at most, this one has {n}: cut it to the shot")
        frames = _rising(frames.tobytes())
        positions = _array("positions", self.positions, 2)
        if positions.shape != (n, 3):
            raise TrackError(f"positions must be {n} rows of x, y, z, one a frame, not {_shape(positions)}")
        _check_near("positions", positions, frames)
        try:
            fps = float(self.fps)
        except (TypeError, ValueError):
            raise TrackError(f"fps must be a number, not {self.fps!r}") from None
        if not 0.0 < fps <= 1e5:
            raise TrackError(f"fps must be above 0 and at most 100 000, not {fps}")
        if self.interpolation not in (None, *INTERPOLATIONS):
            raise TrackError(f"interpolation must be one of {', '.join(INTERPOLATIONS)}, not {self.interpolation!r}")
        object.__setattr__(self, "fps", fps)
        object.__setattr__(self, "frames", frames)
        object.__setattr__(self, "positions", positions)
        object.__setattr__(self, "key_frames", _key_frames(self.key_frames))
        object.__setattr__(self, "feet", _feet(self.feet, frames))
        object.__setattr__(self, "ground", _ground(self.ground, self.feet))
        object.__setattr__(self, "notes", tuple(self.notes))
        object.__setattr__(self, "marks", tuple(self.marks))

    @property
    def heights(self) -> Array:
        """(n,) meters above the world's origin."""
        return self.positions[:, 2]

    @property
    def seconds(self) -> Array:
        """(n,) seconds from the first frame."""
        return (self.frames - self.frames[0]) / self.fps

    def noting(self, *notes: str) -> "Track":
        """Return the same track with more notes."""
        return replace(self, notes=(*self.notes, *notes))

    def __repr__(self) -> str:
        return f"Track({self.name!r}, {len(self.frames)} frames at {self.fps:g} fps)"


def _array(what: str, values: ArrayLike, dimensions: int) -> Array:
    try:
        array = np.array(values, dtype=np.float64)
    except (TypeError, ValueError, OverflowError):
        raise TrackError(f"{what} must be numbers in even rows") from None
    if array.ndim != dimensions:
        raise TrackError(f"{what} must have {dimensions} dimension(s), not {_shape(array)}")
    array.flags.writeable = False
    return array


def _check_finite(what: str, array: Array) -> None:
    if not np.isfinite(array).all():
        where = tuple(int(i) for i in np.argwhere(~np.isfinite(array))[0])
        raise TrackError(f"{what} must be finite: row {where[0] + 1} holds {array[where]}")


@lru_cache(maxsize=16)
def _rising(numbers: bytes, what: str = "frames") -> Array:
    """Return times that rise; found again where they were checked before: of a path that changes, they mostly stay."""
    values = np.frombuffer(numbers)
    _check_finite(what, values)
    steps = values[1:] - values[:-1]
    apart = steps.min(initial=LEAST_SAMPLE_GAP) >= LEAST_SAMPLE_GAP
    if not len(values) or (apart and max(-values[0], values[-1]) <= LAST_FRAME):
        return values
    back = np.flatnonzero(steps <= 0)
    if len(back):
        a, b = values[back[0]], values[back[0] + 1]
        raise TrackError(f"{what} must rise: {b:.10g} follows {a:.10g} in row {back[0] + 2}")
    late = np.flatnonzero(np.abs(values) > LAST_FRAME)
    if len(late):
        raise TrackError(f"{what} must lie within ±10 000 000: row {late[0] + 1} holds {values[late[0]]:.10g}")
    close = np.flatnonzero(steps < LEAST_SAMPLE_GAP)
    rows = f"rows {close[0] + 1} and {close[0] + 2}"
    raise TrackError(f"{what} must lie {LEAST_SAMPLE_GAP:g} apart at least: {rows} do not")


def _check_near(what: str, positions: Array, frames: Array) -> None:
    """Check that positions are numbers, and near: where one is no number, neither is the largest of them."""
    if not np.abs(positions).max(initial=0.0) <= FARTHEST_POSITION:
        _check_finite(what, positions)
        far = np.argwhere(np.abs(positions) > FARTHEST_POSITION)
        raise TrackError(f"{what} must be meters within ±1 000 km: frame {frames[far[0][0]]:g} is outside")


def _key_frames(key_frames: ArrayLike | None) -> Array | None:
    if key_frames is None:
        return None
    return _rising(_array("key_frames", key_frames, 1).tobytes(), "key_frames")


def _feet(feet: ArrayLike | None, frames: Array) -> Array | None:
    if feet is None:
        return None
    array = _array("feet", feet, 3)
    if len(array) != len(frames) or array.shape[2] != 3:
        raise TrackError(
            f"feet must be {len(frames)} rows of points of x, y, z, one row a frame, not {_shape(array)}"
        )
    read = ~np.isnan(array).all(axis=(1, 2))
    _check_finite("feet", np.where(read[:, None, None], array, 0.0))
    _check_near("feet", array[read].reshape(int(read.sum()), -1), frames[read])
    return array if read.any() else None


def _ground(ground: ArrayLike | None, feet: Array | None) -> Array | None:
    if ground is None or feet is None:
        return None
    try:
        array = np.broadcast_to(np.array(ground, dtype=np.float64), feet.shape[:2])
    except (TypeError, ValueError):
        wanted = _shape(feet[:, :, 0])
        raise TrackError(f"ground must be one height, or {wanted}: one for each frame and foot") from None
    if not np.isfinite(array).all() or np.abs(array).max(initial=0.0) > FARTHEST_POSITION:
        raise TrackError("ground must be finite heights in meters within ±1 000 km")
    return array


def _shape(array: Array) -> str:
    return " × ".join(str(n) for n in array.shape)
