"""Finding: a sentence and its values, apart so that they can be translated."""

import dataclasses

import pytest
from leapwright.analysis import Finding
from leapwright.analysis.finding import SEVERITIES
from leapwright.analysis.findings import FINDERS


def test_the_sentences_are_filled_in() -> None:
    finding = Finding(
        "push-long",
        "fix",
        (12, 18),
        "lasts {push:g}",
        "move from {now} to {then}",
        {"push": 6.0, "now": 12, "then": 15},
    )
    assert finding.message == "lasts 6"
    assert finding.mend == "move from 12 to 15"


def test_nothing_to_do_is_an_empty_mend() -> None:
    assert Finding("no-push", "note", (1, 2), "none").mend == ""


def test_severities_rank_from_the_mildest_to_the_gravest() -> None:
    assert [Finding("x", severity, (0, 1), "").rank for severity in SEVERITIES] == [0, 1, 2]


def test_a_finding_is_not_changed() -> None:
    with pytest.raises(dataclasses.FrozenInstanceError):
        Finding("x", "note", (0, 1), "").code = "y"


def test_every_finding_of_the_folder_is_collected_once() -> None:
    modules = {find.__module__.rsplit(".", 1)[1] for find in FINDERS}
    assert len(modules) == len(FINDERS)
    assert {"air_floaty", "push_long", "travel_drift", "landing_stiff", "cannot_tell"} <= modules
