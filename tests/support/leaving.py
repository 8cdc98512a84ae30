"""A family with something of every kind that is kept, in a studio beside families that are like it.

Every word of its own is one that occurs nowhere else, so that its bytes can be searched for.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from itertools import pairwise
from pathlib import Path
from threading import Event

from support.outbox import TAKEN, Posted, posting_studio

from cockpit.clock import SetClock
from cockpit.desk.lookup import family_named, guardians_of
from cockpit.outlets.sender import ParcelSender
from cockpit.store.backups import back_up
from cockpit.studio.changes.pieces import Piece, PieceAlias, StrandLeft
from cockpit.studio.changes.recital import NotedThing, Recital, RecitalId, RecitalItem, RecitalItemId, RecitalNoted
from cockpit.studio.changes.records import Accepted, BoardLine, Change, Edit, Heard, MarkSet, added
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.inquiries.inquiry import Inquiry, InquiryId, InquiryStep, InquiryStepId, StepKind
from cockpit.studio.lessons.breaks import Break, BreakId, Pause, PauseId
from cockpit.studio.lessons.calls import CallLoss
from cockpit.studio.lessons.lesson import Kind, Lesson, LessonId
from cockpit.studio.lessons.scheduled import People
from cockpit.studio.lessons.weekly_times import StandingTime, StandingTimeId
from cockpit.studio.notes.notes import Mark
from cockpit.studio.people.people import Family, PlanForm, StudentId
from cockpit.studio.people.permissions import Permission, Shown
from cockpit.studio.pieces.given import GivenLine, read_lines
from cockpit.studio.post.channels import Channel
from cockpit.studio.post.delivery import Delivery
from cockpit.studio.post.family_letter import FamilyLetter, FamilyLetterId, LetterGuardian
from cockpit.studio.post.outgoing import answer_name
from cockpit.studio.post.parcel import Parcel
from cockpit.studio.values import replace

ROSTER = """student,weekday,time,minutes,family,email,zone,send_by,remark,call_link,guardian,phone
Ilse,Tuesday,16:00,30,Zwijndrecht,"ann@zwijn.example, per@zwijn.example",America/Phoenix,"mail, draft",kwetsbaar,https://call.example/zw,Annelotte; Pieterbaas,+31 655 504 471
Thorvald,Tuesday,17:00,30,Zwijndrecht,,,,,,,
Ilse,Tuesday,16:30,30,Okonjo,ada@okonjo.example,Europe/London,"mail, draft",gentle,https://call.example/ok,,
Mireille,Tuesday,18:00,45,Perreault,m@perreault.example,America/St_Johns,mail,,,,
"""
NOTES = (
    "Scales: Fis-Dur wiggelwaggel, q=72\nEtude: zestien maten\nMooi gedaan, vlinderlicht.\n"
    "Private: moeder is moe\nFollow-up: opbellen over schoolgeld\nNext time: duimstand nakijken"
)
OTHER_NOTES = "Piece: The Heron mm. 1-8\nPrivate: shy today\nFollow-up: send the duet"
NEWS = datetime(2026, 12, 1, 14, tzinfo=UTC)
GIVEN_AT = datetime(2026, 12, 1, 22, 47, 17, 471_117, tzinfo=UTC)
LOST_AT = datetime(2026, 12, 1, 22, 11, 17, 471_115, tzinfo=UTC)
# Words that stand nowhere but in what is kept about the family; the last ones are the teacher's own.
OPEN_WORDS = (
    "Zwijndrecht",
    "zwijn.example",
    "Thorvald",
    "wiggelwaggel",
    "zestien maten",
    "vlinderlicht",
    "call.example/zw",
    "Annelotte",
    "Pieterbaas",
    "waterhoen",
    "Zeeuws-Vlaanderen",
    "schildpad",
    "Roerdomp",
    "haverklap",
)
PRIVATE_WORDS = (
    "moeder is moe", "schoolgeld", "duimstand", "kwetsbaar", "verhuizing", "krabbelaar", "knieoperatie",
    "Aardwolf", "Dagmar", "buurvrouw", "na de vakantie", "655 504 471", "enkel voornaam", "proefles op woensdag", "22:11:17.471115", "22:47:17.471117",
    "kwikstaert", "wereldmuziek", "rietzanger", "koekoeksjong", "zenuwpees",
)  # fmt: skip
# As long as nobody is their student, an address of the family is what an inquiry of theirs is told by.
_ASKED = {"name": "Aardwolf", "child": "Dagmar", "source": "buurvrouw", "words": "Graag beginnen na de vakantie."}
WORDS = (*OPEN_WORDS, *PRIVATE_WORDS)


@dataclass
class DraftsReally:
    """A sender who writes drafts as the real one does, and takes every mail."""

    real: ParcelSender

    def carry(self, parcel: Parcel, may_go: Callable[[], bool]) -> Delivery:
        return self.real.carry(parcel, may_go) if parcel.way is Channel.DRAFT else TAKEN


def make_full_studio(folder: Path) -> None:
    """The studio on the evening of its day: notes sent and drafted, marks, a break, papers, a review, two backups."""
    clock = SetClock(NEWS)
    folder.mkdir(exist_ok=True)
    (folder / "settings.toml").write_text(
        'home_zone = "America/Chicago"\n[sending]\nways = "draft"\n[sending.mail]\nhost = "localhost"\nsecurity = "none"\n'
        'sender = "teacher@studio.example"\n'
    )
    with posting_studio(folder, clock=clock) as posted:
        posted.studio.enrolling.take_in(ROSTER)
        posted.finish("Ilse", "Zwijndrecht", NOTES)
        _ask(posted)
        back_up(folder, datetime(2026, 11, 30))
        posted.finish("Ilse", "Okonjo", OTHER_NOTES)
        posted.finish("Thorvald", "Zwijndrecht", "Piece: zestien maten achteruit")
        posted.clock.wind(seconds=11)
        posted.studio.desk.dispatch.hand_over(DraftsReally(ParcelSender(posted.studio.preferences.sending, folder)))
        family = family_of(posted, "Zwijndrecht")
        _keep_the_rest(posted, family)
        _tie(posted, family)
        _report(posted, family)
        desk = posted.studio.desk
        posted.studio.desk.ahead.write_messages(26)
        desk.reviewing.write_out(date(2026, 12, 1))
        # As a program that was killed while the preview and the board were open in the browser leaves it.
        (folder / "board.html").write_text("<p>vlinderlicht</p>")
        (folder / "previews").mkdir()
        (folder / "previews" / "preview.html").write_text("<p>vlinderlicht</p>")
        back_up(folder, datetime(2026, 12, 1))
        read = Event()
        desk.index_notes(read.set)
        assert read.wait(20)


def family_of(posted: Posted, name: str) -> Family:
    return family_named(posted.studio.store.reading.people(), name)


def _keep_the_rest(posted: Posted, family: Family) -> None:
    store = posted.studio.store
    assert store.writing is not None
    lesson = store.reading.lessons_between(NEWS, NEWS.replace(hour=22, minute=1))[0]
    line = "Scales: Fis-Dur wiggelwaggel, q=72"
    student = store.reading.people().students[lesson.student_id]
    away = Break(
        id=BreakId(store.writing.new_id()),
        family_id=family.id,
        from_on=date(2026, 12, 21),
        until_on=date(2026, 12, 28),
        reason="verhuizing",
    )
    paused = Pause(
        id=PauseId(store.writing.new_id()), student_id=student.id, from_on=date(2027, 6, 1), reason="knieoperatie"
    )
    letter = FamilyLetter(
        id=FamilyLetterId(store.writing.new_id()),
        whom="all",
        text="Rehearsal\n\nDear {family}, bring a stand.",
        made_at=NEWS,
    )
    edits = added(
        Permission(
            student_id=student.id, what=Shown.NAMED, is_given=True, said_on=date(2026, 12, 1), words="enkel voornaam"
        ),
        MarkSet(lesson_id=lesson.id, line=line, mark=Mark.MORE_WORK),
        Heard(lesson_id=lesson.id, line=line, tempo=66, clean_runs=2),
        CallLoss(lesson_id=lesson.id, lost_at=LOST_AT),
        Piece(student_id=student.id, key="kwikstaart", composer="waterhoen", origin="Zeeuws-Vlaanderen", measures=48),
        PieceAlias(student_id=student.id, key="kwikstaert", piece="kwikstaart", is_one=True),
        StrandLeft(student_id=student.id, strand="wereldmuziek", until_on=date(2027, 3, 1)),
        *_playing(store.reading.people(), family),
        BoardLine(lesson_id=lesson.id, words="rietzanger dorian", put_at=LOST_AT),
        away,
        paused,
        letter,
        LetterGuardian(
            letter_id=letter.id, guardian_id=guardians_of(store.reading, family.id)[0].id, given_at=GIVEN_AT
        ),
        Accepted(key=f"night: {lesson.standing_time_id}"),
    )
    practices = Edit(before=student, after=replace(student, practice_days=frozenset({0, 2}), plan=PlanForm.CHART))
    store.writing.apply(Change(said="keep", edits=(*edits, practices)))
    for each in _taken_back(student.id):
        store.writing.apply(Change(said="add", edits=(Edit(before=None, after=each),)))
        store.writing.apply(Change(said="take back", edits=(Edit(before=each, after=None),)))
    moves = [
        Stay(zone="America/Denver", from_on=date(2027, 8, 1)),
        Stay(zone="America/Boise", from_on=date(2027, 9, 1)),
    ]
    clocks = (family.zone, *(Home(zone="America/Phoenix", stays=tuple(moves[:count])) for count in (2, 1)))
    for was, then in pairwise(replace(family, zone=zone) for zone in clocks):
        store.writing.apply(Change(said="move", edits=(Edit(before=was, after=then),)))
    store.writing.settle_titles({"krabbelaar T.": "Thorvald", "Mimi": "Mireille"})


def _playing(people: People, family: Family) -> tuple[Recital | RecitalItem | RecitalNoted, ...]:
    """A recital with a duet of two families, and a rehearsal of it."""
    whole = Recital(
        id=RecitalId(4740), name="Winter tales", held_on=date(2026, 12, 19), at=time(12), zone="America/Chicago"
    )
    rehearsal = replace(whole, id=RecitalId(4741), parent_id=whole.id, is_rehearsal=True, held_on=date(2026, 12, 12))
    own = next(each for each in people.students.values() if each.family_id == family.id)
    other = next(each for each in people.students.values() if each.family_id != family.id)
    duet = [
        RecitalItem(id=RecitalItemId(4742), recital_id=whole.id, position=1, student_id=other.id, piece="The Heron"),
        RecitalItem(
            id=RecitalItemId(4743), recital_id=whole.id, position=1, student_id=own.id, piece="De reiger",
            costume="schildpad", note="zenuwpees", shown_as="Roerdomp", story="De haverklap.",
        ),
    ]  # fmt: skip
    noted = [
        RecitalNoted(item_id=each.id, recital_id=of.id, what=what, is_yes=True, said_on=date(2026, 12, 1))
        for each in duet
        for of, what in ((whole, NotedThing.BY_HEART), (rehearsal, NotedThing.REHEARSED))
    ]
    return (whole, rehearsal, *duet, *noted)


def _ask(posted: Posted) -> None:
    """Two inquiries: one that becomes the family's, and before that is in a backup as nobody's; and somebody else's."""
    writing = posted.studio.store.writing
    assert writing is not None
    asked = [
        Inquiry(id=InquiryId(4720), came_at=NEWS, email="aard@zwijn.example", age=8, wishes="tue after 4", **_ASKED),
        Inquiry(id=InquiryId(4721), came_at=NEWS, name="Ada Heron", email="ada@okonjo.example", words="The Heron"),
        Inquiry(id=InquiryId(4722), came_at=NEWS, email="PER@zwijn.example", **_ASKED),
    ]
    steps = [
        InquiryStep(id=InquiryStepId(4730 + n), inquiry_id=each.id, at=NEWS, what=StepKind.ANSWERED)
        for n, each in enumerate(asked)
    ]
    writing.apply(Change(said="ask", edits=added(*asked, *steps)))
    desk = posted.studio.desk
    for each in (asked[0], asked[1]):
        text = "Een proefles op woensdag?" if each.email == "aard@zwijn.example" else "The Heron on Wednesday?"
        letter = desk.letters.reply(each, text)
        desk.letters.put_out(letter, text, about=answer_name(InquiryStepId(each.id + 10)))


