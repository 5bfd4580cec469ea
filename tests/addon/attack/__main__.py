"""`python -m tests.addon.attack [SCENES] [FIRST]`: audit seeded scenes and print what should never have happened."""

import atexit
import os
import shutil
import sys
import tempfile

# Before bpy is imported: it would otherwise start from, and write to, the person's own Blender.
_folder = os.environ["BLENDER_USER_RESOURCES"] = tempfile.mkdtemp(prefix="leapwright-attack-")
atexit.register(shutil.rmtree, _folder, ignore_errors=True)

from leapwright import addon  # noqa: E402

from tests.addon.attack.audits import attack  # noqa: E402


def main() -> int:
    """Run them; 1 when there was a fault."""
    count, first = (int(given) for given in (*sys.argv[1:3], *("1000", "0")[len(sys.argv) - 1 :]))
    addon.register()
    tracks = jumps = refused = faulty = 0
    for seed in range(first, first + count):
        done = attack(seed)
        tracks, jumps, refused = tracks + done.tracks, jumps + done.jumps, refused + len(done.refusals)
        faulty += bool(done.faults)
        for fault in done.faults:
            print(f"seed {seed}: {fault}", flush=True)
    print(f"{count} scenes, {tracks} tracks, {jumps} jumps, {refused} refusals; {faulty} with a fault")
    addon.unregister()
    return int(faulty > 0)


if __name__ == "__main__":
    code = main()
    sys.stdout.flush()
    os._exit(code)  # Blender 4.5 as a module may wait for ever in a destructor of its own
