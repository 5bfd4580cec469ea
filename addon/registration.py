"""Register the add-on's classes, settings and handlers with Blender, and take them back in reverse."""


def register() -> None:
    """Register everything; fail loudly."""


def unregister() -> None:
    """Take everything back, in reverse."""
