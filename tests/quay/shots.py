"""The shots of Tern Quay as data: what is done where, how it is drawn, and what is off in each.

A shot's findings are those it was built to have, one mapping of code to severity for each jump in order
of time; an empty mapping is a jump with nothing off. Frames count from 1, at 24 a second.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from .motion import Motion, plan
from .moves import Fall, Leap, Move, Stand, Walk

QUAY = 1.6
"""Height of the quay above the water, meters."""
BARGE = QUAY - 0.68125
"""Height of both barges' decks: a leap of 8 frames up and 12 down under 9.81 m/s² ends so much lower."""
EARTH, MOON = 9.81, 1.62
"""Scene gravities, m/s²: the host's own default, and the Moon's."""


@dataclass(frozen=True, slots=True)
class Shot:
    """One shot.

    drawn      "arcs": handles that draw the motion exactly; "twos": stepped, a pose every second frame;
               "poses": the poses alone, joined by the host's default handles
    findings   for each jump, code → severity
    moss       Moss the frog rides along, an object of his own
    prop       what stands in the way: "crate", "rope", "bucket" or ""
    """

    name: str
    says: str
    moves: tuple[Move, ...]
    findings: tuple[Mapping[str, str], ...]
    x: float
    ground: float
    drawn: str = "arcs"
    gravity: float = EARTH
    moss: bool = False
    prop: str = ""

    def motion(self) -> Motion:
        """Work out the shot's keys and events."""
        return plan(self.moves, x=self.x, ground=self.ground, gravity=self.gravity)


BEGIN = Stand(7)

SHOTS = (
    Shot(
        "tq010_barge_hop",
        "A believable hop from barge to barge",
        (BEGIN, Leap(push=6, rise=8, fall=8, absorb=6, distance=1.35)),
        ({},),
        x=3.75,
        ground=BARGE,
    ),
    Shot(
        "tq020_crate_floaty",
        "A vault over a crate in slow air, its push left at real time",
        (BEGIN, Leap(push=6, rise=13, fall=13, absorb=8, distance=1.9, pace=0.62, push_real=10)),
        ({"air-floaty": "fix", "push-short": "check", "push-speed": "check"},),
        x=-4.6,
        ground=QUAY,
        prop="crate",
    ),
    Shot(
        "tq030_lantern_slow",
        "The same slow air with the push, and the landing, slowed to match",
        (BEGIN, Leap(push=10, rise=13, fall=13, absorb=8, distance=1.9, pace=0.62)),
        ({"air-floaty": "note"},),
        x=-4.6,
        ground=QUAY,
        prop="crate",
    ),
    Shot(
        "tq040_rope_snappy",
        "A snappy hop over a rope whose push agrees",
        (BEGIN, Leap(push=4, rise=5, fall=5, absorb=4, distance=1.1, pace=1.6)),
        ({"air-snappy": "note"},),
        x=-3.6,
        ground=QUAY,
        prop="rope",
    ),
    Shot(
        "tq050_bucket_late",
        "The same snappy hop with a push twice as long as its flight asks for",
        (BEGIN, Leap(push=8, rise=5, fall=5, absorb=4, distance=1.1, pace=1.6, push_real=4)),
        ({"air-snappy": "fix", "push-long": "fix", "push-speed": "check"},),
        x=-3.6,
        ground=QUAY,
        prop="bucket",
    ),
    Shot(
        "tq060_long_leap",
        "A long leap from the quay down to a barge that loses half its travel at the top",
        (BEGIN, Leap(push=6, rise=8, fall=12, absorb=5, distance=1.9, late_speed=0.45)),
        ({"travel-drift": "check"},),
        x=-0.75,
        ground=QUAY,
    ),
    Shot(
        "tq070_stiff_landing",
        "A believable hop that lands on stiff legs",
        (BEGIN, Leap(push=6, rise=8, fall=8, absorb=2, distance=1.35, absorb_real=1.1, upright=1.03)),
        ({"landing-stiff": "check"},),
        x=3.75,
        ground=BARGE,
    ),
    Shot(
        "tq080_stepped_twos",
        "The believable hop blocked on twos, every pose held",
        (Stand(8), Leap(push=6, rise=8, fall=8, absorb=6, distance=1.35, hold=4)),
        ({},),
        x=3.75,
        ground=BARGE,
        drawn="twos",
    ),
    Shot(
        "tq090_three_hops",
        "Three hops in a row, each landing the next crouch",
        (
            BEGIN,
            Leap(push=5, rise=6, fall=6, absorb=8, distance=0.8, settle=0),
            Leap(push=6, rise=8, fall=8, absorb=7, distance=1.0, dip=0, hold=0, settle=0),
            Leap(push=8, rise=7, fall=7, absorb=6, distance=0.9, dip=0, hold=0),
        ),
        ({}, {}, {}),
        x=-6.2,
        ground=QUAY,
    ),
    Shot(
        "tq100_off_the_edge",
        "A walk that ends in a fall off the quay: no push",
        (Stand(4), Walk(steps=2, speed=0.06), Fall(fall=9, absorb=4, ground=BARGE)),
        ({"no-push": "note"},),
        x=-1.35,
        ground=QUAY,
    ),
    Shot(
        "tq110_quay_walk",
        "A walk along the quay: no jump",
        (Stand(4), Walk(steps=6, speed=0.045), Stand(8)),
        (),
        x=-5.5,
        ground=QUAY,
    ),
    Shot(
        "tq120_moss_rides",
        "Moss rides along on Brindle's head",
        (BEGIN, Leap(push=7, rise=9, fall=9, absorb=6, distance=1.5)),
        ({},),
        x=3.65,
        ground=BARGE,
        moss=True,
    ),
    Shot(
        "tq130_moon_hop",
        "A hop under the Moon's gravity, as the scene sets it",
        (BEGIN, Leap(push=14, rise=19, fall=19, absorb=15, distance=1.35, settle=16)),
        ({},),
        x=3.6,
        ground=BARGE,
        gravity=MOON,
    ),
    Shot(
        "tq140_first_poses",
        "The poses of the believable hop, joined by the host's own handles",
        (BEGIN, Leap(push=6, rise=8, fall=8, absorb=6, distance=1.35)),
        ({},),
        x=3.75,
        ground=BARGE,
        drawn="poses",
    ),
)
