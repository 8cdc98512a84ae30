"""The program in a real terminal: what is on the screen is in the database, however it ends."""

import contextlib
import random
import resource
import signal
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from support.real_terminal import STARTED, RealTerminal, make_studio, wait_for_backup, without_the_powers_of_root

from cockpit.store.schema import VERSION

AT = "2026-12-01 16:05"
LEAVES_THE_SCREEN = b"\x1b[?1049l"
SEEDS = (0, *(pytest.param(seed, marks=pytest.mark.long) for seed in range(1, 6)))


@pytest.fixture
def folder(tmp_path, capsys):
    make_studio(tmp_path / "studio")
    return tmp_path / "studio"


def opened(folder: Path, at: str = AT, **more) -> RealTerminal:
    return RealTerminal("--at", at, "--folder", str(folder), **more)


def notes(folder: Path) -> str:
    with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection, connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        return "\n".join(row[0] for row in connection.execute("SELECT body FROM note"))


@pytest.mark.parametrize("seed", SEEDS)
def test_killed_at_a_random_moment_every_word_on_the_screen_is_in_the_database(folder, seed):
    chance = random.Random(seed)
    with opened(folder) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.key("f2")
        terminal.wait_for("has begun")
        words = "".join(chance.choice("abcdefghij klmnop") for _ in range(chance.randint(5, 60)))
        for sign in words:
            terminal.send(sign)
            terminal.read(chance.random() * 0.03)
        terminal.kill(signal.SIGKILL)
        assert terminal.ended() == -signal.SIGKILL
        while terminal.read(0.1):
            pass
        shown = terminal.text()
    saved = notes(folder)
    assert words.startswith(saved)
    at_the_cursor = next((line for line in shown.splitlines() if saved[:20].strip() and saved[:12] in line), "")
    beyond = words[: len(saved) + 1]
    assert len(beyond) == len(saved) or beyond[:25].strip() not in at_the_cursor or len(beyond) > 25
    with opened(folder, "2026-12-01 16:20") as terminal:
        terminal.wait_for("▶ Ilse")
        terminal.wait_for(saved.split()[0] if saved.split() else "Ilse")


@pytest.mark.long
def test_a_theme_that_was_shown_is_there_again(folder):
    with opened(folder) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.key("ctrl+p")
        terminal.send("next theme")
        terminal.wait_for("Show the next theme")
        terminal.key("enter")
        terminal.wait_for("contrast. It is kept.")
    assert 'theme = "footlights"' in (folder / "settings.toml").read_text(encoding="utf-8")
    with opened(folder) as terminal:
        terminal.wait_for("NOTES FOR ILSE")


@pytest.mark.long
def test_a_last_word_that_was_seen_survives_the_kill(folder):
    with opened(folder) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.send("Etude: quiet thumb")
        terminal.wait_for("quiet thumb")
        terminal.kill(signal.SIGKILL)
        terminal.ended()
    assert notes(folder) == "Etude: quiet thumb"


@pytest.mark.long
def test_keys_typed_while_the_program_was_stopped_go_to_the_students_they_were_meant_for(folder):
    def body(student: str) -> str:
        asked = """SELECT body FROM note JOIN lesson ON lesson.id = lesson_id JOIN student ON student.id = student_id
            WHERE student.name = ?"""
        with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection:
            return "".join(row[0] for row in connection.execute(asked, (student,)))

    with opened(folder) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.key("f2")
        terminal.wait_for("has begun")
        terminal.kill(signal.SIGSTOP)
        terminal.send("Piece: abq\x7fcd\rPrivate: tired")
        terminal.key("f9")
        terminal.send("Etude: no. 5")
        terminal.kill(signal.SIGCONT)
        terminal.wait_for("Etude: no. 5")
    assert body("Ilse") == "Piece: abcd\nPrivate: tired"
    assert body("Mireille") == "Etude: no. 5"
    (paper,) = folder.glob("notes/*/* Ilse.md")
    assert "abcd" in paper.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("number", "status"), [pytest.param(signal.SIGHUP, 129, marks=pytest.mark.long), (signal.SIGTERM, 143)]
)
def test_a_signal_saves_and_gives_the_terminal_back(folder, number, status):
    with opened(folder) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.send("Ear: hum")
        terminal.wait_for("Ear: hum")
        terminal.kill(number)
        assert terminal.ended() == status
        assert LEAVES_THE_SCREEN in terminal.written
    assert notes(folder) == "Ear: hum"


