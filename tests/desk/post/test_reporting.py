"""The progress sheet of a student: what is in it, where it goes, and what never is in it."""

from datetime import UTC, date, datetime
from email import message_from_bytes
from email.policy import default

import pytest
from support.arranged_studio import HEADER, arranged_studio
from support.sample import sample_studio

from cockpit.desk.post.reporting import Reporting
from cockpit.outlets.folder import StudioFolder
from cockpit.studio.changes.pieces import Piece
from cockpit.studio.changes.records import Heard
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.errors import NotSaved
from cockpit.studio.notes.notes import Mark
from cockpit.studio.pieces.given import GivenLine, read_lines
from cockpit.studio.pieces.rules import PieceRules
from cockpit.studio.post.outgoing import DeliveryStatus, Paper
from cockpit.studio.values import replace

TEN = datetime(2026, 12, 1, 16, tzinfo=UTC)  # 10:00 in Chicago


@pytest.fixture
def studio(tmp_path):
    with sample_studio(tmp_path, TEN) as (studio, _clock):
        yield studio


def ilse(studio):
    return next(each for each in studio.desk.day.bookings if each.student.name == "Ilse")


def lines_of(studio, whose):
    reading, labels = studio.store.reading, studio.preferences.labels
    taught = sorted(reading.last_taught(whose.student.id, TEN, None, 60), key=lambda each: each.starts_at)
    ids = [each.id for each in taught]
    notes, marks, heard = reading.notes(ids), reading.marks(ids), reading.heard(ids)
    nothing = Heard(lesson_id=ids[0], line="")
    return [
        GivenLine(
            lesson_id=lesson.id,
            on=local_time(lesson.starts_at, "America/Chicago").date(),
            read=read,
            mark=marks[key].mark if (key := (lesson.id, read.line)) in marks else None,
            heard=heard.get(key, nothing).tempo,
        )
        for lesson in taught
        if lesson.id in notes
        for read in read_lines(notes[lesson.id].body, labels)
    ]


def sheet_of(studio, said=(), words=""):
    whose = ilse(studio)
    return studio.desk.reporting.sheet(whose, lines_of(studio, whose), {each.key: each for each in said}, words)


def test_the_sheet_is_of_the_term_with_all_that_was_worked_on_and_done(studio):
    sheet = sheet_of(studio)
    assert (sheet.student, sheet.from_on.year, sheet.until_on) == ("Ilse", 2026, date(2026, 12, 1))
    assert sheet.planned >= sheet.attended > 0
    titles = {each.title for each in sheet.pieces} | {each.title for each in sheet.done}
    assert titles
    assert {each.needs_more_work for each in sheet.pieces} == {False}


def test_a_lesson_that_runs_does_not_count_yet(studio, tmp_path):
    with sample_studio(tmp_path / "later") as (later, _):
        assert ilse(later).lesson.is_live
        assert sheet_of(later).planned == sheet_of(studio).planned


def test_composer_and_origin_are_in_it(studio):
    whose, title = ilse(studio), sheet_of(studio).pieces[0].title
    key = next(each.read.piece for each in lines_of(studio, whose) if each.read.title == title)
    said = Piece(student_id=whose.student.id, key=key, composer="A. Miller", origin="irish", measures=96)
    assert f"{title} (A. Miller, irish)" in studio.desk.reporting.letter(whose, sheet_of(studio, [said])).text


def test_it_goes_into_the_folder_and_the_outbox_once_and_undo_takes_it_back(studio):
    whose = ilse(studio)
    before = len(studio.store.reading.open_outgoing())
    sentence = studio.desk.reporting.put_out(whose, sheet_of(studio, words="A fine term."))
    *_, name = sentence.partition("studio folder too: ")
    markdown, page = (studio.desk.folder / name, (studio.desk.folder / name).with_suffix(".html"))
    assert markdown.read_text(encoding="utf-8").startswith("# Progress of Ilse\n")
    assert "A fine term." in page.read_text(encoding="utf-8")
    out = [each for each in studio.store.reading.open_outgoing() if each.paper is Paper.REPORT]
    assert len(studio.store.reading.open_outgoing()) == before + len(out)
    assert out
    for each in out:
        assert (each.family_id, each.lesson_id, each.fate) == (whose.family.id, None, DeliveryStatus.WAITING)
        assert each.called == "progress sheet for Ilse"
        assert "A fine term." in each.text
    assert "progress sheet for Ilse" in studio.desk.teaching.undo()
    assert len(studio.store.reading.open_outgoing()) == before


