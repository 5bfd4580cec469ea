"""Every example in a docstring of the analysis gives what it says."""

import doctest
import importlib
import pkgutil

import leapwright.analysis
import pytest

MODULES = [found.name for found in pkgutil.walk_packages(leapwright.analysis.__path__, "leapwright.analysis.")]


@pytest.mark.parametrize("name", MODULES)
def test_examples_give_what_they_say(name: str) -> None:
    assert doctest.testmod(importlib.import_module(name)).failed == 0


def test_there_are_examples() -> None:
    finder = doctest.DocTestFinder()
    found = [one for name in MODULES for one in finder.find(importlib.import_module(name)) if one.examples]
    assert len(found) >= 20