@pytest.mark.long
def test_a_closed_terminal_ends_the_program_and_loses_nothing(folder):
    with opened(folder) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.send("Ear: hum")
        terminal.wait_for("Ear: hum")
        terminal.close()
        terminal.ended()
    assert notes(folder) == "Ear: hum"


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.long
def test_killed_within_a_finish_the_lesson_is_finished_with_its_papers_or_not_at_all(folder, seed):
    with opened(folder) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.key("f2")
        terminal.wait_for("has begun")
        terminal.send("Scales: D zigzag")  # no suggestion, which would be on the screen before it is typed
        terminal.wait_for("Scales: D zigzag")
        terminal.key("f9")
        terminal.read(random.Random(seed).random() * 0.06)
        terminal.kill(signal.SIGKILL)
        terminal.ended()
    assert notes(folder) == "Scales: D zigzag"
    with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection, connection:
        ((finished_at,),) = connection.execute("SELECT finished_at FROM lesson WHERE began_at IS NOT NULL").fetchall()
        exports = connection.execute("SELECT path FROM export WHERE is_final").fetchall()
    assert (finished_at is not None) == bool(exports)
    for path in (folder / "notes").rglob("*.md"):
        assert path.read_text(encoding="utf-8").rstrip().endswith("licensed clinician.")
    for (path,) in exports:
        assert "D zigzag" in (folder / path).read_text(encoding="utf-8")
    with opened(folder, "2026-12-01 16:20") as terminal:
        terminal.wait_for("▶ Ilse" if finished_at is None else "● Ilse")


