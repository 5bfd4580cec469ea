"""What tests of the sidebar share."""

import pytest

from tests.addon.sidebar.drawn import drawer


@pytest.fixture
def draw(scene, monkeypatch):
    return drawer(monkeypatch)
