"""A student's page at the desk: what was typed, marked and heard over the weeks, as it stands at this moment."""

from contextlib import contextmanager
from datetime import date
from threading import Event

import pytest
from support.arranged_studio import arranged_studio
from support.rows import everything
from support.studio import home

from cockpit.screens.pieces.page_rows import page_options
from cockpit.studio.errors import BadInput, NotFound, Refused
from cockpit.studio.notes.notes import Mark
from cockpit.studio.pieces.rules import MixRules
from cockpit.wording.pieces import a_week, attendance_words, kept_alive_words, needed_words, signed

NOTES = (
    ("2026-11-03", "Piece: The Old Mill mm. 1-16 q=60 to 92\nScales: D major q=60", 60),
    ("2026-11-10", "Piece: The Old Mill mm. 9-24 q=66 to 92\nTheory: rests", 66),
    ("2026-11-17", "Piece: The Old Mill mm. 17-32 q=72 to 92\nPrivate: a baby brother", 72),
    ("2026-11-24", "Piece: The Old Mil mm. 30-40 q=72 to 92\nEtude: no. 7", 72),
)


@contextmanager
def taught(folder, notes=NOTES):
    """A studio in which Ilse had four lessons in November; it is December 1, before her lesson."""
    with arranged_studio(folder, now="2026-11-03 10:00") as arranged:
        desk = arranged.studio.desk
        for on, text, heard in notes:
            arranged.clock.at = home(f"{on} 16:00")
            booking = arranged.booking(on, "Ilse")
            desk.teaching.begin()
            desk.notes.write(booking.lesson.id, text)
            arranged.clock.at = home(f"{on} 16:30")
            desk.teaching.finish()
            desk.hearing.keep_tempo(_given(arranged, booking, text.splitlines()[0]), heard)
        arranged.clock.at = home("2026-12-01 10:00")
        yield arranged, desk.pages(), booking.student.id


def _given(arranged, booking, line):
    earlier = arranged.studio.desk.looking_back.latest(booking.student.id, home("2026-12-24 10:00"), 9)
    return next(given for each in earlier for given in each.given if given.line.typed == line)


def _caught_up(arranged):
    done = Event()
    arranged.studio.desk.index_notes(done.set)
    assert done.wait(20)


@pytest.mark.parametrize("is_indexed", [False, True])
def test_the_page_tells_the_pace_so_far_and_needed(tmp_path, is_indexed):
    with taught(tmp_path) as (arranged, pages, ilse):
        if is_indexed:
            _caught_up(arranged)
        (pair,) = pages.page(ilse).alike
        assert pair == ("old mil", "old mill")
        pages.answer_alike(ilse, "old mil", "old mill", is_one=True)
        history = pages.history(ilse, "old mill")
        arranged.studio.desk.arranging.do(pages.propose(ilse, history, "96 measures, by dec 19, irish, her choice"))
        page = pages.page(ilse)
        mill = next(each for each in page.open if each.key == "old mill")
        assert (mill.tempo.so_far.beats, a_week(mill.tempo.needed.beats)) == (4, "7.8 a week")
        assert signed(mill.tempo.so_far.beats) == "+4.0"
        assert needed_words(mill.tempo, page.on) == "7.8 a week"
        assert (mill.measures.covered, mill.measures.all) == (40, 96)
        assert (a_week(mill.measures.so_far), a_week(mill.measures.needed)) == ("10.0 a week", "21.8 a week")
        assert [each.key for each in page.open] == ["old mill", "etude no. 7", "d major scale"]
        assert page.alike == ()
        assert attendance_words(page.attended).startswith("4 of 4")
        assert [each.on for each in page.lessons] == [date(2026, 11, 24), date(2026, 11, 17), date(2026, 11, 10)]
        assert page.following.lesson.starts_at == home("2026-12-01 16:00")
        assert page.mix.line("theory").last_on == date(2026, 11, 10)
        assert page.mix.line("music of the world").last_on == date(2026, 11, 24)


def test_a_lesson_is_told_the_tempos_of_the_piece_of_each_line_of_the_last_weeks(tmp_path):
    with taught(tmp_path) as (arranged, _, _):
        booking = arranged.booking("2026-12-01", "Ilse")
        looked = arranged.studio.desk.mixing().at_lesson(booking.student)
        lesson_id = arranged.booking("2026-11-17", "Ilse").lesson.id
        mill = looked.pieces[lesson_id, "Piece: The Old Mill mm. 17-32 q=72 to 92"]
        assert [each.tempo for each in mill.hearings] == [60, 66, 72]
        assert looked.mix.line("piece").touched == {1, 2, 3, 4}


