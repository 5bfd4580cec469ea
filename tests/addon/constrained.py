"""Rigs whose place curves alone do not tell, and a digest of everything that a reading must not change."""

import hashlib

import bpy
from leapwright.addon import host
from leapwright.addon.reading.dependencies import constraints_of

from tests.addon.scenery import empty, key

HOP = ((1, (0, 0, 0)), (8, (0.1, -0.3, 0.1)), (15, (0.2, 0.6, 0)), (22, (0.3, -0.2, 0.2)), (30, (0.4, 0, 0)))


def limb(_scene, name="Moss"):
    """Return hips, thigh and shin: the hips are keyed, and the shin reaches for a keyed foot by IK."""
    rig = bpy.data.objects.new(name, bpy.data.armatures.new(name))
    bpy.context.scene.collection.objects.link(rig)
    bpy.context.view_layer.objects.active = rig
    bpy.ops.object.mode_set(mode="EDIT")
    above = None
    places = {
        "hips": ((0, 0, 1), (0, 0, 1.3)),
        "thigh": ((0, 0, 1), (0, -0.1, 0.5)),
        "shin": ((0, -0.1, 0.5), (0, 0, 0)),
    }
    for bone, (head, tail) in {**places, "foot": ((0, 0, 0), (0, -0.2, 0))}.items():
        new = rig.data.edit_bones.new(bone)
        new.head, new.tail, new.parent = head, tail, above if bone != "foot" else None
        above = new
    bpy.ops.object.mode_set(mode="OBJECT")
    key(rig.pose.bones["hips"], HOP)
    key(rig.pose.bones["foot"], [(frame, (y, 0.2 * x, z)) for frame, (x, y, z) in HOP])
    reach = rig.pose.bones["shin"].constraints.new("IK")
    reach.target, reach.subtarget, reach.chain_count = rig, "foot", 2
    return rig


def drivers(scene):
    """Return bones driven by the frame, by another object, by properties of scene, rig and armature."""
    rig = limb(scene)
    moved = key(empty("Buoy"))
    scene["swell"] = rig["tide"] = rig.data["stretch"] = 0.0
    for frame, value in ((1, 0.0), (30, 1.5)):
        for holder, name in ((scene, "swell"), (rig, "tide"), (rig.data, "stretch")):
            holder[name] = value
            holder.keyframe_insert(f'["{name}"]', frame=frame)
    wanted = {("hips", 0): (moved, "location[1]"), ("thigh", 1): (scene, '["swell"]'), ("foot", 2): (rig, '["tide"]'),
              ("foot", 0): (rig.data, '["stretch"]'), ("thigh", 0): (scene, "frame_current")}  # fmt: skip
    for (bone, axis), (source, path) in wanted.items():
        driver = rig.pose.bones[bone].driver_add("location", axis).driver
        variable = driver.variables.new()
        variable.name, variable.targets[0].id_type = "it", source.id_type
        variable.targets[0].id, variable.targets[0].data_path = source, path
        driver.expression = "it * 0.1"
    rig.driver_add("location", 2).driver.expression = "frame * 0.05"
    return rig


def parents(scene):
    """Return a rig on a keyed object on a bone of a keyed rig."""
    carrier = key(limb(scene, "Brindle"))
    barge = key(empty("Barge", parent=carrier))
    barge.parent_type, barge.parent_bone = "BONE", "shin"
    rig = limb(scene)
    rig.parent = barge
    rig.matrix_parent_inverse.translation = (0.1, 0.2, 0.3)
    return rig


