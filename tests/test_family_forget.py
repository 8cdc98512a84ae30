"""A family forgotten: its words are in no file of the studio folder any more, and everybody else's are as they were."""

import contextlib
import json
import shutil
import sqlite3
import subprocess
import sys
import zipfile
from datetime import UTC, date, datetime, timedelta
from email import message_from_bytes
from email.policy import default
from pathlib import Path

import pytest
from support.bytes_of import files_holding, rows_of, snapshot
from support.forms import write_form
from support.leaving import NEWS, WORDS, DraftsReally
from support.outbox import Answering, posting_studio

from cockpit.cli.family import Talk, forget, tell
from cockpit.cli.main import main
from cockpit.clock import SetClock, SystemClock
from cockpit.outlets.sender import ParcelSender
from cockpit.running.last_words import LastWords
from cockpit.store.backups import back_up, restore
from cockpit.store.schema import VERSION
from cockpit.studio.changes.recital import RecitalId
from cockpit.studio.changes.records import Change, Edit, added
from cockpit.studio.errors import CockpitError, NotSaved, Refused
from cockpit.studio.lessons.unsaved import UnsavedNotes
from cockpit.studio.people.people import Family, FamilyId, Guardian, GuardianId, Student, StudentId
from cockpit.studio.post.outgoing import DeliveryStatus, Paper
from cockpit.studio.values import replace
from cockpit.wiring import studio_at

OF_OKONJO = ("Okonjo", "okonjo.example", "The Heron", "shy today", "send the duet", "gentle", "call.example/ok")
SURE = ("--forget", "--sure", "zwijndrecht")


@pytest.fixture
def studio(full_studio, tmp_path) -> Path:
    return Path(shutil.copytree(full_studio, tmp_path / "studio"))


def said(capsys, *arguments) -> tuple[int, str, str]:
    capsys.readouterr()
    status = main([str(argument) for argument in arguments])
    out, err = capsys.readouterr()
    return status, out, err


class Typing:
    """Somebody at a terminal who types these lines; what she was told and asked is kept."""

    def __init__(self, *lines: str) -> None:
        self._lines = list(lines)
        self.told: list[str] = []

    @property
    def talk(self) -> Talk:
        return Talk(say=self.told.append, ask=self._ask, is_terminal=True)

    @property
    def text(self) -> str:
        return "\n".join(self.told)

    def _ask(self, question: str) -> str | None:
        self.told.append(question)
        return f"{self._lines.pop(0)}\n" if self._lines else None


def test_every_word_was_there_before_or_the_search_would_prove_nothing(full_studio):
    held = files_holding(full_studio, WORDS)
    assert set(held["studio.db"]) == set(WORDS)
    assert {name.split("/")[0] for name in held} == {
        "studio.db", "index.db", "backups", "notes", "drafts", "messages", "reviews", "previews", "board.html",
    }  # fmt: skip


def test_no_byte_of_the_family_is_left_in_any_file(studio, capsys):
    status, out, err = said(capsys, "family", "Zwijndrecht", *SURE, "--folder", studio)
    assert (status, err) == (0, "")
    assert files_holding(studio, WORDS) == {}
    assert not list(studio.glob("index.db*"))
    for name in ("backups/studio-2026-11-30.db", "backups/studio-2026-12-01.db", "reviews/2026-12-01.md"):
        assert f"  {name}\n" in out
    assert not [path for path in studio.rglob("*") if "new" in path.name or "recovery" in path.name]
    assert (studio / "studio.db").stat().st_mode & 0o777 == 0o600


def unsaved(studio, lesson_id, on):
    """A file of notes for Thorvald that could not be saved."""
    with studio_at(studio, SystemClock(), to_write=True) as opened:
        notes = UnsavedNotes(lesson_id=lesson_id, student="Thorvald", on=on, body="zestien maten", over="")
        return LastWords(opened).rescue.keep(notes)


