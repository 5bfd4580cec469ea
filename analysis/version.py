"""Which Leapwright this is."""

import tomllib
from pathlib import Path


def leapwright_version() -> str:
    """Return the version in the manifest beside the code, or else of the installed package."""
    manifest = Path(__file__).resolve().parent.parent / "blender_manifest.toml"
    if manifest.is_file():
        return str(tomllib.loads(manifest.read_text(encoding="utf-8"))["version"])
    from importlib.metadata import PackageNotFoundError, version  # slow, and seldom needed

    try:
        return version("leapwright")
    except PackageNotFoundError:
        return "unknown"
