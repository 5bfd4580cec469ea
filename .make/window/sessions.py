"""The sessions: the manual's pictures, those that are taken in one Blender together."""

import json
import sys
from collections.abc import Callable
from pathlib import Path

import bpy
from window import (
    DRAWN,
    SHOTS,
    Steps,
    area_of,
    audit,
    away_for,
    call,
    look,
    middle,
    on_tab,
    opened,
    part,
    settled,
    sidebar,
    taken,
    with_sidebar,
)

PACKAGE = "bl_ext.user_default.leapwright"
BESIDE = 157
"""Pixels from the middle of the viewport to that of its part left of the sidebar, in a picture 1000 pixels wide."""
SHOWN = 640, 400
"""Pixels of a finding's picture."""


def audits() -> Steps:
    """Yield the first audit, its verdict, the mend before and after it is done."""
    yield from opened("tq020_crate_floaty")
    look(-3.58, 2.45, 6.0, beside=BESIDE)
    yield from audit()
    taken("panel", with_sidebar(1000, 640))
    taken("verdict", sidebar(560))
    call(bpy.ops.leapwright.mend_finding, jump=1, finding=0)
    yield from settled()
    taken("mend", with_sidebar(1000, 640))
    call(bpy.ops.leapwright.retime_jump, keep="nothing", jump=1)
    yield from settled()
    taken("mended", sidebar(300))
    yield from opened("tq010_barge_hop")
    look(4.6, 1.85, 5.6, beside=BESIDE)
    yield from audit()
    taken("overlay", with_sidebar(1000, 560))
    yield from opened("tq090_three_hops")
    look(-4.9, 2.5, 6.0)
    yield from audit()
    taken("jumps", sidebar(380))


def plans() -> Steps:
    """Yield a plan, before it is laid into the scene."""
    yield from opened("tq110_quay_walk")
    look(-3.6, 2.6, 5.6)
    yield from settled()
    taken("plan", sidebar(620))
    part("plan", "timing")
    yield from settled()
    taken("plan_timing", sidebar(560))


def retimes() -> Steps:
    """Yield a forecast of a retiming."""
    yield from opened("tq020_crate_floaty")
    yield from audit()
    call(bpy.ops.leapwright.forecast_retime, keep="flight", jump=1)
    yield from settled()
    taken("retime", sidebar(760))


def compares() -> Steps:
    """Before and now."""
    yield from opened("tq020_crate_floaty")
    look(-3.58, 2.45, 6.0, beside=BESIDE)
    yield from audit()
    call(bpy.ops.leapwright.hold_audit)
    call(bpy.ops.leapwright.retime_jump, keep="nothing", jump=1)
    yield from settled()
    taken("compare", with_sidebar(1000, 560))


def details() -> Steps:
    """Yield the figures."""
    yield from opened("tq020_crate_floaty")
    yield from audit()
    for name in ("timing", "sizes", "events"):
        part("details", name)
        yield from settled()
        taken(f"details_{name}", sidebar(520))


def setups() -> Steps:
    """Tell what a shot can be told."""
    yield from opened("tq020_crate_floaty")
    yield from audit()
    bpy.context.scene.frame_set(25)
    call(bpy.ops.leapwright.pin_event, event="takeoff")
    for name in ("follow", "feet", "marks", "settings"):
        part("setup", name)
        yield from settled()
        taken(f"setup_{name}", sidebar(560))
    call(bpy.ops.leapwright.weigh_body)
    part("setup", "body")
    yield from audit()
    taken("setup_body", sidebar(640))
    yield from opened("footage")
    followed = bpy.context.scene.leapwright_footage
    bpy.context.scene.leapwright.follow, followed.clip, followed.marker = "footage", bpy.data.movieclips[0], "ball"
    followed.first, followed.second, followed.length = "foot", "top", 1.5
    part("setup", "footage")
    yield from audit()
    taken("setup_footage", sidebar(640))


def keys() -> Steps:
    """Yield the events over the keys."""
    yield from opened("tq010_barge_hop", whole=False)
    yield from audit()
    area = area_of("VIEW_3D")
    area.ui_type = "DOPESHEET"
    yield from on_tab(area)
    call(bpy.ops.action.view_all, "DOPESHEET_EDITOR")
    yield from settled()
    taken("keys", (area.x + area.width - 1000, area.y + 40, 1000, area.height - 66))


def findings() -> Steps:
    """Yield each finding where it is in the viewport."""
    shots = json.loads((Path(SHOTS) / "findings.json").read_text(encoding="utf-8"))
    for code, shot in shots.items():
        yield from opened(shot["name"])
        area_of("VIEW_3D").spaces.active.show_region_ui = False
        if code.startswith("contact"):
            bpy.data.objects["Brindle"].leapwright_feet.reading = "on"
        yield from audit()
        look(shot["x"], shot["z"], away_for(shot["wide"], shot["high"], SHOWN))
        if code == "travel-swerve":
            call(bpy.ops.view3d.view_axis, type="TOP")
        results = sys.modules[f"{PACKAGE}.addon.results"]
        jump = results.latest(bpy.context.scene).jump(0)
        place = [finding.code for finding in jump.findings].index(code)
        call(bpy.ops.leapwright.go_to_finding, jump=0, finding=place)
        yield DRAWN
        taken(code.replace("-", "_"), middle(*SHOWN))


SESSIONS: dict[str, tuple[Callable[[], Steps], set[str], set[str]]] = {
    "audits": (audits, set(), set()),
    "plans": (plans, {"plan"}, {"findings"}),
    "retimes": (retimes, {"retime"}, {"findings"}),
    "compares": (compares, {"compare"}, {"findings"}),
    "details": (details, {"details"}, {"findings"}),
    "setups": (setups, {"setup"}, {"findings"}),
    "keys": (keys, set(), set()),
    "findings": (findings, set(), set()),
}
"""Each session's pictures, and the panels that are open, or closed, otherwise than they begin."""
