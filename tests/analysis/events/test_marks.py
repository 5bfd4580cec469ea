"""Marks by hand have the last word: a pinned event lies where it was pinned, and a jump can be made or denied."""

import json
from dataclasses import replace

import numpy as np
import pytest
from leapwright.addon import command
from leapwright.analysis import Marks, Track
from leapwright.analysis.events.marks import MARK_SECONDS, marked, reaches
from leapwright.analysis.phases import Event, Found
from leapwright.analysis.track import EVENTS

from tests.analysis.closed_form import G, Leap, build
from tests.analysis.day import document

LEAP = Leap(crouch_at=15.3)
FRAMES = dict(zip(EVENTS, LEAP.events(), strict=True))


def applied(*marks, track=None, found=None):
    own, phases = build(LEAP)
    return marked(found or Found((phases,)), replace(track or own, marks=marks))


def one(result):
    (phases,) = result.phases
    return phases


def two_hops():
    """Return two hops as found: the second leaves from where the first has just been absorbed."""
    track, first = build(LEAP)
    gap = FRAMES["absorbed"] - FRAMES["crouch"] + 1

    def later(event):
        return Event(event.frame + gap, event.frame_error, event.height)

    second = replace(first, arc=None, **{name: later(getattr(first, name)) for name in EVENTS})
    frames = np.arange(0.0, track.frames[-1] + gap + 1)
    z = np.interp(frames, track.frames, track.heights)
    return Track("Brindle", 24, frames, np.stack((0 * z, 0 * z, z), 1)), Found((replace(first, arc=None), second)), gap


@pytest.mark.parametrize("event", EVENTS)
@pytest.mark.parametrize("off", [-0.75, 0.5])
def test_each_event_is_where_it_was_pinned_with_the_height_there_and_no_error(event, off):
    track, _ = build(LEAP)
    frame = FRAMES[event] + off
    pinned = getattr(one(applied(Marks(**{event: frame}))), event)
    assert pinned == Event(frame, 0.0, float(np.interp(frame, track.frames, track.heights)), pinned=True)


def test_what_is_not_pinned_stays_as_it_was_found():
    _, before = build(LEAP)
    after = one(applied(Marks(crouch=14.0)))
    assert all(getattr(after, name) == getattr(before, name) for name in ("takeoff", "landing", "absorbed"))
    assert after.apex.frame == pytest.approx(before.apex.frame, abs=1e-6)


def test_pinned_contacts_fit_the_arc_anew_between_them():
    after = one(applied(Marks(takeoff=FRAMES["takeoff"] + 2, landing=FRAMES["landing"] - 2)))
    assert after.arc.first > FRAMES["takeoff"] + 2 and after.arc.last < FRAMES["landing"] - 2
    assert after.arc.gravity == pytest.approx(G, rel=1e-6)
    assert after.apex.frame == pytest.approx(FRAMES["apex"], abs=1e-3) and not after.apex.pinned


def test_a_pinned_apex_is_not_moved_to_the_arcs():
    assert one(applied(Marks(apex=FRAMES["apex"] + 0.6))).apex.frame == FRAMES["apex"] + 0.6


def test_an_event_that_was_not_found_can_be_pinned():
    _, phases = build(LEAP)
    after = one(applied(Marks(absorbed=40.0), found=Found((replace(phases, absorbed=None),))))
    assert after.absorbed.frame == 40.0


def test_pins_that_the_events_would_not_rise_with_are_left_out_with_a_note():
    frame = FRAMES["landing"] + 1
    result = applied(Marks(takeoff=frame - 2))
    assert [note.text for note in result.notes] == [
        f"marks were left out: with takeoff {frame - 2:g} pinned the events of the jump would not rise in time"
    ]
    assert not one(result).takeoff.pinned


def test_a_pinned_contact_that_leaves_no_arc_gives_none_rather_than_one_turned_over():
    apex = FRAMES["apex"]
    after = one(applied(Marks(takeoff=apex - 0.5, landing=apex + 2)))
    assert after.arc is None
    assert after.takeoff.frame < after.apex.frame < after.landing.frame


def test_no_jump_takes_away_the_jumps_with_their_apex_in_it_and_no_other():
    track, found, gap = two_hops()
    apex = FRAMES["apex"]
    assert applied(Marks(no_jump=(apex - 1, apex + 1)), track=track, found=found).phases == found.phases[1:]
    assert applied(Marks(no_jump=(apex + gap, apex + gap + 9)), track=track, found=found).phases == found.phases[:1]
    assert applied(Marks(no_jump=(apex + 1, apex + 2)), track=track, found=found).phases == found.phases


def test_of_two_jumps_close_by_the_one_whose_own_event_is_nearest_takes_the_pin():
    # The crouch of the second hop lies nearer to the apex of the first than to its own.
    track, found, gap = two_hops()
    crouch = FRAMES["crouch"] + gap - 0.5
    assert crouch - FRAMES["apex"] < FRAMES["apex"] + gap - crouch
    after = applied(Marks(crouch=crouch), track=track, found=found)
    assert [phases.crouch.pinned for phases in after.phases] == [False, True]
    assert after.notes == ()


