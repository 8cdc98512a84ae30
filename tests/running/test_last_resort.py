"""The thread that ends a program whose screen hangs: it ends it in any case, and only then."""

import subprocess
import sys

import pytest

pytestmark = pytest.mark.long  # each waits out the seconds that a screen has to end by itself

PROGRAM = """
import threading
from cockpit.running.last_resort import LastResort

done = threading.Event()

def last_words():
    {last_words}

resort = LastResort(last_words)
resort.begin(0)
done.wait(20)
print("went on")
"""


def ran(last_words):
    return subprocess.run(
        [sys.executable, "-c", PROGRAM.format(last_words=last_words)],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=60,
    )


def test_a_screen_that_hangs_is_ended_also_where_no_place_takes_the_words():
    ended = ran("raise OSError('no place')")
    assert (ended.returncode, ended.stdout) == (1, "")


def test_a_screen_that_ends_while_the_words_are_kept_goes_on():
    ended = ran("resort.disarm(); done.set(); return True")
    assert (ended.returncode, ended.stdout) == (0, "went on\n")
