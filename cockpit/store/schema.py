"""The shape of the database, as migrations that are only ever added to.

Moments are UTC, ISO 8601 with microseconds, so that their text sorts as they do; dates and times of weekly times are
local to the clock they are kept in. Nothing stores an offset as a rule.
"""

import sqlite3
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from sqlite_utils import Database, Migrations

NAME = "studio.db"
"""The file of the database in a studio folder."""

_M001 = (
    """CREATE TABLE numbering (last INTEGER NOT NULL) STRICT""",
    """INSERT INTO numbering VALUES (0)""",
    """CREATE TABLE family (
        id INTEGER PRIMARY KEY, name TEXT NOT NULL, email TEXT, zone TEXT NOT NULL, hours INTEGER) STRICT""",
    """CREATE TABLE student (
        id INTEGER PRIMARY KEY, family_id INTEGER NOT NULL REFERENCES family(id) ON DELETE CASCADE,
        name TEXT NOT NULL, daily_minutes INTEGER, remark TEXT) STRICT""",
    """CREATE INDEX student_by_family ON student(family_id)""",
    """CREATE TABLE standing_time (
        id INTEGER PRIMARY KEY, student_id INTEGER NOT NULL REFERENCES student(id) ON DELETE CASCADE,
        weekday INTEGER NOT NULL CHECK (weekday BETWEEN 0 AND 6), at TEXT NOT NULL, minutes INTEGER NOT NULL,
        kept_in TEXT NOT NULL CHECK (kept_in IN ('teacher', 'family')), instrument TEXT,
        from_on TEXT, until_on TEXT, call_link TEXT) STRICT""",
    """CREATE INDEX standing_time_by_student ON standing_time(student_id)""",
    """CREATE TABLE lesson (
        id TEXT PRIMARY KEY, student_id INTEGER NOT NULL REFERENCES student(id) ON DELETE CASCADE,
        standing_time_id INTEGER REFERENCES standing_time(id), kind TEXT NOT NULL, instrument TEXT,
        starts_at TEXT NOT NULL, minutes INTEGER NOT NULL, began_at TEXT, finished_at TEXT, outcome TEXT,
        gives_full_length INTEGER NOT NULL, is_reopened INTEGER NOT NULL) STRICT""",
    """CREATE INDEX lesson_by_start ON lesson(starts_at)""",
    """CREATE INDEX lesson_by_student ON lesson(student_id, starts_at)""",
    """CREATE INDEX lesson_live ON lesson(began_at)
        WHERE began_at IS NOT NULL AND finished_at IS NULL AND outcome IS NULL""",
    """CREATE TABLE note (
        lesson_id TEXT PRIMARY KEY REFERENCES lesson(id) ON DELETE CASCADE,
        body TEXT NOT NULL, changed_at TEXT NOT NULL) STRICT""",
    """CREATE TABLE mark (
        lesson_id TEXT NOT NULL REFERENCES lesson(id) ON DELETE CASCADE, line TEXT NOT NULL, mark TEXT NOT NULL,
        PRIMARY KEY (lesson_id, line)) STRICT""",
    """CREATE TABLE follow_up (
        lesson_id TEXT NOT NULL REFERENCES lesson(id) ON DELETE CASCADE, body TEXT NOT NULL, ticked_at TEXT,
        PRIMARY KEY (lesson_id, body)) STRICT""",
    """CREATE INDEX follow_up_open ON follow_up(lesson_id) WHERE ticked_at IS NULL""",
    """CREATE TABLE export (
        lesson_id TEXT PRIMARY KEY REFERENCES lesson(id) ON DELETE CASCADE,
        path TEXT NOT NULL, is_final INTEGER NOT NULL, exported_at TEXT NOT NULL) STRICT""",
)
# The studio's calendar as others have seen it: its lasting name, and a number that grows at each change of what they
# see, so that a calendar program which reads it again knows the newer one (SEQUENCE of RFC 5545).
_M002 = (
    """ALTER TABLE family ADD COLUMN folder TEXT""",
    """ALTER TABLE standing_time ADD COLUMN every_weeks INTEGER NOT NULL DEFAULT 1""",
    """ALTER TABLE lesson ADD COLUMN is_moved INTEGER NOT NULL DEFAULT 0""",
    """ALTER TABLE lesson ADD COLUMN makes_up TEXT""",
    """CREATE INDEX lesson_makes_up ON lesson(makes_up) WHERE makes_up IS NOT NULL""",
    """CREATE INDEX lesson_closed ON lesson(student_id) WHERE outcome IS NOT NULL""",
    """CREATE TABLE break (
        id INTEGER PRIMARY KEY, family_id INTEGER REFERENCES family(id) ON DELETE CASCADE,
        from_on TEXT NOT NULL, until_on TEXT NOT NULL, reason TEXT NOT NULL) STRICT""",
    """CREATE TABLE studio_calendar (uid TEXT NOT NULL, revision INTEGER NOT NULL) STRICT""",
    """INSERT INTO studio_calendar VALUES (lower(hex(randomblob(16))), 0)""",
    # Notes have been put into a folder by the family's name; from now on it stays theirs whatever they are called.
    """UPDATE family SET folder = (
        SELECT substr(path, 7, instr(substr(path, 7), '/') - 1)
        FROM export JOIN lesson ON lesson.id = lesson_id JOIN student ON student.id = student_id
        WHERE family_id = family.id AND path LIKE 'notes/%/%' ORDER BY exported_at DESC LIMIT 1)""",
    *(
        f"""CREATE TRIGGER {table}_{verb.split()[0].lower()} AFTER {verb} ON {table} {when}
            BEGIN UPDATE studio_calendar SET revision = revision + 1; END"""  # noqa: S608 names of ours
        for table, verb, when in (
            ("standing_time", "INSERT", ""),
            ("standing_time", "UPDATE", ""),
            ("standing_time", "DELETE", ""),
            ("break", "INSERT", ""),
            ("break", "UPDATE", ""),
            ("break", "DELETE", ""),
            ("lesson", "UPDATE OF starts_at, minutes, outcome, is_moved", ""),
            ("lesson", "INSERT", "WHEN NEW.kind <> 'weekly' OR NEW.outcome IS NOT NULL OR NEW.is_moved"),
            ("lesson", "DELETE", "WHEN OLD.kind <> 'weekly' OR OLD.outcome IS NOT NULL OR OLD.is_moved"),
        )
    ),
)
# What a title of a calendar that was brought in stands for.
_M003 = ("CREATE TABLE calendar_title (title TEXT PRIMARY KEY, name TEXT NOT NULL) STRICT",)
# What would collide, and is to stay as it is.
_M004 = ("CREATE TABLE accepted (key TEXT PRIMARY KEY) STRICT",)
# What was heard of an assignment, and the weekdays (0 is Monday) on which a student practices.
_M005 = (
    """CREATE TABLE heard (
        lesson_id TEXT NOT NULL REFERENCES lesson(id) ON DELETE CASCADE, line TEXT NOT NULL,
        tempo INTEGER, clean_runs INTEGER NOT NULL, PRIMARY KEY (lesson_id, line)) STRICT""",
    """ALTER TABLE student ADD COLUMN practice_days TEXT""",
)
# What goes out to families. A family's address and way, once written here, stay as they were when the notes were made
# final; what is still to go is found by an index that holds nothing else.
_M006 = (
    """ALTER TABLE family ADD COLUMN send_by TEXT""",
    """ALTER TABLE family ADD COLUMN language TEXT""",
    """ALTER TABLE standing_time ADD COLUMN follows INTEGER""",
    """ALTER TABLE standing_time ADD COLUMN is_from_file INTEGER NOT NULL DEFAULT 0""",
    """CREATE TABLE outgoing (
        id INTEGER PRIMARY KEY, lesson_id TEXT NOT NULL REFERENCES lesson(id) ON DELETE CASCADE,
        family_id INTEGER NOT NULL REFERENCES family(id) ON DELETE CASCADE, version INTEGER NOT NULL,
        way TEXT NOT NULL, address TEXT NOT NULL, student TEXT NOT NULL, title TEXT NOT NULL, text TEXT NOT NULL,
        page TEXT NOT NULL, language TEXT NOT NULL, next_lesson TEXT, is_update INTEGER NOT NULL,
        queued_at TEXT NOT NULL, not_before TEXT NOT NULL, fate TEXT NOT NULL, attempts INTEGER NOT NULL,
        settled_at TEXT, reason TEXT, message_id TEXT, UNIQUE (lesson_id, version, way, address)) STRICT""",
    """CREATE INDEX outgoing_by_family ON outgoing(family_id)""",
    """CREATE INDEX outgoing_waiting ON outgoing(not_before) WHERE fate = 'waiting'""",
    """CREATE INDEX outgoing_open ON outgoing(id) WHERE fate IN ('waiting', 'going', 'unsure', 'refused')""",
    # Others see these too; and what the calendar hangs on beside the records, when it was last looked at.
    *(
        f"""CREATE TRIGGER {table}_{column} AFTER UPDATE OF {column} ON {table} WHEN OLD.{column} <> NEW.{column}
            BEGIN UPDATE studio_calendar SET revision = revision + 1; END"""  # noqa: S608 names of ours
        for table, column in (("family", "zone"), ("family", "name"), ("student", "name"), ("student", "family_id"))
    ),
    """ALTER TABLE studio_calendar ADD COLUMN basis TEXT""",
    # An acceptance says from now on how a collision was: those that did not say it are asked for again.
    """DELETE FROM accepted""",
)
# What a roster (event 0) or a calendar said of a weekly time when it was read last. Its student goes, and it goes too.
_M007 = (
    """CREATE TABLE file_row (
        standing_time_id INTEGER NOT NULL REFERENCES standing_time(id) ON DELETE CASCADE, event INTEGER NOT NULL,
        student_id INTEGER NOT NULL REFERENCES student(id) ON DELETE CASCADE,
        weekday INTEGER NOT NULL, at TEXT NOT NULL, minutes INTEGER NOT NULL, kept_in TEXT NOT NULL, instrument TEXT,
        from_on TEXT, until_on TEXT, call_link TEXT, every_weeks INTEGER NOT NULL,
        PRIMARY KEY (standing_time_id, event)) STRICT""",
    """CREATE INDEX file_row_by_student ON file_row(student_id)""",
)
# The UID of an event in its own words. Numbers made of UIDs (from 1 << 60 on, 256 for an event) cannot be turned back,
# and stay as a name: '#' and the first of them. Weekly times that came from an event before a file was remembered
# get what the studio has as what was said.
_M008 = (
    """ALTER TABLE standing_time ADD COLUMN event_uid TEXT""",
    """UPDATE standing_time SET event_uid = '#' || (id - id % 256) WHERE id >= 1152921504606846976""",
    """CREATE TABLE imported_time (
        standing_time_id INTEGER NOT NULL REFERENCES standing_time(id) ON DELETE CASCADE, event_uid TEXT NOT NULL,
        student_id INTEGER NOT NULL REFERENCES student(id) ON DELETE CASCADE,
        weekday INTEGER NOT NULL, at TEXT NOT NULL, minutes INTEGER NOT NULL, kept_in TEXT NOT NULL, instrument TEXT,
        from_on TEXT, until_on TEXT, call_link TEXT, every_weeks INTEGER NOT NULL,
        PRIMARY KEY (standing_time_id, event_uid)) STRICT""",
    """INSERT INTO imported_time
        SELECT standing_time_id, CASE event WHEN 0 THEN '' ELSE '#' || event END, student_id, weekday, at, minutes,
            kept_in, instrument, from_on, until_on, call_link, every_weeks
        FROM file_row""",
    """INSERT INTO imported_time
        SELECT id, event_uid, student_id, weekday, at, minutes, kept_in, instrument, from_on, until_on, call_link,
            every_weeks
        FROM standing_time
        WHERE event_uid IS NOT NULL AND event_uid NOT IN (SELECT event_uid FROM imported_time)""",
    """DROP TABLE file_row""",
    """CREATE INDEX imported_time_by_student ON imported_time(student_id)""",
)
# What was finished in a rehearsal is never sent.
_M009 = ("ALTER TABLE lesson ADD COLUMN is_rehearsed INTEGER NOT NULL DEFAULT 0",)
# The form of a student's plan; without one it is that of the settings.
_M010 = ("""ALTER TABLE student ADD COLUMN plan TEXT""",)
# What others may have in their calendars and the studio has no more. It outlives somebody new who was taken back with
# it, and goes with a family that is deleted. A lesson that comes back is itself again; so is a weekly time.
_M011 = (
    """CREATE TABLE withdrawn_lesson (
        lesson_id TEXT PRIMARY KEY, student_id INTEGER REFERENCES student(id) ON DELETE SET NULL,
        kind TEXT NOT NULL, instrument TEXT, starts_at TEXT NOT NULL, minutes INTEGER NOT NULL) STRICT""",
    """CREATE INDEX withdrawn_lesson_by_student ON withdrawn_lesson(student_id)""",
    """CREATE TABLE withdrawn_time (
        standing_time_id INTEGER PRIMARY KEY, student_id INTEGER REFERENCES student(id) ON DELETE SET NULL,
        weekday INTEGER NOT NULL, at TEXT NOT NULL, minutes INTEGER NOT NULL, kept_in TEXT NOT NULL, instrument TEXT,
        from_on TEXT, until_on TEXT, every_weeks INTEGER NOT NULL) STRICT""",
    """CREATE INDEX withdrawn_time_by_student ON withdrawn_time(student_id)""",
    *(
        f"""CREATE TRIGGER lesson_withdrawn_{verb.split()[0].lower()} AFTER {verb} ON lesson
            WHEN {when} AND EXISTS (SELECT 1 FROM student WHERE id = OLD.student_id)
            BEGIN INSERT OR REPLACE INTO withdrawn_lesson
                VALUES (OLD.id, OLD.student_id, OLD.kind, OLD.instrument, OLD.starts_at, OLD.minutes); END"""  # noqa: S608 ours
        for verb, when in (
            ("DELETE", "(OLD.kind <> 'weekly' OR OLD.is_moved)"),
            ("UPDATE OF is_moved", "OLD.is_moved AND NOT NEW.is_moved"),
        )
    ),
    """CREATE TRIGGER lesson_is_back AFTER INSERT ON lesson WHEN NEW.kind <> 'weekly'
        BEGIN DELETE FROM withdrawn_lesson WHERE lesson_id = NEW.id; END""",
    """CREATE TRIGGER standing_time_withdrawn AFTER DELETE ON standing_time
        WHEN EXISTS (SELECT 1 FROM student WHERE id = OLD.student_id)
        BEGIN INSERT OR REPLACE INTO withdrawn_time VALUES (
            OLD.id, OLD.student_id, OLD.weekday, OLD.at, OLD.minutes, OLD.kept_in, OLD.instrument, OLD.from_on,
            OLD.until_on, OLD.every_weeks); END""",
    """CREATE TRIGGER standing_time_is_back AFTER INSERT ON standing_time
        BEGIN DELETE FROM withdrawn_time WHERE standing_time_id = NEW.id; END""",
)
# Other papers than practice notes: what a paper is about is a lesson, or a name of its own.
_M012 = (
    """CREATE TABLE paper_out (
        id INTEGER PRIMARY KEY, paper TEXT NOT NULL, about TEXT NOT NULL,
        lesson_id TEXT REFERENCES lesson(id) ON DELETE CASCADE,
        family_id INTEGER NOT NULL REFERENCES family(id) ON DELETE CASCADE, version INTEGER NOT NULL,
        way TEXT NOT NULL, address TEXT NOT NULL, student TEXT NOT NULL, title TEXT NOT NULL, text TEXT NOT NULL,
        page TEXT NOT NULL, language TEXT NOT NULL, next_lesson TEXT, is_update INTEGER NOT NULL,
        queued_at TEXT NOT NULL, not_before TEXT NOT NULL, fate TEXT NOT NULL, attempts INTEGER NOT NULL,
        settled_at TEXT, reason TEXT, message_id TEXT, UNIQUE (paper, about, version, way, address)) STRICT""",
    """INSERT INTO paper_out
        SELECT id, 'notes', lesson_id, lesson_id, family_id, version, way, address, student, title, text, page, language,
            next_lesson, is_update, queued_at, not_before, fate, attempts, settled_at, reason, message_id
        FROM outgoing""",
    """DROP TABLE outgoing""",
    """ALTER TABLE paper_out RENAME TO outgoing""",
    """CREATE INDEX outgoing_by_family ON outgoing(family_id)""",
    """CREATE INDEX outgoing_by_lesson ON outgoing(lesson_id)""",
    """CREATE INDEX outgoing_about ON outgoing(about)""",
    """CREATE INDEX outgoing_waiting ON outgoing(not_before) WHERE fate = 'waiting'""",
    """CREATE INDEX outgoing_open ON outgoing(id) WHERE fate IN ('waiting', 'going', 'unsure', 'refused')""",
)
# Why a lesson was not taught, for the teacher alone.
_M013 = ("ALTER TABLE lesson ADD COLUMN reason TEXT",)
# How many lesson times a student is given in a studio year; without a number it is that of the settings.
_M014 = ("""ALTER TABLE student ADD COLUMN yearly_lessons INTEGER""",)
# What she owes that comes from no lesson.
_M015 = (
    """CREATE TABLE duty (
        id INTEGER PRIMARY KEY, words TEXT NOT NULL, made_on TEXT NOT NULL, by_on TEXT, every TEXT, weekday INTEGER,
        nth INTEGER, day INTEGER, month INTEGER, weeks INTEGER NOT NULL, ticked_on TEXT) STRICT""",
)
# Who asked about lessons, and what happened then: all of it the teacher's alone. A family that is deleted takes its
# inquiries along; a lesson or a student alone leaves them.
_M016 = (
    """CREATE TABLE inquiry (
        id INTEGER PRIMARY KEY, came_at TEXT NOT NULL, name TEXT NOT NULL, email TEXT, child TEXT, age INTEGER,
        is_adult INTEGER NOT NULL, instrument TEXT, level TEXT, zone TEXT, wishes TEXT NOT NULL, source TEXT NOT NULL,
        words TEXT NOT NULL, trial_lesson_id TEXT REFERENCES lesson(id) ON DELETE SET NULL,
        student_id INTEGER REFERENCES student(id) ON DELETE SET NULL) STRICT""",
    """CREATE INDEX inquiry_by_lesson ON inquiry(trial_lesson_id)""",
    """CREATE INDEX inquiry_by_student ON inquiry(student_id)""",
    """CREATE TABLE inquiry_step (
        id INTEGER PRIMARY KEY, inquiry_id INTEGER NOT NULL REFERENCES inquiry(id) ON DELETE CASCADE,
        at TEXT NOT NULL, what TEXT NOT NULL) STRICT""",
    """CREATE INDEX inquiry_step_by_inquiry ON inquiry_step(inquiry_id)""",
)
# Each address of a family becomes a guardian, who gets all that the family got. The first has the family's number and
# the others negative ones, so that a copy of this studio that is brought up to this form later names them alike.
_M017 = (
    """CREATE TABLE guardian (
        id INTEGER PRIMARY KEY, family_id INTEGER NOT NULL REFERENCES family(id) ON DELETE CASCADE,
        name TEXT, email TEXT, phone TEXT, gets TEXT NOT NULL, position INTEGER NOT NULL) STRICT""",
    """CREATE INDEX guardian_by_family ON guardian(family_id)""",
    """INSERT INTO guardian
        WITH RECURSIVE part(family_id, position, email, rest) AS (
            SELECT id, -1, NULL, email || ', ' FROM family WHERE email <> ''
            UNION ALL
            SELECT family_id, position + 1, substr(rest, 1, instr(rest, ', ') - 1), substr(rest, instr(rest, ', ') + 2)
            FROM part WHERE rest <> '')
        SELECT CASE position WHEN 0 THEN family_id ELSE -(family_id + position * 1099511627776) END, family_id, NULL,
            email, NULL, 'news,notes', position
        FROM part WHERE position >= 0""",
    """ALTER TABLE family DROP COLUMN email""",
)
# One student's lessons pause; calendars of others see that as they see a break.
_M018 = (
    """CREATE TABLE pause (
        id INTEGER PRIMARY KEY, student_id INTEGER NOT NULL REFERENCES student(id) ON DELETE CASCADE,
        from_on TEXT NOT NULL, until_on TEXT, keeps_time INTEGER NOT NULL, reason TEXT NOT NULL) STRICT""",
    """CREATE INDEX pause_by_student ON pause(student_id)""",
    *(
        f"""CREATE TRIGGER pause_{verb.lower()} AFTER {verb} ON pause
            BEGIN UPDATE studio_calendar SET revision = revision + 1; END"""  # noqa: S608 names of ours
        for verb in ("INSERT", "UPDATE", "DELETE")
    ),
)
# A paper is for a family, or it answers an inquiry.
_M019 = (
    """CREATE TABLE paper_out (
        id INTEGER PRIMARY KEY, paper TEXT NOT NULL, about TEXT NOT NULL,
        lesson_id TEXT REFERENCES lesson(id) ON DELETE CASCADE, family_id INTEGER REFERENCES family(id) ON DELETE CASCADE,
        inquiry_id INTEGER REFERENCES inquiry(id) ON DELETE CASCADE, version INTEGER NOT NULL,
        way TEXT NOT NULL, address TEXT NOT NULL, student TEXT NOT NULL, title TEXT NOT NULL, text TEXT NOT NULL,
        page TEXT NOT NULL, language TEXT NOT NULL, next_lesson TEXT, is_update INTEGER NOT NULL,
        queued_at TEXT NOT NULL, not_before TEXT NOT NULL, fate TEXT NOT NULL, attempts INTEGER NOT NULL,
        settled_at TEXT, reason TEXT, message_id TEXT, UNIQUE (paper, about, version, way, address),
        CHECK ((family_id IS NULL) <> (inquiry_id IS NULL))) STRICT""",
    """INSERT INTO paper_out
        SELECT id, paper, about, lesson_id, family_id, NULL, version, way, address, student, title, text, page, language,
            next_lesson, is_update, queued_at, not_before, fate, attempts, settled_at, reason, message_id
        FROM outgoing""",
    """DROP TABLE outgoing""",
    """ALTER TABLE paper_out RENAME TO outgoing""",
    """CREATE INDEX outgoing_by_family ON outgoing(family_id)""",
    """CREATE INDEX outgoing_by_inquiry ON outgoing(inquiry_id) WHERE inquiry_id IS NOT NULL""",
    """CREATE INDEX outgoing_by_lesson ON outgoing(lesson_id)""",
    """CREATE INDEX outgoing_about ON outgoing(about)""",
    """CREATE INDEX outgoing_waiting ON outgoing(not_before) WHERE fate = 'waiting'""",
    """CREATE INDEX outgoing_open ON outgoing(id) WHERE fate IN ('waiting', 'going', 'unsure', 'refused')""",
)
# Calls that were lost, and what became of the minutes; minutes that a lesson was given more. Nobody else's calendar sees them.
_M020 = (
    """CREATE TABLE call_loss (
        lesson_id TEXT NOT NULL REFERENCES lesson(id) ON DELETE CASCADE, lost_at TEXT NOT NULL, back_at TEXT,
        settled TEXT, given_in TEXT REFERENCES lesson(id) ON DELETE SET NULL, PRIMARY KEY (lesson_id, lost_at)) STRICT""",
    """CREATE INDEX call_loss_by_given ON call_loss(given_in)""",
    """ALTER TABLE lesson ADD COLUMN more_minutes INTEGER NOT NULL DEFAULT 0""",
)
# A family's zone may name moves, which an earlier cockpit would not understand: it refuses a newer form.
_M021: tuple[str, ...] = ()
# A make-up that is owed no more.
_M022 = ("ALTER TABLE lesson ADD COLUMN is_let_go INTEGER NOT NULL DEFAULT 0",)
# What a guardian, or an adult student, said of how a student may be shown: the last word on each way.
_M023 = (
    """CREATE TABLE permission (
        student_id INTEGER NOT NULL REFERENCES student(id) ON DELETE CASCADE, what TEXT NOT NULL,
        is_given INTEGER NOT NULL, said_on TEXT NOT NULL, until_on TEXT, words TEXT NOT NULL,
        PRIMARY KEY (student_id, what)) STRICT""",
)
# A move that a family took back: others may have its weekly lessons behind it. Of several the clock with most moves; a
# stay that ends, ' to ' its last day, is none.
_MOVES_OF = "(length({0}) - length(replace({0}, ';', '')) - (length({0}) - length(replace({0}, ' to ', ''))) / 4)"
_M024 = (
    """CREATE TABLE withdrawn_clock (
        family_id INTEGER PRIMARY KEY REFERENCES family(id) ON DELETE CASCADE, zone TEXT NOT NULL) STRICT""",
    f"""CREATE TRIGGER family_clock_withdrawn AFTER UPDATE OF zone ON family
        WHEN {_MOVES_OF.format("NEW.zone")} < {_MOVES_OF.format("OLD.zone")} AND NOT EXISTS (
            SELECT 1 FROM withdrawn_clock WHERE family_id = OLD.id
                AND {_MOVES_OF.format("withdrawn_clock.zone")} > {_MOVES_OF.format("OLD.zone")})
        BEGIN INSERT OR REPLACE INTO withdrawn_clock VALUES (OLD.id, OLD.zone); END""",  # noqa: S608 names of ours
)
# Why a student ended, for the teacher alone.
_M025 = ("ALTER TABLE student ADD COLUMN ended_because TEXT",)
# Weekly times whose lessons are shared.
_M026 = ("""ALTER TABLE standing_time ADD COLUMN shares INTEGER""",)
# How far a student has come, for the teacher alone.
_M027 = ("ALTER TABLE student ADD COLUMN level TEXT",)
# What she says of pieces and of the mix. What the notes say of them is in no table here (`store/line_index.py`).
_M028 = (
    """CREATE TABLE piece (
        student_id INTEGER NOT NULL REFERENCES student(id) ON DELETE CASCADE, key TEXT NOT NULL, composer TEXT,
        origin TEXT, is_chosen INTEGER NOT NULL, measures INTEGER, wanted_on TEXT, kept_since TEXT,
        PRIMARY KEY (student_id, key)) STRICT""",
    """CREATE TABLE piece_alias (
        student_id INTEGER NOT NULL REFERENCES student(id) ON DELETE CASCADE, key TEXT NOT NULL, piece TEXT NOT NULL,
        is_one INTEGER NOT NULL, PRIMARY KEY (student_id, key, piece)) STRICT""",
    """CREATE TABLE strand_left (
        student_id INTEGER NOT NULL REFERENCES student(id) ON DELETE CASCADE, strand TEXT NOT NULL, until_on TEXT,
        PRIMARY KEY (student_id, strand)) STRICT""",
)
# Recitals, what is played in them, and what was noted of that. Nothing that goes changes another row: a parent or an item that
# is named may be gone.
_M029 = (
    """CREATE TABLE recital (
        id INTEGER PRIMARY KEY, name TEXT NOT NULL, theme TEXT, held_on TEXT NOT NULL, at TEXT NOT NULL, zone TEXT NOT NULL,
        minutes_limit INTEGER, changeover INTEGER NOT NULL, is_online INTEGER NOT NULL, link TEXT, place TEXT,
        opening_seconds INTEGER NOT NULL, closing_seconds INTEGER NOT NULL,
        parent_id INTEGER, is_rehearsal INTEGER NOT NULL, began_at TEXT,
        ended_at TEXT) STRICT""",
    """CREATE INDEX recital_by_parent ON recital(parent_id)""",
    """CREATE TABLE recital_item (
        id INTEGER PRIMARY KEY, recital_id INTEGER NOT NULL REFERENCES recital(id) ON DELETE CASCADE,
        position INTEGER NOT NULL, student_id INTEGER NOT NULL REFERENCES student(id) ON DELETE CASCADE,
        piece TEXT NOT NULL, composer TEXT, instrument TEXT, seconds INTEGER, is_computed INTEGER NOT NULL, with_whom TEXT,
        costume TEXT, props TEXT, story TEXT, enters TEXT, note TEXT, pin TEXT, pinned_after INTEGER, pinned_before TEXT,
        shown_as TEXT, began_at TEXT, ended_at TEXT, is_skipped INTEGER NOT NULL) STRICT""",
    """CREATE INDEX recital_item_by_recital ON recital_item(recital_id)""",
    """CREATE INDEX recital_item_by_student ON recital_item(student_id)""",
    """CREATE TABLE recital_noted (
        item_id INTEGER NOT NULL REFERENCES recital_item(id) ON DELETE CASCADE,
        recital_id INTEGER NOT NULL REFERENCES recital(id) ON DELETE CASCADE, what TEXT NOT NULL, is_yes INTEGER NOT NULL,
        said_on TEXT NOT NULL, PRIMARY KEY (item_id, recital_id, what)) STRICT""",
    """CREATE INDEX recital_noted_by_recital ON recital_noted(recital_id)""",
)
# What is put on the board of a lesson that runs, and what is taken off it.
_M030 = (
    """CREATE TABLE board_line (
        lesson_id TEXT NOT NULL REFERENCES lesson(id) ON DELETE CASCADE, words TEXT NOT NULL, put_at TEXT NOT NULL,
        is_off INTEGER NOT NULL, PRIMARY KEY (lesson_id, words)) STRICT""",
)
# Where she has a piece: what was kept alive still is, since the same date.
_M031 = (
    "ALTER TABLE piece RENAME COLUMN kept_since TO state_since",
    "ALTER TABLE piece ADD COLUMN state TEXT NOT NULL DEFAULT 'learning'",
    "UPDATE piece SET state = 'kept alive' WHERE state_since IS NOT NULL",
)
# Letters to many families. What one goes to is in the outbox; a guardian's row says that it went there, or that they are left out.
_M032 = (
    """CREATE TABLE family_letter (
        id INTEGER PRIMARY KEY, whom TEXT NOT NULL, text TEXT NOT NULL, made_at TEXT NOT NULL) STRICT""",
    """CREATE TABLE letter_guardian (
        letter_id INTEGER NOT NULL REFERENCES family_letter(id) ON DELETE CASCADE,
        guardian_id INTEGER NOT NULL REFERENCES guardian(id) ON DELETE CASCADE, given_at TEXT,
        PRIMARY KEY (letter_id, guardian_id)) STRICT""",
    """CREATE INDEX letter_guardian_by_guardian ON letter_guardian(guardian_id)""",
)
_STEPS = (
    _M001, _M002, _M003, _M004, _M005, _M006, _M007, _M008, _M009,
    _M010, _M011, _M012, _M013, _M014, _M015, _M016, _M017, _M018,
    _M019, _M020, _M021, _M022, _M023, _M024,
    _M025, _M026, _M027, _M028, _M029, _M030, _M031, _M032,
)  # fmt: skip
VERSION = len(_STEPS)


def version_of(connection: sqlite3.Connection) -> int:
    """The schema version that a database was left at; 0 for a new one."""
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def migrate(connection: sqlite3.Connection) -> None:
    """Brings a database up to VERSION, each step in a transaction of its own."""
    from sqlite_utils import Database  # 35 ms, and only when the database is new or old

    migrations().apply(Database(connection, execute_plugins=False))


def migrations() -> "Migrations":
    """The steps from one version to the next."""
    from sqlite_utils import Migrations

    migrations = Migrations("cockpit")
    for number, statements in enumerate(_STEPS, start=1):
        migrations(name=f"m{number:03d}")(_step(number, statements))
    return migrations


def _step(number: int, statements: tuple[str, ...]) -> "Callable[[Database], None]":
    def step(db: "Database") -> None:
        for statement in statements:
            db.execute(statement)
        db.execute(f"PRAGMA user_version = {number}")

    return step
