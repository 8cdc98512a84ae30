"""No name, file or setting commands the terminal: what the shell commands print holds none of its control characters."""

import contextlib
import json
import os
import re
import sqlite3
import subprocess
import sys
import zipfile
from datetime import UTC, datetime

import pytest
from support.real_terminal import make_studio

from cockpit.cli.main import main
from cockpit.clock import SetClock
from cockpit.studio.post.outgoing import Paper
from cockpit.wiring import studio_at

TITLE = "\x1b]2;owned\x07"  # sets the title of a window (ECMA-48 OSC); the program never does
C1 = "\x9b31m\x85\x9d"
RAW = re.compile(rb"[\x00-\x08\x0b-\x1f\x7f]|\xc2[\x80-\x9f]")  # in UTF-8
TOML = TITLE.replace("\x1b", "\\u001b").replace("\x07", "\\u0007") + "\\u009b"


@pytest.fixture
def folder(tmp_path):
    make_studio(tmp_path / f"studio {TITLE}")
    return tmp_path / f"studio {TITLE}"


def printed(*arguments, status=0, answer=b""):
    """Both streams of a command, as bytes."""
    done = subprocess.run(
        [sys.executable, "-m", "cockpit", *arguments], input=answer, capture_output=True, timeout=60, check=False
    )
    assert done.returncode == status, done.stderr.decode()
    return done.stdout + done.stderr


def called(folder, name):
    with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection, connection:
        connection.execute("UPDATE student SET name = ?, remark = ? WHERE name = 'Ilse'", (name, name))
        recital = (
            "1, ?1, ?1, '2199-12-19', '12:00:00', 'America/Chicago', 60, 60, 0, NULL, ?1, 0, 0, NULL, 0, NULL, NULL"
        )
        connection.execute(f"INSERT INTO recital VALUES ({recital})", (name,))
        items = "INSERT INTO recital_item (id, recital_id, position, student_id, piece, instrument, is_computed, is_skipped)"
        connection.execute(f"{items} SELECT id, 1, 1, id, ?1, ?1, 0, 0 FROM student WHERE name = ?1", (name,))


@pytest.mark.long
def test_settings_are_told_without_their_controls(folder):
    for line in (f'home_zone = "{TOML}"', f'"{TOML}" = 1', f'home_zone = "America/Chicago"\ntheme = "{TOML}"'):
        (folder / "settings.toml").write_text(f"{line}\n", encoding="utf-8")
        said = printed("queue", "--folder", folder, status=1)
        assert b"settings.toml" in said
        assert "\N{REPLACEMENT CHARACTER}]2;owned".encode() in said
        assert not RAW.search(said)


@pytest.mark.parametrize(
    "name",
    [
        pytest.param(f"{TITLE}.csv".encode(), id="escape", marks=pytest.mark.long),
        pytest.param(b"\xff \xc2\x9b.csv", id="no text"),
    ],
)
def test_a_file_name_is_told_without_its_controls(folder, tmp_path, name):
    file = tmp_path / os.fsdecode(name)
    for content in (b"student,weekday\n\xff", b"student,weekday,time,minutes\nBo,Blursday,4 pm,30\n"):
        file.write_bytes(content)
        assert not RAW.search(printed("roster", file, "--folder", folder, status=1))
    assert not RAW.search(printed("roster", file.with_suffix(".none"), "--folder", folder, status=1))
    assert not RAW.search(printed("queue", "--folder", folder / f"none {TITLE}", status=1))
    assert not RAW.search(printed("queue", f"--{TITLE}", status=2))


@pytest.mark.long
def test_a_phrase_file_is_told_without_its_controls(folder):
    (folder / "themes" / "phrases").mkdir(parents=True)
    (folder / "themes" / "phrases" / f"x{TITLE}.toml").write_text("", encoding="utf-8")
    (folder / "themes" / "phrases" / "it.toml").write_text(f'["{TOML}"]\n"{TOML}" = "{TOML}"\n', encoding="utf-8")
    said = printed("queue", "--folder", folder)
    assert said.count(b"owned") >= 2
    assert not RAW.search(said)
    sent = printed("outbox", "--send", "--folder", folder)
    assert sent.count(b"owned") == said.count(b"owned")
    assert not RAW.search(sent)


def test_a_name_with_controls_is_whole_in_json_and_raw_nowhere(folder, tmp_path, capfdbinary):
    name = f"Ilse {TITLE} {C1}"
    called(folder, name)
    for command in (
        ["queue"],
        ["review"],
        ["notes", "Ilse"],
        ["outbox"],
        ["clockchanges"],
        ["recital"],
        ["family", "Brandvold"],
    ):
        on = ["--on", "2026-12-01"] if command[0] in {"queue", "review"} else []
        main([*command, *on, "--folder", str(folder)])
        out, err = capfdbinary.readouterr()
        assert b"owned" in out + err or command[0] in {"review", "outbox", "clockchanges"}
        assert not RAW.search(out + err), command
    said = printed("queue", "--json", "--on", "2026-12-01", "--folder", folder)
    assert not RAW.search(said)
    assert rb"\u009b31m\u0085\u009d" in said
    assert name in [lesson["student"] for lesson in json.loads(said)]
    assert main(["family", "Brandvold", "--export", str(tmp_path / "all.zip"), "--folder", str(folder)]) == 0
    with zipfile.ZipFile(tmp_path / "all.zip") as archive:
        for each in archive.namelist():
            assert not RAW.search(archive.read(each).replace(b"\r\n", b"\n")), each
    (whole,) = (each for each in zipfile.ZipFile(tmp_path / "all.zip").namelist() if each.endswith(".json"))
    students = json.loads(zipfile.ZipFile(tmp_path / "all.zip").read(whole))["students"]
    assert name in [student["name"] for student in students]


def test_no_paper_of_a_recital_has_a_raw_control(folder):
    called(folder, f"Ilse {TITLE} {C1}")
    with studio_at(folder, SetClock(datetime(2026, 12, 1, tzinfo=UTC)), to_write=True) as studio:
        papers = studio.desk.recital_papers()
        (each,) = studio.desk.recitals().reading.view().coming
        papers.put_out(each.recital.id)
        written = [path.read_bytes() for path in papers.keep_files(each.recital.id)]
        (item,) = (each for each in studio.store.reading.open_outgoing() if each.paper is Paper.PROGRAM)
    written += [item.text.encode(), item.page.encode(), (item.next_lesson or "").replace("\r\n", "\n").encode()]
    for content in written:
        assert b"owned" in content
        assert not RAW.search(content)


def test_a_calendar_prints_the_line_ends_of_its_standard_and_no_other_control(folder):
    called(folder, f"Ilse {TITLE} {C1}")
    said = printed("calendar", "--folder", folder)
    assert said.endswith(b"END:VCALENDAR\r\n")
    assert not RAW.search(said.replace(b"\r\n", b"\n"))