def targets(scene):
    """Return a rig under these constraints: Child Of, a path, damped tracks, a floor and limits."""
    rig = limb(scene)
    child = rig.pose.bones["hips"].constraints.new("CHILD_OF")
    child.target = key(empty("Buoy"))
    floor = rig.pose.bones["foot"].constraints.new("LIMIT_LOCATION")
    floor.use_min_z = True
    look = rig.constraints.new("DAMPED_TRACK")
    look.target = key(limb(scene, "Brindle"))
    look.subtarget = "shin"
    curve = bpy.data.curves.new("Rope", "CURVE")
    curve.splines.new("POLY").points.add(3)
    curve.splines[0].points.foreach_set("co", [0, 0, 0, 1, 1, 0, 0.5, 1, 2, 1, 0, 1, 3, 2, 1, 1])
    curve.use_path = True
    rope = bpy.data.objects.new("Rope", curve)
    scene.collection.objects.link(rope)
    follow = rig.constraints.new("FOLLOW_PATH")
    follow.target, follow.use_fixed_location = rope, True
    for frame, share in ((1, 0.0), (30, 1.0)):
        follow.offset_factor = share
        follow.keyframe_insert("offset_factor", frame=frame)
    return rig


def strips(scene):
    """Return two NLA strips, one added to the other with a fade, repeated and scaled."""
    rig = limb(scene)
    data = rig.animation_data
    action = data.action
    for start, kind in ((1, "REPLACE"), (12, "COMBINE")):
        strip = data.nla_tracks.new().strips.new("hop", start, action)
        if hasattr(strip, "action_slot"):
            strip.action_slot = action.slots[0]
        strip.blend_type = kind
    strip.scale, strip.repeat, strip.blend_in = 0.5, 2.0, 4.0
    data.action = None
    return rig


def override(scene):
    """Return a library override of a linked rig, its own action on it."""
    path = f"{bpy.app.tempdir}leapwright-override.blend"
    bpy.data.libraries.write(path, {limb(scene)})
    bpy.data.objects.remove(bpy.data.objects["Moss"])
    with bpy.data.libraries.load(path, link=True) as (_, wanted):
        wanted.objects = ["Moss"]
    rig = wanted.objects[0].override_create(remap_local_usages=True)
    scene.collection.objects.link(rig)
    rig.animation_data.action = own = wanted.objects[0].animation_data.action.copy()
    if hasattr(own, "slots"):
        rig.animation_data.action_slot = own.slots[0]
    for curve in host.curves_of(rig.animation_data):
        curve.keyframe_points[2].co_ui.y += 0.3
        curve.update()
    return rig


RIGS = (limb, drivers, parents, targets, strips, override)


def footprint():
    """Return a digest of every data-block: its name and users, and of scenes, curves and poses their state."""
    said = [bpy.context.mode, repr(bpy.context.view_layer.objects.active), bpy.context.scene.name]
    for data in sorted(bpy.data.user_map(), key=lambda data: (data.id_type, data.name)):
        said.append((data.id_type, data.name, data.users, data.is_library_indirect, data.session_uid))
    for scene in bpy.data.scenes:
        said.append((scene.frame_current, scene.frame_subframe, scene.frame_float))
        said.append([(thing.name, thing.select_get(), thing.visible_get()) for thing in scene.objects])
    for thing in bpy.data.objects:
        said.append([thing.matrix_world[:], thing.matrix_basis[:], repr(thing.parent)])
        said.extend(
            (con.name, con.type, con.influence, repr(getattr(con, "target", None))) for con in constraints_of(thing)
        )
        for bone in thing.pose.bones if thing.pose else ():
            said.append([bone.matrix[:], bone.matrix_basis[:], bone.head[:], bone.rotation_mode, bone.items()])
        said.extend(_animation(thing))
    return hashlib.sha256(repr(said).encode()).hexdigest()


def _animation(thing):
    data = thing.animation_data
    if data is None:
        return
    for curve in (*host.curves_of(data), *(c for clip in host.clips_of(data) for c in host.curves_of(clip))):
        points = [(p.co[:], p.handle_left[:], p.handle_right[:], p.interpolation, p.select_control_point)
                  for p in curve.keyframe_points]  # fmt: skip
        yield curve.data_path, curve.array_index, curve.mute, points
    for curve in data.drivers:
        asked = [
            (v.name, v.type, [(t.id_type, repr(t.id), t.data_path) for t in v.targets]) for v in curve.driver.variables
        ]
        yield curve.data_path, curve.driver.expression, asked
