"""What is refused is said whole: in one line where it is read by a script, in several in a pop-up."""

import bpy
import pytest
from leapwright.addon import refusals

LONG = "On whole frames this would leave the jump worse than it is (new: contact slides): keep something else"


class Told(refusals.Refusing):
    """An operator's refusing part alone: what it reports is kept."""

    def report(self, level, said):
        self.told = level, said


@pytest.mark.parametrize("level", ["ERROR", "WARNING"])
def test_a_script_reads_one_line(level):
    assert bpy.app.background
    operator = Told()
    assert operator.refuse(LONG[0].lower() + LONG[1:], level=level) == {"CANCELLED"}
    assert operator.told == ({level}, LONG)


def test_a_pop_up_is_no_wider_than_a_line_and_loses_no_word():
    lines = refusals.in_lines(LONG).split("\n")
    assert len(lines) == 2 and max(map(len, lines)) <= refusals.POPUP_LINE + 1
    assert "".join(lines) == LONG  # as the status bar shows it, without the breaks