def test_notes_that_could_not_be_saved_are_forgotten_too(studio, capsys):
    with contextlib.closing(sqlite3.connect(studio / "studio.db")) as connection, connection:
        asked = (
            "SELECT standing_time.id FROM standing_time JOIN student ON student.id = student_id WHERE name = 'Thorvald'"
        )
        ((standing,),) = connection.execute(asked).fetchall()
    unsaved(studio, f"w{standing}-2026-12-08", date(2026, 12, 8))
    status, out, err = said(capsys, "family", "Zwijndrecht", *SURE, "--folder", studio)
    assert (status, err) == (0, "")
    assert "which could not be saved, are in the lesson now" in out
    assert files_holding(studio, WORDS) == {}


def test_a_file_of_unsaved_notes_that_no_lesson_takes_holds_the_forgetting_back(studio, capsys):
    path = unsaved(studio, "w99-2026-12-08", date(2026, 12, 8))
    status, _, err = said(capsys, "family", "Zwijndrecht", *SURE, "--folder", studio)
    assert status == 1
    assert str(path) in err
    path.unlink()
    assert said(capsys, "family", "Zwijndrecht", *SURE, "--folder", studio)[0] == 0
    assert files_holding(studio, WORDS) == {}


def test_everybody_else_keeps_theirs_to_the_byte(studio, full_studio, capsys):
    before = snapshot(full_studio)
    said(capsys, "family", "Zwijndrecht", *SURE, "--folder", studio)
    after = snapshot(studio)
    others = [
        name
        for name in before
        if not {"Zwijndrecht", "Aardwolf"} & set(name.replace("/", " ").split())
        and name.split("/")[0] in ("notes", "drafts", "messages")
    ]
    assert len(others) >= 4
    for name in (*others, "settings.toml"):
        assert after[name] == before[name]
    for name in ("studio.db", "backups/studio-2026-12-01.db"):
        held = files_holding(studio, OF_OKONJO)
        assert set(held[name]) == set(OF_OKONJO)
        kept, was = rows_of(studio / name), rows_of(full_studio / name)
        for table, rows in kept.items():
            assert set(rows) <= set(was[table])
        assert len(kept["family"]) == len(was["family"]) - 1
        assert len(kept["note"]) == 1
        assert [title for title, _ in kept["calendar_title"]] == ["Mimi"]
        assert kept["accepted"] == []
    review = (studio / "reviews" / "2026-12-01.md").read_text()
    assert "Ilse" in review
    assert "send the duet" in review


def test_a_partner_in_a_duet_keeps_the_own_item_as_it_was(studio, full_studio, capsys):
    before = rows_of(full_studio / "studio.db")
    assert [len(before[table]) for table in ("recital", "recital_item", "recital_noted")] == [2, 2, 4]
    said(capsys, "family", "Zwijndrecht", *SURE, "--folder", studio)
    after = rows_of(studio / "studio.db")
    assert after["recital"] == before["recital"]
    assert [len(after[table]) for table in ("recital_item", "recital_noted")] == [1, 2]
    assert "The Heron" in after["recital_item"][0]


ABOUT_OKONJO = "recital-4740-%"
AT_NOON = datetime(2026, 12, 3, 18, tzinfo=UTC)


@pytest.fixture
def told(studio) -> Path:
    """The studio when the papers of the recital went to both families, and a letter that names Thorvald; then more waits, and a backup has it."""
    with posting_studio(studio, clock=SetClock(AT_NOON)) as posted:
        desk, folder = posted.studio.desk, posted.studio.desk.folder
        carrying = DraftsReally(ParcelSender(posted.studio.preferences.sending, folder))

        def go() -> None:
            for _ in range(6):  # an account takes so many mails a minute
                posted.clock.wind(seconds=11)
                desk.dispatch.hand_over(carrying)

        papers, families = desk.recital_papers(), desk.families
        papers.put_out(RecitalId(4740))
        for text in ("News\n\nThorvald plays first.", "News\n\nBring a stand."):
            letter = replace(families().fresh(), whom="perreault", text=text)
            families().put_out(families().view(letter, families().candidates()))
            go()
        item = next(each for each in desk.recitals().reading.items(RecitalId(4740)) if each.piece == "The Heron")
        desk.recitals().lines.do(desk.recitals().lines.propose_item_change(RecitalId(4740), item.id, "costume wings"))
        papers.put_out(RecitalId(4740), [each.id for each in papers.view(RecitalId(4740)).program.families])
    back_up(studio, datetime(2026, 12, 3))
    return studio


