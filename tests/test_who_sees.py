"""Who may see each column of the database, and what leaves for a family has nothing of the teacher's own in it."""

import sqlite3
import zipfile
from contextlib import closing
from datetime import UTC, datetime
from email import message_from_bytes
from importlib import import_module
from pathlib import Path
from typing import get_args

from support.leaving import DraftsReally, make_full_studio
from support.outbox import Answering, posting_studio

from cockpit.cli.main import main
from cockpit.clock import SetClock
from cockpit.desk.calendar.handing_out import HandingOut
from cockpit.desk.calendar.proposals import Purpose
from cockpit.outlets.sender import ParcelSender
from cockpit.papers.calendar.file import calendar_file
from cockpit.store.schema import NAME, migrate
from cockpit.store.tables import TABLES

# F: the family may see it. T: the teacher alone. M: money, for its own family alone; there is none yet. What is typed in
# notes is F, and `for_family` decides line by line; an address is F, for the guardian whose it is.
WHO_SEES = {
    "family": {"F": "id name zone hours folder send_by language"},
    "guardian": {"F": "id family_id name email gets position", "T": "phone"},
    "student": {
        "F": "id family_id name daily_minutes practice_days plan yearly_lessons",
        "T": "remark ended_because level",
    },
    "permission": {"T": "student_id what is_given said_on until_on words"},
    "standing_time": {
        "F": "id student_id weekday at minutes kept_in instrument from_on until_on call_link every_weeks follows "
        "is_from_file event_uid",
        "T": "shares",
    },
    "imported_time": {
        "F": "standing_time_id event_uid student_id weekday at minutes kept_in instrument from_on until_on call_link "
        "every_weeks"
    },
    "lesson": {
        "F": "id student_id standing_time_id kind instrument starts_at minutes began_at finished_at outcome "
        "gives_full_length is_reopened is_moved makes_up is_rehearsed is_let_go",
        "T": "reason more_minutes",
    },
    "call_loss": {"T": "lesson_id lost_at back_at settled given_in"},
    "note": {"F": "lesson_id body changed_at"},
    "mark": {"F": "lesson_id line mark"},
    "heard": {"F": "lesson_id line tempo clean_runs"},
    "follow_up": {"T": "lesson_id body ticked_at"},
    "export": {"F": "lesson_id path is_final exported_at"},
    "board_line": {"T": "lesson_id words put_at is_off"},
    "piece": {"F": "student_id key composer origin", "T": "is_chosen measures wanted_on state state_since"},
    "piece_alias": {"T": "student_id key piece is_one"},
    "strand_left": {"T": "student_id strand until_on"},
    "recital": {
        "F": "id name theme held_on at zone is_online link place parent_id is_rehearsal",
        "T": "minutes_limit changeover opening_seconds closing_seconds began_at ended_at",
    },
    # Costume, props, and how one enters are on the sheet of the own family; the rest of F is on the program of all.
    # `with_whom` may name a child of another family: the sheet has it where it does not, the export never.
    "recital_item": {
        "F": "id recital_id position student_id piece composer instrument seconds costume props story enters shown_as",
        "T": "is_computed with_whom note pin pinned_after pinned_before began_at ended_at is_skipped",
    },
    "recital_noted": {"T": "item_id recital_id what is_yes said_on"},
    "break": {"F": "id family_id from_on until_on", "T": "reason"},
    "pause": {"F": "id student_id from_on until_on keeps_time", "T": "reason"},
    "withdrawn_lesson": {"F": "lesson_id student_id kind instrument starts_at minutes"},
    "withdrawn_time": {
        "F": "standing_time_id student_id weekday at minutes kept_in instrument from_on until_on every_weeks"
    },
    "withdrawn_clock": {"F": "family_id zone"},
    "family_letter": {"T": "id whom text made_at"},
    "letter_guardian": {"T": "letter_id guardian_id given_at"},
    "duty": {"T": "id words made_on by_on every weekday nth day month weeks ticked_on"},
    "inquiry": {
        "T": "id came_at name email child age is_adult instrument level zone wishes source words trial_lesson_id "
        "student_id"
    },
    "inquiry_step": {"T": "id inquiry_id at what"},
    "outgoing": {
        "F": "id paper about lesson_id family_id inquiry_id version way address student title text page language "
        "next_lesson is_update queued_at not_before fate attempts settled_at message_id",
        "T": "reason",
    },
    "calendar_title": {"T": "title name"},
    "accepted": {"T": "key"},
}
MARK = b"zqtold"
NOT_FREE = ("zone", "strand")  # texts that are read as something: any word in them would be none


