"""Put the checkout, live, into a Blender's extensions: edits are there at its next start.

The folder user_default/leapwright becomes a link to build/link, itself made of links to the checkout; what is
there and is not a link stays, and the command refuses.
"""

import argparse
import os
import platform
import re
import shutil
from pathlib import Path

from environment import ROOT, say
from extension import ENTRY, FILES

OLDEST = (4, 2)


def blender_folder() -> Path:
    """Return where Blender keeps a person's files, by system (Blender manual, "Directory Layout")."""
    if platform.system() == "Darwin":
        return Path.home() / "Library" / "Application Support" / "Blender"
    if platform.system() == "Windows":
        return Path(os.environ["APPDATA"]) / "Blender Foundation" / "Blender"
    return Path(os.environ.get("XDG_CONFIG_HOME", Path.home() / ".config")) / "blender"


def version_of(folder: Path) -> tuple[int, ...]:
    return tuple(map(int, folder.name.split("."))) if re.fullmatch(r"\d+\.\d+", folder.name) else ()


def extensions(version: str) -> Path:
    """Return the extensions folder of a Blender release, or of the newest that has been run here."""
    base = blender_folder()
    if version:
        return base / version / "extensions"
    ran = sorted((folder for folder in base.glob("*.*") if version_of(folder) >= OLDEST), key=version_of)
    if not ran:
        raise SystemExit(f"No Blender 4.2 or newer has run here ({base}): say make link BLENDER=X.Y")
    return ran[-1] / "extensions"


def place(target: Path, source: Path) -> None:
    if target.is_symlink():
        target.unlink()
    elif target.exists():
        raise SystemExit(f"{target} is not a link of ours: remove the installed Leapwright first")
    target.symlink_to(source, target_is_directory=source.is_dir())


def main(version: str, folder: str) -> None:
    target = (Path(folder) if folder else extensions(version)) / "user_default" / "leapwright"
    linked = ROOT / "build" / "link"
    shutil.rmtree(linked, ignore_errors=True)  # links, and what an older version laid there
    linked.mkdir(parents=True)
    (linked / "__init__.py").write_text(ENTRY, encoding="utf-8")
    for part in FILES:
        place(linked / part, ROOT / part)
    target.parent.mkdir(parents=True, exist_ok=True)
    place(target, linked)
    say(f"Linked {target}; restart Blender and enable Leapwright under Preferences, Add-ons")


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--blender", default="", metavar="X.Y")
    parser.add_argument("--extensions", default="", metavar="FOLDER")
    given = parser.parse_args()
    main(given.blender, given.extensions)
