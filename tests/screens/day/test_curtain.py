"""The curtain: nothing private is on it, and all is where it was when it is lifted."""

import random
import re
import sqlite3
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from support.examples import examples
from support.screens import on_screen
from textual.widgets import Input

from cockpit.screens.commands.commands import BY_ID
from cockpit.screens.commands.own_keys import with_own_keys
from cockpit.screens.day.curtain import (
    BoardLook,
    CurtainScreen,
    CurtainView,
    curtain,
    curtain_view,
    thing_at,
)
from cockpit.screens.look.theming import bundled_looks
from cockpit.screens.textual_parts.notice import Notice
from cockpit.screens.typed_times.line import LineScreen
from cockpit.studio.changes.records import BoardLine
from cockpit.studio.day.board import Board, BoardEntry, board_items
from cockpit.studio.lessons.lesson import Lesson, LessonId, Outcome, begin
from cockpit.studio.lessons.scheduled import ScheduledLesson, live_one
from cockpit.studio.notes.notes import for_family
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId, first_name
from cockpit.studio.shown import shown
from cockpit.wording.theory import answer_rows

NOW = datetime(2026, 12, 1, 22, 12, tzinfo=UTC)
SIZES = [(80, 24), *(pytest.param(size, marks=pytest.mark.long) for size in ((44, 20), (150, 45)))]
BARE = {"F6 lifts", "ctrl+n notes", "ctrl+o page"}
STAFF = set("─┐┤┘│╻┃╹ ")


def rows(view, width=80, height=24):
    return [row.plain for row in curtain(view, width, height)]


def words_on(drawn):
    """The words on a curtain, the spread letters of the name in the middle as one word."""
    plain = re.sub("[─┐┤┘│╻┃╹]", "  ", drawn)
    return {re.sub(r"(?<=\S) (?=\S( |$))", "", part) if re.fullmatch(r"\S( \S)+", part) else part
            for line in plain.splitlines() for part in re.split(" {2,}", line.strip()) if part}  # fmt: skip


# As it is drawn


def test_the_curtain_is_as_it_was_drawn():
    drawn = rows(CurtainView(first_name="Ilse", minutes_left=23, lifts="F6"))
    line, space = "─" * 76, " " * 76
    assert [row.rstrip() for row in drawn] == [
        *[""] * 7,
        f"{line}┐ ╻",
        f"{space}│ ┃",
        f"{line}┤ ┃",
        f"{space}│ ┃",
        f"{'─' * 34}   I l s e   {'─' * 29}┤ ┃",
        f"{space}│ ┃",
        f"{line}┤ ┃",
        f"{space}│ ┃",
        f"{line}┘ ╹",
        *[""] * 3,
        f"{' ' * 35}23 min left",
        *[""] * 3,
        " F6 lifts",
    ]


@pytest.mark.parametrize(
    ("left", "said"),
    [
        (timedelta(minutes=23, seconds=59), "23 min left"),
        (timedelta(minutes=1), "1 min left"),
        (timedelta(seconds=59), "under 1 min left"),
        (timedelta(), "time is up"),
        (timedelta(minutes=-9), "time is up"),
    ],
)
def test_the_minutes_left_are_said_and_over_time_is_not_counted(left, said):
    (running,) = studio([("Ilse", "Brandvold")], runs=0, left=left)
    drawn = "\n".join(rows(curtain_view(running, NOW, has_clock=True)))
    assert said in drawn
    assert "min left" not in "\n".join(rows(curtain_view(running, NOW, has_clock=False)))


@pytest.mark.parametrize(
    ("student", "family", "called"),
    [
        ("Ilse", "Brandvold", "Ilse"),
        ("Ilse Brandvold", "Brandvold", "Ilse"),
        ("Brandvold, Ilse", "Brandvold", "Ilse"),
        ("brandvold ilse", "Brandvold", "ilse"),
        ("Anna-Lena Okonjo", "Okonjo and Bell", "Anna-Lena"),
        ("Marguerite", "Marguerite", "Marguerite"),
        ("Nora Bell", "Nora Bell", "Nora"),
        ("Brandvold", "the Brandvold family", "Brandvold"),
        ("  ", "Brandvold", ""),
    ],
)
def test_a_student_is_called_by_the_first_word_that_is_not_the_familys(student, family, called):
    people = studio([(student, family)])[0]
    assert first_name(people.student, people.family) == called


