"""When feet are read: always, never, or where the path alone leaves a jump or a contact unsure."""

from collections.abc import Sequence

from bpy.types import ID, Scene

from ...analysis.audit import judged_track
from ...analysis.doubt import Stretch, unsure_frames
from ...analysis.errors import LeapwrightError
from ...analysis.feet import are_carried
from ...analysis.settings import Settings
from ...analysis.track import Track
from ..mass import settings as mass_settings
from ..rigs import Rig, is_rig
from ..scene import settings_of
from .bones import known_feet, with_feet
from .settings import FEET_OFF, FEET_ON, mode_of, readable


def with_asked_feet(
    scene: Scene, thing: ID, track: Track, *, mode: str | None = None, settings: Settings | None = None
) -> Track:
    """Return a track with its feet where they are to be read; as it is for what has no bones.

    mode: as the armature has it saved, unless given. settings: what its jumps are judged against, to tell whether
    they are unsure; as the scene has it saved, unless given. Raises SourceError where feet are to be read at all
    events, and there are none or no ground; else the track says why it has none.
    """
    if not is_rig(thing):
        return track
    with readable(), mass_settings.readable():
        mode = mode or mode_of(thing)
        if mode == FEET_ON:
            return with_feet(scene, thing, track)
        return track if mode == FEET_OFF else _where_unsure(scene, thing, track, settings)


def _where_unsure(scene: Scene, rig: Rig, track: Track, settings: Settings | None) -> Track:
    if not known_feet(rig):
        return track
    settings = settings or settings_of(scene)
    stretches = unsure_frames(judged_track(track, settings), track, settings.limits)
    if not stretches:
        return track
    why = f", read {_spoken(stretches)}, where the path alone leaves a jump or a contact unsure"
    try:
        asked = with_feet(scene, rig, track, stretches, why=why)
        carried = "read without feet: they only go up and down with the body"
        return track.noting(carried) if are_carried(asked) else asked
    except LeapwrightError as refusal:
        return track.noting(f"read without feet: {refusal}")


def _spoken(stretches: Sequence[Stretch]) -> str:
    return " and ".join(f"from frame {first:.0f} to {last:.0f}" for first, last in stretches)