@pytest.mark.long
def test_a_disk_that_refuses_is_told_and_the_words_are_saved_once_it_takes_them(folder):
    with opened(folder) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.send("Ear: hum")
        terminal.wait_for("Ear: hum")
        wait_for_backup(terminal, folder)
        resource.prlimit(terminal.pid, resource.RLIMIT_FSIZE, (4096, resource.RLIM_INFINITY))
        terminal.send(" the drone")
        terminal.wait_for("hum the drone")
        terminal.wait_for("Not saved")
        terminal.key("f5")
        terminal.send("s")
        terminal.wait_for("hum the drones")
        assert notes(folder) == "Ear: hum"
        resource.prlimit(terminal.pid, resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
        terminal.wait_for("Saving works again")
    assert notes(folder) == "Ear: hum the drones"


def test_a_reader_that_goes_away_is_no_fault(folder):
    command = f"{sys.executable} -m cockpit queue --on 2026-12-01 --folder {folder} | head -c 1 >/dev/null; echo ${{PIPESTATUS[0]}}"
    done = subprocess.run(["bash", "-c", command], capture_output=True, text=True, check=True)
    assert done.stderr == ""
    assert done.stdout.strip() in {"0", "1"}  # 0 where it was quicker than the reader's leaving


@pytest.mark.long
def test_stopped_and_continued_it_draws_the_screen_again(folder):
    with opened(folder) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.kill(signal.SIGTSTP)
        terminal.stopped()
        assert LEAVES_THE_SCREEN in terminal.written
        terminal.screen.reset()
        terminal.kill(signal.SIGCONT)
        terminal.wait_for("NOTES FOR ILSE")
        terminal.send("Ear: hum")
        terminal.wait_for("Ear: hum")
    assert notes(folder) == "Ear: hum"


@pytest.mark.parametrize("key", [pytest.param("f9", marks=pytest.mark.long), "ctrl+s"])
def test_one_key_finishes_writes_the_papers_and_shows_the_next_student(folder, key):
    with opened(folder, program=STARTED) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.key("f2")
        terminal.send("Scales: D major\rPrivate: nobody's business")
        terminal.wait_for("business")
        terminal.key(key)
        terminal.wait_for("NOTES FOR MIREILLE")
        terminal.wait_for("2026-12-01 Ilse.md")
        terminal.key("ctrl+q")
        assert terminal.ended() == 0
    for ending in ("md", "html"):
        paper = (folder / "notes" / "Brandvold" / f"2026-12-01 Ilse.{ending}").read_text(encoding="utf-8")
        assert "D major" in paper
        assert "business" not in paper


@pytest.mark.long
def test_a_second_cockpit_only_shows_what_the_first_one_does(folder):
    with opened(folder) as first, opened(folder) as second:
        first.wait_for("TODAY")
        second.wait_for("TODAY")
        reader, writer = (first, second) if "read-only" in first.text() else (second, first)
        reader.wait_for("This studio is open in another cockpit")
        reader.send("not to be kept")
        writer.send("Ear: hum")
        writer.wait_for("Ear: hum")
        reader.wait_for("Ear: hum")
        assert "not to be kept" not in reader.text()
    assert notes(folder) == "Ear: hum"


@pytest.mark.long
def test_a_read_only_folder_is_shown_and_says_that_nothing_can_be_kept(folder):
    for path in folder.iterdir():
        path.chmod(0o400 if path.is_file() else 0o500)
    folder.chmod(0o500)
    try:
        # As wide as the sentence, whose parts would come one after another.
        with opened(folder, columns=300, before=without_the_powers_of_root) as terminal:
            terminal.wait_for("━ read-only")
            terminal.wait_for("Nothing you do here is saved")
            terminal.key("f2")
            terminal.key("f1")
            terminal.wait_for("you were in")
            terminal.key("f1")
            terminal.wait_until_gone("you were in")
            assert "has begun" not in terminal.text()
            terminal.key("ctrl+q")
            assert terminal.ended() == 0
    finally:
        folder.chmod(0o700)


@pytest.mark.long
def test_a_damaged_database_is_told_and_left_alone(folder):
    with opened(folder) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.key("ctrl+q")
        assert terminal.ended() == 0
    (backup,) = (folder / "backups").glob("*.db")
    (folder / "studio.db").write_bytes(b"no database at all " * 500)
    with opened(folder, columns=300) as terminal:
        terminal.wait_for("is damaged")
        assert terminal.ended() == 1
        said = terminal.text().replace("\n", "")
        assert backup.name in said
        assert "cockpit restore" in said
    assert (folder / "studio.db").read_bytes().startswith(b"no database at all")


def test_a_database_of_a_later_version_is_refused(folder):
    with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection, connection:
        connection.execute(f"PRAGMA user_version = {VERSION + 1}")
    with opened(folder, columns=300) as terminal:
        terminal.wait_for("newer version")
        assert terminal.ended() == 1


@pytest.mark.long
def test_a_letter_after_escape_does_no_harm(folder):
    with opened(folder, columns=44, rows=20) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.send("\x1bn\x1bs")
        terminal.send("Ear: hum")
        terminal.wait_for("Ear: hum")
        assert "Ilse" in terminal.text().splitlines()[0]


@pytest.mark.long
def test_the_sample_runs_a_lesson_and_goes_when_it_is_closed(tmp_path):
    with RealTerminal("demo", program=STARTED, TMPDIR=str(tmp_path)) as terminal:
        terminal.wait_for("left of")
        assert len(list(tmp_path.iterdir())) == 1
        terminal.key("ctrl+q")
        assert terminal.ended() == 0
    assert list(tmp_path.iterdir()) == []


@pytest.mark.long
def test_what_was_taken_back_long_ago_is_deleted_at_the_end_of_the_program_but_not_in_a_rehearsal(folder):
    def withdrawn() -> list[str]:
        with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection, connection:
            return [row[0] for row in connection.execute("SELECT lesson_id FROM withdrawn_lesson")]

    with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection, connection:
        values = ("x9", 1, "extra", "2020-12-01T22:00:00.000000+00:00", 30)
        columns = "lesson_id, student_id, kind, starts_at, minutes"
        connection.execute(f"INSERT INTO withdrawn_lesson ({columns}) VALUES (?, ?, ?, ?, ?)", values)
    for arguments, left in ((("--at", AT), ["x9"]), ((), [])):
        with RealTerminal(*arguments, "--folder", str(folder)) as terminal:
            terminal.wait_for("TODAY")
            terminal.key("ctrl+q")
            assert terminal.ended() == 0
        assert withdrawn() == left