def of_others(studio: Path, file: str = "studio.db") -> list[tuple[object, ...]]:
    with contextlib.closing(sqlite3.connect(studio / file)) as connection:
        return connection.execute(
            "SELECT way, version, fate, reason IS NOT NULL, length(text) > 0 FROM outgoing WHERE paper IN ('program', 'news') "
            "AND family_id <> 1 ORDER BY paper, version, way, id"
        ).fetchall()


def test_programs_and_letters_that_went_to_others_keep_no_word_of_the_family(told, capsys):
    words = ("Roerdomp", "haverklap", "Thorvald")
    drafts = [path for path in (told / "drafts" / "Okonjo").iterdir() if "recital-4740" in path.name]
    assert len(drafts) == 1
    assert "Roerdomp" in message_from_bytes(drafts[0].read_bytes(), policy=default).get_body(("plain",)).get_content()
    for name in ("studio.db", "backups/studio-2026-12-03.db"):
        assert set(files_holding(told, words)[name]) == set(words)
        assert len(of_others(told, name)) == 6
    typing = Typing("y", "zwijndrecht", "")
    forget(told, "Zwijndrecht", None, typing.talk)
    before, after = typing.told[0], typing.told[-2]
    assert "5 programs and letters for other families in the outbox lose their words, which name this family." in before
    assert "2 copies not sent yet will be withdrawn." in before
    assert "5 programs and letters for other families: the words are deleted from the outbox." in after
    # What she typed herself is hers, and she is told where it is.
    assert "  studio.db (letters)" in after
    assert not drafts[0].exists()
    with contextlib.closing(sqlite3.connect(told / "studio.db")) as connection, connection:
        connection.execute("DELETE FROM family_letter WHERE text LIKE '%Thorvald%'")
        connection.commit()
        connection.execute("VACUUM")
    kept = [
        ("mail", 1, "sent", 1, 0), ("mail", 1, "sent", 0, 1),
        ("draft", 1, "sent", 1, 0), ("mail", 1, "sent", 1, 0),
        ("draft", 2, "withdrawn", 1, 0), ("mail", 2, "withdrawn", 1, 0),
    ]  # fmt: skip
    assert of_others(told) == of_others(told, "backups/studio-2026-12-03.db") == kept
    held = files_holding(told, WORDS)
    assert set(held) <= {"backups/studio-2026-12-03.db"}
    assert set(held.get("backups/studio-2026-12-03.db", ())) <= {"Thorvald"}  # in the letter that she typed


def test_what_lost_its_words_is_shown_as_that_and_new_papers_follow_as_the_next_version(told, capsys):
    said(capsys, "family", "Zwijndrecht", *SURE, "--folder", told)
    with posting_studio(told, clock=SetClock(AT_NOON + timedelta(hours=1))) as posted:
        desk = posted.studio.desk
        old = [each for each in posted.entries() if each.paper is Paper.PROGRAM]
        assert {each.is_emptied for each in old} == {True}
        for take in (desk.previewing.of_entry, desk.outbox.try_again):
            with pytest.raises(Refused, match="its words named a family that was deleted"):
                take(next(each for each in old if each.fate is DeliveryStatus.WITHDRAWN).id)
        papers = desk.recital_papers()
        (okonjo,) = papers.view(RecitalId(4740)).families
        assert okonjo.is_changed
        papers.put_out(RecitalId(4740), [okonjo.family.id])
        fresh = [each for each in posted.entries() if each.paper is Paper.PROGRAM and each.text]
        assert [(each.version, each.is_update) for each in fresh] == [(3, True), (3, True)]


def test_taken_back_programs_have_their_words_again(told):
    before = snapshot(told)
    typing = Typing("y", "zwijndrecht", "u")
    assert "Restored." in forget(told, "Zwijndrecht", None, typing.talk)
    assert snapshot(told) == before


