"""Review Shots: audit every shot of a folder while Blender goes on, then open the day's page."""

import time
from pathlib import Path

import bpy
from bpy.props import BoolProperty, StringProperty
from bpy.types import Context, Event, Operator

from ..blender_words import Outcome
from ..refusals import InWindow
from ..shots.review import UNREADABLE_EXIT, Review

SECONDS_BETWEEN_LOOKS = 0.2
"""Seconds between two looks at how far it is."""


class LEAPWRIGHT_OT_review_shots(InWindow, Operator):
    """Audit a folder; nothing in this file or in any shot changes, so there is no undo step."""

    bl_idname = "leapwright.review_shots"
    bl_label = "Review Shots"
    bl_description = "Audit every shot in a folder, and open the day's page in the browser; Escape stops it"
    bl_options = {"REGISTER"}

    directory: StringProperty(name="Folder", description="Folder of the shots", subtype="DIR_PATH")
    use_browser: BoolProperty(name="Open the Page", description="Open the page in the browser at the end", default=True)
    filter_folder: BoolProperty(default=True, options={"HIDDEN"})

    def invoke(self, context: Context, _event: Event) -> Outcome:
        context.window_manager.fileselect_add(self)
        return {"RUNNING_MODAL"}

    def execute(self, context: Context) -> Outcome:
        folder = Path(bpy.path.abspath(self.directory))
        if not self.directory or not folder.is_dir():
            return self.refuse("there is no such folder")
        self.review = Review(folder)
        try:
            self.review.start()
        except OSError as error:
            return self.refuse(f"the audit cannot be started: {(error.strerror or str(error)).lower()}")
        if bpy.app.background:
            while (code := self.review.look()) is None:
                time.sleep(SECONDS_BETWEEN_LOOKS)
            return self._ended(code)
        self.timer = context.window_manager.event_timer_add(SECONDS_BETWEEN_LOOKS, window=context.window)
        context.window_manager.modal_handler_add(self)
        return {"RUNNING_MODAL"}

    def modal(self, context: Context, event: Event) -> Outcome:
        if event.type == "ESC":
            self.review.stop()
            self._tidy(context)
            return self.refuse("the review was stopped", level="WARNING")
        if event.type != "TIMER":
            return {"PASS_THROUGH"}
        code = self.review.look()
        if code is None:
            context.workspace.status_text_set(self._told())
            return {"PASS_THROUGH"}
        self._tidy(context)
        return self._ended(code)

    def cancel(self, context: Context) -> None:
        """End what runs when Blender itself ends."""
        if hasattr(self, "review"):
            self.review.stop()

    def _told(self) -> str:
        review = self.review
        if not review.total:
            return f"Leapwright reads {review.shots.name}…  Esc: Stop"
        return f"Leapwright: {review.done} of {review.total} shots, {review.name}  Esc: Stop"

    def _tidy(self, context: Context) -> None:
        context.window_manager.event_timer_remove(self.timer)
        context.workspace.status_text_set(None)

    def _ended(self, code: int) -> Outcome:
        review = self.review
        review.look()
        if code not in (0, UNREADABLE_EXIT):
            return self.refuse(review.said.removeprefix("leapwright audit: ") or f"the audit ended with {code}")
        if self.use_browser and not bpy.app.background:
            bpy.ops.wm.url_open(url=review.page.as_uri())
        unread = "; some could not be read" if code == UNREADABLE_EXIT else ""
        self.report({"WARNING"} if unread else {"INFO"}, f"The day's page is {review.page}{unread}")
        return {"FINISHED"}


CLASSES = (LEAPWRIGHT_OT_review_shots,)
