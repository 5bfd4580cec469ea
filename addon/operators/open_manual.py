"""Open Manual: show the manual, at a page or at what it says of a finding, in the browser."""

from pathlib import Path

import bpy
from bpy.props import StringProperty
from bpy.types import Context, Operator

from ..blender_words import Outcome
from ..manual import pages
from ..refusals import InWindow


class LEAPWRIGHT_OT_open_manual(InWindow, Operator):
    """Show the manual."""

    bl_idname = "leapwright.open_manual"
    bl_label = "Open Manual"
    bl_description = "Show the manual in the browser, at what it says of this"
    # No UNDO: nothing changes.
    bl_options = {"REGISTER"}

    page: StringProperty(name="Page", description="Name of the page", default=pages.FIRST_PAGE, options={"SKIP_SAVE"})
    section: StringProperty(name="Section", description="Name of the section", options={"SKIP_SAVE"})

    def execute(self, context: Context) -> Outcome:
        page = pages.write_pages(Path(bpy.app.tempdir) / "leapwright-manual").with_name(f"{self.page}.html")
        if not page.exists():
            self.report({"WARNING"}, f"The manual has no page {self.page}")
            return {"CANCELLED"}
        bpy.ops.wm.url_open(url=page.as_uri() + (f"#{self.section}" if self.section else ""))
        return {"FINISHED"}


CLASSES = (LEAPWRIGHT_OT_open_manual,)
