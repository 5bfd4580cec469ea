"""The Blender side of Leapwright: the only place that imports bpy."""


def register() -> None:
    """Register everything, in order; called by Blender when the extension is enabled."""
    from . import registration

    registration.register()


def unregister() -> None:
    """Take everything back, in reverse; called by Blender when the extension is disabled."""
    from . import registration

    registration.unregister()
