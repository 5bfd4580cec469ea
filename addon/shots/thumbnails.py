"""A small picture of the shot at the top of each jump, rendered without a screen or a graphics card.

Cycles draws it on the processor in grays, one an object, lit from over the camera's shoulder: no texture is loaded, no
light is needed, and there is no noise, so that few samples do. The file was opened to be read; nothing of it is saved.
"""

import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import cast

import bpy
from bpy.types import Camera, Material, NodeSocket, Object, Scene, ShaderNode, World
from mathutils import Vector

from ...analysis.audit import Audit
from ...analysis.errors import SourceError
from ...analysis.jump import Jump
from ...analysis.shot import Thumbnail
from ...analysis.track import Track
from .. import host

THUMBNAIL_WIDTH = 240
TALLEST = 240
"""Pixels; the shot's own proportions."""
SAMPLES = 4
MOST_THUMBNAIL_BYTES = 8_000
QUALITIES = (75, 55, 35, 15)
"""Of JPEG: the first one whose file is small enough."""
SHOWN = {"MESH", "CURVE", "CURVES", "SURFACE", "META", "FONT", "VOLUME", "POINTCLOUD", "GREASEPENCIL"}
LIGHT = (-0.60, 0.62, -0.50)
"""Where the light comes from, as the camera sees it: right, up, away from it (ours)."""
SHADE_DARK, SHADE_BRIGHT = 0.01, 0.5
"""How much of it what is turned away, and what faces it, gives back (ours)."""
DULL = 0.35
"""Share of that which the darkest object gives back; others lie between, by chance, to be told apart (ours)."""
BACKGROUND_GRAY = 0.6
"""Of the background (ours)."""
CAMERA_ROOM = 3.0
"""Widths of a picture without a camera of the shot's own, in heights of the body (ours)."""


def thumbnails_of(scene: Scene, track: Track, audit: Audit) -> tuple[Thumbnail | None, ...]:
    """Render a thumbnail of each jump, through the scene's camera or else from the side of the jump.

    None where nothing was rendered. The scene is left as it is needed for that: it is not to be read afterward.
    Raises SourceError where this Blender cannot render, or there is nothing to be seen.
    """
    if not any(thing.type in SHOWN and not thing.hide_render for thing in scene.objects):
        raise SourceError("nothing in it is rendered")
    _set_up(scene)
    with tempfile.TemporaryDirectory(prefix="leapwright-") as folder:
        return tuple(_thumbnail(scene, track, jump, Path(folder) / "thumbnail.jpg") for jump in audit.jumps)


def _thumbnail(scene: Scene, track: Track, jump: Jump, file: Path) -> Thumbnail | None:
    frame = round(jump.apex.frame)
    scene.frame_set(frame)
    with _camera(scene, track, jump):
        bpy.ops.render.render(scene=scene.name)
    settings, result = scene.render.image_settings, bpy.data.images["Render Result"]
    for quality in QUALITIES:
        settings.quality = quality
        result.save_render(str(file), scene=scene)
        if file.stat().st_size <= MOST_THUMBNAIL_BYTES:
            return Thumbnail(frame, file.read_bytes())
    return None


def _set_up(scene: Scene) -> None:
    """Make a render small, gray and quick. Raises SourceError where there is no Cycles."""
    render = scene.render
    try:
        render.engine = "CYCLES"  # type: ignore[assignment]  # an add-on of Blender's registers it
    except TypeError:
        raise SourceError("this Blender has no Cycles") from None
    tall = THUMBNAIL_WIDTH * render.resolution_y * render.pixel_aspect_y / (render.resolution_x * render.pixel_aspect_x)
    render.resolution_x, render.resolution_y = THUMBNAIL_WIDTH, max(1, min(round(tall), TALLEST))
    render.resolution_percentage, render.pixel_aspect_x, render.pixel_aspect_y = 100, 1.0, 1.0
    for name in ("use_compositing", "use_sequencer", "use_border", "use_motion_blur", "use_multiview", "use_freestyle",
                 "film_transparent", "use_stamp"):  # fmt: skip
        setattr(render, name, False)
    render.use_simplify, render.simplify_subdivision_render, render.simplify_child_particles_render = True, 0, 0.0
    host.write_images(render.image_settings, "JPEG", "RGB")
    cycles = scene.cycles  # type: ignore[attr-defined]  # an add-on of Blender's registers it
    cycles.device, cycles.samples, cycles.max_bounces = "CPU", SAMPLES, 0
    cycles.use_denoising = cycles.use_adaptive_sampling = cycles.use_animated_seed = False
    # The stubs know but the view transforms of no color configuration.
    for name, value in (("view_transform", "Standard"), ("look", "None")):
        setattr(scene.view_settings, name, value)
    scene.view_settings.exposure, scene.view_settings.gamma = 0.0, 1.0
    scene.world, gray = _sky(), _gray()
    for layer in scene.view_layers:
        layer.material_override = gray


