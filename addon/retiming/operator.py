"""What the operators that forecast and retime one jump have in common."""

from bpy.props import IntProperty
from bpy.types import Context, OperatorProperties

from ...analysis.audit import audit_track
from ...analysis.errors import LeapwrightError, RetimeError
from ...analysis.retiming.aim import KEEP_TIMES
from ...analysis.retiming.fit import fit_of
from ...analysis.retiming.retime import jump_of
from ...analysis.settings import Settings
from ...analysis.track import Track
from .. import results
from ..audited import OfJump
from ..auditing import keep, read_and_audit
from ..basis import target_in
from ..blender_words import Outcome
from ..choosing import ASKED
from ..scene import settings_of
from ..target import Target, stand_in, target_of
from . import forecasts
from .retiming import Retiming, prepare
from .settings import CHOICES, KEEP_ITEMS, Choices, aim_of, extent_of
from .words import fit_sentence, moved_summary


class RetimesJump(OfJump, Choices):
    """What forecasting and retiming one jump have in common."""

    jump: IntProperty(name="Jump", description="Number of the jump in the audit", default=1, min=1)

    @classmethod
    def poll(cls, context: Context) -> bool:
        """Say that what was audited is still there."""
        return super().poll(context) and cls.allowed(lambda: _followed(context))

    @classmethod
    def description(cls, _context: Context, properties: OperatorProperties) -> str:
        """Say what is kept."""
        kept = next(said for keep, _, said in KEEP_ITEMS if keep == properties.keep)
        return f"{cls.bl_description}. {kept}"

    def prepared(self, context: Context) -> tuple[Target, Settings, Retiming]:
        """Work out the retiming: the target, the settings and what is to be written."""
        target, settings, track = _read(context)
        number = self.jump - 1
        plan = prepare(
            context.scene, target, track, number, aim=aim_of(self), settings=settings, extent=extent_of(self)
        )
        return target, settings, plan

    def forecast(self, context: Context) -> Outcome:
        """Work the retiming out and show it beside the jump; no key moves."""
        try:
            return say_fit(self, context) if self.keep == KEEP_TIMES else self.show(context)
        except LeapwrightError as refusal:
            return self.refuse(refusal)

    def show(self, context: Context) -> Outcome:
        """Do what `forecast` does; raise LeapwrightError where it is refused."""
        target, settings, plan = self.prepared(context)
        result = audit_again(context, target, settings, number=self.jump)
        forecasts.keep(context.scene, forecasts.Shown(plan.forecast, result, self.jump - 1, self.chosen()))
        self.report({"INFO"}, f"Jump {self.jump}: {moved_summary(plan.forecast)}")
        return {"FINISHED"}

    def chosen(self) -> tuple[object, ...]:
        """Tell what the forecast is told apart by."""
        return tuple(getattr(self, name) for name in CHOICES)


def _followed(context: Context) -> Target:
    """Return what the latest audit is of, whatever is active by now. Raises RetimeError where it is gone."""
    result = results.latest(context.scene)
    if result is None:
        return stand_in(target_of(context))
    if (found := target_in(context.scene, result.basis)) is None:
        raise RetimeError(f"{result.audit.name} is no longer in the scene")
    return found


def _read(context: Context) -> tuple[Target, Settings, Track]:
    target = _followed(context)
    return target, settings_of(context.scene), target.sample(context)


def say_fit(operator: RetimesJump, context: Context) -> Outcome:
    """Report which heights the times of the jump fit; nothing is done."""
    _, settings, track = _read(context)
    jump = jump_of(audit_track(track, settings), operator.jump - 1)
    operator.report({"INFO"}, fit_sentence(fit_of(jump), context.scene.unit_settings))
    return {"CANCELLED"}


def audit_again(context: Context, target: Target, settings: Settings, *, number: int) -> results.Result:
    """Audit the target again, and choose the jump that is worked on, counted from 1."""
    latest = results.latest(context.scene)
    asked, why = (None, ASKED) if latest is None else (latest.basis.asked, latest.basis.why)
    result = read_and_audit(context.scene, target, asked=asked, settings=settings, why=why)
    keep(context.scene, result, chosen=number - 1)
    return result
