"""The rows of the end of the day: the day as a line, its lessons in columns, what is missing, owed, and tomorrow."""

from collections.abc import Sequence
from datetime import date, datetime

from rich.cells import cell_len
from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.desk.calendar.ahead import ComingUp, MakeUpOwed
from cockpit.screens.day.queue_rows import FREE_ROW, QueueView, end_row, queue_rows
from cockpit.screens.look.show import (
    AS_PLANNED,
    BREAK,
    CHANGES,
    HAPPENED,
    NEEDS_HER,
    NOW,
    OPEN,
    PRIVATE,
    WIDEST,
    Piece,
    clock_column,
    cut_at_word,
    hung,
    padded,
    placed,
    rehearsed_words,
    role,
    state_sign,
    state_word,
)
from cockpit.screens.textual_parts.rows import group
from cockpit.studio.calendar.clock_changes import ChangeAhead
from cockpit.studio.calendar.collisions import Group
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import city, counted, minutes_of, near_date, near_days, short_date
from cockpit.studio.day.review import (
    DayReview,
    InquiriesToDo,
    Lack,
    Missing,
    OtherDaysNotes,
    Owed,
    OwedDuty,
    OwedFollowUp,
    ReviewedLesson,
    WeekSoFar,
    missing_of,
)
from cockpit.studio.lessons.breaks import LeftOut, Pause, TimeOff
from cockpit.studio.lessons.calls import OwedMinutes
from cockpit.studio.lessons.lesson import State
from cockpit.studio.lessons.scheduled import ScheduledLesson, each_time_once
from cockpit.studio.preferences import Preferences
from cockpit.wording.day_review import attendance, brought_words, missing_sentence, owed_words, week_words
from cockpit.wording.inquiries import fit_words, next_step, opening_words, who_asks
from cockpit.wording.problems import problem_columns

LESSON, OWED, OUTBOX, INQUIRIES, COMING, OFF = "lesson:", "owed:", "outbox", "inquiries:", "coming:", "off:"
"""What the id of a row begins with: a lesson's has its day and its id, a follow-up's its number.

Of what comes up it is the number among `all_coming`, and of a lesson that is on break its own.
"""

_LONGEST_NAME = 18
_MINUTES, _COUNT, _GAP = 4, 3, 2
_TAUGHT = len("12:30 to 12:30")
_SENT = len("before the change") + 2
_LACKS = {
    Lack.NO_NOTES: "no notes",
    Lack.NOT_EXPORTED: "not exported",
    Lack.DRAFT: "draft",
    Lack.CHANGED: "before the change",
    Lack.IN_DOUBT: "not sure",
    Lack.REFUSED: "refused",
    Lack.WAITING: "to send",
}
_IN_THE_OUTBOX = frozenset({Lack.IN_DOUBT, Lack.REFUSED})


def review_title(review: DayReview) -> str:
    """How much was taught of what was planned: `162 of 255 minutes`."""
    planned = sum(each.lesson.minutes for each in each_time_once([lesson.booking for lesson in review.lessons]))
    return f"{review.minutes_taught} of {minutes_of(planned)}" if review.lessons else ""


def review_options(
    review: DayReview, home: TeacherClock, width: int, coming: ComingUp | None = None, *, is_beside: bool = False
) -> list[Option]:
    """All rows in so many columns, groups without rows left out. Each row can be chosen but those that only count.

    Where tomorrow and what comes up `is_beside`, they are not among them, and neither is the line of the day.
    """
    width = min(width, WIDEST)
    options = _lessons(review, home, width, is_beside=is_beside)
    if review.missing:
        options.append(group("missing", width, len(review.missing)))
        options += [
            Option(_missing_row(m), id=f"{LESSON}m{n}@{review.on}:{m.lesson_id}" if isinstance(m, Missing) else OUTBOX)
            for n, m in enumerate(review.missing)
        ]
    else:
        options.append(group("nothing missing" if review.lessons else "no lessons", width))
    if review.owed:
        options.append(group("you owe", width, len(review.owed)))
        rows = _owed_rows(review.owed, home, width)
        options += [Option(row, id=f"{OWED}{n}") for n, row in enumerate(rows)]
    options += _inquiries(review.inquiries, home, width)
    if not is_beside:
        options += _tomorrow(review, home, width)
        options += coming_up_options(coming, home, width) if coming is not None else []
    options += _week(review.week, width)
    if review.left_out:
        options.append(group("on break", width, len(review.left_out)))
        options += [Option(_left_out_row(each, home), id=f"{OFF}{n}") for n, each in enumerate(review.left_out)]
    return options


