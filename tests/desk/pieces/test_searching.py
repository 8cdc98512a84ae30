"""A search through the notes of all students, at the desk."""

from datetime import date
from threading import Event

from support.arranged_studio import arranged_studio
from support.studio import home

from cockpit.store.line_index import NAME_OF_INDEX, delete_index


def test_pieces_and_lines_are_found_with_whose_they_are_and_which_are_hers_alone(tmp_path):
    with arranged_studio(tmp_path, now="2026-11-24 10:00") as arranged:
        arranged.write("2026-11-24", "Ilse", "Piece: The Old Mill q=66\nPrivate: the old mill story makes her laugh")
        arranged.write("2026-11-24", "Teodor", "Piece: Old Mill\nwell done, an old hand at Dvořák")
        arranged.write("2026-11-25", "Mireille", "Scales: D major\nit's like a mill wheel, so old")
        arranged.clock.at = home("2026-12-01 10:00")
        desk, done = arranged.studio.desk, Event()
        desk.index_notes(done.set)
        assert done.wait(20)
        searching = desk.pages().searching
        found = searching.search("old mill", 5, 50)
        assert [(each.student.name, each.history.title) for each in found.pieces] == [
            ("Teodor", "Old Mill"),
            ("Ilse", "The Old Mill"),
        ]
        assert [(each.student.name, each.on, each.line, each.is_private) for each in found.lines] == [
            ("Mireille", date(2026, 11, 25), "it's like a mill wheel, so old", False),
            ("Teodor", date(2026, 11, 24), "Piece: Old Mill", False),
            ("Ilse", date(2026, 11, 24), "Piece: The Old Mill q=66", False),
        ]
        assert (found.all_pieces, found.has_more_lines, found.words) == (2, False, "old mill")
        assert [each.line for each in searching.search("laugh", 5, 50).lines] == [
            "Private: the old mill story makes her laugh"
        ]
        assert searching.search("laugh", 5, 50).lines[0].is_private
        ilse = searching.search("ilse mill", 5, 50)
        assert ([each.student.name for each in ilse.lines], ilse.names) == (["Ilse"], ("Ilse",))
        assert len(ilse.pieces) == 1
        assert len(searching.search('"old mill"', 5, 50).lines) == 2
        assert [each.student.name for each in searching.search("dvorak", 5, 50).lines] == ["Teodor"]
        assert [each.student.name for each in searching.search("old since november 25", 5, 50).lines] == ["Mireille"]
        assert searching.search("old since november 25", 5, 50).pieces == ()
        assert len(searching.search("old before november 25", 5, 50).pieces) == 2
        assert searching.search("old", 5, 1).has_more_lines
        for typed in ("o", "", "zebra", "since march", "- ( *"):
            assert searching.search(typed, 5, 50).lines == ()


def test_notes_that_were_changed_after_they_were_read_are_found_by_what_they_say_now(tmp_path):
    with arranged_studio(tmp_path, now="2026-11-24 10:00") as arranged:
        arranged.write("2026-11-24", "Ilse", "Piece: Gavotte")
        desk, done = arranged.studio.desk, Event()
        desk.index_notes(done.set)
        assert done.wait(20)
        searching = desk.pages().searching
        assert len(searching.search("gavotte", 5, 50).lines) == 1
        for text in ("", "Piece: Minuet"):
            arranged.write("2026-11-24", "Ilse", text)
            assert searching.search("gavotte", 5, 50).lines == ()


def test_a_search_knows_whether_all_notes_are_looked_through(tmp_path):
    with arranged_studio(tmp_path, now="2026-11-24 10:00") as arranged:
        arranged.write("2026-11-24", "Ilse", "Piece: The Old Mill q=66")
        desk, done = arranged.studio.desk, Event()
        searching = desk.pages().searching
        assert not searching.has_read_all()
        desk.index_notes(done.set)
        assert done.wait(20)
        assert searching.has_read_all()
        delete_index(tmp_path)
        (tmp_path / NAME_OF_INDEX).mkdir()
        assert not searching.has_read_all()
