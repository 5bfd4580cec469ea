"""The subcommands that need no Blender of their own, one module each, with `add`, `run`, `SUMMARY` and `EXAMPLE`.

add(subparsers)               declares its arguments
run(arguments, audit_each)   does it and returns the exit code; raises LeapwrightError for a wrong call

Adding one is adding a file: whatever module lies beside this one is collected. One that lacks
any of them fails when the command starts.
"""

from importlib import import_module
from pkgutil import iter_modules
from types import ModuleType

COMMAND_NAMES = tuple(sorted(module.name for module in iter_modules(__path__)))


def collected(only: str = "") -> tuple[ModuleType, ...]:
    """Import the subcommand of a name, or every one where there is none of that name, in their order."""
    return tuple(import_module(f".{name}", __name__) for name in ((only,) if only in COMMAND_NAMES else COMMAND_NAMES))
