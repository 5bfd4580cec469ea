"""Build the Tern Quay shots with the oldest Blender there is, so that as many as can open them: `demo.py [X.Y …]`.

A Blender opens what an older one saved; 4.2 opens nothing of 5.0 or newer. Hosts that are named are set up first.
"""

import subprocess
import sys

from environment import HOSTS, ROOT, environment_of, installed, say

SHOTS = ROOT / "build" / "demo" / "shots"
OPENED_BY_ALL = ("4.2", "4.5")


def main(names: list[str]) -> int:
    for name in names:
        environment_of(name)
    oldest, python = min(installed().items())
    say(f"Building the Tern Quay shots in {SHOTS.relative_to(ROOT)} with Blender {HOSTS[oldest].bpy}")
    code = subprocess.run([str(python), "-m", "tests.quay.build", str(SHOTS)], cwd=ROOT).returncode
    opens = "4.2" if oldest in OPENED_BY_ALL else "4.5"
    say(f"They open in Blender {opens} and newer" + ("" if opens == "4.2" else "; with HOSTS=4.2 in 4.2 too"))
    return code


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
