"""A recital in a real terminal: its keys arrive, and its clock goes on after the program was killed."""

import contextlib
import re
import signal
import sqlite3

import pytest
from support.real_terminal import RealTerminal, make_studio

pytestmark = pytest.mark.long
SHIFT_UP, SHIFT_DOWN = "\x1b[1;2A", "\x1b[1;2B"
LINES = (
    "ilse the old mill 3:00",
    "teodor lantern song 2:00",
    "nalani rain on tin 5:00",
)


@pytest.fixture
def folder(tmp_path, capsys):
    make_studio(tmp_path / "studio")
    return tmp_path / "studio"


def opened(folder, at):
    return RealTerminal("--at", at, "--folder", str(folder))


def played(folder):
    """The pieces in order, each with whether it has begun and ended."""
    with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection:
        return connection.execute(
            "SELECT piece, began_at IS NOT NULL, ended_at IS NOT NULL FROM recital_item ORDER BY position"
        ).fetchall()


def test_items_are_moved_and_a_recital_that_was_killed_goes_on_where_it_was(folder):
    with opened(folder, "2026-12-01 16:05") as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.send("\t\tg")
        terminal.wait_for("No recital yet.")
        terminal.send("n")
        terminal.wait_for("NEW RECITAL")
        terminal.send("winter tales, tue dec 1 6pm, opening 3m\r")
        terminal.wait_for("No items yet.")
        for line in LINES:
            terminal.send("a")
            terminal.wait_for("NEW ITEM")
            terminal.send(f"{line}\r")
            terminal.wait_until_gone("NEW ITEM")
            terminal.wait_for(line.split()[1])
        terminal.send(SHIFT_DOWN)
        terminal.wait_for("is number 2.")
        assert [piece for piece, _, _ in played(folder)][1].casefold() == "the old mill"
        terminal.send(SHIFT_UP)
        terminal.wait_for("is number 1.")
        terminal.send("l")
        terminal.wait_for("enter begins the welcome")
        terminal.send("\r")
        terminal.wait_for("the welcome")
        terminal.send("\r")
        terminal.wait_for("3:00 left")
        terminal.kill(signal.SIGKILL)
        assert terminal.ended() == -signal.SIGKILL
    assert [(begun, ended) for _, begun, ended in played(folder)] == [(1, 0), (0, 0), (0, 0)]
    with opened(folder, "2026-12-01 16:07") as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.send("\x1b[17~")  # F6
        terminal.wait_for("next  a student")
        terminal.send("\x1b[17~")
        terminal.wait_for("NOTES FOR ILSE")
        terminal.send("\t\tg")
        terminal.wait_for("▶  1")
        terminal.send("l")
        terminal.wait_for(" left\n")
        (left,) = re.findall(r"(\d+):\d\d left$", terminal.text().partition("NOW ")[2].splitlines()[0].rstrip())
        assert int(left) <= 1, "two minutes on, but for the seconds that the first program ran"
        assert "NOW      1 Ilse" in terminal.text()
        terminal.send("\r")
        terminal.wait_for("a change")
        terminal.send("\x7f")
        terminal.wait_for("NOW      1 Ilse")