def _lessons(review: DayReview, home: TeacherClock, width: int, *, is_beside: bool) -> list[Option]:
    if not review.lessons:
        return []
    columns = _Columns(review, home, width)
    options = [] if is_beside else [Option(line, disabled=True) for line in day_line(review.lessons, width)]
    options += [group("lessons", width, attendance(review)), Option(columns.heading(), disabled=True)]
    before = ""
    for reviewed in review.lessons:
        start, before = clock_column(home, reviewed.booking.lesson.starts_at, before)
        row = columns.row(reviewed, start)
        options.append(Option(row, id=f"{LESSON}l@{review.on}:{reviewed.booking.lesson.id}"))
    return options


def _week(week: WeekSoFar | None, width: int) -> list[Option]:
    if week is None or not week.lessons:
        return []
    said = hung(Content.styled(week_words(week), role("text")), width - 2)
    told = Content("\n").join(Content("  ") + line for line in said)
    return [group("the week so far", width), Option(told, disabled=True)]


def day_line(lessons: Sequence[ReviewedLesson], width: int) -> list[Content]:
    """The day as a line of music, each lesson from its start on as long as it was planned; below it the names that fit."""
    begins = lessons[0].booking.lesson.starts_at
    whole = max(each.booking.lesson.planned_end for each in lessons) - begins

    def column(at: datetime) -> int:
        return round((at - begins) / whole * (width - 1))

    line: list[Piece] = []
    names: list[Piece] = []
    free_from = 0
    for place, reviewed in enumerate(lessons):
        lesson = reviewed.booking.lesson
        sign, style = state_sign(reviewed.state)
        first, last = column(lesson.starts_at), column(lesson.planned_end)
        following = lessons[place + 1].booking.lesson.starts_at if place + 1 < len(lessons) else None
        is_last = following is None or following > lesson.planned_end
        until = width if following is None else column(following)
        is_played, is_off = sign in {HAPPENED, NOW}, sign not in AS_PLANNED
        stroke, left, right = ("━", "┠", "┨") if is_played else ("╌" if is_off else "─", "├", "┤")
        length = max(0, min(last, until - 1 + is_last) - first - 1 + (not is_last))
        drawn = f"{left}{stroke * length}{right if is_last else ''}"
        if first >= free_from:
            line.append((first, drawn[: width - first], role("finished") if sign == HAPPENED else style))
            free_from = first + len(drawn)
        said = f"{sign} {reviewed.booking.student.name}" if is_off else reviewed.booking.student.name
        # The last name may begin before its lesson; one that has no room is left out.
        at = first if following is not None else min(first, width - cell_len(said))
        if at + cell_len(said) < until + (following is None):
            names.append((at, said, style if is_off else role("quiet")))
    return [placed(width, *line), placed(width, *names)]


