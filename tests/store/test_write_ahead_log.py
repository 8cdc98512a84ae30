"""A log that a killed cockpit has left: read to its end in silence, or told of and kept."""

import shutil
import sqlite3
import struct
import subprocess
import sys

import pytest
from support.outbox import posting_studio

from cockpit.store.schema import NAME
from cockpit.wiring import studio_at

_PAGE, _FRAME = 4096, 4096 + 24
_LOG = f"{NAME}-wal"


@pytest.fixture
def killed(tmp_path):
    """A folder as a killed cockpit leaves it, after ten words; and the clock of its day."""
    folder = tmp_path / "killed"
    with posting_studio(tmp_path / "taught", "none") as posted:
        desk = posted.studio.desk
        desk.day.open()
        booking = desk.day.bookings[0]
        posted.clock.at = booking.lesson.starts_at
        desk.day.go_to(booking.lesson.id)
        desk.teaching.begin()
        for number in range(1, 11):
            desk.notes.write(booking.lesson.id, f"word {number}")
        shutil.copytree(tmp_path / "taught", folder)
        (folder / f"{NAME}-shm").unlink()
        clock = posted.clock
    return folder, clock


def opened(killed):
    """What is told at the opening, and the notes that are there."""
    folder, clock = killed
    with studio_at(folder, clock, to_write=True) as studio:
        bodies = [body for (body,) in studio.store.connection.execute("SELECT body FROM note")]
        return " ".join(studio.opening_notices), *bodies


def test_a_whole_log_is_read_in_silence(killed):
    assert opened(killed) == ("", "word 10")
    assert list(killed[0].glob("*set-aside*")) == []


@pytest.mark.parametrize("where", ["page", "frame header", "checksum", "last frame", "header", "nothing but zeros"])
def test_a_damaged_log_is_told_of_and_kept(killed, where):
    folder, _ = killed
    log = bytearray((folder / _LOG).read_bytes())
    frames = (len(log) - 32) // _FRAME
    middle = 32 + (frames - 5) * _FRAME
    match where:
        case "page":
            log[middle + 24 + 100] ^= 0xFF
        case "frame header":
            log[middle + 8] ^= 0xFF
        case "checksum":
            log[middle + 16] ^= 1
        case "last frame":
            del log[-1000:]
        case "header":
            log[17] ^= 1
        case _:
            log[:] = bytes(len(log))
    (folder / _LOG).write_bytes(log)
    told, *bodies = opened(killed)
    assert "Words from the last minutes may be missing" in told
    assert bodies != ["word 10"]
    (aside,) = folder.glob(f"{_LOG}.set-aside-damaged-1")
    assert str(aside) in told
    assert aside.read_bytes() == bytes(log)
    assert opened(killed)[0] == "", "it is told once"


def test_frames_of_an_earlier_round_of_the_log_are_no_loss(killed):
    folder, clock = killed
    connection = sqlite3.connect(folder / NAME, isolation_level=None)
    connection.execute("PRAGMA wal_autocheckpoint = 0")
    connection.execute("PRAGMA wal_checkpoint(RESTART)")
    before = (folder / _LOG).read_bytes()
    connection.execute("UPDATE note SET body = 'after the log began anew'")
    copy = folder.with_name("copy")
    copy.mkdir()
    for name in (NAME, _LOG, "settings.toml"):
        shutil.copy(folder / name, copy / name)
    connection.close()
    log = (copy / _LOG).read_bytes()
    assert len(log) == len(before)
    assert log[16:24] != before[16:24]
    assert log[-_FRAME:] == before[-_FRAME:], "older frames lie behind"
    assert opened((copy, clock)) == ("", "after the log began anew")


def test_a_transaction_that_was_cut_off_before_its_end_was_never_saved_and_is_no_loss(killed):
    folder, _ = killed
    log = bytearray((folder / _LOG).read_bytes())
    frame = bytearray(log[-_FRAME:])
    struct.pack_into(">I", frame, 4, 0)
    (folder / _LOG).write_bytes(log + frame)
    assert opened(killed) == ("", "word 10")


@pytest.mark.parametrize("is_killed", [True, False])
def test_an_open_studio_keeps_its_lock_on_the_shared_memory(killed, is_killed):
    """Without it SQLite in another program cuts the memory off, and the cockpit dies of a bus error."""
    folder, clock = killed
    if not is_killed:
        opened(killed)
    taking = "import fcntl, sys; fcntl.lockf(open(sys.argv[1], 'r+b'), fcntl.LOCK_EX | fcntl.LOCK_NB, 1, 128)"
    with studio_at(folder, clock, to_write=True):
        memory = folder / f"{NAME}-shm"
        taken = subprocess.run([sys.executable, "-c", taking, memory], capture_output=True, text=True, check=False)
    assert "BlockingIOError" in taken.stderr
