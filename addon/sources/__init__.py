"""Every kind of thing in a scene that can be followed, one module each.

Each has LABEL and ICON for the panel, `poll(thing, bone) -> bool`, which says whether its location is
keyed, and `sample(scene, thing, bone) -> Track`. thing is an object, bone a pose bone's name or "".
Adding one is adding a file: whatever module lies beside this one is collected.
"""

from importlib import import_module
from pkgutil import iter_modules
from types import ModuleType

SOURCES: dict[str, ModuleType] = {
    name: import_module(f".{name}", __name__)
    for name in sorted(module.name for module in iter_modules(__path__))
}
"""Modules by name: the name is what a Track's `source` and the scene's settings say."""

for _name, _module in SOURCES.items():
    for _part in ("LABEL", "ICON", "poll", "sample"):
        if not hasattr(_module, _part):
            raise ImportError(f"source {_name} has no {_part}")