def test_a_name_is_spread_where_its_letters_stand_apart_and_fits_in_any_width():
    def middle(name, width):
        return rows(CurtainView(first_name=name, lifts="F6"), width)[11]

    assert "   Z o é   " in middle("Zoe\u0301", 80)
    assert "   दीपक   " in middle("दीपक", 80)
    assert "   יעל   " in middle("יעל", 80)
    assert "   Maximiliane-Theresia   " in middle("Maximiliane-Theresia", 44)
    assert "…   ─" in middle("Maximiliane-Theresia-Wilhelmina-Augusta", 44)
    assert middle("", 80).startswith("─" * 76)


# No word but those that it may have, for random studios

WORDS_OF_NAMES = [
    "Ilse",
    "Mireille",
    "Zoë",
    "Anna-Lena",
    "Nguyễn",
    "美穂",
    "דוד",
    "Oskar",
    "O'Hara",
    "Kim",
    "Bell",
    "Brandvold",
    "\x1b]2;owned\x07",
    "الياس",
]
NAMES = st.sampled_from(WORDS_OF_NAMES)
LEFT = st.timedeltas(timedelta(hours=-2), timedelta(hours=3))


def studio(names, runs=None, left=timedelta(minutes=23), private="zebrafamily"):
    """Lessons of students with these names and families, all that is private being one word; one of them may run."""
    found = []
    for number, (name, family) in enumerate(names):
        lesson = Lesson(
            id=LessonId(str(number)),
            student_id=StudentId(number),
            instrument=private,
            starts_at=NOW - timedelta(minutes=45) + left,
            minutes=45,
        )
        found.append(
            ScheduledLesson(
                lesson=begin(lesson, lesson.starts_at) if number == runs else lesson,
                student=Student(id=StudentId(number), family_id=FamilyId(number), name=name, remark=private),
                family=Family(id=FamilyId(number), name=family, folder=private, zone="America/Phoenix"),
                call_link=f"https://{private}",
            )
        )
    return found


# What she may have typed: theory that the family reads, and theory and words that it does not.
OPEN_LINES = (
    "Scales: {D major 2 oct}, 5 min",
    "{G# melodic minor}",
    "Piece: Minuet {rhythm 3/4 q e e q}",
    "Lovely! {C/E}",
    "",
)
KEPT_LINES = (
    "Private: quagga {A blues}", "Follow-up: quagga {F lydian}", "Next time: quagga {E phrygian}", "Private:\nquagga {A blues}",
    "Private: a\n  quagga {D dorian}", "Scales: slow Private: quagga {F lydian}",
)  # fmt: skip
OTHER_LINES = ("Private:", "without theory", "Get: rosin {B locrian}", "{open", "{no major}", "  set in")
LINES = (*OPEN_LINES, *KEPT_LINES, *OTHER_LINES)
TYPED = ("key Ab", "circle of fifths", "chords in B minor", "open strings violin", "A minor, 3 forms")


def board_of(notes, typed, off=()):
    """The board of notes, with things that were typed on it and things that were taken off."""
    lines = [
        BoardLine(lesson_id=LessonId("0"), words=words, put_at=NOW, is_off=words in off) for words in {*typed, *off}
    ]
    items = board_items("\n".join(notes), lines)
    entries = tuple(BoardEntry(words=item.words, rows=answer_rows(item.answer)) for item in items)
    return Board(lesson_id=LessonId("0"), first_name="", language="en", entries=entries)


def only_allowed_words(people, runs, left, size, board=None, *, has_clock, notes=None):
    """Draws the curtain before a studio, and looks at every word on it."""
    bookings = studio(people, runs=runs if runs is not None and runs < len(people) else None, left=left)
    if board is not None:
        only_words_of_the_board(bookings, board, size, notes, has_clock=has_clock)
    view = curtain_view(live_one(bookings), NOW, has_clock=has_clock)
    drawn = rows(view, *size)
    assert len(drawn) == size[1]
    assert {cell_len(row) for row in drawn} <= {size[0]}
    running = live_one(bookings)
    allowed = set(STAFF) | set(view.first_name) | {"…", "\ufffd"}
    if running is not None:
        words = shown(running.student.name).split()
        of_family = {word.casefold() for word in shown(running.family.name).split()}
        assert view.first_name in words
        assert (
            view.first_name.casefold() not in of_family
            or {word.casefold() for word in words} <= of_family
            or (running.family.name == running.student.name)
        )
    for row in drawn[:-1]:
        assert set(row) <= allowed or row.strip() in {"time is up", "under 1 min left", f"{view.minutes_left} min left"}
    assert drawn[-1].strip() == "F6 lifts"


