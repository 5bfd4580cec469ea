"""Seeded scenes that combine all that can move a thing in Blender, in ways that nobody would. They are not saved."""

import bpy
import numpy as np
from leapwright.addon import host

from tests.addon.scenery import HOP, empty, key
from tests.addon.skeletons import person, rig

NAMES = ("Brindle", "Moss", 'Qu"ay', "Barge\\2", "Möwe/λ", "tab\there", "é" * 40, "=1+1", "pose.bones", "")
GRAVITIES = ((0, 0, -9.81), (0, 0, -1.62), (0, -9.81, 0), (3, 2, -5), (0, 0, 9.81), (0, 0, 0), (0, 0, -1e-6))
UNITS = (1.0, 0.01, 0.3048, 100.0, 1e-6)
KINDS = ("BEZIER", "LINEAR", "CONSTANT", "SINE", "BOUNCE", "ELASTIC")
CONSTRAINTS = ("COPY_LOCATION", "CHILD_OF", "TRACK_TO", "LIMIT_LOCATION", "DAMPED_TRACK", "FLOOR", "COPY_TRANSFORMS",
               "TRANSFORM", "LIMIT_DISTANCE")  # fmt: skip
EXPRESSIONS = ("frame * 0.01", "a", "a + nosuch", "sin(frame)", "1 / (frame - 12)", "", "a * 1e30")


def build(seed: int) -> None:
    """Fill the running Blender's empty file."""
    rng = np.random.default_rng([seed, 13])
    scene = bpy.context.scene
    _world(scene, rng)
    things = [_thing(rng, number) for number in range(int(rng.integers(2, 6)))]
    for thing in things:
        _key(thing, rng)
    for thing in things:
        for step in (_parent, _constrain, _drive, _strip, _hide):
            if rng.random() < 0.4:
                step(thing, things, rng)
    scene.frame_set(int(rng.integers(-30, 60)), subframe=float(rng.choice([0.0, 0.37])))
    shown = [thing for thing in things if thing.name in bpy.context.view_layer.objects]
    bpy.context.view_layer.objects.active = shown[int(rng.integers(len(shown)))] if shown else None
    _settings(scene, things, rng)


def link_some(path: str) -> None:
    """Write two objects of the scene to a library, link them into the scene, and override the first."""
    scene = bpy.context.scene
    chosen = list(scene.objects)[:2]
    bpy.data.libraries.write(path, set(chosen))
    with bpy.data.libraries.load(path, link=True) as (_, wanted):
        wanted.objects = [thing.name for thing in chosen]
    for number, thing in enumerate(filter(None, wanted.objects)):
        scene.collection.objects.link(thing)
        if number == 0:
            thing.override_create()


def _world(scene: bpy.types.Scene, rng: np.random.Generator) -> None:
    render = scene.render
    render.fps, render.fps_base = int(rng.choice([24, 25, 60, 1, 240])), float(rng.choice([1.0, 1.001, 0.5]))
    render.frame_map_old, render.frame_map_new = int(rng.choice([100, 100, 50])), int(rng.choice([100, 100, 137]))
    scene.unit_settings.scale_length = float(rng.choice(UNITS, p=(0.6, 0.1, 0.1, 0.1, 0.1)))
    scene.gravity = GRAVITIES[int(rng.choice(len(GRAVITIES), p=(0.5, 0.1, 0.1, 0.1, 0.1, 0.05, 0.05)))]


def _thing(rng: np.random.Generator, number: int) -> bpy.types.Object:
    name = str(rng.choice(NAMES)) + str(number)
    kind = rng.choice(["empty", "mesh", "rig", "person", "camera", "curve"], p=(0.25, 0.2, 0.25, 0.1, 0.1, 0.1))
    if kind == "rig":
        thing = rig(name[:60], (("root", None), ('hi"ps', "root"), ("foot.L", 'hi"ps'), ("toe", "foot.L")))
    elif kind == "person":
        thing = person()
    elif kind == "empty":
        thing = empty(name[:60])
    else:
        data = {"mesh": bpy.data.meshes.new, "camera": bpy.data.cameras.new}.get(kind)
        data = data(name[:60]) if data else bpy.data.curves.new(name[:60], "CURVE")
        thing = bpy.data.objects.new(name[:60], data)
        bpy.context.scene.collection.objects.link(thing)
    thing.rotation_mode = str(rng.choice(["XYZ", "QUATERNION", "AXIS_ANGLE"]))
    thing.scale = [float(rng.choice([1.0, 1.0, -1.0, 0.0, 1e3])) for _ in range(3)]
    return thing


def _key(thing: bpy.types.Object, rng: np.random.Generator) -> None:
    bones = list(thing.pose.bones) if thing.pose else []
    owners = [thing, *(bone for bone in bones if rng.random() < 0.5)]
    if rng.random() < 0.4:  # one that jumps, so that there is something to measure
        jumper = owners.pop(int(rng.integers(len(owners))))
        pace, high = float(rng.choice([1.0, 2.0])), float(rng.choice([1.0, 0.3]))
        key(jumper, [(frame * pace, (0.0, high * height, high * height)) for frame, height in HOP])
    for owner in owners:
        for path in ("location", "rotation_euler", "scale", "delta_location"):
            if not hasattr(owner, path) or rng.random() < (0.3 if path == "location" else 0.85):
                continue
            frames = np.sort(rng.choice(np.arange(-20, 120), int(rng.integers(1, 9)), replace=False))
            for frame in frames.tolist():
                axis = int(rng.integers(-1, 3))
                value = getattr(owner, path)
                height = float(rng.choice([0.0, 0.4, rng.normal(), 1e5]))
                value[axis if axis >= 0 else 2] = height
                owner.keyframe_insert(path, index=axis, frame=frame + float(rng.choice([0.0, 0.25])))
    for curve in host.curves_of(thing.animation_data) if thing.animation_data else ():
        for point in curve.keyframe_points:
            point.interpolation = str(rng.choice(KINDS, p=(0.4, 0.2, 0.2, 0.1, 0.05, 0.05)))
        curve.mute, curve.lock = bool(rng.random() < 0.08), bool(rng.random() < 0.08)
        curve.extrapolation = str(rng.choice(["CONSTANT", "LINEAR"], p=(0.8, 0.2)))
        if rng.random() < 0.1:
            curve.modifiers.new(str(rng.choice(["NOISE", "CYCLES", "STEPPED", "LIMITS"])))
        elif rng.random() < 0.05 and len(curve.keyframe_points) > 1:
            curve.convert_to_samples(0, 60)


