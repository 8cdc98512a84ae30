"""The store on real files: atomic, refusing what it cannot keep, never harming what is there."""

import contextlib
import gc
import sqlite3
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from support.forms import write_form

from cockpit.cli.main import main
from cockpit.store.backups import KEPT, back_up, restore
from cockpit.store.leaving import FamilyRows
from cockpit.store.open_studio import open_studio, open_studio_to_read
from cockpit.store.schema import NAME, VERSION
from cockpit.studio.changes.records import Change, Edit, Export, FollowUp, Heard, MarkSet, Note, added
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.errors import NotSaved, StudioDamaged, StudioTooNew
from cockpit.studio.inquiries.inquiry import Inquiry, InquiryId, InquiryStep, InquiryStepId, StepKind
from cockpit.studio.lessons.breaks import Break, BreakId, Pause, PauseId
from cockpit.studio.lessons.lesson import Lesson, LessonId, Outcome
from cockpit.studio.lessons.scheduled import planned
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTime, StandingTimeId
from cockpit.studio.notes.notes import Mark
from cockpit.studio.people.people import Family, FamilyId, Level, PlanForm, Student, StudentId, addresses_of
from cockpit.studio.post.channels import Channel
from cockpit.studio.post.outgoing import DeliveryStatus, Outgoing, OutgoingId
from cockpit.studio.values import replace

AT = datetime(2026, 12, 1, 22, 0, 0, 123456, tzinfo=UTC)
FAMILY = Family(id=FamilyId(1), name="Brandvold", zone="America/Phoenix", hours=24, folder="B")
FAMILY = replace(FAMILY, send_by="folder, mail", language="es")
STUDENT = Student(
    id=StudentId(2),
    family_id=FamilyId(1),
    name="Ilse",
    daily_minutes=20,
    remark="new cello",
    practice_days=frozenset({0, 2, 4}),
    plan=PlanForm.NONE,
    yearly_lessons=30,
    level=Level.ADVANCED,
)
STANDING = StandingTime(
    id=StandingTimeId(3),
    student_id=StudentId(2),
    weekday=1,
    at=time(16),
    minutes=45,
    kept_in=KeptIn.FAMILY,
    instrument="cello",
    from_on=date(2026, 9, 1),
    until_on=date(2027, 6, 1),
    call_link="https://call.example.org/ilse",
    every_weeks=2,
)
LESSON = Lesson(
    id=LessonId("w3-2026-12-01"),
    student_id=StudentId(2),
    standing_time_id=StandingTimeId(3),
    instrument="cello",
    starts_at=AT,
    minutes=45,
    began_at=AT + timedelta(minutes=2),
    finished_at=AT + timedelta(minutes=45),
    gives_full_length=True,
    is_reopened=True,
    is_moved=True,
    makes_up=LessonId("w3-2026-11-24"),
)
NOTE = Note(lesson_id=LESSON.id, body="Scales: Dvořák\n♩=72\nFollow-up: send it", changed_at=AT)
MARK = MarkSet(lesson_id=LESSON.id, line="Scales: D", mark=Mark.MORE_WORK)
OWED = FollowUp(lesson_id=LESSON.id, body="send it")
EXPORT = Export(lesson_id=LESSON.id, path="notes/x.md", is_final=True, exported_at=AT)
BREAK = Break(id=BreakId(9), from_on=date(2026, 12, 21), until_on=date(2027, 1, 3), reason="holidays")
HEARD = Heard(lesson_id=LESSON.id, line="Scales: D", tempo=84, clean_runs=3)
OUTGOING = Outgoing(
    id=OutgoingId(10),
    about=LESSON.id,
    lesson_id=LESSON.id,
    family_id=FAMILY.id,
    version=2,
    way=Channel.MAIL,
    address="b@example.org",
    student="Ilse",
    title="Practice notes for Ilse",
    text="Scales: Dvořák",
    page="<p>Scales: Dvořák</p>",
    language="es",
    next_lesson="BEGIN:VCALENDAR",
    is_update=True,
    queued_at=AT,
    not_before=AT + timedelta(seconds=10),
    fate=DeliveryStatus.REFUSED,
    attempts=3,
    settled_at=AT + timedelta(minutes=1),
    reason="no such mailbox",
    message_id="<1@example.org>",
)
ALL = (FAMILY, STUDENT, STANDING, LESSON, NOTE, MARK, HEARD, OWED, EXPORT, OUTGOING)


