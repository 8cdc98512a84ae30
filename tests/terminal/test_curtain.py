"""The bytes that a real terminal gets after the key of the curtain: none of them is anything private."""

import contextlib
import fcntl
import re
import signal
import sqlite3
import struct
import termios
import time

import pytest
from support.real_terminal import PATIENCE, RealTerminal, make_studio

F6 = "\x1b[17~"
PRIVATE = [
    "Brandvold", "Mireille", "Perreault", "Nalani", "Ishaan", "Eilidh", "Teodor", "Okonjo", "Phoenix", "Halifax", "quixotical", "zebra",
    "three-quarter", "Private", "Follow-up", "QUEUE", "TODAY", "NOTES FOR", "cello", "finish", "help", "lydian",
]  # fmt: skip


@pytest.fixture
def folder(tmp_path, capsys):
    make_studio(tmp_path / "studio")
    return tmp_path / "studio"


def resize(terminal, columns, rows):
    terminal.screen.resize(rows, columns)
    fcntl.ioctl(terminal.fd, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
    terminal.kill(signal.SIGWINCH)


def settle(terminal):
    """Reads until a second has passed in which no name was written: what was painted before a key has come."""
    until = time.monotonic() + PATIENCE
    begins = -1
    while begins < 0 or private_since(terminal, begins):
        assert time.monotonic() < until, "it is painted again and again"
        begins, second = len(terminal.written), time.monotonic() + 1
        while time.monotonic() < second:
            terminal.read(0.1)


def private_since(terminal, begins):
    """The private words that were written since, whatever sequences stand between their letters."""
    plain = re.sub(rb"\x1b\[[?\d;:<>=]*[a-zA-Z~]", b"", bytes(terminal.written[begins:])).decode(errors="replace")
    return [word for word in PRIVATE if word.casefold() in plain.casefold()]


def test_nothing_private_is_sent_after_the_key_under_a_resize_a_paste_a_wait_and_the_end(folder):
    with RealTerminal("--at", "2026-12-01 16:05", "--folder", str(folder), columns=120, rows=40) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.key("f2")
        terminal.wait_for("has begun")
        terminal.send("Private: quixotical {F lydian}\rFollow-up: zebra")
        terminal.wait_for("zebra")
        settle(terminal)
        begins = len(terminal.written)
        terminal.send(F6)
        terminal.wait_for("F6 lifts")
        terminal.send("key Ab\r")
        terminal.wait_for("k e y   A b")
        terminal.send("C/\x1b[200~E\x1b[201~\r\x10\x07")
        terminal.wait_for("C / E")
        terminal.send("\x0e")  # ctrl+n: the notes for the family, of which there are none
        terminal.wait_until_gone("C / E")
        terminal.send("\x0e\x0b")  # ctrl+n, ctrl+k: the board again, and the chosen thing kept
        terminal.wait_for("Kept in the notes.")
        terminal.key("f1")
        for columns, rows in ((44, 20), (150, 45), (80, 24)):
            resize(terminal, columns, rows)
            terminal.wait_for("F6 lifts")
        settle(terminal)
        assert "min left" in terminal.text()
        assert b"I l s e" in terminal.written[begins:]
        assert not private_since(terminal, begins)
        terminal.send(F6)
        terminal.wait_for("NOTES FOR ILSE")
        terminal.send("\x06")
        terminal.wait_for("FIND   ")
        terminal.send("nala")
        terminal.wait_for("Kealoha")
        # Below a dialog the day is painted at each blink of the cursor: what counts is from the first picture of the curtain on.
        asked = len(terminal.written)
        terminal.send(F6)
        terminal.wait_for("F6 lifts")
        begins = terminal.written.index(b"I l s e", asked)
        settle(terminal)
        terminal.key("ctrl+q")
        assert terminal.ended() == 0
        assert not private_since(terminal, begins)
        assert re.findall(rb"\x1b\]2;[^\x07]*", terminal.written) == [b"\x1b]2;Lesson"]
        assert b"\x1b[23;2t" in terminal.written[begins:], "the title from before is back"
    with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection, connection:
        (body,) = connection.execute("SELECT body FROM note").fetchone()
    assert body == "Private: quixotical {F lydian}\nFollow-up: zebra\nTheory: {C/E}\n"