def only_words_of_the_board(bookings, board, size, notes, *, has_clock):
    seen = for_family("\n".join(notes)) if notes is not None else None
    lines = tuple(line.text for line in seen.assignments) + seen.remarks if seen is not None else None
    look = BoardLook(board=board, chosen=board.entries[0].words if board.entries else "", family_lines=lines)
    view = curtain_view(live_one(bookings), NOW, has_clock=has_clock, look=look)
    drawn = rows(view, *size)
    assert len(drawn) == size[1]
    assert {cell_len(row) for row in drawn} <= {size[0]}
    if live_one(bookings) is None:
        assert not view.entries
        return
    shows = list(lines) if lines is not None else [part for each in board.entries for part in (each.words, *each.rows)]
    words = {word for part in shows for word in part.split()}
    letters = set("".join(each.words for each in board.entries[:1])) | set(view.first_name)
    name = set(view.first_name.split()) | {view.first_name, f"{view.first_name[:-1]}…"}
    fixed = {"F6", "lifts", "min", "left", "under", "time", "is", "up", "more", "›", "…"}
    fixed |= {"ctrl+k", "keep", "delete", "off", "ctrl+n", "notes", "board", "ctrl+o", "page"}
    found = {word for row in drawn for word in row.split()}
    unknown = {
        word
        for word in found - words - letters - name - fixed
        if not word.isdigit() and not set(word) <= STAFF | set("█▀▄")
    }
    assert {word for word in unknown if not word.endswith("…")} == set()
    assert not re.search("quagga|blues|lydian|phrygian|dorian", "".join(drawn).replace(" ", ""))


STUDIOS = {
    "people": st.lists(st.tuples(st.lists(NAMES, min_size=1, max_size=3).map(" ".join), NAMES), max_size=6),
    "runs": st.one_of(st.none(), st.integers(0, 5)),
    "left": LEFT,
    "size": st.tuples(st.integers(44, 200), st.integers(20, 60)),
    "has_clock": st.booleans(),
    "board": st.builds(
        board_of,
        st.lists(st.sampled_from(LINES), max_size=8),
        st.lists(st.sampled_from(TYPED), max_size=3),
        st.lists(st.sampled_from(("D major 2 oct", "C/E", "key Ab")), max_size=2),
    ),
    "notes": st.none() | st.lists(st.sampled_from(LINES), max_size=8),
}


@examples(100)
@given(**STUDIOS)
def test_no_word_but_the_first_name_the_board_the_time_and_the_key_is_on_it(
    people, runs, left, size, board, notes, has_clock
):
    only_allowed_words(people, runs, left, size, board, has_clock=has_clock, notes=notes)


@pytest.mark.long
def test_no_word_but_those_is_on_it_for_ten_thousand_studios():
    chance = random.Random(0)
    for _ in range(10_000):
        only_allowed_words(
            [
                (" ".join(chance.choices(WORDS_OF_NAMES, k=chance.randint(1, 3))), chance.choice(WORDS_OF_NAMES))
                for _ in range(chance.randint(0, 5))
            ],
            chance.choice([None, 0, 1, 2, 3, 4]),
            timedelta(seconds=chance.randint(-7200, 10800)),
            (chance.randint(44, 200), chance.randint(20, 60)),
            board_of(chance.choices(LINES, k=chance.randint(0, 8)), chance.choices(TYPED, k=chance.randint(0, 3))),
            has_clock=chance.random() < 0.5,
            notes=chance.choices(LINES, k=chance.randint(0, 8)) if chance.random() < 0.3 else None,
        )


@examples(50)
@given(st.integers(1, 60), st.integers(1, 15))
def test_it_is_drawn_in_any_room(width, height):
    drawn = rows(CurtainView(first_name="Ilse", minutes_left=9, lifts="F6"), width, height)
    assert len(drawn) == height
    assert all(cell_len(row) == width for row in drawn)


# Its keys and its things


SCALE = BoardEntry(words="D major", rows=("D E F♯ G A B C♯ D", "2 sharps: F♯ C♯"))
CHORD = BoardEntry(words="C/E", rows=("E G C", "root C, first inversion"))
RHYTHM = BoardEntry(words="rhythm 4/4 q e e h", rows=("1 2 + 3 (4)",))