def test_a_draft_of_it_has_the_whole_page_as_a_file_to_print(studio):
    whose = ilse(studio)
    studio.desk.reporting.put_out(whose, sheet_of(studio))
    item = next(each for each in studio.store.reading.open_outgoing() if each.paper is Paper.REPORT)
    draft = message_from_bytes(
        studio.printer.draft(replace(item, address="a@b.example"), date(2026, 12, 1), TEN), policy=default
    )
    assert draft["Subject"] == "Progress of Ilse"
    (page,) = draft.iter_attachments()
    assert page.get_content_type() == "text/html"
    assert "<h1>Progress of Ilse</h1>" in page.get_content()


def test_nothing_private_no_mark_and_no_lesson_that_is_not_finished_is_in_it(studio):
    whose, labels = ilse(studio), studio.preferences.labels
    lines = lines_of(studio, whose)
    note = studio.store.reading.notes([lines[-1].lesson_id])[lines[-1].lesson_id]
    secret = "Private: Piece: Quixotical Zebra"
    studio.store.writing.save_note(replace(note, body=f"{note.body}\n{secret}\nPiece: Plain One\n"), None)
    studio.desk.notes.write(whose.lesson.id, "Piece: Not Yet Sent\n")
    (zebra,), (plain,), (open_one,) = (
        read_lines(each, labels) for each in ("Piece: Quixotical Zebra", "Piece: Plain One", "Piece: Not Yet Sent")
    )
    more = [
        replace(lines[-1], read=replace(zebra, line=secret), mark=None),
        replace(lines[-1], read=plain, mark=Mark.MORE_WORK),
        GivenLine(lesson_id=whose.lesson.id, on=date(2026, 12, 1), read=open_one),
    ]
    letter = studio.desk.reporting.letter(whose, studio.desk.reporting.sheet(whose, [*lines, *more], {}))
    assert "Plain One" in letter.text
    for words in ("Quixotical", "Not Yet Sent", "more work", "not yet"):
        assert words not in letter.text + letter.page, words


def test_where_the_folder_refuses_nothing_is_in_the_outbox(studio):
    whose, sheet = ilse(studio), sheet_of(studio)
    before = studio.store.reading.open_outgoing()
    name = studio.desk.reporting.put_out(whose, sheet).partition("studio folder too: ")[2]
    studio.desk.teaching.undo()
    page = (studio.desk.folder / name).with_suffix(".html")
    page.unlink()
    page.mkdir()
    with pytest.raises(NotSaved):
        studio.desk.reporting.put_out(whose, sheet)
    assert studio.store.reading.open_outgoing() == before


def test_marks_are_in_it_only_by_her_setting(studio):
    whose = ilse(studio)
    lines = lines_of(studio, whose)
    marked = [replace(each, mark=Mark.MORE_WORK) for each in lines]
    assert not any(each.needs_more_work for each in studio.desk.reporting.sheet(whose, marked, {}).pieces)
    desk, marking = studio.desk, replace(studio.preferences, pieces=PieceRules(reports_marks=True))
    sources = (studio.store.reading, desk.clock)
    folder = StudioFolder(desk.folder)
    hers = Reporting(sources, studio.printer, studio.paper_making, desk.letters, folder, marking)
    assert any(each.needs_more_work for each in hers.sheet(whose, marked, {}).pieces)


TWO_OF_A_NAME = f"""{HEADER}Ilse,Tuesday,16:00,30,Brandvold,cello,America/Phoenix,teacher
Ilse 2nd,Tuesday,16:30,30,Brandvold,guitar,America/Phoenix,teacher
Teodor,Tuesday,17:00,30,Brandvold,guitar,America/Phoenix,teacher
"""


def test_of_two_in_a_family_with_one_first_name_each_has_a_sheet_of_its_own(tmp_path):
    with arranged_studio(tmp_path, TWO_OF_A_NAME, now="2026-11-24 10:00") as arranged:
        reporting = arranged.studio.desk.reporting
        for name in ("Ilse", "Ilse 2nd", "Teodor"):
            whose = arranged.booking("2026-11-24", name)
            reporting.put_out(whose, reporting.sheet(whose, (), {}))
        titles = sorted(path.read_text(encoding="utf-8").splitlines()[0] for path in tmp_path.rglob("*Progress*.md"))
        assert titles == ["# Progress of Ilse", "# Progress of Ilse 2nd", "# Progress of Teodor"]
