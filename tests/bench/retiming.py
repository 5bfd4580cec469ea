"""Cost of retiming keys, as a ratio to a plain Python loop that sets co.x and both handles of every key.

Both move the same keys by the same map and update every curve; ours also reads them, refuses what may not be
moved, keeps poses together on whole frames and checks that no two keys meet.
"""

import time
from collections.abc import Callable

import numpy as np
from leapwright.analysis.time_map import TimeMap

from .table import lines

KEYS = 10_000
LAYOUTS = (10, 50, 100, 250, 1000)
"""Curves that the keys are spread over."""


def action_of(curves: int):
    """Return an object with so many curves of its own properties, a key every third frame; KEYS in all."""
    import bpy

    thing = bpy.data.objects.new("Bench", None)
    bpy.context.scene.collection.objects.link(thing)
    from leapwright.addon import host

    for n in range(curves):
        thing[f"p{n}"] = 0.0
        thing.keyframe_insert(f'["p{n}"]', frame=1)
    each, rng = KEYS // curves, np.random.default_rng(curves)
    for curve in host.curves_of(thing.animation_data):
        points = curve.keyframe_points
        points.add(each - 1)
        values = np.column_stack([1.0 + 3.0 * np.arange(each), rng.normal(size=each)])
        points.foreach_set("co", values.astype(np.float32).ravel())
        for name, side in (("handle_left", -1.0), ("handle_right", 1.0)):
            points.foreach_set(name, (values + np.array([side, 0.1])).astype(np.float32).ravel())
            points.foreach_set(f"{name}_type", np.zeros(each, np.int32))
        curve.update()
    return thing


def ours(thing, time_map: TimeMap) -> None:
    """Move the keys as the operator does, without choosing the map."""
    import bpy
    from leapwright.addon import keys
    from leapwright.addon.retiming.character import parts_of

    parts = parts_of(bpy.context.scene, thing)
    table = keys.table_of([curve for part in parts for curve in part.curves], ahead=[0.0] * len(parts[0].curves))
    keys.write_changed(table, keys.moved(table, keys.new_frames(table, time_map), time_map))


def plain(thing, time_map: TimeMap) -> None:
    """Do it plainly: each key's frame and both handles by the map, one after the other."""
    from leapwright.addon import host

    old, new = time_map.old, time_map.new
    slope = (new[1] - new[0]) / (old[1] - old[0])
    for curve in host.curves_of(thing.animation_data):
        for key in curve.keyframe_points:
            x = key.co.x
            moved = x if x <= old[0] else new[0] + (x - old[0]) * slope if x < old[1] else x + new[1] - old[1]
            scale = slope if old[0] < x < old[1] else 1.0
            left, right = key.handle_left.x - x, key.handle_right.x - x
            key.co.x = moved
            key.handle_left.x = moved + left * scale
            key.handle_right.x = moved + right * scale
        curve.update()


def timed(route: Callable[[object, TimeMap], None], thing, time_map: TimeMap) -> float:
    """Return seconds of one call."""
    start = time.perf_counter()
    route(thing, time_map)
    return time.perf_counter() - start


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Print ours ÷ plain by how many curves the keys lie on; both move the keys there and back."""
    import bpy

    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    rows, ratios = [], {}
    for curves in LAYOUTS:
        thing = action_of(curves)
        last = 1.0 + 3.0 * (KEYS // curves)
        there = TimeMap((2.0, last / 2), (2.0, last * 0.75))
        back = TimeMap(there.new, there.old)
        spent = {ours: [], plain: []}
        for _ in range(tries or 7):
            for route, times in spent.items():
                times += [timed(route, thing, time_map) for time_map in (there, back)]
        mine, theirs = (float(np.median(times)) for times in spent.values())
        ratios[curves] = mine / theirs
        rows.append([f"{curves} curves of {KEYS // curves} keys", f"{mine / theirs:.3f}", f"{theirs / mine:.1f}"])
        bpy.data.objects.remove(thing)
    print("\n".join(lines((f"{KEYS} keys", "retime / plain loop", "times faster"), rows)))
    return {"ratios": ratios, "worst": max(ratios.values())}