def test_a_backup_that_was_rewritten_can_be_gone_on_with(studio, capsys):
    said(capsys, "family", "Zwijndrecht", *SURE, "--folder", studio)
    assert said(capsys, "restore", "--folder", studio)[0] == 0
    out = said(capsys, "queue", "--on", "2026-12-01", "--folder", studio)[1]
    assert "Mireille" in out
    assert "Thorvald" not in out


def test_on_a_terminal_it_is_asked_twice_and_anything_else_changes_nothing(studio):
    before = snapshot(studio)
    for lines in (
        (),
        ("",),
        ("n",),
        ("yes please",),
        ("y",),
        ("y", ""),
        ("y", "Okonjo"),
        ("y", "Zwijn"),
        ("Zwijndrecht",),
    ):
        typing = Typing(*lines)
        assert forget(studio, "Zwijndrecht", None, typing.talk) == "Nothing was deleted.", lines
        assert snapshot(studio) == before
        assert "Ilse, Thorvald. 2 lessons" in typing.text
        assert "2 copies" in typing.text


def test_words_that_lie_in_free_pages_since_an_earlier_time_go_too(studio, capsys):
    for name in ("studio.db", "backups/studio-2026-12-01.db"):
        with contextlib.closing(sqlite3.connect(studio / name)) as connection:
            connection.execute("PRAGMA secure_delete = OFF")
            (body,) = connection.execute("SELECT body FROM note WHERE body LIKE 'Scales: Fis%'").fetchone()
            for text in ("oudewoorden " * 2000, body):
                connection.execute(
                    "UPDATE note SET body = ? WHERE body LIKE 'Scales: Fis%' OR body LIKE 'oude%'", (text,)
                )
                connection.commit()
            connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        assert "oudewoorden" not in str(rows_of(studio / name))
        assert name in files_holding(studio, ("oudewoorden",))
    said(capsys, "family", "Zwijndrecht", *SURE, "--folder", studio)
    assert files_holding(studio, (*WORDS, "oudewoorden")) == {}


def test_taken_back_everything_is_as_it_was(studio):
    (studio / OF_THORVALD[0]).chmod(0o640)
    before = snapshot(studio)
    typing = Typing("y", "zwijndrecht", "what?", "u")
    assert "Restored." in forget(studio, "Zwijndrecht", None, typing.talk)
    assert snapshot(studio) == before
    assert "is deleted" in typing.text


def test_while_it_can_be_taken_back_one_file_that_is_hers_alone_holds_it_all(studio):
    seen = {}

    class Looking(Typing):
        def _ask(self, question):
            if "back" in question:
                seen.update(files_holding(studio, WORDS))
                seen["mode"] = (studio / "family.recovery").stat().st_mode & 0o777
            return super()._ask(question)

    forget(studio, "Zwijndrecht", None, Looking("y", "Zwijndrecht", "").talk)
    assert set(seen) == {"family.recovery", "mode"}
    assert seen["mode"] == 0o600
    assert files_holding(studio, WORDS) == {}


def test_in_a_script_it_wants_the_name_and_without_it_nothing_happens(studio, capsys):
    before = snapshot(studio)
    status, _, err = said(capsys, "family", "Zwijndrecht", "--forget", "--folder", studio)
    assert status == 1
    assert "--forget --sure 'Zwijndrecht'" in err
    status, _, err = said(capsys, "family", "Zwijndrecht", "--forget", "--sure", "Okonjo", "--folder", studio)
    assert (status, "not the name of the" in err) == (1, True)
    assert said(capsys, "family", "Nobody", *SURE, "--folder", studio)[0] == 1
    assert snapshot(studio) == before


def test_while_another_cockpit_has_the_studio_open_nothing_is_forgotten(studio, capsys):
    with studio_at(studio, SetClock(NEWS), to_write=True):
        status, _, err = said(capsys, "family", "Zwijndrecht", *SURE, "--folder", studio)
    assert (status, "open in another cockpit" in err) == (1, True)
    assert "Thorvald" in said(capsys, "queue", "--on", "2026-12-01", "--folder", studio)[1]