class _Columns:
    """Where the columns of the lessons stand in a width: when it was planned and taught, whose, how long, what of it went out."""

    def __init__(self, review: DayReview, home: TeacherClock, width: int) -> None:
        self._home = home
        self._width = width
        longest = max((cell_len(each.booking.student.name) for each in review.lessons), default=0)
        self._name = min(_LONGEST_NAME, longest)
        self._start = (
            len(clock_column(home, review.lessons[0].booking.lesson.starts_at, "")[0]) if review.lessons else 0
        )
        counts = _MINUTES + 2 * (_COUNT + _GAP) + _GAP + _SENT
        self._has_taught = width >= self._start + _TAUGHT + _GAP + 2 + self._name + counts
        self._has_counts = width >= self._start + 2 + self._name + counts

    def heading(self) -> Content:
        """What stands in each column."""
        quiet = role("quiet")
        row = [(0, "planned"[: self._start - 1].rjust(self._start - 1), quiet), (self._at_sign + 2, "student", quiet)]
        if self._has_taught:
            row.append((self._start + _GAP, "taught", quiet))
        at = self._at_minutes
        row.append((at, "min".rjust(_MINUTES), quiet))
        if self._has_counts:
            row += [(at + _MINUTES + 1, "asked", quiet), (at + _MINUTES + _COUNT + 2 * _GAP + 2, PRIVATE, quiet)]
        row.append((self._at_sent, "notes", quiet))
        return placed(self._width, *row)

    def row(self, reviewed: ReviewedLesson, start: str) -> Content:
        """A lesson: when it was planned and when it was, and what became of its notes."""
        lesson, quiet, at = reviewed.booking.lesson, role("quiet"), self._at_minutes
        sign, style = state_sign(reviewed.state)
        name = role("text", "bold") if lesson.is_open else role("text")
        row = [
            (0, start, quiet),
            (self._at_sign, sign, style),
            (self._at_sign + 2, padded(reviewed.booking.student.name, self._name).rstrip(), name),
        ]
        word = state_word(reviewed.state)
        if word:
            word = f"{word}, {lesson.reason}" if lesson.reason else word
            return placed(self._width, *row, (at, cut_at_word(word, self._width - at), style))
        if self._has_taught:
            row.append((self._start + _GAP, self._taught(reviewed), quiet))
        minutes = reviewed.minutes_taught
        row.append((at, ("" if minutes is None else str(minutes)).rjust(_MINUTES), quiet))
        if self._has_counts and reviewed.has_notes:
            row += [
                (at + _MINUTES + _GAP, f"{reviewed.assignments:>{_COUNT}}", quiet),
                (at + _MINUTES + _COUNT + 2 * _GAP, f"{reviewed.private_lines or '':>{_COUNT}}", role("private")),
            ]
        said, its = sent_words(reviewed)
        row.append((self._at_sent, cut_at_word(said, self._width - self._at_sent), its))
        return placed(self._width, *row)

    @property
    def _at_sign(self) -> int:
        return self._start + (_GAP + _TAUGHT + _GAP if self._has_taught else 0)

    @property
    def _at_minutes(self) -> int:
        return self._at_sign + 2 + self._name

    @property
    def _at_sent(self) -> int:
        return self._at_minutes + _MINUTES + _GAP + (2 * (_COUNT + _GAP) if self._has_counts else 0)

    def _taught(self, reviewed: ReviewedLesson) -> str:
        lesson = reviewed.booking.lesson
        if lesson.began_at is None:
            return "not recorded" if reviewed.state is State.FINISHED else ""
        began, _ = self._home.time_and_half(lesson.began_at)
        if lesson.finished_at is None:
            return f"since {began}"
        finished, _ = self._home.time_and_half(lesson.finished_at)
        return f"{began:>5} to {finished}"


def sent_words(reviewed: ReviewedLesson) -> tuple[str, str]:
    """What became of the notes of a lesson, with its sign, and the style of both."""
    if reviewed.booking.lesson.is_rehearsed:
        return f"{HAPPENED} {rehearsed_words(reviewed.booking.lesson)}", role("quiet")
    lack = missing_of(reviewed)
    if lack in _LACKS:
        return f"{NEEDS_HER} {_LACKS[lack]}", role("error" if lack in _IN_THE_OUTBOX else "warning", "bold")
    if reviewed.state is State.FINISHED:
        return f"{HAPPENED} exported", role("quiet")
    return (f"{OPEN} draft" if reviewed.export is not None else ""), role("quiet")


def _missing_row(missing: Missing | OtherDaysNotes) -> Content:
    return Content.assemble((f"{NEEDS_HER} ", role("warning", "bold")), missing_sentence(missing))


def _owed_rows(owed: Sequence[Owed], home: TeacherClock, width: int) -> list[Content]:
    """What is owed, and in columns beside it to whom and since or until when; choosing one checks it off."""
    quiet, told = role("quiet"), [owed_words(each, home) for each in owed]
    names = ["" if isinstance(each, OwedDuty) else _student(each) for each in owed]
    dates = [behind.removeprefix(f"{name}, ") for name, (_, behind) in zip(names, told, strict=True)]
    at_name = width - max(map(cell_len, dates)) - 2 - max(map(cell_len, names))
    rows: list[Content] = []
    for (words, behind), name, on in zip(told, names, dates, strict=True):
        if 2 + cell_len(words) + 2 > at_name:
            rows.append(Content.assemble((f"{OPEN} ", ""), words, (f"\n  {behind}", quiet)))
        else:
            beside = ((at_name, name, quiet), (width - cell_len(on), on, quiet))
            rows.append(placed(width, (0, OPEN, ""), (2, words, ""), *beside))
    return rows