def columns_of(table, *classes):
    return [name for each in classes for name in WHO_SEES[table].get(each, "").split()]


def own_texts():
    """The columns of the teacher's own words: table and name."""
    for table in TABLES:
        module, _, kind = table.record.partition(":")
        types = getattr(import_module(module), kind).__annotations__
        for name in columns_of(table.name, "T"):
            is_text = str in (types[name], *get_args(types[name]))
            if is_text and name not in NOT_FREE:
                yield table.name, name


def write_words(database):
    """Puts a word that is nowhere else into each of them, in every row."""
    with closing(sqlite3.connect(database)) as connection, connection:
        for number, (table, name) in enumerate(own_texts()):
            word = f"{MARK.decode()}{number}x"
            changed = connection.execute(f"UPDATE {table} SET {name} = '{word}' || rowid").rowcount
            assert changed or table == "duty", f"nothing is kept in {table}"


def unpacked(content: bytes) -> bytes:
    """A file with each part of a mail decoded behind it."""
    parts = [part.get_payload(decode=True) or b"" for part in message_from_bytes(content).walk()]
    return b"".join((content, *parts))


def test_every_column_of_the_schema_is_the_familys_the_teachers_own_or_money():
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as connection:
        migrate(connection)
        for table in TABLES:
            found = [row[1] for row in connection.execute(f"PRAGMA table_info({table.name})")]
            assert sorted(columns_of(table.name, "F", "T", "M")) == sorted(found), (
                f"Say who may see each column of {table.name}"
            )
    assert set(WHO_SEES) == {table.name for table in TABLES}


def test_the_teachers_own_words_are_in_no_paper_for_a_family(tmp_path):
    studio = tmp_path / "studio"
    make_full_studio(studio)
    assert {("student", "remark"), ("guardian", "phone"), ("follow_up", "body")} <= set(own_texts())
    write_words(studio / NAME)
    with posting_studio(studio, clock=SetClock(datetime(2026, 12, 8, 14, tzinfo=UTC))) as posted:
        desk, sender = posted.studio.desk, Answering()
        posted.finish(
            "Ilse", "Zwijndrecht", f"Scales: D major\nPrivate: {MARK.decode()}\nPiece: kwikstaart\nGet: rosin"
        )
        posted.finish("Thorvald", "Zwijndrecht", "Piece: The Heron\nFollow-up: " + MARK.decode())
        desk.arranging.do(desk.arranging.propose(Purpose.CALL_OFF, None, f"dec 15: {MARK.decode()}"))
        posted.clock.wind(seconds=11)
        desk.dispatch.hand_over(DraftsReally(ParcelSender(posted.studio.preferences.sending, studio)))
        posted.send(sender)
        desk.ahead.write_messages(26)
        held = desk.recitals().reading.view()
        plays = [each for each in (*held.coming, *held.past) if not each.recital.is_rehearsal and each.numbers]
        assert plays
        for each in plays:
            desk.recital_papers().put_out(each.recital.id)
        program, page, running = desk.recital_papers().keep_files(plays[0].recital.id)
        assert MARK in running.read_bytes()  # hers
        shared = HandingOut(posted.studio.store.reading, desk.clock, posted.studio.preferences).calendar(
            52, "Zwijndrecht"
        )
        papers = {
            "calendar": calendar_file(shared).encode(),
            "program": program.read_bytes() + page.read_bytes(),
            **{f"entry {each.id}": f"{each.title}{each.text}{each.page}".encode() for each in posted.entries()},
        }
    given = tmp_path / "z.zip"
    command = ["family", "Zwijndrecht", "--export", str(given), "--without-private", "--folder", str(studio)]
    assert main(command) == 0
    with zipfile.ZipFile(given) as archive:
        papers |= {f"export {name}": archive.read(name) for name in archive.namelist()}
    for folder in ("notes", "drafts", "messages"):
        papers |= {str(path): unpacked(path.read_bytes()) for path in (studio / folder).rglob("*") if path.is_file()}
    assert {"calendar", "entry", "export"} <= {name.split()[0] for name in papers}
    assert {".md", ".html", ".eml", ".txt"} <= {Path(name).suffix for name in papers}
    assert [name for name, content in papers.items() if MARK in content] == []