def test_a_disk_that_refuses_in_the_middle_leaves_everything_as_it_was(studio, capsys):
    (studio / "reviews" / ".2026-12-01.md.new").mkdir()  # the review cannot be written then
    before = snapshot(studio)
    with pytest.raises(NotSaved, match="could not be written"):
        forget(studio, "Zwijndrecht", None, Typing("y", "Zwijndrecht").talk)
    assert snapshot(studio) == before


def test_while_another_program_reads_nothing_is_deleted(studio):
    before = snapshot(studio)
    with contextlib.closing(sqlite3.connect(studio / "studio.db", isolation_level=None)) as reader:
        with studio_at(studio, SetClock(NEWS), to_write=True) as opened:
            opened.store.connection.execute("UPDATE numbering SET last = last")
            reader.execute("BEGIN")
            reader.execute("SELECT count(*) FROM family").fetchone()
            opened.store.connection.execute("UPDATE numbering SET last = last")
        with pytest.raises(CockpitError, match="nother program"):
            forget(studio, "Zwijndrecht", "Zwijndrecht", Typing().talk)
        reader.execute("COMMIT")
    assert snapshot(studio) == before


def test_databases_that_were_set_aside_are_rewritten_with_their_logs_or_named(studio, capsys):
    stamp = "20261202-090000"
    late = "UPDATE guardian SET email = 'late@{}.example' WHERE family_id = (SELECT id FROM family WHERE name = '{}')"
    with (
        contextlib.closing(sqlite3.connect(studio / "studio.db")) as connection,
        connection,
    ):  # left open by a program that was killed: a log beside it
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute(late.format("zwijn", "Zwijndrecht"))
        connection.execute(late.format("okonjo", "Okonjo"))
        connection.commit()
        shutil.copy(studio / "studio.db", studio / "kept")
        shutil.copy(studio / "studio.db-wal", studio / "kept-wal")
    connection.close()
    restore(studio, stamp)
    shutil.move(studio / "kept", studio / f"studio.db.set-aside-{stamp}")
    shutil.move(studio / "kept-wal", studio / f"studio.db-wal.set-aside-{stamp}")
    assert b"late@" not in (studio / f"studio.db.set-aside-{stamp}").read_bytes()
    assert b"late@" in (studio / f"studio.db-wal.set-aside-{stamp}").read_bytes()
    (studio / "studio.db.set-aside-1").write_bytes(b"SQLite format 3\0" + b"Zwijndrecht" * 500)
    (studio / "studio.db-wal.set-aside-2").write_bytes(b"Zwijndrecht")
    _, out, _ = said(capsys, "family", "Zwijndrecht", *SURE, "--folder", studio)
    assert f"  studio.db.set-aside-{stamp}\n" in out
    told = out.split("could not be read", 1)[1]
    assert "studio.db.set-aside-1: " in told
    assert "studio.db-wal.set-aside-2: " in told
    assert set(files_holding(studio, (*WORDS, "late@zwijn"))) == {"studio.db.set-aside-1", "studio.db-wal.set-aside-2"}
    assert "late@okonjo.example" in str(rows_of(studio / f"studio.db.set-aside-{stamp}")["guardian"])


def test_her_own_files_are_left_and_named(studio, capsys):
    (studio / "themes").mkdir(exist_ok=True)
    (studio / "themes" / "mine.toml").write_text("# for thorvald\n")
    (studio / "roster.csv").write_text("student,weekday\nThorvaldsen,Mon\n")
    with (studio / "settings.toml").open("a") as file:
        file.write("# ann@zwijn.example writes late\n")
    with studio_at(studio, SetClock(NEWS + timedelta(hours=8)), to_write=True) as opened:
        desk = opened.desk
        desk.day.open()
        booking = next(b for b in desk.day.bookings if b.student.name == "Mireille")
        desk.day.go_to(booking.lesson.id)
        desk.notes.write(booking.lesson.id, "Piece: duet with Thorvald")
    _, out, _ = said(capsys, "family", "Zwijndrecht", *SURE, "--folder", studio)
    assert out.split("is still here", 1)[1].splitlines()[1:-1] == [
        "  settings.toml", "  themes/mine.toml", "  studio.db (notes)",
    ]  # fmt: skip