def _student(owed: OwedFollowUp | OwedMinutes) -> str:
    return owed.student if isinstance(owed, OwedFollowUp) else owed.student.name


def _inquiries(inquiries: InquiriesToDo | None, home: TeacherClock, width: int) -> list[Option]:
    """What is to be done with inquiries, what is deleted soon, and who of the waiting fits; choosing a row shows them all."""
    if inquiries is None:
        return []
    today = home.date_of(inquiries.now)
    rows = [(NEEDS_HER, f"deleted soon: {who_asks(each.course.inquiry)}") for each in inquiries.leaving]
    rows += [
        (NEEDS_HER, f"{who_asks(each.course.inquiry)}  {next_step(each, inquiries.now, home)}")
        for each in inquiries.due
    ]
    for opening in inquiries.openings:
        who = ", ".join(f"{each.learner} {fit_words(fit, opening, home, today)}" for each, fit in opening.fits)
        rows.append((OPEN, f"{opening_words(opening, home, today)}  {who}"))
    if not rows:
        return []
    options: list[Option] = [group("inquiries", width, len(rows))]
    for number, (sign, said) in enumerate(rows):
        style = role("warning", "bold") if sign == NEEDS_HER else ""
        words = hung(Content(said), width - 2)
        lines = [Content.assemble((f"{sign} ", style), words[0]), *(Content("  ") + line for line in words[1:])]
        options.append(Option(Content("\n").join(lines), id=f"{INQUIRIES}{number}"))
    return options


def all_coming(coming: ComingUp) -> list[Group | MakeUpOwed | ChangeAhead | TimeOff]:
    """What comes up, in the order of its rows: what needs her, what waits, what goes by itself."""
    return [*coming.troubles, *coming.owed[:1], *coming.changes, *coming.breaks]


def coming_up_options(coming: ComingUp, home: TeacherClock, width: int, margin: int = 0) -> list[Option]:
    """Lists what comes up in the next weeks below a heading with their number. An empty list has no heading.

    A `margin` is what stands before the rows of a list that has a column for a sign there. It is left out of the width.
    """
    rows = [_coming_row(each, coming, home, width - margin, margin) for each in all_coming(coming)]
    if not rows:
        return []
    title = group(f"coming up, {counted(coming.weeks, 'week')}", width, len(rows), margin=margin)
    return [title, *(Option(row, id=f"{COMING}{number}") for number, row in enumerate(rows))]


def _coming_words(
    each: Group | MakeUpOwed | ChangeAhead | TimeOff, coming: ComingUp, home: TeacherClock
) -> tuple[str, str]:
    """The sign and the words of something that comes up; make-ups that are owed are one row."""
    match each:
        case Group():
            return NEEDS_HER, _problem_words(each, home, coming.today)
        case MakeUpOwed():
            names = dict.fromkeys(coming.people.students[one.lesson.student_id].name for one in coming.owed)
            return OPEN, f"{counted(len(coming.owed), 'make-up')} owed  {', '.join(names)}"
        case ChangeAhead():
            places = ", ".join(dict.fromkeys(city(one.zone) for one in each.clocks))
            shifts = f"{counted(len(each.shifts), 'lesson')} at another time"
            return CHANGES, f"{short_date(each.changed_on)}  {places}  {shifts}"
        case _:
            return BREAK, _off_words(each, coming)


def _problem_words(group: Group, home: TeacherClock, today: date) -> str:
    day, at, name, facts = problem_columns(group, home, today)
    return "  ".join([day, f"{name} {at}", *facts])


