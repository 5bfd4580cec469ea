"""Seeded shots retimed and undone: what was forecast against what an audit says once the keys have moved."""

import sys
from collections import Counter

from .table import lines

SHOTS = 25


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Retime each of so many shots in four ways; print how they end, and every fault."""
    import bpy
    from leapwright import addon

    addon.register()
    try:
        from tests.addon.round_trip import KEEPS, round_trip

        trips = [round_trip(seed, way) for seed in range(tries or SHOTS) for way in range(len(KEEPS))]
    finally:
        bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
        addon.unregister()
    ends = Counter(trip.end for trip in trips)
    faulty = [trip for trip in trips if trip.faults]
    for trip in faulty:
        print(f"{trip.said}: {'; '.join(trip.faults)}", file=sys.stderr)
    print("\n".join(lines(("how it ends", "retimings"), [[end, str(count)] for end, count in ends.most_common()])))
    print(f"otherwise than forecast, worse, or not undone: {len(faulty)} of {len(trips)}")
    return {"ends": dict(ends), "faults": len(faulty), "retimings": len(trips)}
