"""The sample's past, taught through the desk as a teacher would teach it."""

import tomllib
from datetime import date, datetime, time, timedelta
from importlib import resources

from cockpit.clock import SetClock
from cockpit.desk.bringing_in.enrolling import Enrolling
from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.desk import Desk
from cockpit.studio.assignments.last_lesson import GivenAssignment
from cockpit.studio.changes.recital import NotedThing
from cockpit.studio.clocks.moments import moment
from cockpit.studio.notes.areas import Area
from cockpit.studio.notes.notes import Line, Mark, NoteLine
from cockpit.studio.people.people import StudentId
from cockpit.studio.pieces.history import PieceHistory
from cockpit.studio.pieces.keys import piece_of
from cockpit.studio.values import replace

HOME_ZONE = "America/Chicago"
DAY = date(2026, 12, 1)
MOMENT = moment(datetime.combine(DAY, time(16, 12)), HOME_ZONE)
SETTINGS = f'home_zone = "{HOME_ZONE}"\nhours = 12\nfamily_hours = 12\ntheme = "ebony"\n'
_WEEK = timedelta(days=7)
_WEEKS_OF_HISTORY = 2
_HOW = " -> "
_NOT = "not "
_BOTH = "may be seen in a recital and named"
# Each by the student, by how many days after the sample's day the next lesson is, and as it is typed.
_PERMISSIONS = (
    ("Ilse", 0, "may be named, recorded until dec 18: for her cousins"),
    ("Ilse", 0, "may be seen in a recital"),
    ("Ishaan", 0, "may be seen in a recital, may not be in pictures"),
    *((name, 0, _BOTH) for name in ("Eilidh", "Teodor", "Mireille", "Nalani")),
    *((name, 1, _BOTH) for name in ("Wren", "Tobin")),
    ("Marguerite", 3, _BOTH),
)
_PLANNED_AT = moment(datetime.combine(date(2026, 11, 27), time(10)), HOME_ZONE)
_FOR_THE_BOARD = "Clap {rhythm 4/4 q e e h} before you play it."

_LETTER = (
    "Rehearsal on Saturday\n\nDear {family},\n\n"
    "We rehearse for Winter Tales on Saturday, December 12, at noon on my clock in Chicago. {student} is to have a stand "
    "beside the camera, and the cello tuned before we begin. The link is the one of every lesson.\n\n"
    "Your next lesson is {time}.\n"
)


def enroll(enrolling: Enrolling) -> None:
    """Brings the sample's students in."""
    enrolling.take_in(_text("roster.csv"))


def teach_weeks(desk: Desk, clock: SetClock, until: datetime) -> None:
    """Teaches the nine weeks before those of `teach_history`: what one looks back on. Nothing of them goes out."""
    weeks = tomllib.loads(_text("weeks.toml"))
    students = {name: notes for name, notes in weeks.items() if name not in {"said", "kept", "went"}}
    count = max(map(len, students.values()))
    kept = {date.fromisoformat(each["on"]): each for each in weeks["kept"]}
    for week in range(count):
        on = DAY - _WEEK * (count + _WEEKS_OF_HISTORY - week)
        typed = {student: notes[week] for student, notes in students.items()}
        heard = {student: next(filter(None, notes[:week][::-1]), "") for student, notes in students.items()}
        _teach_week(desk, clock, on, (typed, heard), until)
        if on in kept:
            desk.pages().keep_alive(*_piece(desk, kept[on]["student"], kept[on]["piece"]))
    desk.day.open()


def tell_more(desk: Desk) -> None:
    """Says how some assignments of the last weeks went, what the teacher says of pieces, and theory in the lesson that runs."""
    weeks = tomllib.loads(_text("weeks.toml"))
    for each in weeks["went"]:
        desk.day.open(date.fromisoformat(each["on"]))
        booking = next(booking for booking in desk.day.bookings if booking.student.name == each["student"])
        earlier = desk.looking_back.lesson(booking.lesson.id)
        for given in earlier.given if earlier is not None else ():
            if given.line.typed.startswith(each["began"]):
                _went(desk, given, each["how"])
    for each in weeks["said"]:
        student_id, history = _piece(desk, each["student"], each["piece"])
        desk.arranging.do(desk.pages().propose(student_id, history, each["line"]))
    desk.day.open()
    running = desk.day.running
    if running is not None:
        desk.board.write_below(running.lesson.id, _FOR_THE_BOARD)


def _teach_week(
    desk: Desk, clock: SetClock, on: date, notes: tuple[dict[str, str], dict[str, str]], until: datetime
) -> None:
    """Teaches a day of some weeks ago: what was typed, and how what was typed the week before went."""
    typed, heard = notes
    desk.day.open(on)
    for booking in desk.day.bookings:
        lesson, student = booking.lesson, booking.student.name
        if lesson.ends_at > until:
            return
        clock.at = lesson.starts_at
        desk.day.go_to(lesson.id)
        if not typed[student]:
            desk.teaching.mark_absent()
            continue
        last = desk.notes.sheet(booking).last
        how = dict(each.split(_HOW) for each in heard.get(student, "").splitlines() if _HOW in each)
        for given in last.assignments if last is not None else ():
            if given.line.typed in how:
                _went(desk, given, how[given.line.typed])
        desk.teaching.begin()
        body = "\n".join(line.split(_HOW)[0] for line in typed[student].strip("\n").splitlines())
        desk.notes.write(lesson.id, body)
        clock.at = lesson.ends_at
        desk.teaching.finish()


