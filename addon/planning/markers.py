"""The timeline markers of a plan: laid at its events, in place of those of an earlier plan for the same."""

from bpy.types import Scene

from ...analysis.planning.plan import Plan
from .settings import plan_fields_in


def lay_markers(scene: Scene, plan: Plan, *, followed: str = "") -> None:
    """Add a timeline marker for each event, unless one of its name is on its frame already.

    followed: what it is planned for. What an earlier plan for the same has laid goes, but not what was moved or
    renamed since.
    """
    _take_away(scene, followed)
    there = {(marker.name, marker.frame) for marker in scene.timeline_markers}
    for key in plan.keys:
        name = key.event.capitalize()
        if (name, key.frame) not in there:
            scene.timeline_markers.new(name, frame=key.frame)
            laid = plan_fields_in(scene).laid.add()
            laid.name, laid.frame, laid.followed = name, key.frame, followed


def _take_away(scene: Scene, followed: str) -> None:
    laid = plan_fields_in(scene).laid
    for number in reversed(range(len(laid))):
        if laid[number].followed != followed:
            continue
        at = laid[number].name, laid[number].frame
        for marker in [marker for marker in scene.timeline_markers if (marker.name, marker.frame) == at]:
            scene.timeline_markers.remove(marker)
        laid.remove(number)