def view_of(*entries, notes=None, commands=BY_ID):
    (running,) = studio([("Ilse", "Brandvold")], runs=0)
    board = Board(lesson_id=running.lesson.id, first_name="Ilse", language="en", entries=entries)
    look = BoardLook(board=board, family_lines=notes)
    return curtain_view(running, NOW, has_clock=True, look=look, commands=commands)


@pytest.mark.parametrize(
    ("width", "of_things"),
    [
        (44, ["ctrl+k keep", "ctrl+n notes"]),
        (56, ["ctrl+k keep", "ctrl+n notes", "ctrl+o page"]),
        (80, ["ctrl+k keep", "delete off", "ctrl+n notes", "ctrl+o page"]),
        (150, ["ctrl+k keep", "delete off", "ctrl+n notes", "ctrl+o page"]),
    ],
)
def test_the_keys_of_the_board_stand_at_the_end_of_the_last_row_while_each_can_be_done_and_none_moves(width, of_things):
    bare, notes = [each for each in of_things if "ctrl+n" in each or "ctrl+o" in each], ("Scales: D major",)
    rows_ = [curtain(view, width, 24)[-1].plain for view in (view_of(), view_of(SCALE), view_of(SCALE, notes=notes))]
    said = [re.split(" {2,}", row.strip()) for row in rows_]
    assert said == [
        ["F6 lifts", *bare],
        ["F6 lifts", *of_things],
        ["F6 lifts", *(each.replace("notes", "board") for each in bare)],
    ]
    assert len({row.index("ctrl+n") for row in rows_}) == 1
    assert len({len(row.rstrip()) for row in rows_}) == 1


def test_keys_of_hers_are_shown_as_hers_and_none_where_she_has_none():
    hers = {"board.keep": "f10", "board.open_page": ""}
    commands = {command.id: command for command in with_own_keys(hers)}
    row = curtain(view_of(SCALE, commands=commands), 80, 24)[-1].plain
    assert row.endswith("  F10 keep  delete off  ctrl+n notes ")


def test_a_row_of_the_board_belongs_to_its_thing_and_the_count_to_the_first_that_is_not_shown():
    others = [BoardEntry(words=f"key {number} sharps", rows=("x", "y")) for number in range(1, 7)]
    view = view_of(CHORD, RHYTHM, *others, SCALE)
    drawn = [row.plain.strip() for row in curtain(view, 80, 24)]
    found = [thing_at(view, 80, 24, row) for row in range(24)]
    assert found[drawn.index("C/E")] == found[drawn.index("root C, first inversion")] == CHORD
    assert found[drawn.index("6 more")] == others[0]
    assert {found[0], found[1], found[-1], found[drawn.index("C/E") - 1]} == {None}
    of_notes = view_of(SCALE, notes=("x",))
    assert not any(thing_at(of_notes, 80, 24, row) for row in range(24))


# On the screen


def kept_of(opened):
    """Everything that is kept in the studio but the board."""
    with sqlite3.connect(opened.folder / "studio.db") as connection:
        return [row for row in connection.iterdump() if "board_line" not in row]


def is_down(opened):
    return isinstance(opened.app.screen, CurtainScreen)


EVERYWHERE = ("", "tab", "ctrl+a", "f8", "f1", "ctrl+b", "f7", "ctrl+p", "f11", "f10", "f7 enter", "f7 m", "f7 o")


@pytest.mark.parametrize("places", [EVERYWHERE[::3], pytest.param(EVERYWHERE, marks=pytest.mark.long)])
def test_f6_hides_every_screen_and_dialog_and_lifts_to_where_all_was(tmp_path, places):
    async def steps(opened):
        for keys in places:
            await opened.press("escape", "escape", *keys.split())
            await opened.pilot.pause()
            before = opened.drawn(), opened.app.screen, opened.app.focused, [*opened.app.screen_stack]
            await opened.press("f6")
            assert is_down(opened), keys
            assert words_on(opened.drawn()) == {"Ilse", "33 min left", *BARE}, keys
            await opened.press("ctrl+d")
            await opened.pilot.pause()
            assert (opened.drawn(), opened.app.screen, opened.app.focused, [*opened.app.screen_stack]) == before, keys

    on_screen(tmp_path, steps, size=(80, 24))


