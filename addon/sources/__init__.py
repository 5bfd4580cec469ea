"""Every kind of thing in a scene that can be followed, one module each.

Each has SOURCE, a `Source`: what it is called, whether something is of its kind, how it is read, and what else it
can do. Adding one is adding a file: whatever module lies beside this one is collected.
"""

from importlib import import_module
from pkgutil import iter_modules

from ..source import Source

SCENE_SOURCES: dict[str, Source] = {
    name: import_module(f".{name}", __name__).SOURCE
    for name in sorted(module.name for module in iter_modules(__path__))
}
"""By name of their module: the name is what a Track's `source` and the scene's settings say."""
