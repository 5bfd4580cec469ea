"""`python -m tests.addon.attack scenes|retimings [COUNT] [FIRST]`: run seeded ones, print what should never happen."""

import argparse
import atexit
import os
import shutil
import sys
import tempfile
from collections import Counter

# Before bpy is imported: it would otherwise start from, and write to, the person's own Blender.
_folder = os.environ["BLENDER_USER_RESOURCES"] = tempfile.mkdtemp(prefix="leapwright-attack-")
atexit.register(shutil.rmtree, _folder, ignore_errors=True)

from leapwright import addon  # noqa: E402

from tests.addon.attack.audits import attack  # noqa: E402
from tests.addon.round_trip import KEEPS, round_trip  # noqa: E402

EVERY = 50
"""Number of scenes, or shots, after which a line of progress is printed."""


def scenes(seeds: range) -> int:
    """Audit scenes; return how many had a fault."""
    tally: Counter[str] = Counter()
    for seed in seeds:
        done = attack(seed)
        tally.update(tracks=done.tracks, jumps=done.jumps, refusals=len(done.refusals), faulty=bool(done.faults))
        _tell(seed, seeds, done.faults)
    print(f"{len(seeds)} scenes, {tally['tracks']} tracks, {tally['jumps']} jumps, {tally['refusals']} refusals; "
          f"{tally['faulty']} with a fault")  # fmt: skip
    return tally["faulty"]


def retimings(seeds: range) -> int:
    """Retime shots in four ways each, and undo it; return how many retimings had a fault."""
    ends: Counter[str] = Counter()
    faulty = 0
    for seed in seeds:
        trips = [round_trip(seed, way) for way in range(len(KEEPS))]
        ends.update(trip.end for trip in trips)
        faulty += sum(bool(trip.faults) for trip in trips)
        _tell(seed, seeds, [f"{trip.said}: {fault}" for trip in trips for fault in trip.faults])
    how = ", ".join(f"{count} {end}" for end, count in ends.most_common())
    print(f"{len(seeds)} shots, {sum(ends.values())} retimings: {how}; "
          f"{faulty} otherwise than forecast, worse, or not undone to the last bit")  # fmt: skip
    return faulty


def _tell(seed: int, seeds: range, faults: list[str] | tuple[str, ...]) -> None:
    for fault in faults:
        print(f"seed {seed}: {fault}", flush=True)
    if (done := seed - seeds.start + 1) % EVERY == 0:
        print(f"{done} of {len(seeds)}", file=sys.stderr, flush=True)


def main() -> int:
    """Run them; 1 when there was a fault."""
    parser = argparse.ArgumentParser(prog="python -m tests.addon.attack", description=__doc__)
    parser.add_argument("what", choices=("scenes", "retimings"))
    parser.add_argument("count", type=int, nargs="?", default=1000)
    parser.add_argument("first", type=int, nargs="?", default=0)
    given = parser.parse_args()
    addon.register()
    faults = {"scenes": scenes, "retimings": retimings}[given.what](range(given.first, given.first + given.count))
    addon.unregister()
    return int(faults > 0)


if __name__ == "__main__":
    code = main()
    atexit._run_exitfuncs()
    sys.stdout.flush()
    os._exit(code)  # Blender 4.5 as a module may wait for ever in a destructor of its own
