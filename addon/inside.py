"""Whether this Python runs inside a Blender, which then has its own way to open files and to end."""

import sys


def in_blender() -> bool:
    """Say whether this Python runs inside a Blender, rather than Blender inside this Python."""
    bpy = sys.modules.get("bpy")
    return bpy is not None and bool(bpy.app.binary_path)  # empty where Blender is a module