def test_a_half_typed_line_stays_as_it_is_with_its_cursor_and_no_key_or_paste_goes_into_it(tmp_path):
    async def steps(opened):
        await opened.press("tab", "tab", "m")
        await opened.type("thu 4")
        await opened.press("left")
        line = opened.app.screen.query_one(Input)
        before = line.value, line.selection, kept_of(opened)
        await opened.press("f6")
        await opened.type("xa ")
        await opened.paste("Private: words")
        for key in ("enter", "escape", "tab", "f1", "f2", "f8", "f9", "ctrl+p", "ctrl+a", "ctrl+c", "backspace", "f4"):
            await opened.press(key)
            assert is_down(opened), key
        works = "{xa Private: words} is not read; {D major} works"
        assert words_on(opened.drawn()) == {"Ilse", "33 min left", *BARE, "xa Private: words", works}
        await opened.press("f6")
        assert isinstance(opened.app.screen, LineScreen)
        assert (line.value, line.selection, kept_of(opened)) == before
        await opened.type("x")
        assert line.value == "thu x4"

    on_screen(tmp_path, steps)


def test_notices_wait_and_come_after_and_the_clock_goes_on(tmp_path):
    async def steps(opened):
        opened.app._disable_notifications = False
        opened.app.notify("Another family")
        await opened.press("f6")
        await opened.pilot.pause()
        opened.day.say("Mireille's notes were not accepted.", is_fault=True)
        opened.day.say("Saving works again.")
        opened.app._tell("Mireille's notes were not accepted.", is_fault=True)
        opened.clock.wind(minutes=20)
        opened.app._tick()
        await opened.done()
        assert words_on(opened.drawn()) == {"Ilse", "13 min left", *BARE}
        opened.clock.wind(minutes=14)
        opened.app._tick()
        await opened.done()
        assert words_on(opened.drawn()) == {"Ilse", "time is up", *BARE}
        await opened.press("f6")
        assert opened.said == "Mireille's notes were not accepted. Saving works again."
        assert opened.app.screen.query_one(Notice).display
        assert "OVER" in opened.drawn()

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_notice_that_was_shown_gets_its_time_again(tmp_path):
    async def steps(opened):
        await opened.press("f5")
        opened.day.say("Something happened.")
        await opened.press("f6")
        notice = opened.day.query_one(Notice)
        assert notice.display
        await opened.press("f6")
        assert opened.said == "Something happened."
        assert notice._goes is not None

    on_screen(tmp_path, steps)


def test_nothing_is_on_it_between_lessons_and_the_name_follows_the_lesson(tmp_path):
    async def steps(opened):
        await opened.press("f9", "f6")
        assert words_on(opened.drawn()) == {"F6 lifts"}
        await opened.press("f6", "f2", "f6")
        assert "Mireille" in words_on(opened.drawn())
        opened.studio.desk.day.open(opened.studio.desk.day.on + timedelta(days=2))
        opened.app._tick()
        await opened.done()
        assert "Mireille" in words_on(opened.drawn()), "also where another day is shown below"

    on_screen(tmp_path, steps)


def test_closing_is_held_back_behind_it_without_a_word_of_whom_and_the_reason_comes_after(tmp_path):
    async def steps(opened):
        connection = opened.studio.store.connection
        pages = connection.execute("PRAGMA page_count").fetchone()[0]
        connection.execute(f"PRAGMA max_page_count = {pages}")
        opened.notes.text._replace_via_keyboard("more " * 4000, *opened.notes.text.selection)
        await opened.press("f6", "ctrl+q")
        assert words_on(opened.drawn()) == {"Ilse", "33 min left", "F6 lifts", "ctrl+n notes", "Not closed yet."}
        await opened.press("f6")
        assert "Press Ctrl+q again to close" in opened.said
        await opened.press("f6", "ctrl+q")
        assert opened.app.return_code == 0

    on_screen(tmp_path, steps, size=(44, 20))