@pytest.fixture
def store(tmp_path):
    store = open_studio(tmp_path)
    yield store
    store.close()


def filled(store):
    store.writing.apply(Change(said="fill", edits=added(*ALL)))
    return store


def test_every_record_comes_back_as_it_was(store):
    reading = filled(store).reading
    people = reading.people()
    assert people.families == {FAMILY.id: FAMILY}
    assert people.students == {STUDENT.id: STUDENT}
    assert reading.standing_times() == (STANDING,)
    assert reading.lessons_between(AT, AT + timedelta(seconds=1)) == (LESSON,)
    assert reading.notes([LESSON.id]) == {LESSON.id: NOTE}
    assert reading.marks([LESSON.id]) == {(LESSON.id, MARK.line): MARK}
    assert reading.heard([LESSON.id]) == {(LESSON.id, HEARD.line): HEARD}
    assert reading.follow_ups(LESSON.id) == (OWED,)
    assert reading.exports([LESSON.id]) == {LESSON.id: EXPORT}
    assert reading.outgoing_about([LESSON.id]) == (OUTGOING,)


def test_a_zone_comes_back_by_name_so_that_a_clock_change_does_not_bend_a_lesson(store):
    reading = filled(store).reading
    family = replace(FAMILY, zone="America/Chicago")
    store.writing.apply(Change(said="move", edits=(Edit(before=FAMILY, after=family),)))
    people = reading.people()
    assert people.families[FAMILY.id].zone == "America/Chicago"
    begins = datetime(2026, 10, 25, tzinfo=UTC)
    bookings = planned(
        reading.enrollments(people, date(2026, 10, 25)), TeacherClock(zone="UTC"), begins, begins + timedelta(days=21)
    )
    # 1 November 2026 ends daylight time in Chicago (15 U.S.C. 260a(a)): 16:00 there is 21:00 and then 22:00 in UTC.
    assert [b.lesson.starts_at.hour for b in bookings] == [21, 22]
    assert all(b.lesson.starts_at.astimezone(ZoneInfo("America/Chicago")).hour == 16 for b in bookings)


def test_a_change_that_fails_half_way_leaves_nothing(store):
    with pytest.raises(sqlite3.IntegrityError):
        store.writing.apply(Change(said="bad", edits=added(FAMILY, replace(STUDENT, family_id=FamilyId(99)))))
    assert store.reading.people().families == {}


def test_a_change_turned_around_leaves_everything_as_it_was(store):
    filled(store)
    ticked, absent = replace(OWED, ticked_at=AT), replace(LESSON, outcome=Outcome.ABSENT)
    edits = (
        Edit(before=OWED, after=ticked),
        Edit(before=LESSON, after=absent),
        Edit(before=MARK, after=None),
        Edit(before=None, after=replace(MARK, line="Piece: x")),
    )

    def kept() -> list[str]:
        return sorted(line for line in store.connection.iterdump() if 'INTO "studio_calendar"' not in line)

    before = kept()
    change = Change(said="much", edits=edits)
    store.writing.apply(change, durable=True)
    assert kept() != before
    store.writing.apply(change.turned_around(), durable=True)
    assert kept() == before
    assert store.connection.execute("PRAGMA synchronous").fetchone()[0] == 1


