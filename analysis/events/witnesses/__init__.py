"""Witnesses: one file is one kind of evidence for or against a flight; each has `hear(case) -> Testimony | None`."""

from collections.abc import Callable
from importlib import import_module
from pkgutil import iter_modules

from ...cases.case import Case
from ..testimony import Testimony

Witness = Callable[[Case], Testimony | None]

WITNESSES: tuple[Witness, ...] = tuple(
    import_module(f"{__name__}.{module.name}").hear for module in iter_modules(__path__)
)
