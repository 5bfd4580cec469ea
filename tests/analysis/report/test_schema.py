"""What is written keeps to the published schemas, as jsonschema reads JSON Schema 2020-12."""

import json
from dataclasses import replace
from importlib import resources

import pytest
from jsonschema import Draft202012Validator, ValidationError
from leapwright.analysis.dailies.document import as_json
from leapwright.analysis.dailies.notes import ReviewNote
from leapwright.analysis.shot import Pose, Shot, Thumbnail

from tests.analysis.day import FLOATY, day, notes_text, pinned, shot


def schema(name):
    found = json.loads(resources.files("leapwright.analysis.report").joinpath(f"{name}.schema.json").read_text("utf-8"))
    Draft202012Validator.check_schema(found)
    return found


def closed(found):
    """Return the schema made strict: it allows only the fields that it names, so that every written field must be
    described."""
    if isinstance(found, dict):
        shut = {key: closed(value) for key, value in found.items()}
        return {**shut, "additionalProperties": False} if "properties" in found and "required" in found else shut
    return [closed(one) for one in found] if isinstance(found, list) else found


def written(*shots):
    posed = Pose("apex", 20.0, ((0.0, 1.0, 0.5, 1.25),))
    first = replace(shots[0], poses=(((posed,),),), thumbnails=((Thumbnail(20.0, b"\xff\xd8"),),))
    document = day(first, *shots[1:]).document
    return json.loads(as_json({**document, "show": "Tern Quay", "settings": {"kind": "person"}, "shard": [1, 2]}))


def bare(of_shot):
    audit = of_shot.audits[0]
    jump = replace(audit.jumps[0], crouch=None, absorbed=None, push=None, absorb=None)
    return replace(of_shot, audits=(replace(audit, jumps=(jump,)),))


def test_a_day_of_every_kind_of_shot_keeps_to_the_schema():
    document = written(
        shot(found=(FLOATY,)), pinned(shot("b.json"), takeoff=21.0), bare(shot("c.json")), Shot("d.json", "gone")
    )
    Draft202012Validator(closed(schema("audit"))).validate(document)


@pytest.mark.parametrize(
    "harm",
    [
        lambda document: document.update(schema="leapwright-audit/2"),
        lambda document: document["shots"][0].pop("fps"),
        lambda document: document["shots"][0].update(status="unreadable"),  # without a reason
        lambda document: document["shots"][0]["tracks"][0]["jumps"][0].pop("airtime_frames"),
        lambda document: document["shots"][0]["tracks"][0]["jumps"][0].update(jump_height=None),
        lambda document: document["shots"][0]["tracks"][0]["jumps"][0].update(certainty="perhaps"),
        lambda document: document["shots"][0]["tracks"][0]["jumps"][0]["findings"][0].update(code="Floaty"),
    ],
)
def test_what_others_rely_on_is_asked_for(harm):
    document = written(shot(found=(FLOATY,)))
    harm(document)
    with pytest.raises(ValidationError):
        Draft202012Validator(schema("audit")).validate(document)


def test_notes_keep_to_theirs():
    notes = [ReviewNote("tq010", "Brindle/root", (10.0, 26.0), "meant", "a dream", ("air-floaty",))]
    Draft202012Validator(closed(schema("notes"))).validate(json.loads(notes_text(notes)))
