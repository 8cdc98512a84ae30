"""The forms of the database that were given out: what made each stays as it was, and each goes on with all its words.

A new migration needs a digest of its own at the end of LANDED, and nothing else here.
"""

import contextlib
import hashlib
import sqlite3
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from support.forms import write_form

from cockpit.store import schema
from cockpit.store.leaving import FamilyRows
from cockpit.store.open_studio import OpenStudio, open_studio, open_studio_to_read
from cockpit.store.schema import NAME
from cockpit.studio.changes.pieces import PieceState
from cockpit.studio.changes.recital import RecitalId
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.people.people import FamilyId, Gets, StudentId

# Of the statements of each, without the layout of their lines. One that has landed has made somebody's database.
LANDED = (
    "1ea3d8b7b7e9d3d3",
    "97dc900d2a2cdbca",
    "67144d27164cf24a",
    "f206607b150dbc25",
    "4cdcde7f7e3e8504",
    "d469ab5d72182683",
    "90ef8b3da58bc4bf",
    "41ed38919b3e6201",
    "13e7821d62e0b94a",
    "3722067b413252d1",
    "1f1c96ab3a5aab6a",
    "88897aeae1507c22",
    "afc48b6ca94634ff",
    "9dffd3296df4e4b2",
    "f2e5605b0ce328e0",
    "dd7488ea34eb7c83",
    "1e367e0093c80019",
    "79d8ef46bcf9f17f",
    "a30a1b386e36b22e",
    "e9d1aeb60035933b",
    "e3b0c44298fc1c14",
    "41e744a16814d5ad",
    "1fb799a686115eaa",
    "8d66c600f703a6c4",
    "25faf2e8eb331593",
    "6057e0f166597425",
    "5fdb7b5c19cd442b",
    "8ed47f1b048ef0a6",
    "9357ec3e9a9d4313",
    "d8fef93d52be507a",
    "fcff86ec46a9ef07",
    "1bd69c936b9815b6",
)
AT = "2026-12-01T22:00:00.000000+00:00"
# A row for each table of any form; a form takes those of its columns. Every text that a teacher types is a word of its own.
ROWS = {
    "numbering": {"last": 4711},
    "family": {
        "id": 1, "name": "Wortley", "email": "word@family.example", "zone": "America/Denver", "hours": 24,
        "folder": "Wortley-folder", "send_by": "mail", "language": "es",
    },
    "guardian": {
        "id": 11, "family_id": 1, "name": "word-guardian", "email": "word@guardian.example", "phone": "word 555", "gets": "notes",
        "position": 0,
    },
    "student": {
        "id": 2, "family_id": 1, "name": "Ilse-word", "daily_minutes": 20, "remark": "word of the remark",
        "practice_days": "024", "plan": "list", "yearly_lessons": 30, "ended_because": "word of an end",
        "level": "beginner",
    },
    "permission": {
        "student_id": 2, "what": "recorded", "is_given": 1, "said_on": "2026-12-01", "until_on": "2027-06-30",
        "words": "words of a permission",
    },
    "standing_time": {
        "id": 3, "student_id": 2, "weekday": 1, "at": "16:00:00", "minutes": 45, "kept_in": "family",
        "instrument": "word-cello", "from_on": "2026-09-01", "until_on": "2027-06-01", "call_link": "https://word.example",
        "every_weeks": 1, "follows": None, "is_from_file": 1, "event_uid": "word@event.example", "shares": 3,
    },
    "lesson": {
        "id": "w3-2026-12-01", "student_id": 2, "standing_time_id": 3, "kind": "weekly", "instrument": "word-viola",
        "starts_at": AT, "minutes": 45, "began_at": AT, "finished_at": AT, "outcome": None, "gives_full_length": 1,
        "is_reopened": 1, "is_moved": 1, "makes_up": "w3-2026-11-24",
        "is_rehearsed": 1, "reason": "word of a reason", "more_minutes": 7, "is_let_go": 1,
    },
    "call_loss": {
        "lesson_id": "w3-2026-12-01", "lost_at": AT, "back_at": "2026-12-01T22:19:00.000000+00:00", "settled": "given",
        "given_in": "w3-2026-12-01",
    },
    "note": {"lesson_id": "w3-2026-12-01", "body": "Scales: words\nFollow-up: send it", "changed_at": AT},
    "mark": {"lesson_id": "w3-2026-12-01", "line": "Scales: marked words", "mark": "more work"},
    "heard": {"lesson_id": "w3-2026-12-01", "line": "Scales: heard words", "tempo": 84, "clean_runs": 3},
    "follow_up": {"lesson_id": "w3-2026-12-01", "body": "words to send", "ticked_at": None},
    "export": {"lesson_id": "w3-2026-12-01", "path": "notes/Wortley/word.md", "is_final": 1, "exported_at": AT},
    "piece": {
        "student_id": 2, "key": "old mill of words", "composer": "word-composer", "origin": "word-origin", "is_chosen": 1,
        "measures": 96, "wanted_on": "2026-12-19", "kept_since": "2026-10-06",
        "state": "kept alive", "state_since": "2026-10-06",
    },
    "piece_alias": {"student_id": 2, "key": "old mil of words", "piece": "old mill of words", "is_one": 1},
    "family_letter": {"id": 13, "whom": "words of whom", "text": "words of a letter", "made_at": AT},
    "letter_guardian": {"letter_id": 13, "guardian_id": 11, "given_at": AT},
    "strand_left": {"student_id": 2, "strand": "word-strand", "until_on": "2027-03-01"},
    "recital": {
        "id": 13, "name": "word-tales", "theme": "words of snow", "held_on": "2026-12-19", "at": "12:00:00",
        "zone": "America/Chicago", "minutes_limit": 60, "changeover": 45, "is_online": 1, "link": "https://word.recital.example",
        "place": "word-hall", "opening_seconds": 180, "closing_seconds": 120, "parent_id": None, "is_rehearsal": 0,
        "began_at": AT, "ended_at": AT,
    },
    "recital_item": {
        "id": 14, "recital_id": 13, "position": 3, "student_id": 2, "piece": "word of a mill", "composer": "word-composer-too",
        "instrument": "word-bassoon", "seconds": 180, "is_computed": 1, "with_whom": "word of a track",
        "costume": "word-apron", "props": "word-sack", "story": "words of a story", "enters": "word of a door",
        "note": "words of a note", "pin": "before", "pinned_after": 15, "pinned_before": "12:20:00", "shown_as": "word I.",
        "began_at": AT, "ended_at": AT, "is_skipped": 0,
    },
    "recital_noted": {"item_id": 14, "recital_id": 13, "what": "by heart", "is_yes": 1, "said_on": "2026-12-01"},
    "break": {"id": 9, "family_id": 1, "from_on": "2026-12-21", "until_on": "2027-01-03", "reason": "words of a break"},
    "pause": {
        "id": 12, "student_id": 2, "from_on": "2027-06-01", "until_on": None, "keeps_time": 1, "reason": "words of a pause",
    },
    "board_line": {"lesson_id": "w3-2026-12-01", "words": "words of a board", "put_at": AT, "is_off": 0},
    "calendar_title": {"title": "words of a title", "name": "word-name"},
    "accepted": {"key": "words that were accepted"},
    "outgoing": {
        "id": 10, "paper": "notes", "about": "w3-2026-12-01", "lesson_id": "w3-2026-12-01", "family_id": 1, "inquiry_id": None, "version": 2, "way": "mail", "address": "word@to.example",
        "student": "Ilse-word", "title": "word-title", "text": "words that went", "page": "<p>words</p>", "language": "es",
        "next_lesson": "BEGIN:WORD", "is_update": 1, "queued_at": AT, "not_before": AT, "fate": "refused", "attempts": 3,
        "settled_at": AT, "reason": "word-reason", "message_id": "<word@example.org>",
    },
    "file_row": {
        "standing_time_id": 3, "event": 0, "student_id": 2, "weekday": 1, "at": "16:30:00", "minutes": 50,
        "kept_in": "teacher", "instrument": "word-lute", "from_on": "2026-09-02", "until_on": "2027-06-02",
        "call_link": "https://words.example", "every_weeks": 2,
    },
    "imported_time": {
        "standing_time_id": 3, "event_uid": "word@event.example", "student_id": 2, "weekday": 1, "at": "16:30:00",
        "minutes": 50, "kept_in": "teacher", "instrument": "word-lute", "from_on": "2026-09-02",
        "until_on": "2027-06-02", "call_link": "https://words.example", "every_weeks": 2,
    },
    "duty": {
        "id": 11, "words": "words that are owed", "made_on": "2026-12-01", "by_on": "2026-12-12", "every": "month",
        "weekday": 0, "nth": 1, "day": 3, "month": 9, "weeks": 2, "ticked_on": "2026-12-02",
    },
    "inquiry": {
        "id": 11, "came_at": AT, "name": "word of who asked", "email": "word@asks.example", "child": "word-child", "age": 8,
        "is_adult": 0, "instrument": "word-harp", "level": "beginner", "zone": "America/Phoenix", "wishes": "word of tuesdays",
        "source": "word of mouth", "words": "words that they wrote", "trial_lesson_id": "w3-2026-12-01", "student_id": 2,
    },
    "inquiry_step": {"id": 12, "inquiry_id": 11, "at": AT, "what": "answered"},
    "withdrawn_lesson": {
        "lesson_id": "x7", "student_id": 2, "kind": "extra", "instrument": "word-withdrawn", "starts_at": AT, "minutes": 45,
    },
    "withdrawn_clock": {"family_id": 1, "zone": "America/Denver; America/Boise from 2027-03-01"},
    "withdrawn_time": {
        "standing_time_id": 8, "student_id": 2, "weekday": 1, "at": "16:30:00", "minutes": 50, "kept_in": "teacher",
        "instrument": "word-taken-back", "from_on": "2026-09-02", "until_on": "2027-06-02", "every_weeks": 2,
    },
}  # fmt: skip
FORMS = range(1, schema.VERSION + 1)
# What a form asks anew by its own will: the acceptances of those before the sixth did not say how a collision was.
ASKED_ANEW = {"words that were accepted": 6}