def _off_words(each: TimeOff, coming: ComingUp) -> str:
    """When lessons do not take place, and whose or why: `Mon, December 21, through Sun, January 3, 2027  winter break`."""
    today, people = coming.today, coming.people
    if isinstance(each, Pause):
        until = each.until_on
        days = f"from {near_date(each.from_on, today)}" if until is None else near_days(each.from_on, until, today)
        return f"{days}  {people.students[each.student_id].name} paused"
    whose = f"{people.families[each.family_id].name} family  " if each.family_id is not None else ""
    return f"{near_days(each.from_on, each.until_on, today)}  {whose}{each.reason}".rstrip()


def _coming_row(
    each: Group | MakeUpOwed | ChangeAhead | TimeOff, coming: ComingUp, home: TeacherClock, width: int, margin: int
) -> Content:
    sign, said = _coming_words(each, coming, home)
    style = role("warning", "bold") if sign == NEEDS_HER else role("quiet")
    first, *rest = hung(Content.styled(said, role("text")), width - 2)
    before = Content(" " * margin)
    lines = [Content.assemble((f"{sign} ", style), first), *(Content("  ") + line for line in rest)]
    return Content("\n").join(before + line for line in lines)


def tomorrow_beside(review: DayReview, preferences: Preferences, width: int, height: int) -> list[Option]:
    """The next day in so many columns and rows, to scale where it fits; what students bring along stands below their names."""
    view = QueueView(
        bookings=review.tomorrow,
        now=preferences.home.day_bounds(review.tomorrow_on)[0],
        home=preferences.home,
        hours=preferences.hours_on(review.tomorrow_on),
        wrap_up_minutes={},
        shown_id=None,
        fates={},
        width=width + 1,
        height=height - 1,  # one for its end
        brought={lesson_id: brought_words(brought) for lesson_id, brought in review.brought.items()},
    )
    ends = end_row(view)
    return [
        group("tomorrow", width, f"{short_date(review.tomorrow_on)}, {_minutes_tomorrow(review)}", margin=1),
        *(
            Option(row, id=name, disabled=True)
            if name.startswith(FREE_ROW)
            else Option(row, id=f"{LESSON}t@{review.tomorrow_on}:{name}")
            for name, row in queue_rows(view).items()
        ),
        *([Option(ends, disabled=True)] if ends is not None else []),
    ]


def _minutes_tomorrow(review: DayReview) -> str:
    minutes = sum(booking.lesson.minutes for booking in each_time_once(review.tomorrow))
    return minutes_of(minutes) if review.tomorrow else "no lessons"


def _tomorrow(review: DayReview, home: TeacherClock, width: int) -> list[Option]:
    options: list[Option] = [group(f"tomorrow, {short_date(review.tomorrow_on)}", width, _minutes_tomorrow(review))]
    name = min(_LONGEST_NAME, max((cell_len(b.student.name) for b in review.tomorrow), default=0))
    before = ""
    for booking in review.tomorrow:
        start, before = clock_column(home, booking.lesson.starts_at, before)
        brought = review.brought.get(booking.lesson.id)
        said = brought_words(brought) if brought is not None else ""
        row = _tomorrow_row(booking, start, name, said, home, width)
        options.append(Option(row, id=f"{LESSON}t@{review.tomorrow_on}:{booking.lesson.id}"))
    return options


def _tomorrow_row(
    booking: ScheduledLesson, start: str, name: int, brought: str, home: TeacherClock, width: int
) -> Content:
    lesson, quiet = booking.lesson, role("quiet")
    what = f"{padded(lesson.instrument or '', 9)} {lesson.minutes:>3}"
    at = len(start) + 2 + name + _GAP
    behind = at + len(what) + _GAP
    said = "  ".join(filter(None, [home.there(lesson.starts_at, booking.family.zone), brought]))
    return placed(
        width,
        (0, start, role("text")),
        (len(start), OPEN, role("text")),
        (len(start) + 2, padded(booking.student.name, name).rstrip(), role("text", "bold")),
        (at, what, quiet),
        (behind, cut_at_word(said, max(0, width - behind)), quiet),
    )


def _left_out_row(each: LeftOut, home: TeacherClock) -> Content:
    why = f": {each.because.reason}" if each.because.reason else ", paused" if isinstance(each.because, Pause) else ""
    said = f"{BREAK} {home.date_and_time(each.booking.lesson.starts_at)}  {each.booking.student.name}{why}"
    return Content.styled(said, role("quiet"))