def _sky() -> World:
    world = bpy.data.worlds.new("Leapwright")
    for node in host.node_tree_of(world).nodes:
        if node.type == "BACKGROUND":
            _give(node.inputs[0], (BACKGROUND_GRAY, BACKGROUND_GRAY, BACKGROUND_GRAY, 1.0))
    return world


def _gray() -> Material:
    """Return a material that shines by how it is turned to LIGHT, in the camera's directions, and takes no light."""
    material = bpy.data.materials.new("Leapwright")
    tree = host.node_tree_of(material)
    tree.nodes.clear()

    def node(kind: str, **properties: object) -> ShaderNode:
        new = tree.nodes.new(f"ShaderNode{kind}")
        for name, value in properties.items():
            setattr(new, name, value)
        return cast(ShaderNode, new)

    def joined(first: ShaderNode, second: ShaderNode, place: int = 0, out: str | int = 0) -> ShaderNode:
        tree.links.new(first.outputs[out], second.inputs[place])
        return second

    facing = node("VectorTransform", vector_type="NORMAL", convert_from="WORLD", convert_to="CAMERA")
    turned = joined(joined(node("NewGeometry"), facing, out="Normal"), node("VectorMath", operation="DOT_PRODUCT"))
    _give(turned.inputs[1], LIGHT)
    lit = joined(turned, _between(node("MapRange"), -1.0, 1.0, SHADE_DARK, SHADE_BRIGHT), out="Value")
    own = joined(node("ObjectInfo"), _between(node("MapRange"), 0.0, 1.0, DULL, 1.0), out="Random")
    shade = joined(own, joined(lit, node("Math", operation="MULTIPLY")), 1)
    joined(joined(shade, node("Emission"), 1), node("OutputMaterial"))
    return material


def _between(node: ShaderNode, *values: float) -> ShaderNode:
    """Take from the first two values to the last two."""
    for place, value in enumerate(values, 1):
        _give(node.inputs[place], value)
    return node


def _give(socket: NodeSocket, value: object) -> None:
    socket.default_value = value  # type: ignore[attr-defined]  # its kinds have one, each of a type of its own


@contextmanager
def _camera(scene: Scene, track: Track, jump: Jump) -> Iterator[None]:
    """See through the scene's camera; where it has none, through one at the side of the jump."""
    if scene.camera is not None:
        yield
        return
    lens: Camera = bpy.data.cameras.new("Leapwright")
    camera = bpy.data.objects.new("Leapwright", lens)
    scene.collection.objects.link(camera)
    try:
        _aim(camera, lens, scene, track, jump)
        scene.camera = camera
        yield
    finally:
        bpy.data.batch_remove((camera, lens))


def _aim(camera: Object, lens: Camera, scene: Scene, track: Track, jump: Jump) -> None:
    """Look at the top of the jump, level and across its travel, the travel to the right."""
    scale = scene.unit_settings.scale_length if scene.unit_settings.system != "NONE" else 1.0
    top, start, end = (Vector(_at(track, event.frame)) / scale for event in (jump.apex, jump.takeoff, jump.landing))
    way = Vector(((end - start).x, (end - start).y, 0.0))
    way = way.normalized() if way.length > 0.0 else Vector((1.0, 0.0, 0.0))
    thing = scene.objects.get(track.name.partition("/")[0])
    tall = (thing.dimensions.z if thing is not None else 0.0) or 1.0
    toward = Vector((way.y, -way.x, 0.0))  # square to the way, level: way × up
    lens.type, lens.ortho_scale = "ORTHO", CAMERA_ROOM * tall
    lens.clip_end = 20.0 * tall
    camera.location = top + toward * (10.0 * tall)
    camera.rotation_euler = toward.to_track_quat("Z", "Y").to_euler()


def _at(track: Track, frame: float) -> Sequence[float]:
    """Return the sample of a track nearest to a frame, in meters."""
    return track.positions[int(abs(track.frames - frame).argmin())].tolist()