def test_the_form_is_made_from_nothing_by_the_migrations(store):
    tables = {
        row["name"]: row["sql"] for row in store.connection.execute("SELECT * FROM sqlite_master WHERE type='table'")
    }
    ours = {"family", "student", "standing_time", "lesson", "note", "mark", "follow_up", "export", "numbering"}
    assert ours <= set(tables)
    assert all(tables[name].rstrip().endswith("STRICT") for name in ours)
    assert store.connection.execute("PRAGMA user_version").fetchone()[0] == VERSION
    assert store.connection.execute("PRAGMA foreign_keys").fetchone()[0] == 1
    assert store.connection.execute("PRAGMA journal_mode").fetchone()[0] == "wal"
    assert [row["name"] for row in store.connection.execute("SELECT name FROM _sqlite_migrations")] == [
        f"m{number:03d}" for number in range(1, VERSION + 1)
    ]


def test_the_calendar_others_read_gets_a_higher_number_at_each_change_of_it_also_when_one_is_taken_back(store):
    def revision() -> int:
        return store.connection.execute("SELECT revision FROM studio_calendar").fetchone()[0]

    filled(store)
    numbers = [revision()]
    moved = Change(
        said="move",
        edits=(Edit(before=LESSON, after=replace(LESSON, is_moved=False, starts_at=AT + timedelta(hours=1))),),
    )
    no_lessons = Change(said="break", edits=added(BREAK))
    for change in (moved, moved.turned_around(), no_lessons, no_lessons.turned_around()):
        store.writing.apply(change)
        numbers.append(revision())
    assert numbers == sorted(set(numbers))
    store.writing.save_note(replace(NOTE, body="typed"), None)
    assert revision() == numbers[-1]


def test_a_pause_comes_back_as_it_was_and_one_without_an_end_lasts(store):
    filled(store)
    paused = Pause(id=PauseId(10), student_id=StudentId(2), from_on=date(2027, 6, 1), keeps_time=False, reason="a trip")
    ended = replace(paused, id=PauseId(11), until_on=date(2027, 8, 31), keeps_time=True)
    before = store.reading.calendar_edition()[1]
    store.writing.apply(Change(said="pause", edits=added(paused, ended, BREAK)))
    assert store.reading.calendar_edition()[1] > before
    assert store.reading.breaks() == (BREAK, paused, ended)
    assert store.reading.breaks(date(2027, 8, 31)) == (paused, ended)
    assert store.reading.breaks(date(2099, 9, 1)) == (paused,)


def test_a_break_comes_back_as_it_was(store):
    filled(store)
    store.writing.apply(Change(said="break", edits=added(BREAK)))
    assert store.reading.breaks() == (BREAK,)
    assert store.reading.breaks(BREAK.until_on) == (BREAK,)
    assert store.reading.breaks(BREAK.until_on + timedelta(days=1)) == ()


def test_a_studio_of_the_first_version_keeps_everything_and_each_family_its_folder(tmp_path):
    connection = sqlite3.connect(tmp_path / NAME)
    write_form(connection, 1)
    assert connection.execute("PRAGMA user_version").fetchone()[0] == 1
    connection.executescript("""
        INSERT INTO family VALUES (1, 'Quist', NULL, 'America/Denver', NULL), (2, 'Quist', NULL, 'Asia/Tokyo', 24);
        INSERT INTO student VALUES (1, 1, 'Ilse', 20, 'shy'), (2, 2, 'Noor', NULL, NULL);
        INSERT INTO standing_time VALUES (1, 1, 1, '16:00:00', 30, 'teacher', 'cello', NULL, NULL, NULL);
        INSERT INTO lesson VALUES
            ('w1-2026-11-24', 1, 1, 'weekly', 'cello', '2026-11-24T22:00:00.000000+00:00', 30, NULL, NULL, 'absent', 0, 0),
            ('w1-2026-12-01', 1, 1, 'weekly', 'cello', '2026-12-01T22:00:00.000000+00:00', 30, NULL, NULL, NULL, 0, 0);
        INSERT INTO export VALUES
            ('w1-2026-11-24', 'notes/Quist/2026-11-24 Ilse.md', 1, '2026-11-24T22:30:00.000000+00:00'),
            ('w1-2026-12-01', 'notes/Quist (1)/2026-12-01 Ilse.md', 0, '2026-12-01T22:30:00.000000+00:00');
    """)
    connection.close()
    studio = open_studio(tmp_path)
    people = studio.reading.people()
    assert [people.families[FamilyId(n)].folder for n in (1, 2)] == ["Quist (1)", None]
    assert people.students[StudentId(1)].remark == "shy"
    assert [each.every_weeks for each in studio.reading.standing_times()] == [1]
    lessons = studio.reading.lessons_between(datetime(2026, 11, 1, tzinfo=UTC), datetime(2027, 1, 1, tzinfo=UTC))
    assert [(lesson.outcome, lesson.is_moved, lesson.makes_up) for lesson in lessons] == [
        (Outcome.ABSENT, False, None),
        (None, False, None),
    ]
    studio.close()


