"""The Blender side of Leapwright: the only place that imports bpy."""


def register() -> None:
    from . import registration

    registration.register()


def unregister() -> None:
    from . import registration

    registration.unregister()
