"""Jump: the events of one jump and every quantity measured of it."""

from dataclasses import dataclass

from .beat import Beat
from .certainty import Certainty, certainty_of
from .feet import Feet
from .finding import Finding
from .measures.arc import ArcShape
from .measures.contact import FootContact, measure_contact, size_of
from .measures.flight import Flight, measure_flight
from .measures.landing import Absorb, measure_absorb, stops_dead
from .measures.push import Push, measure_push
from .measures.readings import read_events
from .measures.step import stepped
from .measures.travel import Travel, measure_travel
from .mend import Mend
from .phases import Arc, Event, Phases, Unpushed
from .track import Followed, Track
from .world import World, reach


@dataclass(frozen=True, slots=True, eq=False)
class Jump:
    """One jump, measured: its events, and a part for each thing that is measured. None: cannot be known.

    crouch to absorbed     the events
    flight, shape, travel  how high and how long, how truly on a parabola, how far over the ground
    push, absorb           None for a fall; None where the body does not sink
    stops_dead, feet       it neither sinks nor leaves after the landing; None without feet
    name … fps             those of the track; follows: what its point is to the body
    gravity, kind, size    m/s², and the kind of jumper and its size against its kind, that it is judged by
    step … arc, unpushed, notes      as in Phases
    certainty              how sure it is that this is a jump, and certainty_value as a probability
    findings, mends        what is off, gravest first; whole plans that mend it, of which one is chosen
    """

    crouch: Event | None
    takeoff: Event
    apex: Event
    landing: Event
    absorbed: Event | None
    flight: Flight
    shape: ArcShape
    push: Push | None
    absorb: Absorb | None
    stops_dead: bool
    travel: Travel
    feet: FootContact | None
    name: str
    source: str
    follows: Followed
    fps: float
    gravity: float
    kind: str
    size: float
    step: int
    held: bool
    method: str
    arc: Arc | None
    certainty: Certainty
    certainty_value: float
    unpushed: Unpushed = Unpushed.FALL
    notes: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
    mends: tuple[Mend, ...] = ()

    @property
    def beat(self) -> Beat:
        """The frames that the shot's poses fall on: of held poses, those that a pose begins at."""
        return Beat(self.arc.first if self.held and self.arc else round(self.takeoff.frame), self.step)

    @property
    def reach(self) -> float:
        """The largest push ratio of its kind at its size, in the gravity it is judged by."""
        return reach(self.kind, gravity=self.gravity, size=self.size)


def measure(
    track: Track, phases: Phases, world: World, *, feet: Feet | None = None, before: Phases | None = None
) -> Jump:
    """Measure one jump of a track, given its events, and those of the jump before it where there is one.

    Feet that are not given are read. Meters, seconds and frames in the track's own frame of reference, z up. Never
    raises for phases whose events rise in time; what they cannot tell is None.
    """
    phases = stepped(track, phases, least=world.step)
    contact = measure_contact(track, phases, feet)
    readings = read_events(track, phases)
    flight, shape = measure_flight(track, phases, world, readings=readings)
    return Jump(
        crouch=phases.crouch,
        takeoff=phases.takeoff,
        apex=phases.apex,
        landing=phases.landing,
        absorbed=phases.absorbed,
        flight=flight,
        shape=shape,
        push=measure_push(track, phases, world, flight=flight, readings=readings, before=before),
        absorb=measure_absorb(phases, flight=flight, readings=readings),
        stops_dead=stops_dead(track, phases, flight=flight),
        travel=measure_travel(track, phases, flight=flight, air=readings.air),
        feet=contact,
        name=track.name,
        source=track.source,
        follows=track.follows,
        fps=track.fps,
        gravity=world.gravity,
        kind=world.kind,
        size=size_of(world, contact),
        step=phases.step,
        held=phases.held,
        method=phases.method,
        arc=phases.arc,
        certainty=certainty_of(phases.certainty),
        certainty_value=phases.certainty,
        unpushed=phases.unpushed,
        notes=tuple(note.text for note in phases.notes),
    )
