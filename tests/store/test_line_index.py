"""The index of notes against the notes themselves: what is found is what a naive look finds, today and for this student."""

import re
import sqlite3
import tempfile
import unicodedata
from contextlib import closing, contextmanager
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.studio import BRANDVOLD, CLOCK, ILSE, OKONJO, TEODOR, lesson

from cockpit.store.leaving import FamilyRows
from cockpit.store.line_index import NAME_OF_INDEX, LineIndex, delete_index
from cockpit.store.open_studio import OpenStudio, open_studio
from cockpit.store.schema import NAME
from cockpit.studio.changes.records import Change, Edit, Note, added
from cockpit.studio.errors import NotSaved
from cockpit.studio.lessons.lesson import LessonId, Outcome
from cockpit.studio.notes.areas import Area
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels, Meaning
from cockpit.studio.pieces.given import read_lines
from cockpit.studio.pieces.search import Search, search_of

AT = datetime(2026, 12, 1, 22, tzinfo=UTC)
LATER = AT + timedelta(days=400)
NAMES = {ILSE.id: "Ilse Brandvold", TEODOR.id: "Teodor Okonjo"}


def at_once() -> None:
    pass


def never() -> bool:
    return False


@dataclass
class Indexed:
    """A studio with two students and its index."""

    store: OpenStudio
    index: LineIndex

    def note(self, number: int, body: str, student=ILSE, **values) -> LessonId:
        """Types notes into the lesson of so many weeks ago, which is made where there is none."""
        writing = self.store.writing
        assert writing is not None
        lesson_id = LessonId(f"x{student.id}-{number}")
        if not self.store.reading.lessons_between(
            AT - timedelta(weeks=number), AT - timedelta(weeks=number), [lesson_id]
        ):
            made = lesson(
                id=lesson_id, student_id=student.id, standing_time_id=None, starts_at=AT - timedelta(weeks=number)
            )
            writing.apply(Change(said="teach", edits=added(made)))
        if values:
            (was,) = self.store.reading.lessons_between(AT, AT, [lesson_id])
            changed = type(was)(**{name: getattr(was, name) for name in was.__slots__} | values)
            writing.apply(Change(said="change", edits=(Edit(before=was, after=changed),)))
        writing.save_note(Note(lesson_id=lesson_id, body=body, changed_at=AT), None)
        return lesson_id

    def catch_up(self) -> None:
        self.index.catch_up(at_once, never)

    def found(self, typed: str, most: int = 100) -> list[LessonId]:
        return list(self.index.notes_with(search_of(typed, NAMES, CLOCK, date(2026, 12, 1)), most))


@contextmanager
def indexed(folder: Path, labels: Labels = BUILT_IN):
    store = open_studio(folder)
    index = LineIndex(folder, labels, may_write=True)
    try:
        if not store.reading.people().students:
            assert store.writing is not None
            store.writing.apply(Change(said="add", edits=added(BRANDVOLD, OKONJO, ILSE, TEODOR)))
        yield Indexed(store=store, index=index)
    finally:
        index.close()
        store.close()


@pytest.fixture
def opened(tmp_path):
    with indexed(tmp_path) as found:
        yield found


def content_of(folder: Path) -> list[str]:
    with closing(sqlite3.connect(folder / NAME_OF_INDEX)) as connection:
        lines = """SELECT noted.lesson_id, noted.student_id, place, line, area, piece, title.words, book, of_book, measures, tempo,
            minutes, by_heart, body FROM noted LEFT JOIN line_given ON noted_id = noted.id LEFT JOIN title ON title.id = title_id
            JOIN note_words ON note_words.rowid = noted.id"""
        return sorted(map(repr, connection.execute(lines)))


