"""Every thing that can be off, one module each; each has `find(jump, limits) -> Finding | None`.

Adding one is adding a file: whatever module lies beside this one is collected; one without `find` fails
at import. `basis`, a package, is passed over: it holds what several findings share. Their order does not
matter; severity sorts.
"""

from collections.abc import Callable
from importlib import import_module
from pkgutil import iter_modules

from ..finding import Finding
from ..jump import Jump
from ..limits import Limits

FINDERS: tuple[Callable[[Jump, Limits], Finding | None], ...] = tuple(
    import_module(f".{module.name}", __name__).find
    for module in sorted(iter_modules(__path__), key=lambda module: module.name)
    if not module.ispkg
)
