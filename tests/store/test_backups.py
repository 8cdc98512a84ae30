"""Backups: which one is the last, which ones are kept, and the way back to it."""

import contextlib
import resource
import sqlite3
import subprocess
import sys
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from support.forms import write_form
from support.outbox import posting_studio

from cockpit.cli.main import main
from cockpit.clock import SystemClock
from cockpit.store.backups import KEPT, back_up, restore
from cockpit.store.faults import damaged
from cockpit.store.schema import NAME, VERSION
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.clocks.words import near_date
from cockpit.studio.errors import NotFound, StudioDamaged

DAY = datetime(2026, 12, 1, 16, 5)
WRONG = datetime(2101, 1, 1, 0, 0)


@pytest.fixture
def taught(tmp_path):
    """A studio of one lesson whose notes are 'day 0'; the function writes those of another day."""
    with posting_studio(tmp_path, "none") as posted:
        lesson_id = posted.finish("Ilse", "Okonjo", "day 0")

    def write(text):
        with contextlib.closing(sqlite3.connect(tmp_path / NAME)) as connection, connection:
            connection.execute("UPDATE note SET body = ? WHERE lesson_id = ?", (text, lesson_id))
        connection.close()

    return write


def notes_in(path):
    with contextlib.closing(sqlite3.connect(path)) as connection, connection:
        ((body,),) = connection.execute("SELECT body FROM note").fetchall()
    connection.close()
    return body


def test_a_backup_made_while_the_clock_was_wrong_is_not_the_last_one_for_ever(tmp_path, taught):
    back_up(tmp_path, WRONG)
    for day in range(1, 4):
        taught(f"day {day}")
        last = back_up(tmp_path, DAY + timedelta(days=day))
    assert restore(tmp_path, "stamp").backup.path == last
    assert notes_in(tmp_path / NAME) == "day 3"


def test_backups_that_could_not_be_read_for_a_while_do_not_come_after_newer_ones(tmp_path, taught):
    back_up(tmp_path, DAY)
    unread = []
    for day in (1, 2):
        path = back_up(tmp_path, DAY + timedelta(days=day))
        unread.append((path, path.read_bytes()))
        path.write_bytes(b"on a disk that was away")
    taught("day 3")
    last = back_up(tmp_path, DAY - timedelta(days=300))  # by a clock that was wrong
    for path, content in unread:
        path.write_bytes(content)
    assert restore(tmp_path, "stamp").backup.path == last
    assert notes_in(tmp_path / NAME) == "day 3"


def test_a_backup_never_takes_the_name_of_one_that_cannot_be_read(tmp_path, taught):
    made = [back_up(tmp_path, DAY)]
    for text in ("day 1", "day 2"):
        made[-1].write_bytes(b"on a disk that was away")
        taught(text)
        made.append(back_up(tmp_path, DAY))
    assert len(set(made)) == 3
    assert notes_in(made[-1]) == "day 2"
    assert restore(tmp_path, "stamp").backup.path == made[-1]


def test_what_names_the_last_backup_names_the_one_that_is_put_back(tmp_path, taught):
    back_up(tmp_path, WRONG)
    last = back_up(tmp_path, DAY)
    assert f"The last backup is {last}." in damaged(tmp_path / NAME, "why")


def test_a_backup_of_a_wrong_clock_is_pushed_out_in_its_turn_and_pushes_out_no_newer_one(tmp_path, taught):
    wrong = back_up(tmp_path, WRONG)
    made = [back_up(tmp_path, DAY + timedelta(days=day)) for day in range(KEPT + 2)]
    assert sorted((tmp_path / "backups").iterdir()) == made[2:]
    assert wrong not in made


def test_a_clock_that_went_back_to_a_day_with_a_backup_does_not_stop_the_backups(tmp_path, taught):
    first = back_up(tmp_path, DAY)
    back_up(tmp_path, DAY + timedelta(days=1))
    taught("after the clock went back")
    again = back_up(tmp_path, DAY)
    assert again is not None
    assert (notes_in(first), notes_in(again)) == ("day 0", "after the clock went back")
    assert back_up(tmp_path, DAY) is None
    assert restore(tmp_path, "stamp").backup.path == again


def test_after_a_restore_what_is_backed_up_then_is_the_last_one(tmp_path, taught):
    back_up(tmp_path, DAY)
    taught("given up")
    given_up = back_up(tmp_path, DAY + timedelta(days=9))
    given_up.rename(tmp_path / "elsewhere.db")
    restore(tmp_path, "one")
    (tmp_path / "elsewhere.db").rename(given_up)
    taught("gone on with")
    after = back_up(tmp_path, DAY + timedelta(days=2))
    assert restore(tmp_path, "two").backup.path == after
    assert notes_in(tmp_path / NAME) == "gone on with"