def digest(statements: tuple[str, ...]) -> str:
    return hashlib.sha256("\n".join(" ".join(each.split()) for each in statements).encode()).hexdigest()[:16]


def written_by(folder: Path, form: int) -> set[str]:
    """Makes a studio as a form of the database left it, a row in every table; returns its words."""
    words = set()
    with contextlib.closing(sqlite3.connect(folder / NAME)) as connection, connection:
        write_form(connection, form)
        assert connection.execute("PRAGMA user_version").fetchone() == (form,)
        found = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE '%sqlite%'")
        tables = {name for (name,) in found} - {"studio_calendar"}
        assert form == schema.VERSION or tables <= ROWS.keys(), "a table that has landed needs a row here"
        connection.execute("DELETE FROM numbering")
        for table in (each for each in ROWS if each in tables):
            columns = {row[1] for row in connection.execute(f"PRAGMA table_info({table})")}
            row = {name: value for name, value in ROWS[table].items() if name in columns}
            marks = ", ".join("?" * len(row))
            connection.execute(f"INSERT INTO {table} ({', '.join(row)}) VALUES ({marks})", tuple(row.values()))
            words |= {value for value in row.values() if isinstance(value, str)}
    return {word for word in words if form >= ASKED_ANEW.get(word, 0)}


def words_in(connection: sqlite3.Connection) -> set[str]:
    tables = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
    rows = (row for (table,) in tables for row in connection.execute(f"SELECT * FROM {table}"))
    return {cell for row in rows for cell in row if isinstance(cell, str)}