def _parent(thing: bpy.types.Object, things: list[bpy.types.Object], rng: np.random.Generator) -> None:
    other = things[int(rng.integers(len(things)))]
    above = other
    while above is not None and above != thing:
        above = above.parent
    if above is None:  # no cyclic parents: Blender itself refuses those
        thing.parent = other
        if other.pose and len(other.pose.bones):
            thing.parent_type, thing.parent_bone = "BONE", other.pose.bones[0].name


def _constrain(thing: bpy.types.Object, things: list[bpy.types.Object], rng: np.random.Generator) -> None:
    bones = list(thing.pose.bones) if thing.pose else []
    owner = bones[int(rng.integers(len(bones)))] if bones and rng.random() < 0.6 else thing
    made = owner.constraints.new(str(rng.choice([*CONSTRAINTS, *(["IK"] if owner != thing else [])])))
    if hasattr(made, "target") and rng.random() < 0.9:
        made.target = things[int(rng.integers(len(things)))]  # itself too: a cycle for the host to break
        if hasattr(made, "subtarget") and made.target and made.target.pose and rng.random() < 0.5:
            made.subtarget = str(rng.choice([*(bone.name for bone in made.target.pose.bones), "gone"]))
    made.influence, made.mute = float(rng.choice([1.0, 0.3, 0.0])), bool(rng.random() < 0.1)


def _drive(thing: bpy.types.Object, things: list[bpy.types.Object], rng: np.random.Generator) -> None:
    curve = thing.driver_add("location", int(rng.integers(3)))
    driver, scene = curve.driver, bpy.context.scene
    driver.expression = str(rng.choice(EXPRESSIONS))
    variable = driver.variables.new()
    variable.name = "a"
    if rng.random() < 0.4:
        variable.targets[0].id_type, variable.targets[0].id = "SCENE", scene
        variable.targets[0].data_path = str(rng.choice(["frame_current", '["tide"]', "gravity[2]"]))
    else:
        variable.targets[0].id = things[int(rng.integers(len(things)))] if rng.random() < 0.9 else None
        variable.targets[0].data_path = str(rng.choice(["location.x", "nonsense", '["gone"]']))
    bpy.context.view_layer.update()
    scene["tide"] = 2.0  # the property exists from now on; a driver that was invalid without it stays invalid


def _strip(thing: bpy.types.Object, _things: list[bpy.types.Object], rng: np.random.Generator) -> None:
    data = thing.animation_data
    if data is None or data.action is None:
        return
    for _ in range(int(rng.integers(1, 3))):
        track = data.nla_tracks.new()
        strip = track.strips.new("strip", int(rng.integers(-10, 40)), data.action)
        strip.scale, strip.repeat = float(rng.choice([1.0, 0.5, 2.0])), float(rng.choice([1.0, 2.5]))
        strip.use_reverse, strip.mute, track.mute = (bool(rng.random() < 0.2) for _ in range(3))
        strip.blend_type = str(rng.choice(["REPLACE", "ADD", "COMBINE"]))
    if rng.random() < 0.7:
        data.action = None
    data.use_nla = bool(rng.random() < 0.9)


def _hide(thing: bpy.types.Object, _things: list[bpy.types.Object], rng: np.random.Generator) -> None:
    how = rng.choice(["viewport", "eye", "render", "collection", "out"])
    if how == "viewport":
        thing.hide_viewport = True
    elif how == "eye":
        thing.hide_set(True)
    elif how == "render":
        thing.hide_render = True
    else:
        hidden = bpy.data.collections.new("Hidden")
        bpy.context.scene.collection.children.link(hidden)
        hidden.objects.link(thing)
        bpy.context.scene.collection.objects.unlink(thing)
        hidden.hide_viewport = how == "collection"
        bpy.context.view_layer.layer_collection.children[hidden.name].exclude = how == "out"


def _settings(scene: bpy.types.Scene, things: list[bpy.types.Object], rng: np.random.Generator) -> None:
    said = scene.leapwright
    sources = ("active", "object", "bone", "center_of_mass", "footage")
    said.follow = str(rng.choice(sources, p=(0.5, 0.2, 0.15, 0.1, 0.05)))
    said.thing = things[int(rng.integers(len(things)))]
    said.bone = str(rng.choice(["root", 'hi"ps', "Hips", "gone"]))
    said.kind, said.step = str(rng.choice(["person", "cat", "insect"])), str(rng.choice(["1", "2", "3"]))
    for thing in things:
        if thing.pose is not None:
            thing.leapwright_feet.reading = str(rng.choice(["auto", "on", "off"], p=(0.6, 0.3, 0.1)))
            thing.leapwright_feet.ground = str(rng.choice(["standing", "height", "mesh"], p=(0.7, 0.2, 0.1)))
