"""A family's record written out: complete, in open formats, and on demand without what is the teacher's own."""

import contextlib
import csv
import io
import json
import shutil
import sqlite3
import zipfile
from datetime import UTC, datetime
from email import message_from_bytes
from pathlib import Path

import icalendar
import pytest
from support.leaving import NOTES, OPEN_WORDS, PRIVATE_WORDS
from support.outbox import Answering, posting_studio

from cockpit.cli.main import main
from cockpit.outlets.zip_file import put_zip
from cockpit.studio.errors import CockpitError, Refused

# Tables of which no row belongs to a family.
NOT_OF_A_FAMILY = {"duty", "family_letter", "numbering", "studio_calendar", "_sqlite_migrations", "sqlite_sequence"}
LISTS = {
    "guardian": "guardians",
    "student": "students",
    "permission": "permissions",
    "standing_time": "standing_times",
    "lesson": "lessons",
    "call_loss": "call_losses",
    "note": "notes",
    "mark": "marks",
    "heard": "heard",
    "follow_up": "follow_ups",
    "export": "exports",
    "board_line": "board_lines",
    "piece": "pieces",
    "piece_alias": "piece_aliases",
    "strand_left": "strands_left",
    "letter_guardian": "letters_given",
    "recital": "recitals",
    "recital_item": "recital_items",
    "recital_noted": "recital_noted",
    "break": "breaks",
    "pause": "pauses",
    "outgoing": "outgoing",
    "accepted": "accepted",
    "imported_time": "file_rows",
    "inquiry": "inquiries",
    "inquiry_step": "inquiry_steps",
    "withdrawn_lesson": "withdrawn_lessons",
    "withdrawn_time": "withdrawn_times",
    "withdrawn_clock": "withdrawn_clocks",
}


@pytest.fixture(scope="module")
def studio(full_studio, tmp_path_factory) -> Path:
    return Path(shutil.copytree(full_studio, tmp_path_factory.mktemp("full") / "studio"))


def said(capsys, *arguments) -> tuple[int, str, str]:
    status = main([str(argument) for argument in arguments])
    out, err = capsys.readouterr()
    return status, out, err


def exported(studio: Path, out: Path, *more: str, name: str = "zwijndrecht") -> dict[str, bytes]:
    assert main(["family", name, "--export", str(out), *more, "--folder", str(studio)]) == 0
    with zipfile.ZipFile(out) as archive:
        assert archive.testzip() is None
        return {name: archive.read(name) for name in archive.namelist()}


def rows(content: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(content.decode(), newline=""), strict=True))