def test_what_she_says_of_a_piece_is_taken_back_step_by_step(tmp_path):
    with taught(tmp_path) as (arranged, pages, ilse):
        before = everything(tmp_path)
        desk = arranged.studio.desk
        history = pages.history(ilse, "old mill")
        desk.arranging.do(pages.propose(ilse, history, "composer dvorak, 96 measures"))
        assert pages.keep_alive(ilse, history) == "The Old Mill is kept alive: due in 2 weeks."
        said = pages.history(ilse, "old mill").said
        assert (said.composer, said.measures, said.kept_since) == ("dvorak", 96, date(2026, 12, 1))
        (page,) = (each for each in pages.page(ilse).open if each.key == "old mill")
        assert kept_alive_words(page.due, date(2026, 12, 1)) == "due in 2 weeks"
        assert pages.keep_alive(ilse, history) == "The Old Mill is resting: no longer kept alive."
        pages.answer_alike(ilse, "old mil", "old mill", is_one=False)
        assert pages.page(ilse).alike == ()
        for _ in range(4):
            arranged.undo()
        assert everything(tmp_path) == before
        assert len(pages.page(ilse).alike) == 1


def test_a_lesson_that_runs_is_not_taught_yet_on_the_page_as_on_the_progress_sheet(tmp_path):
    with taught(tmp_path) as (arranged, pages, ilse):
        arranged.clock.at = home("2026-12-01 16:10")
        arranged.booking("2026-12-01", "Ilse")
        arranged.studio.desk.teaching.begin()
        page = pages.page(ilse)
        sheet = arranged.studio.desk.reporting.sheet(page, pages.looking.given(ilse), pages.said(ilse))
        assert (page.attended.attended, page.attended.planned) == (sheet.attended, sheet.planned) == (4, 4)


def test_a_piece_that_was_marked_done_stands_among_those_that_are(tmp_path):
    with taught(tmp_path) as (arranged, pages, ilse):
        booking = arranged.booking("2026-11-24", "Ilse")
        given = _given(arranged, booking, "Piece: The Old Mil mm. 30-40 q=72 to 92")
        arranged.studio.desk.hearing.mark(given, Mark.DONE)
        page = pages.page(ilse)
        assert [each.history.title for each in page.done] == ["The Old Mil"]
        assert page.piece("old mil").now.last_on == date(2026, 11, 24)
        assert page.alike_to("old mill") == "old mil"


def test_a_piece_that_was_not_given_for_eight_weeks_stands_apart(tmp_path):
    with taught(tmp_path) as (arranged, pages, ilse):
        arranged.clock.at = home("2027-01-13 10:00")
        page = pages.page(ilse)
        assert [each.key for each in page.older] == ["old mill", "d major scale"]
        assert {each.key for each in page.open} == {"old mil", "etude no. 7"}


def test_a_line_that_says_nothing_new_is_refused_and_one_that_is_not_understood_says_what_works(tmp_path):
    with taught(tmp_path) as (_, pages, ilse):
        history = pages.history(ilse, "old mill")
        with pytest.raises(Refused, match="so already"):
            pages.propose(ilse, history, "not her choice")
        with pytest.raises(BadInput, match="no date"):
            pages.propose(ilse, history, "by the river")
        with pytest.raises(BadInput, match="which has passed"):
            pages.propose(ilse, history, "by 2026-11-20")
        with pytest.raises(NotFound):
            pages.history(ilse, "gavotte")


def test_the_page_of_somebody_without_notes_is_empty(tmp_path):
    with taught(tmp_path) as (arranged, pages, _):
        teodor = arranged.booking("2026-12-01", "Teodor").student
        page = pages.page(teodor.id)
        assert page.open == page.older == page.done == page.lessons == ()
        assert attendance_words(page.attended) == "no lessons yet"


BOOK = (
    ("2026-11-03", "Etude: Blue Book no. 6\nPiece: Gavote", 60),
    ("2026-11-10", "Etude: no. 7\nPiece: Gavotte", 66),
    ("2026-11-17", "Piece: Gavote mm. 1-8", 72),
)