def _tie(posted: Posted, family: Family) -> None:
    store = posted.studio.store
    assert store.writing is not None
    asked = next(each for each in store.reading.inquiries() if each.email == "aard@zwijn.example")
    student = next(each for each in store.reading.people().students.values() if each.family_id == family.id)
    store.writing.apply(Change(said="tie", edits=(Edit(before=asked, after=replace(asked, student_id=student.id)),)))


def _report(posted: Posted, family: Family) -> None:
    """A progress sheet with a word of its own, in the folder and waiting in the outbox."""
    reading, desk = posted.studio.store.reading, posted.studio.desk
    booking = next(each for each in desk.day.bookings if each.family.id == family.id)
    note = reading.notes([booking.lesson.id])[booking.lesson.id]
    lines = [
        GivenLine(lesson_id=booking.lesson.id, on=date(2026, 12, 1), read=each)
        for each in read_lines(note.body, posted.studio.preferences.labels)
    ]
    sheet = desk.reporting.sheet(booking, lines, {}, words="Een koekoeksjong van een leerling.")
    desk.reporting.put_out(booking, sheet)


def _taken_back(student_id: StudentId) -> tuple[Lesson | StandingTime, ...]:
    return (
        Lesson(
            id=LessonId("x4710"),
            student_id=student_id,
            kind=Kind.EXTRA,
            instrument="wiggelwaggel",
            starts_at=datetime(2026, 12, 12, 16, tzinfo=UTC),
            minutes=30,
        ),
        StandingTime(
            id=StandingTimeId(4711),
            student_id=student_id,
            weekday=4,
            at=time(17),
            minutes=30,
            instrument="wiggelwaggel",
            from_on=date(2027, 1, 8),
        ),
    )