@pytest.mark.parametrize("size", SIZES)
def test_it_is_whole_at_every_size_and_in_every_theme(tmp_path, size):
    async def steps(opened):
        for theme in bundled_looks():
            opened.app.theme = theme
            opened.clock.at = NOW + timedelta(minutes=30)
            await opened.press("f6")
            room = {"F6 lifts", "ctrl+n notes"} if size[0] < 64 else BARE
            assert words_on(opened.drawn()) == {"Ilse", "3 min left", *room}, theme
            line = opened.app.screen.query_one(Input)
            grounds = {
                part.style.bgcolor.name
                for row, strip in enumerate(opened.app.screen._compositor.render_strips())
                for part in strip
                if part.style is not None and part.style.bgcolor is not None and row != line.region.y
            }
            assert grounds == {bundled_looks()[theme].colors["ground"].lower()}, "the wrap-up does not shout here"
            await opened.press("f6")

    on_screen(tmp_path, steps, size=size)


def test_what_ticks_and_blinks_below_it_paints_nothing(tmp_path):
    async def steps(opened):
        await opened.press("f8", "f6")
        top, painted = opened.app.screen, []
        top.refresh = lambda *regions, **more: painted.append(regions)
        opened.clock.wind(seconds=5)
        opened.app._tick()
        for screen in opened.app.screen_stack[:-1]:
            screen.refresh()
            screen._on_timer_update()
            screen._compositor._dirty_regions.add(screen.region)
            screen._compositor_refresh()
        assert painted == []

    on_screen(tmp_path, steps)


def test_a_tap_on_its_key_lifts_it_and_a_tap_elsewhere_does_not(tmp_path):
    async def steps(opened):
        await opened.press("f6")
        await opened.pilot.click(offset=(40, 11))
        assert is_down(opened)
        await opened.pilot.click(offset=(3, 39))
        await opened.done()
        assert opened.app.screen is opened.day

    on_screen(tmp_path, steps)


@pytest.mark.parametrize("words", ["share", "hide", "curtain", "board"])
@pytest.mark.long
def test_find_has_it_by_her_words(tmp_path, words):
    async def steps(opened):
        await opened.press("f8")
        await opened.type(words)
        await opened.press("enter")
        await opened.pilot.pause()
        assert is_down(opened)

    on_screen(tmp_path, steps)


# Keys


def test_a_key_of_hers_stays_hers_where_the_board_would_have_it_too():
    hers = {"app.quit": "ctrl+o", "lesson.open_link": "f12"}
    by_id = {command.id: command for command in with_own_keys(hers)}
    assert (by_id["app.quit"].keys, by_id["board.open_page"].keys) == (("ctrl+o",), ())


@pytest.mark.long
def test_her_own_keys_for_absent_and_canceled_go_on_working_and_the_curtain_takes_what_is_left(tmp_path):
    async def steps(opened):
        await opened.press("f5", "f6")
        assert opened.lesson("Mireille").outcome is Outcome.ABSENT
        await opened.press("f5", "f7")
        assert opened.lesson("Nalani").outcome is Outcome.CANCELLED_LATE
        await opened.press("ctrl+d")
        assert is_down(opened)
        assert "ctrl+d lifts" in words_on(opened.drawn())
        await opened.press("ctrl+d")
        assert opened.app.screen is opened.day

    on_screen(tmp_path, steps, keys={"lesson.mark_absent": "f6", "lesson.mark_cancelled": "f7,ctrl+k"})


def test_a_curtain_without_a_key_is_lifted_by_esc(tmp_path):
    async def steps(opened):
        await opened.day.do("app.show_curtain")
        await opened.pilot.pause()
        assert "esc lifts" in words_on(opened.drawn())
        await opened.press("escape")
        assert opened.app.screen is opened.day

    on_screen(tmp_path, steps, keys={"lesson.mark_absent": "f6,ctrl+d"})


def test_her_own_letters_in_the_queue_go_before_new_ones():
    by_id = {command.id: command.keys for command in with_own_keys({"queue.move": "a,m", "lesson.begin": "f6"})}
    assert by_id["queue.move"] == ("a", "m")
    assert by_id["queue.mark_absent"] == ()
    assert by_id["queue.mark_cancelled"] == ("c",)
    assert by_id["app.show_curtain"] == ("ctrl+d",)


def test_the_keys_that_once_marked_a_lesson_leave_the_notes_alone_where_nothing_else_has_them(tmp_path):
    async def steps(opened):
        before = opened.notes.text.text
        await opened.press("up", "home", "f7", "ctrl+k")
        assert "queue" in opened.said
        await opened.type("x")
        assert opened.notes.text.text.replace("x", "", 1) == before
        assert opened.lesson("Ilse").is_live

    on_screen(tmp_path, steps, keys={"lesson.show_page": ""})