def test_a_takeoff_after_a_jump_is_not_that_jumps():
    result = applied(Marks(takeoff=FRAMES["absorbed"] + 3))
    assert not one(result).takeoff.pinned
    frame = f"{FRAMES['absorbed'] + 3:g}"
    (note,) = result.notes
    assert note.text == f"no jump was found at the marks takeoff {frame}; to make one, pin landing too"


def test_the_reach_of_a_jump_is_half_a_second_beyond_its_ends_for_the_events_of_that_end():
    # 0.5 s at 24 fps are 12 frames.
    assert MARK_SECONDS * 24 == 12
    kwargs = {"start": 20.0, "end": 40.0, "fps": 24.0}
    assert [reaches(event="takeoff", frame=f, **kwargs) for f in (7.9, 8.0, 40.0, 40.1)] == [False, True, True, False]
    assert [reaches(event="landing", frame=f, **kwargs) for f in (19.9, 20.0, 52.0, 52.1)] == [False, True, True, False]
    assert [reaches(event="apex", frame=f, **kwargs) for f in (19.9, 20.0, 40.0, 40.1)] == [False, True, True, False]


def flat_hop():
    """Return a track with a rise and fall that is not found as a jump, since it has no contacts."""
    frames = np.arange(48.0)
    z = 0.3 * np.exp(-(((frames - 24) / 6) ** 2))
    return Track("Moss", 24, frames, np.stack((0 * z, 0 * z, z), 1))


def test_a_jump_is_made_by_hand_from_takeoff_apex_and_landing():
    track = flat_hop()
    phases = one(applied(Marks(takeoff=18, apex=24, landing=30), track=track, found=Found()))
    assert [getattr(phases, name).frame for name in ("takeoff", "apex", "landing")] == [18, 24, 30]
    assert phases.crouch is None and phases.absorbed is None
    assert all(getattr(phases, name).pinned for name in ("takeoff", "apex", "landing"))


@pytest.mark.parametrize(
    ("marks", "note"),
    [
        (Marks(takeoff=18), "no jump was found at the marks takeoff 18; to make one, pin landing too"),
        (Marks(crouch=9, apex=24), "no jump was found at the marks crouch 9, apex 24; to make one, pin takeoff and "
                                   "landing too"),
        (Marks(takeoff=18, apex=24, landing=90), "marks were left out: landing lies outside frames 0 to 47"),
        (Marks(takeoff=18, apex=40, landing=45), "marks were left out: the apex at 40 is not above its takeoff and "
                                                 "landing"),
    ],
)
def test_what_cannot_make_a_jump_is_left_out_with_what_is_missing(marks, note):
    result = applied(marks, track=flat_hop(), found=Found())
    assert result.phases == ()
    assert [one.text for one in result.notes] == [note]


def test_marks_are_taken_in_their_order_and_jumps_stay_in_order_of_time():
    track = flat_hop()
    first, second = Marks(takeoff=30, apex=32, landing=36), Marks(takeoff=10, apex=24, landing=28)
    z = track.heights + 0.2 * np.exp(-(((track.frames - 32) / 2) ** 2))
    both = replace(track, positions=np.stack((0 * z, 0 * z, z), 1))
    result = applied(first, second, track=both, found=Found())
    assert [phases.takeoff.frame for phases in result.phases] == [10, 30]


def audited(tmp_path, track, marks):
    """Return the jumps and notes that the command finds in a track file with these marks."""
    shot, out = tmp_path / "tq010.json", tmp_path / "audit.json"
    shot.write_text(json.dumps({**document(track), "marks": marks}))
    assert command.main(["audit", str(shot), "--json", str(out)]) == 0
    (found,) = json.loads(out.read_text())["shots"][0]["tracks"]
    return found["jumps"], found["notes"]


def test_the_command_takes_pins_from_a_track_file(tmp_path, capsys):
    track, _ = build(LEAP)
    (jump,), _ = audited(tmp_path, track, {"takeoff": 21})
    assert (jump["takeoff"]["frame"], jump["takeoff"]["frame_error"], jump["takeoff"]["pinned"]) == (21, 0, True)
    assert "pinned" not in jump["landing"]


def test_the_command_takes_from_a_track_file_that_there_is_no_jump(tmp_path, capsys):
    track, _ = build(LEAP)
    apex = FRAMES["apex"]
    assert audited(tmp_path, track, {"no_jump": [apex - 5, apex + 5]}) == ([], ["no jump found"])
    (jump,), _ = audited(tmp_path, track, [{"no_jump": [0, 5]}, {"crouch": 14, "landing": 38.5}])
    assert (jump["crouch"]["frame"], jump["landing"]["frame"]) == (14, 38.5)