def everything_read(studio: OpenStudio) -> str:
    """What the program itself makes of the rows."""
    reading, lessons = studio.reading, [LessonId("w3-2026-12-01")]
    people = reading.people()
    assert people.families[FamilyId(1)].zone == "America/Denver"
    begins, ends = datetime(2026, 11, 1, tzinfo=UTC), datetime(2027, 1, 1, tzinfo=UTC)
    return str(
        [
            *people.families.values(),
            *reading.guardians(),
            *reading.permissions(),
            *people.students.values(),
            *reading.standing_times(),
            *reading.lessons_between(begins, ends),
            *reading.notes(lessons).values(),
            *reading.marks(lessons).values(),
            *reading.heard(lessons).values(),
            *reading.follow_ups(lessons[0]),
            *reading.call_losses(lessons[0]),
            *reading.board_lines(lessons[0]),
            *reading.exports(lessons).values(),
            *reading.outgoing_about(lessons),
            *reading.breaks(),
            *reading.inquiries(),
            *reading.inquiry_steps(),
            *reading.pieces_said(StudentId(2)),
            *reading.piece_aliases(StudentId(2)),
            *reading.strands_left(),
            *reading.family_letters(),
            *reading.letter_guardians(),
            *reading.recitals(),
            *reading.recital_items(RecitalId(13)),
            *reading.recital_noted(RecitalId(13)),
        ]
    )