def test_every_table_and_every_column_that_can_hold_something_of_a_family_is_in_the_json(studio, tmp_path):
    whole = json.loads(exported(studio, tmp_path / "z.zip")["family.json"])
    with (
        contextlib.closing(sqlite3.connect(f"file:{studio / 'studio.db'}?mode=ro", uri=True)) as connection,
        connection,
    ):
        tables = {name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
        assert tables == {*LISTS, "family", "calendar_title", *NOT_OF_A_FAMILY} & tables
        assert tables >= {*LISTS, "family", "calendar_title"}
        for table, name in LISTS.items():
            columns = {row[1] for row in connection.execute(f"PRAGMA table_info({table})")}
            assert whole[name], name
            assert {key for each in whole[name] for key in each} == columns
        assert set(whole["family"]) == {row[1] for row in connection.execute("PRAGMA table_info(family)")}
    assert whole["calendar_titles"] == {"krabbelaar T.": "Thorvald"}
    assert whole["version"] == 1


def test_the_json_holds_what_the_database_holds_of_the_family_and_nothing_of_another(studio, tmp_path):
    whole = json.loads(exported(studio, tmp_path / "z.zip")["family.json"])
    assert NOTES in {note["body"] for note in whole["notes"]}
    with (
        contextlib.closing(sqlite3.connect(f"file:{studio / 'studio.db'}?mode=ro", uri=True)) as connection,
        connection,
    ):
        connection.row_factory = sqlite3.Row
        stored = [dict(row) for row in connection.execute("SELECT * FROM outgoing ORDER BY id")]
    asked = [each["id"] for each in whole["inquiries"]]
    theirs = [row for row in stored if row["family_id"] == whole["family"]["id"] or row["inquiry_id"] in asked]
    assert [row["text"] for row in theirs if row["inquiry_id"] is not None] == ["Een proefles op woensdag?"]
    assert theirs
    assert len(theirs) < len(stored)
    assert [(item["id"], item["text"], item["page"], item["fate"]) for item in whole["outgoing"]] == [
        (row["id"], row["text"], row["page"], row["fate"]) for row in theirs
    ]
    for at in ("queued_at", "not_before"):
        assert [datetime.fromisoformat(item[at]) for item in whole["outgoing"]] == [
            datetime.fromisoformat(row[at]).astimezone(UTC) for row in theirs
        ]
        assert all(item[at].endswith("+00:00") for item in whole["outgoing"])
    assert "Heron" not in json.dumps(whole)
    assert "okonjo" not in json.dumps(whole)


def test_the_papers_are_those_that_lie_in_the_folder(studio, tmp_path):
    found = exported(studio, tmp_path / "z.zip")
    for name in ("2026-12-01 Ilse.md", "2026-12-01 Ilse.html", "2026-12-01 Thorvald.md"):
        assert found[f"practice-notes/Zwijndrecht/{name}"] == (studio / "notes" / "Zwijndrecht" / name).read_bytes()
    drafts = [name for name in found if name.startswith("drafts/")]
    assert len(drafts) == 5  # two lessons, two guardians, and the answer to an inquiry
    assert {message_from_bytes(found[name])["To"] for name in drafts} == {
        "ann@zwijn.example", "per@zwijn.example", "aard@zwijn.example",
    }  # fmt: skip
    assert any(name.startswith("messages/") for name in found)


def test_the_tables_and_the_calendar_are_read_by_others(studio, tmp_path):
    found = exported(studio, tmp_path / "z.zip")
    assert [row["student"] for row in rows(found["students.csv"])] == ["Ilse", "Thorvald"]
    assert rows(found["students.csv"])[0]["practice_days"] == "Mon Wed"
    assert rows(found["students.csv"])[0]["plan"] == "chart"
    scales = rows(found["assignments.csv"])[0]
    assert (scales["area"], scales["mark"], scales["tempo_heard"], scales["clean_runs"]) == (
        "scales",
        "more work",
        "66",
        "2",
    )
    assert [row["time"] for row in rows(found["lessons.csv"])] == ["15:00:00", "16:00:00"]  # Phoenix is an hour behind
    assert [row["time"] for row in rows(found["standing-times.csv"])] == ["16:00:00", "17:00:00"]
    events = icalendar.Calendar.from_ical(found["calendar.ics"]).walk("VEVENT")
    assert {str(event["SUMMARY"]).split("'")[0] for event in events} == {"Ilse", "Thorvald"}
    for name in found.keys() - {"README.txt"}:
        assert name.split("/")[0] in found["README.txt"].decode()


def test_a_typed_line_that_looks_like_a_formula_is_words_in_the_tables(tmp_path, capsys):
    roster = tmp_path / "roster.csv"
    roster.write_text('student,weekday,time,minutes,family,remark\nBo,Mon,10:00,30,Quist,"+HYPERLINK(1)"\n')
    said(capsys, "roster", roster, "--folder", tmp_path / "s")
    found = exported(tmp_path / "s", tmp_path / "q.zip", name="Quist")
    assert rows(found["students.csv"])[0]["remark"] == "'+HYPERLINK(1)"
    assert json.loads(found["family.json"])["students"][0]["remark"] == "+HYPERLINK(1)"


def test_without_private_nothing_of_the_teachers_own_is_in_any_file(studio, tmp_path):
    whole = b"".join(exported(studio, tmp_path / "whole.zip").values()).decode()
    for word in (*OPEN_WORDS, *PRIVATE_WORDS):
        assert word in whole, word
    given = exported(studio, tmp_path / "given.zip", "--without-private")
    for name, content in given.items():
        for word in PRIVATE_WORDS:
            assert word not in content.decode(), (name, word)
    text = b"".join(given.values()).decode()
    for word in OPEN_WORDS:
        # A guardian who is given this is not to see another's address.
        assert (word in text) == (word != "zwijn.example"), word
    assert "left out" in given["README.txt"].decode()
    assert json.loads(given["family.json"])["has_private"] is False


def test_a_line_that_became_private_after_it_went_out_is_not_in_what_is_given_away(tmp_path, capsys):
    studio = tmp_path / "studio"
    with posting_studio(studio) as posted:
        lesson = posted.finish("Ilse", "Brandvold", "Scales: D major\nRather lazy this week.")
        posted.send(Answering())
        posted.studio.desk.day.go_to(lesson)
        posted.studio.desk.teaching.begin()
        posted.studio.desk.notes.write(lesson, "Scales: D major\nPrivate: rather lazy this week.")
    found = exported(studio, tmp_path / "b.zip", "--without-private", name="Brandvold")
    assert b"lazy" not in b"".join(found.values())
    assert b"D major" in found["practice-notes/Brandvold/2026-12-01 Ilse.md"]
    assert b"lazy" in b"".join(exported(studio, tmp_path / "c.zip", name="Brandvold").values())


def test_the_screen_says_whether_private_words_are_in_it(studio, tmp_path, capsys):
    _, out, _ = said(capsys, "family", "Zwijndrecht", "--export", tmp_path / "a.zip", "--folder", studio)
    assert "It contains your private lines, follow-ups, and remarks on students." in out
    capsys.readouterr()
    where = ("--export", tmp_path / "b.zip", "--without-private", "--folder", studio)
    assert "It contains nothing private" in said(capsys, "family", "Zwijndrecht", *where)[1]
    assert "2 lessons" in said(capsys, "family", "Zwijndrecht", "--folder", studio)[1]


def test_the_file_is_hers_alone_and_never_takes_the_place_of_another(studio, tmp_path, capsys):
    out = tmp_path / "z.zip"
    exported(studio, out)
    assert out.stat().st_mode & 0o777 == 0o600
    before = out.read_bytes()
    status, _, err = said(capsys, "family", "Zwijndrecht", "--export", out, "--folder", studio)
    assert (status, "already exists" in err) == (1, True)
    assert out.read_bytes() == before
    status, _, err = said(capsys, "family", "Zwijndrecht", "--export", studio / "z.zip", "--folder", studio)
    assert (status, "studio folder" in err) == (1, True)
    assert not (studio / "z.zip").exists()
    assert said(capsys, "family", "Nobody", "--export", tmp_path / "n.zip", "--folder", studio)[0] == 1
    assert [path.name for path in tmp_path.iterdir()] == ["z.zip"]


def test_a_file_that_cannot_be_written_leaves_nothing_behind(tmp_path):
    with pytest.raises(CockpitError, match="could not be written"):
        put_zip(tmp_path / "no" / "z.zip", {"a": b"b"}, datetime(2026, 12, 1, tzinfo=UTC))
    (tmp_path / "dangling.zip").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(Refused, match="already"):
        put_zip(tmp_path / "dangling.zip", {"a": b"b"}, datetime(2026, 12, 1, tzinfo=UTC))
    assert not (tmp_path / "elsewhere").exists()
