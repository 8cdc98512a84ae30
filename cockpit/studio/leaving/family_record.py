"""Everything that is kept about one family, as one value; and the same without what is the teacher's own."""

from collections.abc import Iterable, Mapping

from cockpit.studio.calendar.collisions import parts_of
from cockpit.studio.calendar.events import EventTitle
from cockpit.studio.changes.pieces import Piece, PieceAlias, PieceState, StrandLeft
from cockpit.studio.changes.recital import Recital, RecitalItem, RecitalNoted
from cockpit.studio.changes.records import Accepted, BoardLine, Export, FollowUp, Heard, MarkSet, Note
from cockpit.studio.inquiries.inquiry import Inquiry, InquiryStep
from cockpit.studio.lessons.breaks import Break, Pause
from cockpit.studio.lessons.calls import CallLoss
from cockpit.studio.lessons.lesson import Lesson, LessonId
from cockpit.studio.lessons.weekly_times import ImportedTime, StandingTime
from cockpit.studio.lessons.withdrawn import WithdrawnClock, WithdrawnLesson, WithdrawnTime
from cockpit.studio.notes.notes import Line, NoteLine, for_family
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.people.people import Family, Guardian, Student, name_key
from cockpit.studio.people.permissions import Permission
from cockpit.studio.post.family_letter import LetterGuardian
from cockpit.studio.post.outgoing import Outgoing
from cockpit.studio.values import Value, replace


class FamilyRecord(Value):
    """One family with all that hangs on it. Moments are UTC.

    `titles` are the titles of a calendar that stand for its students; `accepted` names troubles of its lessons that are
    to stay. `has_private` tells whether the teacher's own words are in it, `labels` are those of her notes.
    """

    family: Family
    guardians: tuple[Guardian, ...]
    students: tuple[Student, ...]
    permissions: tuple[Permission, ...] = ()
    standing_times: tuple[StandingTime, ...]
    lessons: tuple[Lesson, ...]
    notes: tuple[Note, ...]
    marks: tuple[MarkSet, ...]
    heard: tuple[Heard, ...]
    follow_ups: tuple[FollowUp, ...]
    exports: tuple[Export, ...]
    breaks: tuple[Break, ...]
    pauses: tuple[Pause, ...]
    outgoing: tuple[Outgoing, ...]
    accepted: tuple[Accepted, ...]
    imported_times: tuple[ImportedTime, ...]
    withdrawn_lessons: tuple[WithdrawnLesson, ...]
    withdrawn_times: tuple[WithdrawnTime, ...]
    titles: Mapping[str, str]
    inquiries: tuple[Inquiry, ...] = ()
    inquiry_steps: tuple[InquiryStep, ...] = ()
    call_losses: tuple[CallLoss, ...] = ()
    withdrawn_clocks: tuple[WithdrawnClock, ...] = ()
    pieces: tuple[Piece, ...] = ()
    piece_aliases: tuple[PieceAlias, ...] = ()
    strands_left: tuple[StrandLeft, ...] = ()
    letters_given: tuple[LetterGuardian, ...] = ()
    recitals: tuple[Recital, ...] = ()
    recital_items: tuple[RecitalItem, ...] = ()
    recital_noted: tuple[RecitalNoted, ...] = ()
    board_lines: tuple[BoardLine, ...] = ()
    has_private: bool = True
    labels: Labels = BUILT_IN


def titles_of(titles: Mapping[str, str], students: Iterable[str], others: Iterable[str]) -> Mapping[str, str]:
    """The titles of a calendar that stand for students of a family by their names, and for nobody of another.

    So does one of a lesson in a series of theirs, whoever's lesson that is: it has the title of the series in it.
    """
    theirs = set(map(name_key, students)) - set(map(name_key, others))

    def is_theirs(title: str, name: str) -> bool:
        series = EventTitle.remembered(title).series
        return name_key(name) in theirs or (series is not None and name_key(titles.get(series, series)) in theirs)

    return {title: name for title, name in titles.items() if is_theirs(title, name)}