def test_a_migration_that_has_landed_is_as_it_was():
    found = tuple(digest(statements) for statements in schema._STEPS)
    assert found[: len(LANDED)] == LANDED, "this has made databases: what it lacks is for a migration of its own"
    assert len(found) == len(LANDED), f"the digest of the new one is {found[-1]}"


@pytest.mark.parametrize("form", FORMS)
def test_a_studio_of_every_form_that_was_given_out_opens_with_all_its_words(tmp_path, form):
    words = written_by(tmp_path, form)
    assert len(words) >= 20
    studio = open_studio(tmp_path)
    try:
        assert schema.version_of(studio.connection) == schema.VERSION
        assert studio.connection.execute("SELECT last FROM numbering").fetchall()[0][0] == 4711
        assert studio.connection.execute("PRAGMA foreign_key_check").fetchall() == []
        read = everything_read(studio)
    finally:
        studio.close()
    with contextlib.closing(sqlite3.connect(tmp_path / NAME)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert words <= words_in(connection)
    for word in (
        "Wortley",
        "word of the remark",
        "word-cello",
        "word-viola",
        "Scales: words",
        "marked words",
        "words to send",
    ):
        assert word in read


def test_a_family_of_the_form_before_lives_where_it_did_and_an_earlier_cockpit_opens_no_studio_with_moves(tmp_path):
    before = LANDED.index("e3b0c44298fc1c14")
    written_by(tmp_path, before)
    studio = open_studio(tmp_path)
    try:
        assert studio.reading.people().families[FamilyId(1)].zone == "America/Denver"
        assert schema.version_of(studio.connection) > before
    finally:
        studio.close()


def test_a_piece_that_was_kept_alive_still_is_since_the_same_date(tmp_path):
    written_by(tmp_path, 30)
    studio = open_studio(tmp_path)
    (piece,) = studio.reading.pieces_said(StudentId(2))
    studio.close()
    assert (piece.state, piece.state_since) == (PieceState.KEPT_ALIVE, date(2026, 10, 6))


@pytest.mark.parametrize("form", FORMS)
def test_a_studio_of_every_form_is_read_without_being_changed(tmp_path, form):
    written_by(tmp_path, form)
    before = (tmp_path / NAME).read_bytes()
    studio = open_studio_to_read(tmp_path, "only to read")
    read = everything_read(studio)
    studio.close()
    assert (tmp_path / NAME).read_bytes() == before
    (tmp_path / "again").mkdir()
    written_by(tmp_path / "again", form)
    studio = open_studio(tmp_path / "again")
    assert everything_read(studio) == read
    studio.close()


@pytest.mark.parametrize("form", FORMS)
def test_a_family_is_put_back_out_of_a_copy_of_every_form(tmp_path, form):
    (tmp_path / "copy").mkdir()
    words = written_by(tmp_path / "copy", form) - {"words that were accepted", "words of a title"}
    copy = tmp_path / "copy" / NAME
    before = copy.read_bytes()
    studio = open_studio(tmp_path)
    try:
        for _ in range(2):  # one that is there stays as it is
            FamilyRows(studio.connection, tmp_path / NAME).put_back(copy, FamilyId(1))
        assert words <= words_in(studio.connection)
        assert studio.connection.execute("PRAGMA foreign_key_check").fetchall() == []
    finally:
        studio.close()
    assert copy.read_bytes() == before


@pytest.mark.parametrize(
    ("email", "expected"),
    [
        (None, []),
        ("", []),
        ("ann@a.example", [(1, "ann@a.example", 0)]),
        (
            "ann@a.example, per@a.example, oma@a.example",
            [(1, "ann@a.example", 0), (-1099511627777, "per@a.example", 1), (-2199023255553, "oma@a.example", 2)],
        ),
    ],
)
def test_each_address_of_a_family_becomes_a_guardian_who_gets_all(tmp_path, email, expected):
    with contextlib.closing(sqlite3.connect(tmp_path / NAME)) as connection, connection:
        write_form(connection, 16)
        connection.execute("INSERT INTO family (id, name, email, zone) VALUES (1, 'Wortley', ?, 'UTC')", (email,))
    studio = open_studio(tmp_path)
    guardians = studio.reading.guardians()
    studio.close()
    assert [(each.id, each.email, each.position) for each in guardians] == expected
    assert {(each.family_id, each.name, each.phone, each.gets) for each in guardians} <= {
        (1, None, None, frozenset(Gets))
    }