GUARDIANS = 17
"""The version from which on addresses are those of guardians."""


@pytest.mark.parametrize("version", range(1, VERSION))
def test_a_studio_of_any_earlier_version_goes_on(tmp_path, version):
    connection = sqlite3.connect(tmp_path / NAME)
    write_form(connection, version)
    assert connection.execute("PRAGMA user_version").fetchone()[0] == version
    columns = "id, name, zone", "id, family_id, name, remark", "lesson_id, body, changed_at"
    address = (
        "UPDATE family SET email = 'q@example.org'"
        if version < GUARDIANS
        else "INSERT INTO guardian (id, family_id, email, gets, position) VALUES (3, 1, 'q@example.org', 'notes,news', 0)"
    )
    connection.executescript(f"""
        INSERT INTO family ({columns[0]}) VALUES (1, 'Quist', 'America/Denver'); {address};
        INSERT INTO student ({columns[1]}) VALUES (2, 1, 'Ilse', 'shy');
        INSERT INTO lesson (id, student_id, kind, starts_at, minutes, gives_full_length, is_reopened)
            VALUES ('x1', 2, 'extra', '2026-12-01T22:00:00.000000+00:00', 30, 0, 0);
        INSERT INTO note ({columns[2]}) VALUES ('x1', 'Scales: D', '2026-12-01T22:00:00.000000+00:00');
    """)
    connection.close()
    studio = open_studio(tmp_path)
    assert studio.connection.execute("PRAGMA user_version").fetchone()[0] == VERSION
    assert addresses_of(studio.reading.guardians(), FamilyId(1)) == ("q@example.org",)
    assert studio.reading.notes([LessonId("x1")])[LessonId("x1")].body == "Scales: D"
    assert studio.reading.open_outgoing() == ()
    studio.writing.apply(Change(said="send", edits=added(replace(OUTGOING, about="x1", lesson_id=LessonId("x1")))))
    assert len(studio.reading.outgoing_about([LessonId("x1")])) == 1
    studio.close()


def test_a_database_of_a_later_version_is_refused_and_not_touched(tmp_path):
    open_studio(tmp_path).close()
    with contextlib.closing(sqlite3.connect(tmp_path / NAME)) as connection, connection:
        connection.execute(f"PRAGMA user_version = {VERSION + 1}")
    connection.close()
    before = (tmp_path / NAME).read_bytes()
    with pytest.raises(StudioTooNew, match="newer version"):
        open_studio(tmp_path)
    assert (tmp_path / NAME).read_bytes() == before


def open_connections(path):
    """The connections of this process to a file that nobody has closed."""
    for each in gc.get_objects():
        if isinstance(each, sqlite3.Connection):
            with contextlib.suppress(sqlite3.ProgrammingError):  # it is closed
                if str(path) in {row[2] for row in each.execute("PRAGMA database_list")}:
                    yield each


