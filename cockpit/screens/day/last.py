"""The pane of the last assignments: what was given, how it went, the tempo it was heard at, and what is still to get."""

import contextlib
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, datetime
from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Blur, DescendantBlur, DescendantFocus, Key
from textual.message import Message
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from cockpit.desk.desk import Desk
from cockpit.screens.commands.commands import Place
from cockpit.screens.day.tempo_entry import TempoEntry
from cockpit.screens.look.show import (
    HAPPENED,
    MORE_WORK,
    NOT,
    OPEN,
    PRIVATE,
    REMEMBER,
    cut_at_word,
    heading,
    hung,
    lines_of,
    padded,
    placed,
    role,
)
from cockpit.screens.screen import Step, bindings_for
from cockpit.screens.textual_parts.heading import Heading
from cockpit.screens.textual_parts.kept_rows import KeptRows
from cockpit.studio.assignments.last_lesson import GivenAssignment, LastLesson, Sheet, TaughtNotes
from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.changes.records import Change
from cockpit.studio.clocks.words import counted, month_and_day, near_day
from cockpit.studio.errors import CockpitError
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.notes.notes import Line, Mark, read_notes
from cockpit.studio.notes.telling import mark_words, marks_of
from cockpit.studio.values import Value, replace

if TYPE_CHECKING:
    from textual.timer import Timer

    from cockpit.desk.pieces.mixing import MixAtLesson
    from cockpit.settings.settings import Settings
    from cockpit.studio.lessons.lesson import LessonId
    from cockpit.studio.pieces.history import PieceTime
    from cockpit.studio.pieces.kept_alive import DuePiece
    from cockpit.studio.pieces.mix import MixLine

# Two different letters within so many seconds are the beginning of a word, and no two commands.
_A_WORD = 0.2
_WIDEST_AREA, _WIDEST_AREA_WHERE_ROOMY = 9, 12
_ROOMY = 44  # columns from which on areas are whole, and stand farther from what is to be played
_MOST_ROWS = 9
_MEASURES = re.compile(r"\bmm?\. ?(?=\d)")
_TEMPO, _WEEKS = 4, 4  # columns of the tempo, and of the weeks

_MENTIONED, _DUE = "mix: ", "due: "
_MOST_DUE = 3
_OLDER = "OLDER, STILL OPEN"
_LASTING = {Line.TO_GET: "STILL TO GET", Line.GOAL: "GOALS"}
_LESSONS = 4  # earlier ones that are listed below the assignments, where there is room

# Each row costs time at every step; those behind it come up when she closes or drops some.
_MOST_EARLIER = 20


class AssignmentList(KeptRows):
    """The assignments that are open. Digits, or taps of a key, make a tempo of the chosen one, which enter keeps.

    `now` (UTC) is asked at each tap; `goals` are the tempos that assignments ask for.
    """

    class TempoKept(Message):
        """A tempo is to be kept for the chosen assignment."""

        def __init__(self, option: str, tempo: int) -> None:
            super().__init__()
            self.option = option
            self.tempo = tempo

    class EntryChanged(Message):
        """A tempo is on its way in, or is not any more."""

    def __init__(self, now: Callable[[], datetime]) -> None:
        super().__init__(id="assignments", markup=False)
        self._now = now
        self.goals: Mapping[str, int] = {}
        self.entry = TempoEntry()

    def on_key(self, event: Key) -> None:
        """Takes digits of a tempo."""
        if event.character is not None and event.character in "0123456789" and self.highlighted is not None:
            event.stop()
            self._enter(self.entry.with_digit(event.character))
        elif event.key == "backspace" and not self.entry.is_empty:
            event.stop()
            self._enter(self.entry.shortened())

    def tap(self) -> None:
        """Takes a tap along with the student's playing."""
        if self.highlighted is not None:
            self._enter(self.entry.with_tap(self._now()))

    @on(Blur)
    @on(OptionList.OptionHighlighted)
    def forget(self) -> None:
        """Forgets a tempo that was not kept, or was meant for another assignment."""
        self._enter(TempoEntry(goal=self.goals.get(self.chosen or "")))

    def action_select(self) -> None:
        """Keeps the tempo that is on its way in; else what a tap does."""
        option, tempo = self.chosen, self.entry.tempo
        if self.entry.is_empty or option is None:
            super().action_select()
        elif tempo is not None:
            self.post_message(self.TempoKept(option, tempo))
            self.forget()

    def _enter(self, entry: TempoEntry) -> None:
        if entry != self.entry:
            self.entry = entry
            self.post_message(self.EntryChanged())


