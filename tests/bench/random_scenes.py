"""Seeded scenes of everything at random, audited: tracebacks, figures that are none, changes to the file."""

import sys
import traceback

SCENES = 100


def run(*, tries: int | None = None, kinds: str = "") -> dict:
    """Audit so many scenes; print what should never happen."""
    import bpy
    from leapwright import addon

    addon.register()
    faulty = 0
    try:
        from tests.addon.random_scenes import faults_of

        for seed in range(tries or SCENES):
            try:
                faults = faults_of(seed)
            except Exception:
                faults = [traceback.format_exc()]
            faulty += bool(faults)
            for fault in faults:
                print(f"seed {seed}: {fault}", file=sys.stderr)
    finally:
        bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
        addon.unregister()
    print(f"scenes that raised, gave no number, or were changed by an audit: {faulty} of {tries or SCENES}")
    return {"faulty": faulty, "scenes": tries or SCENES}
