"""Documents held against our schemas: jsonschema, the reference implementation for Python, says the same of each."""

import copy
import json
from pathlib import Path
from typing import Any

import jsonschema
import numpy as np
import pytest
from leapwright import analysis
from leapwright.analysis import command
from leapwright.analysis.dailies.document import as_document
from leapwright.analysis.report.data import shot_data
from leapwright.analysis.schema import faults

from tests.analysis.day import FLOATY, shot

REPORT = Path(analysis.__file__).parent / "report"
SCHEMA = json.loads((REPORT / "audit.schema.json").read_text(encoding="utf-8"))
ODD = (None, "x", "", [], {}, -1, 0, 2.0, 2.5, True, False, 1e11, [1, 2], [None], [1, 2, 3], {"a": 1}, "air-floaty")


def places(value: Any, place: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """Return the path to each value within a document; of a list, to its first three."""
    inner = value.items() if isinstance(value, dict) else enumerate(value[:3]) if isinstance(value, list) else ()
    return [place, *(way for key, one in inner for way in places(one, (*place, key)))]


def spoiled(document: dict[str, Any], rng: np.random.Generator) -> dict[str, Any]:
    """Return a document with a value somewhere that is another, or gone."""
    changed = copy.deepcopy(document)
    ways = places(document)[1:]
    *way, last = ways[int(rng.integers(len(ways)))]
    within = changed
    for key in way:
        within = within[key]
    if isinstance(within, dict) and rng.random() < 0.25:
        del within[last]
    else:
        within[last] = copy.deepcopy(ODD[int(rng.integers(len(ODD)))])
    return changed


@pytest.fixture(scope="module")
def document() -> dict[str, Any]:
    shots = [shot_data(shot("tq010.json", found=(FLOATY,))), shot_data(shot("tq020.json", seed=2))]
    whole = json.loads(json.dumps(as_document(shots, "0.1.0", shard=[1, 1])))
    jump = whole["shots"][0]["tracks"][0]["jumps"][0]
    jump["poses"] = [{"event": "takeoff", "frame": 20, "lines": [[0, 0, 0.1, 0.9, 0, 1.2]]}]
    return whole


def test_a_day_as_it_is_written_has_no_fault(document: dict[str, Any]) -> None:
    assert list(faults(document, SCHEMA)) == []


def test_every_verdict_is_that_of_the_reference(document: dict[str, Any]) -> None:
    rng, reference, wrong = np.random.default_rng(7), jsonschema.Draft202012Validator(SCHEMA), 0
    for _ in range(600):
        changed = spoiled(document, rng)
        ours = next(faults(changed, SCHEMA), None)
        assert (ours is None) == reference.is_valid(changed), ours
        wrong += ours is not None
    assert 200 < wrong < 600  # otherwise one side would hardly be tested


@pytest.mark.parametrize("name", ["audit", "notes"])
def test_our_schemas_use_no_keyword_that_is_not_known(name: str) -> None:
    schema = json.loads((REPORT / f"{name}.schema.json").read_text(encoding="utf-8"))
    for one in (schema, *schema.get("$defs", {}).values()):
        list(faults({}, {**one, "$defs": schema.get("$defs", {})}))


def test_a_keyword_that_is_not_known_is_refused() -> None:
    with pytest.raises(ValueError, match="uniqueItems"):
        list(faults([], {"uniqueItems": True}))


def test_a_merge_of_what_anyone_may_have_written_ends_in_a_result_or_a_refusal(
    document: dict[str, Any], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rng, codes, part = np.random.default_rng(8), [], tmp_path / "part.json"
    results = ["--json", tmp_path / "day.json", "--csv", tmp_path / "day.csv", "--junit", tmp_path / "day.xml"]
    for _ in range(150):
        part.write_text(json.dumps(spoiled(document, rng)), encoding="utf-8")
        words = ["merge", part, *results, "--report", tmp_path / "report", "--against", part]
        codes.append(command.main([str(word) for word in words]))
        said = capsys.readouterr().err
        assert codes[-1] in (0, 2) and (said.startswith("leapwright merge: ") or codes[-1] == 0)
    assert 20 < codes.count(0) < 130


def test_a_fault_is_told_with_its_place(document: dict[str, Any]) -> None:
    document = copy.deepcopy(document)
    document["shots"][1]["tracks"][0]["jumps"][0]["takeoff"]["frame"] = "12"
    assert list(faults(document, SCHEMA)) == ["shots[1].tracks[0].jumps[0].takeoff.frame must be a number, not a text"]