class _Letter(Value):
    """A letter that was typed in the pane, when (seconds of Textual's clock), and the last step before it."""

    letter: str
    typed_at: float
    before: Change | None
    was_carried: bool = False


class LastPane(Vertical):
    """What the student was given and is still open, how it went, and what to remember.

    A letter marks the chosen assignment; a tap on one goes round its marks.
    """

    PLACE = Place.LAST
    BINDINGS = bindings_for(PLACE, priority=False)

    class Carried(Message):
        """The chosen assignment is to be carried into today's notes."""

        def __init__(self, given: GivenAssignment) -> None:
            super().__init__()
            self.given = given

    class ReviewAsked(Message):
        """A piece that is kept alive is to be given again in today's notes."""

        def __init__(self, title: str) -> None:
            super().__init__()
            self.title = title

    class PieceAsked(Message):
        """The history of an assignment's piece is asked for."""

        def __init__(self, given: GivenAssignment) -> None:
            super().__init__()
            self.given = given

    class WordTyped(Message):
        """Letters were typed here that are words for the notes; what the first of them did is taken back."""

        def __init__(self, letters: str, *, was_carried: bool) -> None:
            super().__init__()
            self.letters = letters
            self.was_carried = was_carried

    def __init__(self, desk: Desk, settings: "Settings") -> None:
        super().__init__(id="last", classes="pane")
        self._desk = desk
        self._settings = settings
        self._first: _Letter | None = None
        self._opening: Timer | None = None
        self._lesson_id: LessonId | None = None
        self._given: dict[str, GivenAssignment] = {}
        self._shown: tuple[ScheduledLesson | None, LastLesson | None, date] = (None, None, date.min)
        self._taught: Sequence[TaughtNotes] = ()
        self._whole: str | None = None
        self._looked: MixAtLesson | None = None

    def compose(self) -> ComposeResult:
        """Next time's words, a heading, the list of assignments, how pieces came along, and the private remark."""
        yield Static(id="remember", markup=False)
        yield Heading("LAST ASSIGNMENTS")
        yield AssignmentList(self._desk.clock.now)
        progress = Static(id="progress", markup=False)
        progress.display = False
        yield progress
        yield Static(id="remark", markup=False)

    def show(self, booking: ScheduledLesson | None, sheet: Sheet | None, on: date) -> None:
        """Shows what a student was given before a lesson on a date of the teacher's clock."""
        last = sheet.last if sheet is not None else None
        self._shown = (booking, last, on)
        self._taught = sheet.taught if sheet is not None else ()
        earlier = last.earlier[:_MOST_EARLIER] if last is not None else ()
        given = (*last.assignments, *earlier, *last.lasting) if last is not None else ()
        self._given = {f"{each.lesson_id}\n{each.line.typed}": each for each in given}
        tempos = {name: read_assignment(each.line).tempo for name, each in self._given.items() if each.is_assignment}
        self._list.goals = {name: tempo.goal for name, tempo in tempos.items() if tempo is not None}
        lesson_id = booking.lesson.id if booking is not None else None
        if lesson_id != self._lesson_id:
            self._looked = None
        self._draw(is_afresh=lesson_id != self._lesson_id)
        self._lesson_id = lesson_id
        # It looks through the notes of weeks, which neither the first picture nor a step waits for.
        self.call_after_refresh(self.look_back)

    def look_back(self) -> None:
        """Shows what was not given for long, the mix, and the tempos of the pieces, until the lesson is over."""
        booking, _, _ = self._shown
        if booking is None or not booking.lesson.is_open:
            return
        with contextlib.suppress(CockpitError):  # the lesson goes on without it
            looked = self._desk.mixing().at_lesson(booking.student)
            if looked != self._looked:
                self._looked = looked
                self._draw(is_afresh=False)

    def on_resize(self) -> None:
        """Draws the rows anew in the room that there is now."""
        self._draw(is_afresh=False)

    def _draw(self, *, is_afresh: bool) -> None:
        booking, last, on = self._shown
        is_one = self.screen.has_class("-one")
        if not self.content_size.width and not is_one:
            return  # its width is not known before the first picture; a pane that is hidden gets that of the screen
        width = self._columns
        is_low = self.screen.has_class("-short")
        is_said = self.screen.has_class("-three") and not is_low  # then the band says it
        remember = remember_rows(last, width, is_low=is_low) if not is_said else []
        remark = remark_rows(booking, width, is_low=is_low) if not is_said else []
        for name, rows in (("#remember", remember), ("#remark", remark)):
            room = self.query_one(name, Static)
            room.update(Content("\n").join(rows))
            room.display, room.styles.height = bool(rows), min(len(rows), _MOST_ROWS)
        options = self._options(last, on, width, is_low=is_low, is_wide=is_said)
        behind = len(last.assignments) if last is not None else 0  # what is older may fill the pane
        options[behind:behind] = self._mentions(width, has_gap=not is_low)
        self._list.show_rows(options, is_afresh=is_afresh)
        self._say_below()
        self.show_entry()

    def _say_below(self) -> None:
        """Says on a wide screen what half of the pane has rows for: tempos, the mix, and above it earlier lessons."""
        room, width, on = self.query_one("#progress", Static), self._columns, self._shown[2]
        is_wide = self.screen.has_class("-three") and not self.screen.has_class("-short")
        free = self.content_size.height // 2 if is_wide else 0
        tempos, mix = self._tempos(width), self._mix(on, width)
        tempos = tempos if len(tempos) <= free else []
        mix = mix if len(mix) + len(tempos) <= free else []
        most = min(_LESSONS, free - len(tempos) - len(mix) - 2)
        lessons = earlier_lessons_rows(self._taught[:most], on, width) if most > 0 else []
        rows = [*tempos, *([Content(), *lessons] if lessons else []), *mix]
        said = Content("\n").join(rows)
        if str(said) != str(room.content):
            room.update(said, layout=False)
            room.display, room.styles.height = bool(rows), len(rows)

    def _mentions(self, width: int, *, has_gap: bool) -> list[Option]:
        if self._looked is None:
            return []
        from cockpit.screens.lessons.progress_rows import mention_option  # what it shows is loaded by now
        from cockpit.wording.pieces import due_words, mention_words

        said = {f"{_DUE}{each.key}": due_words(each, self._shown[2]) for each in self._looked.due[:_MOST_DUE]}
        said |= {f"{_MENTIONED}{each.name}": mention_words(each) for each in self._mentioned}
        return [
            mention_option(words, width, name, has_gap=has_gap and number == 0)
            for number, (name, words) in enumerate(said.items())
        ]

    def _mix(self, on: date, width: int) -> list[Content]:
        if self._looked is None:
            return []
        from cockpit.screens.lessons.progress_rows import mix_rows  # as there

        rules = self._settings.preferences.pieces.mix
        rows = mix_rows(self._looked.mix, self._mentioned, on, rules, width)
        return [Content(), *rows] if rows else []

    def _tempos(self, width: int) -> list[Content]:
        time = self._heard
        if time is None:
            return []
        from cockpit.screens.lessons.progress_rows import tempo_rows  # as there

        return [Content(), *tempo_rows(time, width)]

    @property
    def _mentioned(self) -> "tuple[MixLine, ...]":
        """What was not given for long."""
        if self._looked is None:
            return ()
        from cockpit.studio.pieces.mix import to_mention  # as there

        return to_mention(self._looked.mix, self._settings.preferences.pieces.mix)

    @property
    def _heard(self) -> "PieceTime | None":
        """The piece whose tempos are shown: that of the chosen assignment, else the first one that is open and was heard."""
        if self._looked is None:
            return None
        chosen = self._given.get(self._list.chosen or "")
        given = [*([chosen] if chosen is not None else []), *(each for each in self._given.values() if each.is_open)]
        pieces = (self._looked.pieces.get(each.place) for each in given)
        return next((each for each in pieces if each is not None and each.hearings), None)

    def _options(self, last: LastLesson | None, on: date, width: int, *, is_low: bool, is_wide: bool) -> list[Option]:
        """The rows of the assignments, then of what is to be got; what is older, or is no assignment, has a heading of its own.

        On a low screen, only what is no assignment has one. Where it `is_wide`, older ones have the day that they were given
        below them.
        """
        area, is_roomy = widest_area(self._given.values()), width >= _ROOMY
        area = min(area, _WIDEST_AREA_WHERE_ROOMY) + 1 if is_roomy else min(area, _WIDEST_AREA)
        first = last.lesson_id if last is not None else None
        more = len(last.earlier) - _MOST_EARLIER if last is not None else 0
        options: list[Option] = []
        for name, each in self._given.items():
            title = _LASTING.get(each.line.line) or ("" if is_low or each.lesson_id == first else _OLDER)
            if title and not any(option.id == title for option in options):
                blank = "\n" if options and not is_low else ""
                count = f"{more} more" if title == _OLDER and more > 0 else ""
                options.append(Option(Content(blank) + heading(title, width, count), id=title, disabled=True))
            is_cut = is_low and not (self._list.has_focus and name == self._list.chosen)
            fact = self._past_day(each, on)
            row = assignment_row(
                each, on, Columns(width=width, area=area, has_tempo=self._are_heard), is_cut=is_cut, fact=fact
            )
            if is_wide and each.lesson_id != first and each.is_assignment:
                said = (3 + area, f"given {month_and_day(each.given_on)}", role("quiet"))
                row = Content("\n").join([row, placed(width, said)])
            options.append(Option(row, id=name))
        return options

    def _past_day(self, given: GivenAssignment, on: date) -> str:
        """That the day of an open goal has passed, in words; nothing of others."""
        if given.line.line is not Line.GOAL or not given.is_open:
            return ""
        from cockpit.studio.assignments.goals import TypedOn, goal_day  # of the few who have a goal

        typed = TypedOn(on=given.given_on, month_first=self._settings.preferences.month_first)
        by_on = goal_day(given.line.text, typed).by_on
        return "its day has passed" if by_on is not None and by_on < on else ""

    def on_key(self, event: Key) -> None:
        """Gives letters that come as fast as those of a word to the notes: her eyes were not on the pane."""
        letter = event.character if event.character is not None and event.character.isalpha() else None
        first, self._first = self._first, None
        if letter is None:
            return
        if first is None or letter == first.letter or event.time - first.typed_at > _A_WORD:
            self._first = _Letter(letter=letter, typed_at=event.time, before=self._desk.hearing.last_step())
            return
        event.stop()
        self._list.forget()
        if self._opening is not None:
            self._opening.stop()
        self._desk.hearing.take_back(first.before)
        self.post_message(self.WordTyped(first.letter + letter, was_carried=first.was_carried))

    @on(AssignmentList.EntryChanged)
    def show_entry(self) -> None:
        """Shows the tempo that is on its way in, or when these assignments were given."""
        booking, last, _ = self._shown
        title = self.query_one(Heading)
        if not self._list.entry.is_empty:
            title.say(self._list.entry.words)
        else:
            columns = "heard wks" if self._are_heard else "wks"
            title.say(last_title(booking, last), columns if self._given else "")

    @on(OptionList.OptionHighlighted)
    @on(DescendantFocus)
    @on(DescendantBlur)
    def show_whole_row(self) -> None:
        """Shows all of the chosen row where the others are cut, and the tempos of its piece where these are shown."""
        self.show_entry()
        chosen = self._list.chosen if self._list.has_focus else None
        if self.screen.has_class("-short") and chosen != self._whole:
            self._whole = chosen
            self._draw(is_afresh=False)
        else:
            self._say_below()

    @on(AssignmentList.TempoKept)
    def keep_tempo(self, event: AssignmentList.TempoKept) -> None:
        """Keeps the tempo that an assignment was heard at."""
        self._step(event.option, lambda given: self._desk.hearing.keep_tempo(given, event.tempo))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Goes round the marks of the assignment that was tapped."""
        event.stop()
        self._step(event.option_id, lambda given: self._desk.hearing.mark(given, _next_mark(given)))

    def action_mark_done(self) -> None:
        """Marks the chosen assignment as done."""
        self._mark(Mark.DONE)

    def action_mark_more_work(self) -> None:
        """Marks the chosen assignment as needing more work."""
        self._mark(Mark.MORE_WORK)

    def action_mark_not_yet(self) -> None:
        """Marks the chosen assignment as not practiced yet."""
        self._mark(Mark.NOT_YET)

    def action_drop(self) -> None:
        """Drops the chosen assignment: it is not worked on any more.

        What is mentioned of the mix is left for this season, and a piece that is due rests.
        """
        booking, name, due = self._shown[0], mentioned_in(self._list.chosen), self._chosen_due
        if booking is not None and name is not None:
            self.post_message(Step(lambda: self._desk.mixing().leave(booking.student.id, name)))
        elif booking is not None and due is not None:
            pages, student_id = self._desk.pages(), booking.student.id
            self.post_message(Step(lambda: pages.let_rest(student_id, pages.history(student_id, due.key))))
        else:
            self._mark(Mark.DROPPED)

    def action_tap(self) -> None:
        """Takes a tap along with the student's playing."""
        self._list.tap()

    def action_count_clean_run(self) -> None:
        """Counts a clean run-through."""
        self._step(self._list.chosen, self._desk.hearing.count_clean_run)

    def action_show_history(self) -> None:
        """Asks for the history of the chosen assignment's piece."""
        given = self._given.get(self._list.chosen or "")
        if given is not None and given.is_assignment:
            # Another screen would take the letters that make a word of this one.
            self._opening = self.set_timer(_A_WORD, lambda: self.post_message(self.PieceAsked(given)))

    def action_carry(self) -> None:
        """Carries the chosen assignment, or the piece that is due, into today's notes."""
        given, due = self._given.get(self._list.chosen or ""), self._chosen_due
        if (given is not None or due is not None) and self._first is not None:
            self._first = replace(self._first, was_carried=True)
        if given is not None:
            self.post_message(self.Carried(given))
        elif due is not None:
            self.post_message(self.ReviewAsked(due.title))

    @property
    def _chosen_due(self) -> "DuePiece | None":
        due = self._looked.due if self._looked is not None else ()
        return next((each for each in due if f"{_DUE}{each.key}" == self._list.chosen), None)

    @property
    def _are_heard(self) -> bool:
        """Whether a tempo was heard of any of them: else its column is given to the words."""
        return any(each.tempo is not None for each in self._given.values())

    @property
    def _columns(self) -> int:
        return (self.content_size.width or self.screen.size.width) - 2

    @property
    def _list(self) -> AssignmentList:
        return self.query_one(AssignmentList)

    def _mark(self, mark: Mark) -> None:
        self._step(self._list.chosen, lambda given: self._desk.hearing.mark(given, mark))

    def _step(self, option: str | None, take: Callable[[GivenAssignment], str]) -> None:
        given = self._given.get(option or "")
        if given is not None:
            self.post_message(Step(lambda: take(given)))