def test_of_two_families_of_one_name_the_number_says_which_and_the_other_keeps_all(studio, capsys):
    with studio_at(studio, SetClock(NEWS), to_write=True) as opened:
        twin = Family(id=FamilyId(900), name="Zwijndrecht", zone="Europe/Paris")
        aunt = Guardian(id=GuardianId(902), family_id=twin.id, email="twin@other.example")
        child = Student(id=StudentId(901), family_id=twin.id, name="Thorvald", remark="left-handed")
        opened.store.writing.apply(Change(said="twin", edits=added(twin, aunt, child)))
    back_up(studio, datetime(2026, 12, 2))
    status, _, err = said(capsys, "family", "zwijndrecht", *SURE, "--folder", studio)
    assert status == 1
    assert "Zwijndrecht (1): Ilse, Thorvald; Zwijndrecht (900): Thorvald" in err
    said(capsys, "family", "zwijndrecht (1)", "--forget", "--sure", "Zwijndrecht (1)", "--folder", studio)
    for name in ("studio.db", "backups/studio-2026-12-02.db"):
        kept = rows_of(studio / name)
        assert [row[:2] for row in kept["student"] if row[1] == 900] == [(901, 900)]
        assert ("krabbelaar T.", "Thorvald") in kept["calendar_title"]  # it stands for the other Thorvald as well
        held = files_holding(studio, ("Zwijndrecht", "twin@other.example", "left-handed", "Thorvald", "wiggelwaggel"))
        assert set(held[name]) == {"Zwijndrecht", "twin@other.example", "left-handed", "Thorvald"}


def test_a_backup_knows_the_family_by_its_earlier_name(studio, capsys):
    with studio_at(studio, SetClock(NEWS), to_write=True) as opened:
        family = next(f for f in opened.store.reading.people().families.values() if f.name == "Zwijndrecht")
        opened.store.writing.apply(Change(said="rename", edits=(replace_name(family, "Vossenberg"),)))
    _, out, _ = said(capsys, "family", "Vossenberg", "--forget", "--sure", "Vossenberg", "--folder", studio)
    assert "backups/studio-2026-11-30.db" in out
    assert files_holding(studio, (*WORDS, "Vossenberg")) == {}


def moved(studio: Path) -> None:
    """Thorvald moves to the Perreaults, with all that was written for him."""
    with studio_at(studio, SetClock(NEWS), to_write=True) as opened:
        people = opened.store.reading.people()
        child = next(each for each in people.students.values() if each.name == "Thorvald")
        home = next(each for each in people.families.values() if each.name == "Perreault")
        edit = Edit(before=child, after=replace(child, family_id=home.id))
        opened.store.writing.apply(Change(said="move", edits=(edit,)))


OF_THORVALD = (
    "notes/Zwijndrecht/2026-12-01 Thorvald.md",
    "notes/Zwijndrecht/2026-12-01 Thorvald.html",
    "drafts/Zwijndrecht/2026-12-01 Thorvald, ann@zwijn.example.eml",
)


def test_a_student_who_moved_takes_papers_along_out_of_the_other_familys_folder(studio, capsys):
    moved(studio)
    _, out, _ = said(capsys, "family", "Perreault", "--forget", "--sure", "Perreault", "--folder", studio)
    # A message to the other family about his lesson is that family's: it is named, and left.
    assert set(files_holding(studio, ("Thorvald", "achteruit"))) == {"messages/2026-12-01 Zwijndrecht (1).txt"}
    assert "  messages/2026-12-01 Zwijndrecht (1).txt" in out
    assert (studio / "notes" / "Zwijndrecht" / "2026-12-01 Ilse.md").exists()
    assert (studio / "drafts" / "Zwijndrecht" / "2026-12-01 Ilse, ann@zwijn.example.eml").exists()


@pytest.mark.parametrize("name", ["Perreault", "Zwijndrecht"])
def test_also_after_a_move_everything_is_taken_back(studio, name):
    moved(studio)
    before = snapshot(studio)
    forget(studio, name, None, Typing("y", name, "u").talk)
    assert snapshot(studio) == before