def _went(desk: Desk, given: GivenAssignment, how: str) -> None:
    """Notes how an assignment went: a tempo, a mark, or both."""
    for part in how.split(", "):
        if part.isdigit():
            desk.hearing.keep_tempo(given, int(part))
        else:
            desk.hearing.mark(given, Mark(part))


def _piece(desk: Desk, student: str, title: str) -> tuple[StudentId, PieceHistory]:
    found = desk.finding.student(student).student
    line = NoteLine(line=Line.ASSIGNMENT, text=title, typed=f"Piece: {title}", area=Area.PIECE)
    return found.id, desk.pages().history(found.id, str(piece_of(line)))


def teach_history(desk: Desk, clock: SetClock, until: datetime) -> None:
    """Teaches the weeks before the sample's day, and that day up to a UTC moment: the lesson then is left running."""
    history = tomllib.loads(_text("history.toml"))
    today: dict[str, str] = history.pop("today")
    weeks = max(len(notes) for notes in history.values())
    for week in range(weeks):
        on = DAY - _WEEK * (weeks - week)
        _teach_day(desk, clock, {student: notes[week] for student, notes in history.items()}, on, until)
    _teach_day(desk, clock, today, DAY, until)
    clock.at = until
    _pause(desk)


def _pause(desk: Desk) -> None:
    """Wren is away for the last weeks of summer, and her time is kept; her brother goes on."""
    desk.day.open(DAY + timedelta(days=1))
    wren = next(booking for booking in desk.day.bookings if booking.student.name == "Wren")
    desk.arranging.do(desk.arranging.propose(Purpose.PAUSE, wren, "2027-08-02 to 2027-08-31: with grandma"))
    desk.day.open()


def ask_for_permissions(desk: Desk) -> None:
    """Says how students may be shown: all who play in the recital may be named but one, and one word ends before it."""
    for name, days, line in _PERMISSIONS:
        desk.day.open(DAY + timedelta(days=days))
        booking = next(booking for booking in desk.day.bookings if booking.student.name == name)
        desk.arranging.do(desk.arranging.propose(Purpose.DETAILS, booking, line))
    desk.day.open()


def plan_recital(desk: Desk, clock: SetClock, until: datetime) -> None:
    """Plans the recital in December, three weeks before it; not where the sample's moment (UTC) is before that."""
    if until < _PLANNED_AT:
        return
    clock.at = _PLANNED_AT
    recitals, planned = desk.recitals(), tomllib.loads(_text("recital.toml"))
    recitals.lines.do(recitals.lines.propose_new(planned["line"]))
    (listed,) = recitals.reading.view().coming
    recital_id = listed.recital.id
    recitals.lines.do(recitals.lines.propose_child(recital_id, planned["rehearsal"], is_rehearsal=True))
    for each in planned["items"]:
        student = desk.finding.student(each["student"]).student
        recitals.lines.do(recitals.lines.propose_item(recital_id, student.id, each["line"]))
        item = recitals.reading.items(recital_id)[-1]
        for noted in each["noted"]:
            what = NotedThing(noted.removeprefix(_NOT))
            recitals.steps.note(item, what, recital_id, is_yes=not noted.startswith(_NOT))
    clock.at = until


def begin_letter(desk: Desk) -> None:
    """Begins a letter to the families of all who play the cello; it is not sent."""
    families = desk.families()
    families.keep(replace(families.fresh(), whom="cello", text=_LETTER))


def ask_about_lessons(desk: Desk, clock: SetClock, until: datetime) -> None:
    """The inquiries before a UTC moment: one has waited since yesterday, one has a trial on Thursday, one is asked again."""
    inquiring = desk.inquiring()
    asked = tomllib.loads(_text("inquiries.toml"))
    for each in asked["inquiries"]:
        came_at = moment(datetime.fromisoformat(each["came"]), HOME_ZONE)
        if came_at >= until:
            continue
        clock.at = came_at
        inquiring.do(inquiring.propose(None, Purpose.INQUIRY, each["line"]))
        number = max(standing.course.inquiry.id for standing in inquiring.view().open)
        inquiring.keep_words(number, each["words"])
        if "answered" in each and (answered_at := moment(datetime.fromisoformat(each["answered"]), HOME_ZONE)) < until:
            clock.at = answered_at
            inquiring.answering.copied(number, inquiring.answering.letter(number).text)
        if "trial" in each:
            line = f"{inquiring.line(number, Purpose.TRIAL)} {each['trial']}"
            inquiring.do(inquiring.propose(number, Purpose.TRIAL, line))
    clock.at = until


def _teach_day(desk: Desk, clock: SetClock, notes: dict[str, str], on: date, until: datetime) -> None:
    desk.day.open(on)
    for booking in desk.day.bookings:
        lesson, student = booking.lesson, booking.student.name
        if lesson.starts_at >= until:
            return
        clock.at = lesson.starts_at
        desk.day.go_to(lesson.id)
        desk.teaching.begin()
        sheet = desk.notes.sheet(booking)
        if sheet.last is not None and lesson.ends_at <= until:
            for assignment, mark in zip(sheet.last.assignments, (Mark.DONE, Mark.MORE_WORK, Mark.DONE), strict=False):
                desk.hearing.mark(assignment, mark)
        body = notes.get(student, "").strip("\n")
        if body:
            desk.notes.write(lesson.id, body)
        if lesson.ends_at <= until:
            clock.at = lesson.ends_at
            desk.teaching.finish()


def _text(name: str) -> str:
    return (resources.files("cockpit.sample") / name).read_text(encoding="utf-8")
