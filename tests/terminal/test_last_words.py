"""The program in a real terminal, where words cannot be saved: they are kept, told of, and found again; and it always ends."""

import contextlib
import fcntl
import resource
import signal
import sqlite3
import time
from pathlib import Path

import pytest
from support.real_terminal import RealTerminal, make_studio, wait_for_backup

AT = "2026-12-01 16:05"
NO_LIMIT = (resource.RLIM_INFINITY, resource.RLIM_INFINITY)
WIDE = 300  # columns: every sentence in one part, instead of one part after another for some seconds each
REFUSES = (4096, resource.RLIM_INFINITY)


@pytest.fixture
def folder(tmp_path, capsys):
    make_studio(tmp_path / "studio")
    (tmp_path / "tmp").mkdir()
    return tmp_path / "studio"


def opened(folder: Path, at: str = AT, **more) -> RealTerminal:
    temporary = folder.parent / "tmp"
    return RealTerminal("--at", at, "--folder", str(folder), TMPDIR=str(temporary), **more)


def notes(folder: Path) -> str:
    with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection, connection:
        return "\n".join(row[0] for row in connection.execute("SELECT body FROM note"))


def rescued(folder: Path) -> list[Path]:
    return sorted([*folder.glob("unsaved-notes-*"), *(folder.parent / "tmp").glob("unsaved-notes-*")])


def typed_in_vain(terminal: RealTerminal, folder: Path) -> None:
    """Has the disk refuse from here on, and types a word."""
    terminal.wait_for("NOTES FOR ILSE")
    terminal.send("Ear: hum")
    terminal.wait_for("Ear: hum")
    wait_for_backup(terminal, folder)
    resource.prlimit(terminal.pid, resource.RLIMIT_FSIZE, REFUSES)
    terminal.send(" the drone")
    terminal.wait_for("hum the drone")
    terminal.wait_for("Not saved")


def is_free(folder: Path) -> bool:
    """Whether nobody holds the studio's lock."""
    with (folder / "studio.lock").open("w") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            return False
    return True


def test_closing_with_words_that_the_disk_refused_says_so_once_then_keeps_them_and_the_next_opening_takes_them_in(
    folder,
):
    with opened(folder, columns=WIDE) as terminal:
        typed_in_vain(terminal, folder)
        terminal.key("ctrl+q")
        terminal.wait_for("Ctrl+q again")
        terminal.send("s")
        terminal.wait_for("hum the drones")
        terminal.key("ctrl+q")
        assert terminal.ended() == 1
        said = terminal.text()
    assert notes(folder) == "Ear: hum"
    (kept,) = rescued(folder)
    assert kept.name in said.replace("\n", "")
    assert kept.stat().st_mode & 0o777 == 0o600
    for words in ("Ilse", "2026-12-01", "Ear: hum the drones"):
        assert words in kept.read_text(encoding="utf-8")
    with opened(folder, "2026-12-01 16:20", columns=WIDE) as terminal:
        terminal.wait_for("hum the drones")
        terminal.wait_for("could not be saved")
        assert notes(folder) == "Ear: hum the drones"
        assert rescued(folder) == []
        terminal.key("ctrl+q")
        assert terminal.ended() == 0


@pytest.mark.long
@pytest.mark.parametrize(("number", "status"), [(signal.SIGTERM, 143), (signal.SIGHUP, 129)])
def test_a_signal_keeps_the_words_that_the_disk_refused(folder, number, status):
    with opened(folder) as terminal:
        typed_in_vain(terminal, folder)
        terminal.kill(number)
        assert terminal.ended() == status
    (kept,) = rescued(folder)
    assert kept.parent == folder
    assert kept.read_text(encoding="utf-8").endswith("Ear: hum the drone")


@pytest.mark.long
def test_a_closed_window_keeps_the_words_that_the_disk_refused(folder):
    with opened(folder) as terminal:
        typed_in_vain(terminal, folder)
        terminal.close()
        terminal.ended()
    (kept,) = rescued(folder)
    assert kept.read_text(encoding="utf-8").endswith("Ear: hum the drone")


@pytest.mark.long
def test_a_database_that_another_program_holds_is_told_once_blocks_no_key_and_takes_the_words_afterwards(folder):
    with opened(folder) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.send("Ear: hum")
        terminal.wait_for("Ear: hum")
        other = sqlite3.connect(folder / "studio.db", isolation_level=None)
        other.execute("BEGIN EXCLUSIVE")
        for sign in " the drone":
            terminal.send(sign)
            terminal.read(0.05)
        terminal.wait_for("hum the drone")
        terminal.wait_for("while another program")
        assert notes(folder) == "Ear: hum"
        other.execute("ROLLBACK")
        other.close()
        terminal.wait_for("Saving works again")
        assert notes(folder) == "Ear: hum the drone"


@pytest.mark.long
def test_a_studio_folder_that_is_renamed_is_told_nothing_is_written_beside_it_and_its_words_are_kept(folder):
    elsewhere = folder.with_name("elsewhere")
    with opened(folder, columns=WIDE) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.key("f2")
        terminal.wait_for("has begun")
        terminal.send("Ear: hum")
        terminal.wait_for("Ear: hum")
        folder.rename(elsewhere)
        terminal.wait_for("Not saved")
        terminal.send(" the drone")
        terminal.wait_for("hum the drone")
        terminal.key("f9")
        terminal.read(0.5)
        assert not folder.exists()
        elsewhere.rename(folder)
        terminal.wait_for("Saving works again")
        assert notes(folder) == "Ear: hum the drone"
        folder.rename(elsewhere)
        terminal.wait_for("Not saved")
        terminal.send("s")
        terminal.wait_for("hum the drones")
        terminal.key("ctrl+q")
        terminal.wait_for("Ctrl+q again")
        terminal.key("ctrl+q")
        assert terminal.ended() == 1
    assert not folder.exists()
    (kept,) = rescued(elsewhere)
    assert kept.parent == folder.parent / "tmp"
    with opened(elsewhere, "2026-12-01 16:20", columns=WIDE) as terminal:
        terminal.wait_for("hum the drones")
        terminal.key("ctrl+q")
        assert terminal.ended() == 0
    assert notes(elsewhere) == "Ear: hum the drones"
    assert rescued(elsewhere) == []


@pytest.mark.long
@pytest.mark.parametrize("hundredth", range(6))
def test_a_window_that_is_closed_right_after_a_key_ends_the_program_and_frees_the_studio(folder, hundredth):
    with opened(folder) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.key("f10")
        terminal.read(hundredth / 100)
        terminal.close()
        assert terminal.ended() == 129
    assert is_free(folder)


@pytest.mark.long
def test_a_terminal_that_takes_nothing_any_more_keeps_no_signal_from_ending_it_and_no_word_from_being_kept(folder):
    with opened(folder) as terminal:
        typed_in_vain(terminal, folder)
        for _ in range(60):  # more pictures than the terminal and Textual's queue hold: nobody reads them
            terminal.key("f10")
            time.sleep(0.02)
        terminal.kill(signal.SIGTERM)
        assert terminal.ended_unread() == 143
    (kept,) = rescued(folder)
    assert kept.read_text(encoding="utf-8").endswith("Ear: hum the drone")
    assert is_free(folder)