def test_a_piece_that_was_found_leads_to_its_history_by_book_and_joined_name(tmp_path):
    with taught(tmp_path, BOOK) as (arranged, pages, ilse):
        _caught_up(arranged)
        pages.answer_alike(ilse, "gavote", "gavotte", is_one=True)
        for typed, key in (("etude", "blue book no. 7"), ("gavote", "gavotte")):
            found = next(each for each in pages.searching.search(typed, 5, 50).pieces if each.history.key != key)
            assert pages.key_of(found) == key
            assert pages.history(ilse, pages.key_of(found)).key == key


@pytest.mark.parametrize("is_of_both", [False, True])
def test_what_she_said_of_a_piece_goes_along_when_its_name_is_joined_and_comes_back(tmp_path, is_of_both):
    with taught(tmp_path, BOOK) as (arranged, pages, ilse):
        arranged.studio.desk.arranging.do(
            pages.propose(ilse, pages.history(ilse, "gavote"), "irish, her choice, 40 measures")
        )
        if is_of_both:
            arranged.studio.desk.arranging.do(
                pages.propose(ilse, pages.history(ilse, "gavotte"), "composer dvorak, 48 measures")
            )
        before = pages.said(ilse)
        pages.answer_alike(ilse, "gavote", "gavotte", is_one=True)
        said = pages.said(ilse)
        assert list(said) == ["gavotte"]
        assert (said["gavotte"].origin, said["gavotte"].is_chosen) == ("irish", True)
        assert said["gavotte"].measures == (48 if is_of_both else 40)
        assert said["gavotte"].composer == ("dvorak" if is_of_both else None)
        arranged.undo()
        assert pages.said(ilse) == before


def test_the_mix_and_the_page_know_the_same_of_books_and_joined_names_after_months(tmp_path):
    with taught(tmp_path, BOOK) as (arranged, pages, ilse):
        _caught_up(arranged)
        pages.answer_alike(ilse, "gavote", "gavotte", is_one=True)
        for key, line in (("gavotte", "irish"), ("blue book no. 7", "her choice")):
            arranged.studio.desk.arranging.do(pages.propose(ilse, pages.history(ilse, key), line))
        arranged.clock.at = home("2027-02-03 10:00")
        whole, page = arranged.studio.desk.mixing().of(ilse).mix, pages.page(ilse).mix
        last = {"music of the world": date(2026, 11, 17), "pieces they love": date(2026, 11, 10)}
        assert {name: page.line(name).last_on for name in last} == last
        assert {name: whole.line(name).last_on for name in last} == last


def test_a_plot_is_of_figures_on_a_terminal_of_ascii_alone(tmp_path):
    with taught(tmp_path, NOTES[:3]) as (_, pages, ilse):
        page = pages.page(ilse)
    drawn, ascii_alone = (
        "\n".join(str(each.prompt) for each in page_options(page, MixRules(), 78, is_ascii=is_ascii))
        for is_ascii in (False, True)
    )
    assert "60 ▁▂▃ 72" in drawn
    assert "60 123 72" in ascii_alone


def test_a_piece_that_is_due_is_told_at_the_lesson_until_it_rests(tmp_path):
    weeks = (("2026-11-03", "Piece: Little Canoe q=60", 60), ("2026-11-10", "Scales: D major q=60", 60))
    with taught(tmp_path, weeks) as (arranged, pages, ilse):
        mixing, student = arranged.studio.desk.mixing(), arranged.booking("2026-12-01", "Ilse").student
        arranged.clock.at = home("2026-11-03 18:00")
        arranged.studio.desk.arranging.do(pages.propose(ilse, pages.history(ilse, "little canoe"), "polished"))
        arranged.clock.at = home("2026-11-06 10:00")
        said = pages.keep_alive(ilse, pages.history(ilse, "little canoe"))
        assert said == "Little Canoe is kept alive: due in 2 weeks."  # 14 days after it was polished
        arranged.clock.at = home("2026-11-16 23:00")
        assert mixing.at_lesson(student).due == ()
        arranged.clock.at = home("2026-12-01 10:00")
        (due,) = mixing.at_lesson(student).due
        assert (due.title, due.due.due_on) == ("Little Canoe", date(2026, 11, 17))
        pages.let_rest(ilse, pages.history(ilse, due.key))
        assert mixing.at_lesson(student).due == ()
        arranged.undo()
        assert mixing.at_lesson(student).due == (due,)
