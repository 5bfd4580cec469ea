"""Cost of Live for a shot of 300 frames, as shares of a frame at 60 Hz, beside one frame of the scene set.

A keyed root is read, its jumps found, measured and judged after a key is moved; alone, and among generated rigs.
"""

import os
import sys
import tempfile
import time

import numpy as np

from .rigs import crowd_to, generated_rig
from .table import lines, say

FRAME = 1.0 / 60.0
CROWD = 20
PAST_CACHES = np.zeros(8_000_000)
"""64 MB: more than a processor's own caches hold."""
PAUSE = 0.05
"""Seconds that Live leaves between two updates while keys are dragged, in which the machine does other things."""
POSES = ((1, 1.0), (130, 1.0), (138, 0.6), (143, 1.0), (150, 1.6), (157, 1.0), (164, 0.7), (180, 1.0), (300, 1.0))


def jumper():
    """Return a root that is keyed over 300 frames, with one jump; the active object."""
    import bpy

    thing = bpy.data.objects.new("Crate", None)
    bpy.context.scene.collection.objects.link(thing)
    for frame, height in POSES:
        thing.location = (0.0, 0.01 * frame, height)
        thing.keyframe_insert("location", frame=frame)
    bpy.context.view_layer.objects.active = thing
    return thing


def spent(call, before=lambda: None, rounds=15, clock=time.thread_time):
    """Return the lowest decile of the seconds of a call, as on an idle machine; the preparation before each call is not
    counted.

    The seconds are those of this thread, which waits for nothing, so that other work on the machine does not count.
    """
    times = []
    for _ in range(rounds):
        before()
        began = clock()
        call()
        times.append(clock() - began)
    return float(np.percentile(times, 10.0))


def steps(following, before, rounds):
    """Return lowest deciles of the seconds of an update, of its longest step, and of each: each falls into a frame of
    its own.
    """
    whole, longest, each = [], [], []
    for _ in range(rounds):
        before()
        times = []
        while True:
            began = time.thread_time()
            following._tick()
            times.append(time.thread_time() - began)
            if not following._work:
                break
        whole.append(sum(times))
        longest.append(max(times))
        each.append(times)
    return (*(float(np.percentile(times, 10.0)) for times in (whole, longest)), np.percentile(each, 10.0, axis=0))


def stop():
    """Let no update wait."""
    import bpy
    from leapwright.addon.live import following

    if bpy.app.timers.is_registered(following._tick):
        bpy.app.timers.unregister(following._tick)


def calls(following):
    """Return how many functions an update calls, of Python and of C: the work that it does, whatever that costs."""
    counted = 0

    def count(_frame, event, _argument):
        nonlocal counted
        counted += event in ("call", "c_call")

    sys.setprofile(count)
    try:
        following._tick()
        while following._work:
            following._tick()
    finally:
        sys.setprofile(None)
    return counted


def shares(thing, rounds):
    """Return a live update, what is drawn of it, the look that finds nothing changed, the handler alone, and one
    frame set, in frames at 60 Hz; the calls of an update; and its steps, in such frames.

    A scene that is costly to evaluate leaves the processor's caches full of itself, an empty one does not: an update
    from empty caches, and one after a pause, tell the work apart from where that left them.
    """
    import bpy
    from leapwright.addon import auditing, results
    from leapwright.addon.host import curves_of
    from leapwright.addon.live import changes, following
    from leapwright.addon.live.freshness import State, state_of
    from leapwright.addon.overlay import arcs

    scene = bpy.context.scene
    auditing.audit_followed(bpy.context)
    curve = next(curve for curve in curves_of(thing.animation_data) if curve.array_index == 2)
    frames = iter(range(1, 10_000))

    def move():
        curve.keyframe_points[4].co.y += 1e-3
        curve.update()
        bpy.context.view_layer.update()

    is_dragged, share = following._is_dragged, following.SHARE
    following._is_dragged, following.SHARE = lambda: True, 0.0  # a step a call
    dragged, dragged_step, each = steps(following, move, rounds)
    cold, *_ = steps(following, lambda: (move(), np.add(PAST_CACHES, 1.0, out=PAST_CACHES)), rounds)
    paused, *_ = steps(following, lambda: (move(), time.sleep(PAUSE)), rounds)
    move()
    work = calls(following)
    drawn = spent(lambda: arcs.drawing_in(scene), arcs.forget, rounds)
    following._is_dragged = is_dragged
    rested, rested_step, _ = steps(following, move, rounds)
    following.SHARE = share
    stop()
    latest = results.latest(scene)
    assert state_of(scene, latest) is State.FRESH and len(latest.audit.jumps) == 1
    unchanged = spent(lambda: state_of(scene, latest), rounds=10 * rounds)
    handler = spent(lambda: changes._on_update(scene), stop, rounds)
    stop()
    host = spent(lambda: scene.frame_set(next(frames)), rounds=rounds, clock=time.perf_counter)
    named = {"dragged": dragged, "longest step": dragged_step, "from empty caches": cold,
             "after a pause": paused, "overlay": drawn,
             "let go": rested, "its longest step": rested_step, "nothing changed": unchanged, "handler": handler,
             "one frame_set": host}  # fmt: skip
    return {name: seconds / FRAME for name, seconds in named.items()}, work, each / FRAME


def again(context):
    """Return the cost of a second audit over that of the first, where nothing has changed in between."""
    from leapwright.addon import auditing, results
    from leapwright.addon.reading import sample_cache

    def forget():
        results.forget()
        sample_cache.forget()

    first = spent(lambda: auditing.audit_followed(context), forget, 7)
    auditing.audit_followed(context)
    return spent(lambda: auditing.audit_followed(context), rounds=30) / first


def run(*, tries=None, kinds=""):
    """Print what Live costs in an empty scene and among rigs, and a second audit over the first."""
    os.environ.setdefault("BLENDER_USER_RESOURCES", tempfile.mkdtemp(prefix="leapwright-bench-"))
    import bpy
    from leapwright import addon

    addon.register()
    bpy.ops.wm.read_homefile(use_factory_startup=True, use_empty=True)
    thing, rounds = jumper(), tries or 25
    figures = {"empty scene": shares(thing, rounds)}
    repeated = {"keyed root": again(bpy.context)}
    say("generating the rigs")
    rig, body = generated_rig()
    followed = bpy.context.scene.leapwright
    followed.follow, followed.thing, followed.bone = "bone", rig, "DEF-spine"
    repeated["bone of a generated rig, evaluated"] = again(bpy.context)
    followed.follow = "center_of_mass"
    repeated["center of mass of a generated rig"] = again(bpy.context)
    followed.follow = "active"
    crowd_to(CROWD, rig, body)
    bpy.context.view_layer.objects.active = thing
    figures[f"{CROWD} skinned rigs"] = shares(thing, rounds)
    head = ("a keyed root of 300 frames", *figures["empty scene"][0], "calls")
    print("\n".join(lines(head, [[name, *(f"{100 * part:.3g} %" for part in row.values()), str(work)]
                                 for name, (row, work, _) in figures.items()])))  # fmt: skip
    for name, (*_, each) in figures.items():
        print(f"steps of an update while dragged, {name}: {' + '.join(f'{100 * part:.2g} %' for part in each)}")
    print("shares of a frame at 60 Hz; an update's steps fall into frames of their own, at most one update in three")
    print("\n".join(lines(("second audit / first", ""), [[name, f"{part:.4f}"] for name, part in repeated.items()])))
    addon.unregister()
    return {"shares": figures, "second audit": repeated}