def test_a_students_lines_are_those_of_the_notes_the_oldest_first(opened):
    newest = opened.note(0, "Scales: D major 2 oct, q=72 to 88, 5 min\nhello")
    oldest = opened.note(2, "Piece: The Old Mill mm. 1-16, h. = 40\nPrivate: Piece: none")
    opened.note(1, "Piece: The Old Mill", TEODOR)
    opened.catch_up()
    lines = [(each, read) for each, _, read in opened.index.lines_of(ILSE.id, AT)]
    assert [at for _, at, _ in opened.index.lines_of(ILSE.id, AT)] == [AT - timedelta(weeks=2), AT]
    expected = [(oldest, each) for each in read_lines("Piece: The Old Mill mm. 1-16, h. = 40", BUILT_IN)]
    assert list(lines) == [
        *expected,
        *((newest, e) for e in read_lines("Scales: D major 2 oct, q=72 to 88, 5 min", BUILT_IN)),
    ]
    assert [each for each, _, _ in opened.index.lines_of(ILSE.id, AT, ["old mill"])] == [oldest]
    assert [(e.student_id, e.title) for e in opened.index.pieces_called(Search(words=("mil",), goes_on=True))] == [
        (TEODOR.id, "The Old Mill"), (ILSE.id, "The Old Mill"),
    ]  # fmt: skip


def test_a_piece_is_found_by_its_name_among_ever_so_many_and_a_line_without_a_name_is_none(opened):
    for number in range(60):
        opened.note(number, f"Piece: Mill Song {number}\nTheory: mill {number}", TEODOR)
    opened.note(0, "Piece: Mill Wheel\nTheory: mill")
    opened.catch_up()
    found = opened.index.pieces_called(Search(words=("mill",), goes_on=True))
    assert len(found) == 61
    assert {each.title for each in found if each.student_id == ILSE.id} == {"Mill Wheel"}
    ilses = opened.index.pieces_called(Search(words=("mill",), students=(ILSE.id,)))
    assert [each.title for each in ilses] == ["Mill Wheel"]


def test_what_was_not_taught_and_what_is_still_to_come_is_no_line_of_a_student(opened):
    opened.note(1, "Piece: Gavotte", outcome=Outcome.ABSENT)
    opened.note(-1, "Piece: Minuet")
    opened.catch_up()
    assert opened.index.lines_of(ILSE.id, AT) == ()
    assert len(opened.index.lines_of(ILSE.id, LATER)) == 1
    assert len(opened.found("gavotte")) == 1


def test_a_note_that_was_typed_on_is_unread_until_the_index_has_caught_up(opened):
    lesson_id = opened.note(1, "Piece: Gavotte")
    assert opened.index.unread(ILSE.id, AT) == (lesson_id,)
    opened.catch_up()
    assert opened.index.unread(ILSE.id, AT) == ()
    opened.note(1, "Piece: Gavotte\nTheory: rests")
    assert opened.index.unread(ILSE.id, AT) == (lesson_id,)
    opened.catch_up()
    assert [each.piece for _, _, each in opened.index.lines_of(ILSE.id, AT)] == ["gavotte", "theory: rests"]
    opened.note(1, "  ")
    opened.catch_up()
    assert opened.found("gavotte") == []
    assert content_of(opened.store.folder) == []


def test_other_labels_have_every_note_read_again(tmp_path):
    with indexed(tmp_path) as before:
        before.note(1, "Kazoo: Gavotte")
        before.catch_up()
        assert before.index.lines_of(ILSE.id, AT) == ()
    with indexed(tmp_path, Labels({"kazoo": Meaning(Area.PIECE)}, ("Kazoo",))) as after:
        assert len(after.index.unread(ILSE.id, AT)) == 1
        after.catch_up()
        assert [each.title for _, _, each in after.index.lines_of(ILSE.id, AT)] == ["Gavotte"]


def test_a_lesson_whose_number_is_another_students_today_is_not_found_as_it_was(opened):
    lesson_id = opened.note(1, "Piece: Gavotte\nPrivate: secret of Ilse")
    opened.catch_up()
    opened.store.connection.execute("UPDATE lesson SET student_id = ? WHERE id = ?", (TEODOR.id, lesson_id))
    assert opened.found("secret") == []
    assert opened.index.lines_of(TEODOR.id, AT) == opened.index.lines_of(ILSE.id, AT) == ()
    opened.catch_up()
    assert opened.found("secret") == [lesson_id]
    assert len(opened.index.lines_of(TEODOR.id, AT)) == 1


