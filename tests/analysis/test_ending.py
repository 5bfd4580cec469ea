"""A signal that asks to end: raised where work may be left off, even where Python drops what is raised."""

import os
import subprocess
import sys

import pytest

pytestmark = pytest.mark.skipif(os.name == "nt", reason="Windows ends a process without asking it")
CALL = """
import os, signal, time, weakref
signal.signal(signal.SIGINT, signal.default_int_handler)
signal.signal(signal.SIGHUP, signal.SIG_DFL)  # ignored under nohup
from leapwright.analysis.ending import ends_in_order, held_back, let_through

class Thing:
    {more}

def asked(*_):
    os.kill(os.getpid(), signal.{asked})
    os.getpid()

with ends_in_order(), let_through():
    thing = Thing()
    reference = weakref.ref(thing, {callback})
    del thing
    {then}
    time.sleep(20)
"""
DELETED = "def __del__(self): asked()"


def ran(**words: str) -> "subprocess.CompletedProcess[str]":
    """Run a process in which a thing is deleted, and a signal comes while Python calls whoever wants to know of it."""
    call = CALL.format(**{"more": "pass", "callback": "None", "then": "pass"} | words)
    return subprocess.run([sys.executable, "-c", call], capture_output=True, text=True, timeout=15)


@pytest.mark.parametrize(("asked", "code"), [("SIGINT", 130), ("SIGTERM", 143), ("SIGHUP", 129)])
@pytest.mark.parametrize("where", [{"callback": "asked"}, {"more": DELETED}])
def test_a_signal_is_not_lost_where_what_it_raises_is_dropped(asked: str, code: int, where: dict[str, str]) -> None:
    # The shell's code for a signal is 128 and its number (POSIX.1-2017, 2.8.2; Linux numbers them 1, 2 and 15).
    done = ran(asked=asked, **where)
    assert (done.returncode, done.stderr) == (code, "interrupted\n")


def test_sent_again_it_waits_until_it_is_let_through() -> None:
    # held: the signal sent again comes after 0.01 s, and may not end the block that began meanwhile.
    block = "with held_back():\n        time.sleep(0.3)\n        print('whole')"
    done = ran(asked="SIGTERM", callback="asked", then=block)
    assert (done.returncode, done.stdout, done.stderr) == (143, "whole\n", "interrupted\n")


def test_what_else_is_dropped_is_told_as_ever() -> None:
    done = ran(asked="SIGTERM", callback="lambda _: 1 / 0", then="raise SystemExit(0)")
    assert done.returncode == 0 and "ZeroDivisionError" in done.stderr


@pytest.mark.parametrize(("asked", "code"), [("SIGINT", 130), ("SIGTERM", 143)])
def test_a_signal_that_comes_while_a_class_names_its_fields_ends_in_order(asked: str, code: int) -> None:
    # Up to Python 3.11 what is raised in __set_name__ comes as a RuntimeError with it as its cause.
    done = ran(asked=asked, more="def __set_name__(self, *_): asked()", then="type('Owner', (), {'field': Thing()})")
    assert (done.returncode, done.stderr) == (code, "interrupted\n")
