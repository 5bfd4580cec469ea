"""What can be done in Blender, one operator a file, each with `CLASSES`."""

from . import (
    audit_jump,
    clear_pins,
    forecast_retime,
    go_to_finding,
    import_motion,
    list_feet,
    map_body,
    measure_push,
    no_jump_here,
    pin_event,
    plan_jump,
    retime_jump,
    show_centre_of_mass,
    toggle_view,
)

CLASSES = (
    *audit_jump.CLASSES,
    *import_motion.CLASSES,
    *map_body.CLASSES,
    *show_centre_of_mass.CLASSES,
    *pin_event.CLASSES,
    *no_jump_here.CLASSES,
    *clear_pins.CLASSES,
    *go_to_finding.CLASSES,
    *list_feet.CLASSES,
    *measure_push.CLASSES,
    *plan_jump.CLASSES,
    *retime_jump.CLASSES,
    *forecast_retime.CLASSES,
    *toggle_view.CLASSES,
)