def _next_mark(given: GivenAssignment) -> Mark | None:
    marks = [None, *marks_of(given.line)]
    return marks[(marks.index(given.mark) + 1) % len(marks)]


def area_of(given: GivenAssignment) -> str:
    """The label of an assignment, as a family would read it."""
    return given.line.own_label or str(given.line.area or "").capitalize()


def widest_area(given: Iterable[GivenAssignment]) -> int:
    """How many columns the longest label of some assignments takes."""
    return max((cell_len(area_of(each)) for each in given if each.is_assignment), default=0)


def mark_sign(mark: Mark | None) -> tuple[str, str]:
    """The sign of how an assignment went, and its style."""
    match mark:
        case Mark.DONE:
            return HAPPENED, role("finished")
        case Mark.MORE_WORK:
            return MORE_WORK, role("warning", "bold")
        case Mark.DROPPED:
            return NOT, role("cancelled", "bold")
        case Mark.NOT_YET | None:
            return OPEN, role("text")


class Columns(Value):
    """The width of a row and of its area in columns, and which of the tempo heard and the weeks have a column of their own."""

    width: int
    area: int
    has_tempo: bool
    has_weeks: bool = True

    @property
    def numbers(self) -> int:
        """How many columns at the end are the numbers'."""
        return (_TEMPO if self.has_tempo else 0) + (_WEEKS if self.has_weeks else 0)