def accepted_of(keys: Iterable[str], ids: Iterable[str]) -> list[str]:
    """The keys of accepted problems that name one of a family's weekly times or lessons, by their ids; in order."""
    theirs = set(ids)
    return sorted(key for key in keys if theirs & parts_of(key))


def written_out(line: NoteLine) -> str:
    """An assignment of a family's notes, or a thing to get, or a goal, as one line with its label."""
    return f"{line.own_label or line.area or ('get' if line.line is Line.TO_GET else line.line)}: {line.text}"


def without_private(record: FamilyRecord) -> FamilyRecord:
    """What may be given away: made by `for_family` from the notes as they stand now.

    Inquiries, permissions, follow-ups, lost calls, the board of a lesson that runs, what she noted for recitals, who she typed plays along, which may be another family's, and how a recital is timed, what she says of pieces but their composer and origin, remarks on students and their levels, reasons of breaks, of pauses, of ends, and of lessons not taught, titles out of her
    calendar and what she accepted are left out; so are the words of what went out, since a line in them may have been made
    private afterwards, and the addresses and phones of guardians, since none of them is to see another's.
    """
    bodies = {note.lesson_id: note.body for note in record.notes}
    return replace(
        record,
        guardians=tuple(replace(each, email=None, phone=None) for each in record.guardians),
        students=tuple(replace(student, remark=None, level=None, ended_because=None) for student in record.students),
        permissions=(),
        standing_times=tuple(replace(each, shares=None) for each in record.standing_times),
        lessons=tuple(replace(lesson, reason=None, more_minutes=0) for lesson in record.lessons),
        notes=tuple(replace(note, body=_body(note.body, record.labels)) for note in record.notes),
        marks=tuple(
            replace(mark, line=line)
            for mark in record.marks
            if (line := _line(bodies, mark.lesson_id, mark.line, record.labels))
        ),
        heard=tuple(
            replace(each, line=line)
            for each in record.heard
            if (line := _line(bodies, each.lesson_id, each.line, record.labels))
        ),
        follow_ups=(),
        breaks=tuple(replace(each, reason="") for each in record.breaks),
        pauses=tuple(replace(each, reason="") for each in record.pauses),
        outgoing=tuple(
            replace(item, address="", title="", text="", page="", next_lesson=None, reason=None)
            for item in record.outgoing
            if item.inquiry_id is None
        ),
        titles={},
        accepted=(),
        inquiries=(),
        inquiry_steps=(),
        call_losses=(),
        pieces=tuple(
            replace(each, is_chosen=False, measures=None, wanted_on=None, state=PieceState.LEARNING, state_since=None)
            for each in record.pieces
            if each.composer or each.origin
        ),
        piece_aliases=(),
        strands_left=(),
        letters_given=(),
        recitals=tuple(
            replace(
                each,
                minutes_limit=None,
                changeover=0,
                opening_seconds=0,
                closing_seconds=0,
                began_at=None,
                ended_at=None,
            )
            for each in record.recitals
        ),
        recital_items=tuple(map(_given_away, record.recital_items)),
        recital_noted=(),
        board_lines=(),
        has_private=False,
    )


def _given_away(item: RecitalItem) -> RecitalItem:
    played = replace(item, began_at=None, ended_at=None, is_skipped=False, is_computed=False)
    return replace(played, note=None, with_whom=None, pin=None, pinned_after=None, pinned_before=None)


def _body(body: str, labels: Labels) -> str:
    seen = for_family(body, labels)
    parts = ("\n".join(map(written_out, seen.marked)), "\n".join(seen.remarks))
    return "\n\n".join(part for part in parts if part)


def _line(bodies: Mapping[LessonId, str], lesson_id: LessonId, typed: str, labels: Labels) -> str | None:
    """The line that a mark stands on as the family sees it; None where it does not, or not any more."""
    seen = for_family(bodies.get(lesson_id, ""), labels)
    return next((written_out(line) for line in seen.marked if line.typed == typed), None)