def test_an_address_of_the_family_that_a_student_came_from_is_not_in_the_export(studio, tmp_path, capsys):
    moved(studio)
    said(capsys, "family", "Perreault", "--export", tmp_path / "p.zip", "--folder", studio)
    with zipfile.ZipFile(tmp_path / "p.zip") as archive:
        whole = json.loads(archive.read("family.json"))
    assert "achteruit" in json.dumps(whole)
    assert "zwijn.example" not in json.dumps(whole)


def test_the_papers_of_a_student_who_moved_away_stay(studio, capsys):
    before = snapshot(studio)
    moved(studio)
    _, out, _ = said(capsys, "family", "Zwijndrecht", *SURE, "--folder", studio)
    after = snapshot(studio)
    for name in OF_THORVALD:
        assert after[name] == before[name]
    assert "belongs to another today" in out  # the backups are of the time before
    assert "wiggelwaggel" not in str(rows_of(studio / "studio.db"))
    assert "achteruit" in str(rows_of(studio / "studio.db"))


def test_a_backup_of_every_earlier_form_is_rewritten(studio, capsys):
    forms = range(1, VERSION)
    for form in forms:
        path = studio / "backups" / f"studio-2025-01-{form:02d}.db"
        with contextlib.closing(sqlite3.connect(path)) as old:
            write_form(old, form)
            old.execute("INSERT INTO family (id, name, zone) VALUES (1, 'Zwijndrecht', 'UTC')")
            if "email" in {row[1] for row in old.execute("PRAGMA table_info(family)")}:
                old.execute("UPDATE family SET email = 'a@zwijn.example'")
            else:
                old.execute("INSERT INTO guardian VALUES (3, 1, 'An', 'a@zwijn.example', NULL, 'notes', 0)")
            old.execute("INSERT INTO family (id, name, zone) VALUES (2, 'Okonjo', 'UTC')")
            old.execute("INSERT INTO student (id, family_id, name) VALUES (50, 1, 'Thorvald')")
            old.commit()
    _, out, _ = said(capsys, "family", "Zwijndrecht", *SURE, "--folder", studio)
    assert files_holding(studio, WORDS) == {}
    for form in forms:
        name = f"backups/studio-2025-01-{form:02d}.db"
        assert f"  {name}\n" in out
        assert [row[1] for row in rows_of(studio / name)["family"]] == ["Okonjo"]


def test_a_copy_of_a_later_version_is_named_and_left(studio, capsys):
    later = studio / "backups" / "studio-2027-01-01.db"
    shutil.copy(studio / "studio.db", later)
    with contextlib.closing(sqlite3.connect(later)) as connection:
        connection.execute(f"PRAGMA user_version = {VERSION + 1}")
    before = later.read_bytes()
    out = said(capsys, "family", "Zwijndrecht", *SURE, "--folder", studio)[1]
    assert "backups/studio-2027-01-01.db: It was made by a newer version" in out
    assert later.read_bytes() == before


def test_an_option_that_would_do_nothing_is_refused(studio, capsys):
    for more in (("--without-private",), ("--sure", "Zwijndrecht")):
        assert "only with" in said(capsys, "family", "Zwijndrecht", *more, "--folder", studio)[2]
    assert files_holding(studio, ("Zwijndrecht",))


def test_papers_in_a_folder_of_hers_are_named_before_and_after(studio, tmp_path):
    (tmp_path / "shared" / "Zwijndrecht").mkdir(parents=True)
    text = (studio / "settings.toml").read_text()
    (studio / "settings.toml").write_text(text.replace("[sending]\n", f'[sending]\nfolder = "{tmp_path}/shared"\n', 1))
    typing = Typing("y", "zwijndrecht", "")
    after = forget(studio, "Zwijndrecht", None, typing.talk)
    for told in (typing.told[0], after):
        assert f"{tmp_path}/shared/Zwijndrecht" in told


def replace_name(family: Family, name: str):
    return Edit(before=family, after=replace(family, name=name))