def assignment_row(given: GivenAssignment, on: date, columns: Columns, *, is_cut: bool, fact: str = "") -> Content:
    """An assignment in columns: its sign, area, what it is, the tempo heard last, and the weeks it has been open by a date.

    Where it is cut, it takes one line. A `fact` stands behind its words.
    """
    sign, style = mark_sign(given.mark)
    area = "" if not given.is_assignment else f"{padded(cut_at_word(area_of(given), columns.area), columns.area)} "
    begins = 2 + cell_len(area)
    room = max(8, columns.width - begins - columns.numbers)
    facts = [
        mark_words(given.line, given.mark) if given.mark in {Mark.NOT_YET, Mark.DROPPED} else "",
        counted(given.clean_runs, "clean run") if given.clean_runs else "",
        fact,
    ]
    said = "".join(f", {fact}" for fact in facts if fact)
    name = (
        f"{area_of(given)}: " if not given.is_assignment and area_of(given) else ""
    )  # of a thing or a goal only a label of hers is said
    what = Content.assemble((f"{name}{given.line.text}", role("text")), (said, role("quiet")))
    lines = [Content.styled(_short(what.plain, room), role("text"))] if is_cut else lines_of(what, room)
    weeks = given.weeks(on)
    heard = str(given.tempo) if given.tempo is not None else ""
    label = role("asked", "bold") if given.is_open else role("quiet")
    rows = [
        Content.assemble(
            (sign, style),
            (f" {area}", label),
            lines[0],
            " " * (room - lines[0].cell_length),
            (f" {heard:>3}" if columns.has_tempo else "", role("text")),
            (f"{weeks if weeks and given.is_open else '':>4}" if columns.has_weeks else "", role("quiet")),
        )
    ]
    rows += [Content(" " * begins) + line for line in lines[1:]]
    return Content("\n").join(rows)


