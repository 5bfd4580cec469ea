"""The shader of dots: a shape of its own for each kind, with an edge, of one size in pixels however far it is."""

from functools import cache

import gpu
from gpu.types import GPUShader, GPUShaderCreateInfo

VERTEX = """
void main()
{
  gl_Position = view * vec4(pos, 1.0);
  gl_PointSize = size;
}
"""
FRAGMENT = """
void main()
{
  vec2 at = (gl_PointCoord - vec2(0.5)) * size;
  float reach = 0.5 * size - 1.5;
  float off = length(at) - reach;
  if (shape == 1) {
    off = abs(length(at) - (reach - 1.0)) - 1.0;
  }
  else if (shape == 2) {
    off = (abs(at.x) + abs(at.y) - reach) * 0.7071;
  }
  else if (shape == 3) {
    vec2 turned = vec2(at.x + at.y, at.x - at.y) * 0.7071;
    off = max(min(abs(turned.x), abs(turned.y)) - 1.0, max(abs(at.x), abs(at.y)) - reach);
  }
  else if (shape == 4) {
    off = max(abs(at.x), abs(at.y)) - reach;
  }
  float inside = clamp(0.5 - off, 0.0, 1.0);
  float around = clamp(1.5 - off, 0.0, 1.0);
  if (around <= 0.0) {
    discard;
  }
  float seen = max(inside, edge.a * around);
  vec3 mixed = mix(edge.rgb, color.rgb, inside);
  if (encoded == 1) {
    mixed = mix(mixed / 12.92, pow((mixed + 0.055) / 1.055, vec3(2.4)), step(vec3(0.04045), mixed));
  }
  fragColor = vec4(mixed, seen * color.a);
}
"""


@cache
def dot_shader() -> GPUShader:
    """Return the shader, compiled once; needs a window, or a context made otherwise.

    encoded: 1 where what is drawn on encodes colors itself, as a viewport does, and is to be given linear ones
    (IEC 61966-2-1); Blender's own shaders know that by themselves.
    """
    info = GPUShaderCreateInfo()
    info.push_constant("MAT4", "view")
    info.push_constant("VEC4", "color")
    info.push_constant("VEC4", "edge")
    info.push_constant("FLOAT", "size")
    info.push_constant("INT", "shape")
    info.push_constant("INT", "encoded")
    info.vertex_in(0, "VEC3", "pos")
    info.fragment_out(0, "VEC4", "fragColor")
    info.vertex_source(VERTEX)
    info.fragment_source(FRAGMENT)
    return gpu.shader.create_from_info(info)


@cache
def strokes() -> GPUShader:
    """Return Blender's own shader of lines with a width in pixels."""
    return gpu.shader.from_builtin("POLYLINE_UNIFORM_COLOR")