@pytest.mark.parametrize("opening", [open_studio, lambda folder: open_studio_to_read(folder, "only to read")])
@pytest.mark.parametrize("damage", [0, 1])
def test_a_studio_that_cannot_be_opened_is_let_go_of(tmp_path, opening, damage):
    open_studio(tmp_path).close()
    with contextlib.closing(sqlite3.connect(tmp_path / NAME)) as connection, connection:
        connection.execute(f"PRAGMA user_version = {VERSION + 1}")
        assert list(open_connections(tmp_path / NAME)) == [connection]
    if damage:
        (tmp_path / NAME).write_bytes(b"no database" * 999)
    with pytest.raises(StudioDamaged if damage else StudioTooNew):
        opening(tmp_path)
    assert list(open_connections(tmp_path / NAME)) == []


@pytest.mark.parametrize("damage", [b"not a database" * 999, b"SQLite format 3\x00" + b"\x07" * 9000])
def test_a_damaged_database_names_itself_and_the_last_backup_and_is_left_alone(tmp_path, damage):
    filled(open_studio(tmp_path)).close()
    backup = back_up(tmp_path, datetime(2026, 12, 1))
    (tmp_path / NAME).write_bytes(damage)
    with pytest.raises(StudioDamaged) as told:
        open_studio(tmp_path)
    assert str(tmp_path / NAME) in str(told.value)
    assert str(backup) in str(told.value)
    assert (tmp_path / NAME).read_bytes() == damage
    restored = restore(tmp_path, "stamp")
    assert restored.backup.path == backup
    assert restored.kept.read_bytes() == damage
    store = open_studio(tmp_path)
    assert store.reading.notes([LESSON.id]) == {LESSON.id: NOTE}
    store.close()


def test_a_damaged_database_never_pushes_out_a_good_backup(tmp_path):
    filled(open_studio(tmp_path)).close()
    good = back_up(tmp_path, datetime(2026, 12, 1))
    (tmp_path / NAME).write_bytes(b"not a database" * 999)
    with pytest.raises(StudioDamaged):
        back_up(tmp_path, datetime(2026, 12, 2))
    assert sorted((tmp_path / "backups").iterdir()) == [good]


def test_one_backup_a_day_is_made_and_the_last_fourteen_are_kept(tmp_path):
    filled(open_studio(tmp_path)).close()
    for day in range(20):
        on = datetime(2026, 12, 1, 8) + timedelta(days=day)
        assert back_up(tmp_path, on) is not None
        assert back_up(tmp_path, on) is None
    names = sorted(path.name for path in (tmp_path / "backups").iterdir())
    assert len(names) == KEPT == 14
    assert names[-1] == "studio-2026-12-20.db"
    assert all(path.stat().st_mode & 0o777 == 0o600 for path in (tmp_path / "backups").iterdir())


def test_a_full_disk_is_told_and_the_earlier_text_is_whole(store):
    filled(store)
    pages = store.connection.execute("PRAGMA page_count").fetchone()[0]
    store.connection.execute(f"PRAGMA max_page_count = {pages}")
    with pytest.raises(NotSaved, match="disk is full"):
        store.writing.save_note(replace(NOTE, body="x" * 200_000), None)
    with pytest.raises(NotSaved, match="disk is full"):
        store.writing.save_note(replace(NOTE, body="x" * 200_000), ("a", "b"))
    assert store.reading.notes([LESSON.id]) == {LESSON.id: NOTE}
    assert store.reading.follow_ups(LESSON.id) == (OWED,)
    store.connection.execute("PRAGMA max_page_count = 100000")
    store.writing.save_note(replace(NOTE, body="x" * 200_000), None)


def test_a_second_opener_may_only_read_and_sees_what_the_first_one_writes(store, tmp_path):
    second = open_studio(tmp_path)
    assert second.writing is None
    assert "open in another cockpit" in second.why_read_only
    seen = second.version()
    filled(store)
    assert second.version() != seen
    assert second.reading.notes([LESSON.id]) == {LESSON.id: NOTE}
    with pytest.raises(sqlite3.OperationalError):
        second.connection.execute("DELETE FROM note")
    second.close()