def mentioned_in(option: str | None) -> str | None:
    """The area or the strand that a row mentions, by the row's id; None where it is another row."""
    return option.removeprefix(_MENTIONED) if option is not None and option.startswith(_MENTIONED) else None


def earlier_lessons_rows(taught: Sequence[TaughtNotes], on: date, width: int) -> list[Content]:
    """Lessons that were taught, a row each below a heading: the day, how much was given and remarked, and the minutes."""
    dated = [near_day(each.taught_on, on) for each in taught]
    behind = 2 + max(map(cell_len, dated), default=0) + 2
    rows = [heading("EARLIER LESSONS", width, "min")] if taught else []
    for day, each in zip(dated, taught, strict=True):
        remarks = sum(line.line is Line.REMARK and bool(line.text) for line in read_notes(each.body, each.labels))
        said = f"{len(each.given)} given" + (f", {counted(remarks, 'remark')}" if remarks else "")
        minutes = (width - 3, f"{each.minutes:>3}", role("quiet"))
        rows.append(placed(width, (2, day, role("quiet")), (behind, said, role("text")), minutes))
    return rows


def _short(what: str, room: int) -> str:
    """What an assignment is, cut to one line; its measures give up their `mm.` before they are left out."""
    return cut_at_word(what if cell_len(what) <= room else _MEASURES.sub("", what), room)