def test_a_piece_of_notes_that_are_other_ones_today_is_in_nobodys_history(opened):
    lesson_id = opened.note(1, "Piece: Gavotte")
    opened.catch_up()
    assert len(opened.index.lines_of_piece(ILSE.id, AT, "gavotte")) == 1
    opened.store.connection.execute("UPDATE note SET body = 'Piece: Minuet' WHERE lesson_id = ?", (lesson_id,))
    assert opened.index.lines_of_piece(ILSE.id, AT, "gavotte") == ()


def test_a_family_that_is_deleted_takes_the_index_along(opened):
    opened.note(1, "Piece: quixotical zebrafamily")
    opened.note(2, "Piece: Gavotte", TEODOR)
    opened.catch_up()
    opened.index.close()
    FamilyRows(opened.store.connection, opened.store.folder / NAME).delete(BRANDVOLD.id)
    assert not list(opened.store.folder.glob(f"{NAME_OF_INDEX}*"))
    opened.catch_up()
    opened.index.close()
    whole = b"".join(path.read_bytes() for path in opened.store.folder.glob(f"{NAME_OF_INDEX}*"))
    for word in ("quixotical", "zebrafamily"):
        suffixes = [word[at:].encode() for at in range(len(word) - 4)]
        assert not [suffix for suffix in suffixes if suffix in whole]
    assert b"avotte" in whole


@pytest.mark.parametrize("bytes_there", [b"no database at all, but some words that were put there", b""])
def test_an_index_that_is_no_database_is_made_anew(tmp_path, bytes_there):
    (tmp_path / NAME_OF_INDEX).write_bytes(bytes_there * 100)
    with indexed(tmp_path) as opened:
        opened.note(1, "Piece: Gavotte")
        opened.catch_up()
        opened.catch_up()
        assert len(opened.found("gavotte")) == 1


def test_an_index_that_was_deleted_while_it_was_open_is_made_anew_and_read(opened):
    opened.note(1, "Piece: Gavotte")
    opened.catch_up()
    assert len(opened.found("gavotte")) == 1
    opened.note(2, "Piece: Gavotte")
    delete_index(opened.store.folder)
    opened.catch_up()
    assert len(opened.found("gavotte")) == 2
    delete_index(opened.store.folder)
    assert opened.found("gavotte") == []


@pytest.mark.parametrize("is_folder", [False, True])
def test_all_notes_are_unread_where_the_index_cannot_be_read(opened, is_folder):
    lesson_id = opened.note(1, "Piece: Gavotte")
    path = opened.store.folder / NAME_OF_INDEX
    if is_folder:
        path.mkdir()
    else:
        path.write_bytes(b"no database at all" * 100)
    assert opened.index.unread(ILSE.id, AT) == (lesson_id,)
    assert opened.found("gavotte") == []


def test_a_family_is_not_deleted_where_the_index_cannot_be(opened):
    (opened.store.folder / NAME_OF_INDEX).mkdir()
    with pytest.raises(NotSaved, match="family was not deleted"):
        FamilyRows(opened.store.connection, opened.store.folder / NAME).delete(BRANDVOLD.id)
    assert ILSE.id in opened.store.reading.people().students


def test_a_folder_that_refuses_the_index_is_no_error(opened):
    opened.note(1, "Piece: Gavotte")
    (opened.store.folder / NAME_OF_INDEX).mkdir()
    opened.catch_up()
    assert opened.found("gavotte") == []


def test_an_area_was_given_last_by_the_notes_as_they_stand(opened):
    opened.note(3, "Theory: rests")
    opened.note(1, "Theory: rests\nPiece: Gavotte")
    opened.catch_up()
    assert opened.index.areas_given(ILSE.id, AT)["theory"] == AT - timedelta(weeks=1)
    opened.note(1, "Piece: Gavotte")
    assert opened.index.areas_given(ILSE.id, AT)["theory"] == AT - timedelta(weeks=3)


def test_a_student_begins_with_the_first_lesson_that_was_taught(opened):
    opened.note(9, "Piece: Gavotte", outcome=Outcome.ABSENT)
    opened.note(1, "Piece: Gavotte")
    opened.note(-1, "Piece: Gavotte", TEODOR)
    opened.catch_up()
    assert opened.index.began_at(ILSE.id, AT) == AT - timedelta(weeks=1)
    assert opened.index.began_at(TEODOR.id, AT) is None


