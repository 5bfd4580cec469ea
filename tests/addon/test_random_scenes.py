"""An audit of scenes at random: no traceback, no figure that is none, and nothing changed."""

import pytest

from tests.addon.random_scenes import faults_of

SEEDS, AT_ONCE = 60, 10
"""`python -m tests.bench random_scenes --tries 1000` goes on."""


@pytest.mark.parametrize("first", range(0, SEEDS, AT_ONCE))
def test_an_audit_of_any_scene_raises_nothing_and_changes_nothing(scene, first):
    found = {seed: faults for seed in range(first, first + AT_ONCE) if (faults := faults_of(seed))}
    assert not found