def last_title(booking: ScheduledLesson | None, last: LastLesson | None) -> str:
    """When the assignments were given, or that there are none."""
    if booking is None:
        return "LAST ASSIGNMENTS"
    if last is None:
        return "NO EARLIER NOTES"
    given = "GIVEN" if last.assignments else "NOTHING GIVEN"
    return f"{given} {month_and_day(last.taught_on).upper()}"


def remember_rows(last: LastLesson | None, width: int, *, is_low: bool) -> list[Content]:
    """Shows what she noted for this lesson under Next time; where the screen is low, each note is cut to one line."""
    texts = last.next_time if last is not None else ()
    lines = [Content.styled(f"{REMEMBER} {text}", role("text")) for text in texts]
    if is_low:
        return [Content.styled(cut_at_word(line.plain, width), role("text")) for line in lines]
    rows = [row for line in lines for row in hung(line, width)]
    return [heading("BEGIN WITH", width), *rows, Content("")] if rows else []


def remark_rows(booking: ScheduledLesson | None, width: int, *, is_low: bool) -> list[Content]:
    """The remark on the student, which is hers alone; one line where the screen is low."""
    if booking is None or not booking.student.remark:
        return []
    style = role("private", "italic")
    if is_low:
        return [Content.styled(cut_at_word(f"{PRIVATE} {booking.student.remark}", width), style)]
    lines = lines_of(Content.styled(booking.student.remark, style), width - 2)
    return [
        Content(""),
        heading("PRIVATE", width),
        *(Content.assemble((f"{PRIVATE} ", role("private")), line.rstrip()) for line in lines),
    ]
