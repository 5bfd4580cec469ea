"""Run the tests once per Blender host: `test.py [X.Y …]`.

The first host runs everything but the benchmarks; each further one runs tests/analysis and tests/addon.
Without a name, the host of .venv runs.
"""

import subprocess
import sys
import time

from environment import HOSTS, ROOT, environment_of, say

# Blender 4.5 as a module may wait for ever in a destructor of its own, after all else is done: leave before it.
RUN = """
import atexit, os, sys, pytest
code = pytest.main(sys.argv[1:])
atexit._run_exitfuncs()
sys.stdout.flush()
os._exit(code)
"""
EVERYTHING = ["tests", "--ignore=tests/bench"]
PER_HOST = ["tests/analysis", "tests/addon"]


def main(names: list[str]) -> int:
    own = (ROOT / ".venv" / "ready").read_text(encoding="utf-8").split()[0]
    names = names or [own]
    unknown = [name for name in names if name not in HOSTS]
    if unknown:
        raise SystemExit(f"Unknown host {', '.join(unknown)}: choose from {', '.join(HOSTS)}")
    outcome: list[tuple[str, int, float]] = []
    for place, name in enumerate(names):
        folder = environment_of(name)
        what = PER_HOST if place else EVERYTHING
        say(f"\nTesting with Blender {HOSTS[name].bpy}: {' '.join(what)}")
        started = time.monotonic()
        pytest = [str(folder / "bin" / "python"), "-c", RUN, "-q", "--durations=5", *what]
        code = subprocess.run(pytest, cwd=ROOT).returncode
        outcome.append((name, code, time.monotonic() - started))
    say("")
    for name, code, seconds in outcome:
        verdict = "passed" if code == 0 else f"FAILED (pytest ended with {code})"
        say(f"Blender {HOSTS[name].bpy}: {verdict} in {seconds:.0f} s")
    return max(code != 0 for _, code, _ in outcome)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
