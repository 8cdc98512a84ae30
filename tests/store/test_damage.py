"""A database that is damaged at any place: a sentence with the way back, and never a traceback."""

import contextlib
import random
import re
import shutil
import sqlite3

import pytest
from support.outbox import posting_studio

from cockpit.cli.main import main
from cockpit.clock import SystemClock
from cockpit.store.backups import back_up
from cockpit.store.schema import NAME
from cockpit.studio.errors import StudioDamaged
from cockpit.wiring import studio_at

_CASES = 120
_NOT_FOUND = "no student|no family|no lesson|no notes"  # where a name was overwritten with other letters
_COMMANDS = (
    ("queue", "--on", "2026-12-01"),
    ("notes", "Mireille", "--on", "2026-12-01"),
    ("review", "--on", "2026-12-01"),
    ("outbox",),
    ("clockchanges",),
    ("family", "Okonjo"),
    ("calendar",),
)


@pytest.fixture(scope="module")
def whole(tmp_path_factory):
    """A studio with a backup, in one file."""
    folder = tmp_path_factory.mktemp("whole")
    with posting_studio(folder, "folder") as posted:
        for student, family in (("Ilse", "Brandvold"), ("Ilse", "Okonjo"), ("Mireille", "Perreault")):
            posted.finish(student, family, "Scales: D major\nFollow-up: send the score\nPrivate: braces")
    back_up(folder, posted.clock.at)
    return folder


def damaged_at(folder, whole, seed):
    """A copy of the studio with some bytes of the database overwritten."""
    shutil.copytree(whole, folder, dirs_exist_ok=True)
    chance = random.Random(seed)
    content = bytearray((whole / NAME).read_bytes())
    for _ in range(chance.choice([1, 1, 4])):
        length = chance.choice([1, 2, 16, 200, 4096])
        at = chance.choice([chance.randrange(100), chance.randrange(4096), chance.randrange(len(content))])
        content[at : at + length] = chance.randbytes(min(length, len(content) - at))
    (folder / NAME).write_bytes(content)


@pytest.mark.parametrize(
    "seed", [pytest.param(seed, marks=pytest.mark.long if seed % 5 else ()) for seed in range(_CASES)]
)
def test_a_database_damaged_anywhere_is_told_with_the_way_back(tmp_path, whole, capsys, seed):
    damaged_at(tmp_path, whole, seed)
    for command in _COMMANDS:
        status = main([*command, "--folder", str(tmp_path)])
        said = capsys.readouterr()
        if status:
            assert status == 1
            assert re.search(f"{NAME} is damaged .*cockpit restore|{_NOT_FOUND}", said.err), (command, said.err)
    # Opened to write, it may be whole enough for today.
    with contextlib.suppress(StudioDamaged), studio_at(tmp_path, SystemClock(), to_write=True) as studio:
        studio.desk.day.open()


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE family SET zone = 'America/Chicagp'",
        "UPDATE family SET zone = 'America/Chicago; America/Denvar from 2027-03-01'",
        "UPDATE family SET zone = 'America/Chicago; America/Denver from 2027-03-0x'",
        "UPDATE lesson SET starts_at = '2026-12-0x'",
        "UPDATE standing_time SET kept_in = 'teacher', at = '25:00'",
        "PRAGMA foreign_keys = OFF; UPDATE student SET family_id = 999",
        "UPDATE note SET body = CAST(x'50726976617465ff' AS TEXT)",
        "UPDATE student SET practice_days = 'x'",
        "DELETE FROM studio_calendar",
        "DROP TABLE break",
    ],
)
@pytest.mark.long
def test_letters_that_were_overwritten_with_others_are_damage_and_are_not_repeated(tmp_path, whole, capsys, statement):
    shutil.copytree(whole, tmp_path, dirs_exist_ok=True)
    with contextlib.closing(sqlite3.connect(tmp_path / NAME)) as connection, connection:
        connection.executescript(f"PRAGMA ignore_check_constraints = ON; {statement}")
    connection.close()
    told = [capsys.readouterr().err for command in _COMMANDS if main([*command, "--folder", str(tmp_path)])]
    assert any(f"{NAME} is damaged" in each for each in told)
    assert all(re.search(f"{NAME} is damaged|{_NOT_FOUND}", each) for each in told)
    assert not any("Private" in each for each in told)
