"""Cost of an audit, as ratios to a plain scipy script on the same track in the same run."""

import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from functools import partial

import numpy as np
from leapwright.analysis import Track, audit_track
from leapwright.analysis.world import STANDARD_GRAVITY

from tests.truth.leaps import Leap, path_of

from .table import lines

LEAP = Leap(height=0.4, distance=0.35, gravity=STANDARD_GRAVITY, drop=0.4, absorb=0.25, lift=0.1, hold=0.1)
SIZES = ((250, 1), (800, 3), (2500, 10), (8000, 32), (25000, 100))


def track_of(frames: int, jumps: int, *, fps: float = 24.0, seed: int = 0) -> Track:
    """Return a track of this many frames with this many believable jumps, no two alike, standing between."""
    rng = np.random.default_rng(seed)
    leaps = [replace(LEAP, height=h, drop=h) for h in rng.uniform(0.3, 0.5, jumps)]
    path, _ = path_of(leaps, [0.01] * (jumps - 1), 0.01, 0.01)
    spare = frames / fps - path.starts[-1]
    rests = spare * rng.dirichlet(np.full(jumps + 1, 20.0))
    path, _ = path_of(leaps, list(rests[1:-1] + 0.01), rests[0], rests[-1])
    number = np.arange(frames, dtype=float)
    heights = 1.0 + path.at((number + 0.37) / fps)
    return Track("speed", fps, number, np.column_stack([0.02 * number, 0 * number, heights]))


def plain_script(track: Track) -> list[float]:
    """Audit plainly: smooth, find peaks, fit a parabola to each by curve_fit."""
    from scipy.optimize import curve_fit
    from scipy.signal import find_peaks, savgol_filter

    seconds, heights = track.seconds, track.heights
    smooth = savgol_filter(heights, 7, 3)
    pull = savgol_filter(heights, 7, 3, deriv=2, delta=1 / track.fps)
    gravities = []
    for peak in find_peaks(smooth, prominence=0.05)[0]:
        a = b = peak
        while a > 0 and pull[a - 1] < -4:
            a -= 1
        while b < len(pull) - 1 and pull[b + 1] < -4:
            b += 1
        if b - a >= 4:
            t, z = seconds[a : b + 1] - seconds[peak], heights[a : b + 1]
            best, _ = curve_fit(lambda t, z0, v, g: z0 + v * t - g * t * t / 2, t, z, (z.max(), 0.0, 9.8))
            gravities.append(best[2])
    return gravities


def side_by_side(*calls: Callable[[], object], least: float = 0.4, rounds: int = 15) -> list[float]:
    """Lowest decile of the seconds of each call, taken in turn in one loop of at least `rounds` and `least` seconds.

    Seconds of the processor, all threads of this process together: what else the machine does is left out.
    """
    for call in calls:
        call()
    spent = [[] for _ in calls]
    start = time.perf_counter()
    while len(spent[0]) < rounds or time.perf_counter() - start < least:
        for call, times in zip(calls, spent, strict=True):
            before = time.process_time()
            call()
            times.append(time.process_time() - before)
    return [float(np.percentile(times, 10.0)) for times in spent]


def imported_beyond_numpy() -> list[str]:
    """Third-party packages that an audit of one track pulls in, in a fresh process, beside numpy."""
    code = (
        "import sys; import numpy as n; old = {m.split('.')[0] for m in sys.modules};"
        "from leapwright.analysis import Track, audit_track;"
        "z = n.concatenate([n.zeros(9), .5 - 9.81/2*((n.arange(17)-8)/24)**2, n.zeros(9)]);"
        "audit_track(Track('t', 24, n.arange(35), n.column_stack([z*0, z*0, z])));"
        "new = {m.split('.')[0] for m in sys.modules} - old - set(sys.stdlib_module_names);"
        "print(*sorted(m for m in new if m != 'leapwright' and not m.startswith('__editable')))"
    )
    return subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    ).stdout.split()


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print audit ÷ plain script by length, the exponent of growth, and what an audit imports."""
    tracks = [track_of(frames, jumps) for frames, jumps in ((300, 1), *SIZES)]
    calls = [partial(route, track) for track in tracks for route in (audit_track, plain_script)]
    short = side_by_side(*calls[:2], rounds=tries or 60)
    spent = side_by_side(*calls, rounds=tries or 9)
    ours, plain = spent[::2], spent[1::2]
    head = ("track", "jumps found ours/plain", "audit / plain script", "audit / our 300")
    rows = [
        [
            f"{len(track.frames)} frames",
            f"{len(audit_track(track).jumps)}/{len(plain_script(track))}",
            f"{mine / theirs:.2f}",
            f"{mine / ours[0]:.1f}",
        ]
        for track, mine, theirs in zip(tracks, ours, plain, strict=True)
    ]
    print("\n".join(lines(head, rows)))
    print(f"300 frames, one jump, timed alone: audit / plain script {short[0] / short[1]:.2f}")
    lengths = np.log([frames for frames, _ in SIZES])
    exponents = {
        "all lengths": float(np.polyfit(lengths, np.log(ours[1:]), 1)[0]),
        "from 2500 frames on": float(np.polyfit(lengths[2:], np.log(ours[3:]), 1)[0]),
    }
    for over, exponent in exponents.items():
        print(f"growth with frames and jumps, {over}: exponent {exponent:.2f}")
    beyond = imported_beyond_numpy()
    print(f"imported beside numpy: {', '.join(beyond) or 'nothing'}")
    return {"rows": rows, "ratio_300": short[0] / short[1], "exponents": exponents, "imported": beyond}
