"""What can be done in Blender, one operator a file, each with `CLASSES`."""

from . import audit_jump, go_to_finding, measure_push, plan_jump

CLASSES = (*audit_jump.CLASSES, *go_to_finding.CLASSES, *measure_push.CLASSES, *plan_jump.CLASSES)