def test_a_folder_that_can_only_be_read_is_said_to_be_that_and_blames_no_other_cockpit(tmp_path, capsys):
    filled(open_studio(tmp_path)).close()
    (tmp_path / "studio.lock").unlink()
    (tmp_path / "studio.lock").mkdir()  # refused for everybody, also for an administrator
    second = open_studio(tmp_path)
    assert second.writing is None
    assert second.why_read_only == f"{tmp_path} is read-only (Is a directory). Nothing you do here is saved."
    assert second.reading.notes([LESSON.id]) == {LESSON.id: NOTE}
    second.close()
    back_up(tmp_path, datetime(2026, 12, 1))
    before = (tmp_path / NAME).read_bytes()
    for command in (["restore"], ["outbox", "--send"]):
        assert main([*command, "--folder", str(tmp_path)]) == 1
        assert f"{tmp_path} is read-only (Is a directory)" in capsys.readouterr().err
    assert (tmp_path / NAME).read_bytes() == before


def test_numbers_are_never_given_twice(store):
    assert len({store.writing.new_id() for _ in range(50)}) == 50


def test_forgetting_a_family_leaves_no_trace_in_the_file(store, tmp_path):
    filled(store)
    rows = FamilyRows(store.connection, tmp_path / NAME)
    rows.delete(FAMILY.id)
    rows.scrub()
    for table in ("family", "student", "standing_time", "lesson", "note", "mark", "follow_up", "export"):
        assert store.connection.execute(f"SELECT count(*) FROM {table}").fetchone()[0] == 0
    store.close()
    assert "Dvořák".encode() not in (tmp_path / NAME).read_bytes()


def test_a_studio_of_an_earlier_version_can_be_read_without_being_changed(tmp_path):
    connection = sqlite3.connect(tmp_path / NAME)
    write_form(connection, 1)
    connection.execute("INSERT INTO family VALUES (1, 'Quist', NULL, 'America/Denver', NULL)")
    connection.commit()
    connection.close()
    before = (tmp_path / NAME).read_bytes()
    studio = open_studio_to_read(tmp_path, "only to read")
    assert [family.name for family in studio.reading.people().families.values()] == ["Quist"]
    assert studio.reading.accepted() == frozenset()
    studio.close()
    assert (tmp_path / NAME).read_bytes() == before


def test_a_closed_inquiry_is_deleted_after_its_months_and_an_age_with_the_student(tmp_path):
    began = datetime(2026, 1, 1, tzinfo=UTC)
    kinds = {
        1: (StepKind.ANSWERED, StepKind.NO_ANSWER),
        2: (StepKind.ANSWERED, StepKind.NO_ANSWER, StepKind.THEY_WROTE),
        3: (),
        4: (StepKind.ANSWERED, StepKind.STUDENT),
        5: (StepKind.DECLINED,),
    }
    with contextlib.closing(open_studio(tmp_path)) as studio:
        asked = [Inquiry(id=InquiryId(n), came_at=began, name="Ana", age=8, words=f"quux-{n}") for n in kinds]
        steps = [
            InquiryStep(id=InquiryStepId(10 * n + m), inquiry_id=InquiryId(n), at=began + timedelta(days=m), what=what)
            for n, each in kinds.items()
            for m, what in enumerate(each)
        ]
        studio.writing.apply(Change(said="", edits=added(*asked, *steps)))
        studio.writing.clear_inquiries(began + timedelta(days=1))
        assert {each.id: each.age for each in studio.reading.inquiries()} == {1: 8, 2: 8, 3: 8, 4: None}
        studio.writing.clear_inquiries(began + timedelta(days=2))
        assert [each.id for each in studio.reading.inquiries()] == [2, 3, 4]
        assert {step.inquiry_id for step in studio.reading.inquiry_steps()} == {2, 4}
        assert [each.id for each in studio.reading.unanswered_inquiries()] == [3]
    assert b"quux-1" not in (tmp_path / "studio.db").read_bytes()
    assert b"quux-2" in (tmp_path / "studio.db").read_bytes()
