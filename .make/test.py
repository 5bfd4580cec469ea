"""Run the tests once per Blender host: `test.py [X.Y …]`.

The first host runs everything but the benchmarks; each further one runs tests/analysis and tests/addon.
Without a name, the host of .venv runs.
"""

import os
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


def run(name: str, what: list[str]) -> tuple[int, float]:
    """Run tests with a host; return pytest's exit code and the seconds. A crash names its test."""
    folder = environment_of(name)
    now = ROOT / "build" / "log" / f"testing-{name}.txt"
    now.parent.mkdir(parents=True, exist_ok=True)
    say(f"\nTesting with Blender {HOSTS[name].bpy}: {' '.join(what)}")
    started = time.monotonic()
    pytest = [str(folder / "bin" / "python"), "-c", RUN, "-q", "--durations=5", *what]
    code = subprocess.run(pytest, cwd=ROOT, env={**os.environ, "LEAPWRIGHT_TEST_NOW": str(now)}).returncode
    if code < 0:
        say(f"Blender {HOSTS[name].bpy} crashed (signal {-code}) in {now.read_text(encoding='utf-8')}")
    return code, time.monotonic() - started


def main(names: list[str]) -> int:
    own = (ROOT / ".venv" / "ready").read_text(encoding="utf-8").split()[0]
    outcome = [(name, *run(name, PER_HOST if place else EVERYTHING)) for place, name in enumerate(names or [own])]
    say("")
    for name, code, seconds in outcome:
        verdict = "passed" if code == 0 else f"FAILED (pytest ended with {code})"
        say(f"Blender {HOSTS[name].bpy}: {verdict} in {seconds:.0f} s")
    return max(code != 0 for _, code, _ in outcome)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