def test_backups_of_an_earlier_version_come_before_all_that_have_a_number(tmp_path, taught):
    for day, notes in ((WRONG, "first"), (DAY, "second"), (DAY + timedelta(days=1), "third")):
        with contextlib.closing(sqlite3.connect(tmp_path / NAME)) as connection, connection:
            connection.execute("UPDATE numbering SET last = last + 1")
        connection.close()
        taught(notes)
        without_number(back_up(tmp_path, day))
    restored = restore(tmp_path, "one")
    assert (restored.backup.number, notes_in(tmp_path / NAME)) == (0, "third"), "by what was recorded"
    taught("fourth")
    numbered = back_up(tmp_path, DAY)
    assert restore(tmp_path, "two").backup.path == numbered


def without_number(path):
    """Makes a backup like those of earlier versions."""
    with contextlib.closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("DROP TABLE backup")
    connection.close()


@pytest.mark.parametrize("version", range(1, VERSION + 1))
def test_a_backup_of_any_earlier_form_can_be_put_back(tmp_path, version):
    (tmp_path / "backups").mkdir()
    path = tmp_path / "backups" / "studio-2026-12-01.db"
    connection = sqlite3.connect(path)
    write_form(connection, version)
    connection.execute("INSERT INTO family (id, name, zone) VALUES (1, 'Quist', 'America/Denver')")
    connection.commit()
    connection.close()
    assert restore(tmp_path, "stamp").backup.path == path
    with contextlib.closing(sqlite3.connect(tmp_path / NAME)) as connection, connection:
        assert connection.execute("SELECT name FROM family").fetchall() == [("Quist",)]
    connection.close()


@pytest.mark.parametrize("damage", ["empty", "no database", "a page"])
def test_a_damaged_backup_is_passed_over_and_said(tmp_path, taught, capsys, damage):
    good = back_up(tmp_path, DAY)
    bad = back_up(tmp_path, DAY + timedelta(days=1))
    match damage:
        case "empty":
            bad.write_bytes(b"")
        case "no database":
            bad.write_bytes(b"not a database" * 999)
        case _:
            whole = bytearray(bad.read_bytes())
            whole[3 * 4096 : 4 * 4096] = b"\xa5" * 4096
            bad.write_bytes(whole)
    (tmp_path / NAME).write_bytes(b"broken" * 999)
    assert f"The last backup is {good}." in damaged(tmp_path / NAME, "why")
    assert main(["restore", "--folder", str(tmp_path)]) == 0
    said = capsys.readouterr().out
    assert f"{bad} is damaged and was skipped." in said
    assert notes_in(tmp_path / NAME) == "day 0"


def test_without_a_backup_that_can_be_read_nothing_is_changed(tmp_path, taught):
    before = (tmp_path / NAME).read_bytes()
    with pytest.raises(NotFound):
        restore(tmp_path, "stamp")
    back_up(tmp_path, DAY).write_bytes(b"broken")
    with pytest.raises(StudioDamaged, match=r"are damaged\. Nothing was changed"):
        restore(tmp_path, "stamp")
    assert (tmp_path / NAME).read_bytes() == before


def test_the_restore_says_which_day_it_goes_back_to_and_how_much_there_is(tmp_path, taught, capsys):
    now = local_time(SystemClock().now(), "America/Chicago")
    back_up(tmp_path, now.replace(hour=16, minute=5))
    assert main(["restore", "--folder", str(tmp_path)]) == 0
    said = capsys.readouterr().out
    assert said.startswith(
        f"The studio was restored from the backup of {near_date(now.date(), now.date())}, 4:05 pm, 1 lesson."
    )
    assert f"The earlier database is kept as {tmp_path / NAME}.set-aside-" in said


def test_the_restore_names_the_day_of_a_backup_of_an_earlier_version(tmp_path, taught, capsys):
    without_number(back_up(tmp_path, DAY))
    (tmp_path / "settings.toml").write_text("not toml")
    assert main(["restore", "--folder", str(tmp_path)]) == 0
    assert "was restored from the backup of 2026-12-01, 1 lesson." in capsys.readouterr().out


@pytest.mark.parametrize("limit", [0, 4096, 60_000])
def test_on_a_full_disk_a_restore_changes_nothing_and_says_so(tmp_path, taught, limit):
    back_up(tmp_path, DAY)
    (tmp_path / NAME).write_bytes(b"broken" * 999)
    before = files_in(tmp_path)
    done = subprocess.run(
        [sys.executable, "-m", "cockpit", "restore", "--folder", str(tmp_path)],
        capture_output=True,
        text=True,
        check=False,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit)),
    )
    assert (done.returncode, done.stdout) == (1, "")
    assert "The studio could not be restored from" in done.stderr
    assert "Nothing was changed. Free some disk space" in done.stderr
    assert "Traceback" not in done.stderr
    assert files_in(tmp_path) == before


def files_in(folder: Path) -> dict[Path, bytes]:
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_backup_of_the_studio_that_a_backup_was_copied_over_is_the_last_one(tmp_path, taught):
    first = back_up(tmp_path, DAY)
    back_up(tmp_path, DAY + timedelta(days=1))
    (tmp_path / NAME).write_bytes(first.read_bytes())
    taught("gone on with by hand")
    last = back_up(tmp_path, DAY + timedelta(days=2))
    assert restore(tmp_path, "stamp").backup.path == last
