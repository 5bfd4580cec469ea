"""`leapwright audit` with feet and with footage: what is read beside the path comes back from the worker too."""

import json

import pytest
from leapwright.addon import command
from leapwright.addon.feet.settings import of_rig

from tests.addon.day import keyed, saved
from tests.addon.filmed import POST, THROW, film
from tests.addon.scenery import armature, hopping
from tests.addon.walker import walker
from tests.analysis.shod import Shoes


def audited(tmp_path, *argv):
    out = tmp_path / "audit.json"
    assert command.main(["audit", *map(str, argv), "--json", str(out)]) == 0
    (shot,) = json.loads(out.read_text())["shots"]
    return shot


def test_feet_are_read_when_asked_and_judged(scene, tmp_path):
    walker(Shoes(off=-3.0))
    path = saved(tmp_path / "tq.blend")
    (plain,) = audited(tmp_path, path, "--feet", "off")["tracks"][0]["jumps"]
    (jump,) = audited(tmp_path, path, "--feet", "on")["tracks"][0]["jumps"]
    assert plain["feet_off"] is None
    assert jump["feet_off"] == pytest.approx(plain["takeoff"]["frame"] - 3.0, abs=0.3)
    assert "contact-early" in {finding["code"] for finding in jump["findings"]}


def test_feet_chosen_by_hand_are_those_a_worker_reads(scene, tmp_path):
    rig = walker()
    of_rig(rig).bones.add().bone = "foot.R"
    (track,) = audited(tmp_path, saved(tmp_path / "tq.blend"), "--feet", "on")["tracks"]
    assert "feet: foot.R; ground: where they stand" in track["notes"]


def test_what_has_no_feet_is_read_without_them_and_said(scene, tmp_path):
    keyed()
    hopping(armature("Moss").pose.bones["root"])
    shot = audited(tmp_path, saved(tmp_path / "tq.blend"), "--feet", "on")
    assert {track["name"] for track in shot["tracks"]} == {"Crate", "Moss/root"}
    assert 'Moss/root was read without feet: no bone of "Moss" is named like a foot' in shot["notes"][0]


def test_a_marker_is_measured_by_a_length_of_the_call(scene, tmp_path):
    film(tmp_path)
    path = saved(tmp_path / "tq.blend")
    words = ("--track", "marker:ball", "--known-length", f"{POST}m", "--between", "foot", "top")
    (jump,) = audited(tmp_path, path, *words)["tracks"][0]["jumps"]
    assert jump["jump_height"] == pytest.approx(THROW.height, rel=0.03)


@pytest.mark.parametrize(
    "words",
    [("--known-length", "1m"), ("--pixels", "40"), ("--known-length", "1m", "--pixels", "4", "--between", "a", "b")],
)
def test_a_length_known_by_halves_is_a_wrong_call(scene, tmp_path, capsys, words):
    assert command.main(["audit", str(tmp_path), *words]) == 2
    assert "a known length needs --known-length and either --between or --pixels" in capsys.readouterr().err