KILLED = """
import os, signal, sys
event, part, folder = sys.argv[1:]
def hook(name, arguments):
    if name == event and str(arguments[0]).endswith(part):
        os.kill(os.getpid(), signal.SIGKILL)
sys.addaudithook(hook)
from cockpit.cli.main import main
main(["family", "Zwijndrecht", "--forget", "--sure", "Zwijndrecht", "--folder", folder])
"""
STEPS = [
    ("sqlite3.connect", "studio-2026-12-01.db.new"),
    ("os.rename", ".family.recovery.new"),
    ("os.rename", "studio-2026-11-30.db.new"),
    ("os.rename", "studio-2026-12-01.db.new"),
    ("os.remove", "2026-12-01 Ilse.md"),
    ("os.remove", "reviews/2026-12-01.md"),
    ("os.rename", ".2026-12-01.md.new"),
    ("os.remove", "family.recovery"),
]


def every_second(first: int) -> list[object]:
    """The steps; every second one of them takes long, so that each is in one of two tests at every run."""
    return [
        pytest.param(*step, marks=() if place % 2 == first else pytest.mark.long) for place, step in enumerate(STEPS)
    ]


def killed_at(studio: Path, event: str, part: str) -> None:
    done = subprocess.run([sys.executable, "-c", KILLED, event, part, str(studio)], capture_output=True, check=False)
    assert done.returncode == -9, done.stderr


@pytest.mark.parametrize(("event", "part"), every_second(0))
@pytest.mark.long
def test_killed_at_any_step_it_is_named_and_can_be_taken_back(studio, event, part):
    before = snapshot(studio)
    killed_at(studio, event, part)
    is_whole = (studio / "family.recovery").exists()
    typing = Typing("u")
    if is_whole:
        told = tell(studio, "Zwijndrecht", typing.talk)
        assert "family.recovery was left behind" in typing.text
        assert "2 lessons" in told
        assert snapshot(studio) == before
    else:  # nothing was changed yet
        assert rows_of(studio / "studio.db") == before["studio.db"]
        assert {name: before[name] for name in before} == {n: c for n, c in snapshot(studio).items() if ".new" not in n}


@pytest.mark.parametrize(("event", "part"), every_second(1))
def test_killed_at_any_step_it_is_brought_to_its_end(studio, event, part, capsys):
    killed_at(studio, event, part)
    typing = Typing("")
    if (studio / "family.recovery").exists():
        with pytest.raises(CockpitError, match="No family"):
            tell(studio, "Zwijndrecht", typing.talk)
        assert "is deleted" in typing.text
    else:
        assert said(capsys, "family", "Zwijndrecht", *SURE, "--folder", studio)[0] == 0
    assert files_holding(studio, WORDS) == {}
    assert "Ilse" in (studio / "reviews" / "2026-12-01.md").read_text()


def test_taken_back_after_a_day_of_lessons_the_day_stays(studio):
    before = rows_of(studio / "studio.db")
    killed_at(studio, "os.remove", "family.recovery")
    with posting_studio(studio, clock=SetClock(NEWS)) as posted:
        lesson = posted.finish("Mireille", "Perreault", "Piece: a day later")
        posted.send(Answering())
    tell(studio, "Okonjo", Typing("u").talk)
    after = rows_of(studio / "studio.db")
    assert next(row for row in after["note"] if row[0] == lesson)[1] == "Piece: a day later"
    for table in ("student", "standing_time", "heard", "mark", "follow_up", "break", "accepted"):
        assert set(before[table]) <= set(after[table]), table


def test_what_was_left_stays_where_nobody_can_answer_or_the_name_is_taken(studio, capsys):
    killed_at(studio, "os.remove", "family.recovery")
    status, out, _ = said(capsys, "family", "Okonjo", "--folder", studio)
    assert status == 0
    assert "family.recovery was left behind" in out
    assert (studio / "family.recovery").exists()
    with studio_at(studio, SetClock(NEWS), to_write=True) as opened:
        again = Family(id=FamilyId(900), name="zwijndrecht", zone="Europe/Paris")
        opened.store.writing.apply(Change(said="again", edits=added(again)))
    with pytest.raises(Refused, match="another Zwijndrecht family"):
        tell(studio, "Okonjo", Typing("u").talk)
    assert (studio / "family.recovery").exists()