def test_without_an_index_and_without_the_right_to_make_one_all_notes_are_unread(tmp_path):
    with indexed(tmp_path) as opened:
        lesson_id = opened.note(1, "Piece: Gavotte")
        looking = LineIndex(tmp_path, BUILT_IN, may_write=False)
        looking.catch_up(at_once, never)
        assert looking.notes_with(Search(words=("gavotte",)), 9) == looking.lines_of(ILSE.id, AT) == ()
        assert looking.unread(ILSE.id, AT) == (lesson_id,)
        assert not (tmp_path / NAME_OF_INDEX).exists()
        opened.catch_up()
        assert len(looking.notes_with(Search(words=("gavotte",)), 9)) == 1
        assert looking.unread(ILSE.id, AT) == ()
        with closing(sqlite3.connect(tmp_path / NAME_OF_INDEX)) as connection:
            connection.execute("PRAGMA user_version = 1")
        looking.close()
        assert looking.unread(ILSE.id, AT) == (lesson_id,)
        looking.close()


# Case and accents make no difference; ß, a dotless i, and a final sigma stay what they are: as `unicode61` has them.
ALPHABET = "abAB Éeéñ\u0301ßıİΣςσ-'\"*()+.,:;19\n"
WORDS = st.text(ALPHABET, max_size=6)


def folded(text: str) -> str:
    plain = "".join(sign for sign in unicodedata.normalize("NFD", text) if not unicodedata.combining(sign))
    return "".join(sign.lower() if len(sign.lower()) == 1 else sign.lower()[0] for sign in plain).replace("ς", "σ")


def tokens_in(text: str) -> list[str]:
    return re.findall(r"[^\W_]+", folded(text))


def has_all(body: str, search: Search) -> bool:
    """Whether some notes have all words of a search, as a look through them without any index says it."""
    tokens = tokens_in(body)

    def stands(words: list[str], *, goes_on: bool) -> bool:
        for at in range(len(tokens) - len(words) + 1):
            here = tokens[at : at + len(words)]
            if here[:-1] == words[:-1] and (here[-1].startswith(words[-1]) if goes_on else here[-1] == words[-1]):
                return True
        return False

    last = len(search.words) - 1
    return all(
        stands(tokens_in(words), goes_on=search.goes_on and number == last) for number, words in enumerate(search.words)
    )


@examples(60)
@given(
    bodies=st.lists(st.lists(WORDS, max_size=6).map(" ".join), min_size=1, max_size=6),
    queries=st.lists(WORDS, max_size=8),
)
def test_what_is_found_is_what_a_look_through_all_notes_finds(bodies, queries):
    with tempfile.TemporaryDirectory() as name, indexed(Path(name)) as opened:
        ids = {opened.note(number, body): body for number, body in enumerate(bodies)}
        opened.catch_up()
        for typed in (*queries, *(f"{one} {other}" for one, other in pairwise(queries))):
            search = search_of(typed, {}, CLOCK, date(2026, 12, 1))
            expected = [each for each, body in ids.items() if search.has_words and has_all(body, search)]
            assert opened.found(typed) == expected, (typed, search)


EDITS = st.lists(
    st.tuples(st.sampled_from((ILSE, TEODOR)), st.integers(0, 3), st.sampled_from(
        ("", "Piece: Gavotte", "Piece: The Old Mill mm. 1-8 q=60\nwell done", "Etude: Blue Book no. 7\nTheory: rests", "Etude: no. 8, 5 min")
    ), st.booleans()),
    max_size=12,
)  # fmt: skip


@examples(30)
@given(EDITS)
def test_an_index_that_was_kept_is_as_one_that_is_made_anew(edits):
    with tempfile.TemporaryDirectory() as name, indexed(Path(name)) as opened:
        for student, number, body, is_looked_at in edits:
            opened.note(number, body, student)
            if is_looked_at:
                opened.catch_up()
        opened.catch_up()
        opened.index.close()
        kept = content_of(Path(name))
        for path in Path(name).glob(f"{NAME_OF_INDEX}*"):
            path.unlink()
        opened.catch_up()
        assert content_of(Path(name)) == kept
