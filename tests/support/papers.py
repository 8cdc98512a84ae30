"""Practice notes and reviews of the invented studio, ready to be made into documents."""

from datetime import date

from support.plans import LESSON_ON, NEXT_ON
from support.studio import ILSE, MIREILLE, NALANI, TEODOR, booking, home, student

from cockpit.studio.changes.records import Export, FollowUp, Note
from cockpit.studio.day.review import DayReview, OwedFollowUp, review_day
from cockpit.studio.lessons.lesson import Kind, Outcome
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import PlanForm
from cockpit.studio.practice.given_again import Earlier
from cockpit.studio.practice.lesson_plan import lesson_plan
from cockpit.studio.practice.notes import PracticeNotes, practice_notes
from cockpit.studio.practice.rules import EVERY_DAY, PracticeRules
from cockpit.studio.values import replace

NOTHING_EARLIER = Earlier(marks={}, heard={})
EVENING = home("2026-12-01 20:00")

USUAL = """\
Warm-up: open strings, whole bows, 3 min
Scales: D major 2 oct, q = 72 to 88, 5 min
Private: she seems tired, ask her mother
Piece: Bourrée, measures 1-8 *slowly*, then 9-16
Listening: https://example.org/a_b_*c*d, twice

The left hand is much freer now.
Bowing:
  - long on the half notes
  - short on the quarters

C# is still a little low: use the 3rd finger.
Follow-up: send the recital date
Next time: second position
"""

TRICKY = """\
[bowing]: slow
1. étude
# 3
<b>bold</b> & &ouml; \\ `code`
Dvořák
-
*not emphasized* and _not this_
    four blanks
a | b
--|--
Theory: *, _, [x](y), 1., #, <i>
"""


def paper(body: str = USUAL, who: ScheduledLesson | None = None, *, is_booked_again: bool = True) -> PracticeNotes:
    """The practice notes of Ilse's lesson, or of another, on a 12-hour clock."""
    next_at = home("2026-12-08 16:00") if is_booked_again else None
    return practice_notes(who or booking(began_at=home("2026-12-01 16:02")), body, next_at, 12)


def planned(
    body: str = USUAL,
    daily: int | None = 30,
    practice_days: frozenset[int] = EVERY_DAY,
    next_on: date = NEXT_ON,
    form: PlanForm = PlanForm.LIST,
) -> PracticeNotes:
    """The practice notes of Ilse's lesson with the plan of the week until the next one; nothing was heard before."""
    notes = replace(paper(body), form=form)
    who = student(daily_minutes=daily, practice_days=practice_days, plan=form)
    plan = lesson_plan(notes.notes, who, (LESSON_ON, next_on), NOTHING_EARLIER, PracticeRules())
    return replace(notes, plan=plan)


def review() -> DayReview:
    """A Tuesday evening: one lesson taught and sent, one without notes, one absent, one cancelled, one still to come."""
    taught = booking(began_at=home("2026-12-01 16:02"), finished_at=home("2026-12-01 16:31"))
    bare = booking(
        TEODOR,
        starts_at=home("2026-12-01 16:30"),
        minutes=45,
        began_at=home("2026-12-01 16:31"),
        finished_at=home("2026-12-01 17:15"),
    )
    absent = booking(MIREILLE, starts_at=home("2026-12-01 17:15"), outcome=Outcome.ABSENT)
    cancelled = booking(NALANI, starts_at=home("2026-12-01 18:00"), outcome=Outcome.CANCELLED)
    late = booking(NALANI, id="x1", kind=Kind.TRIAL, starts_at=home("2026-12-01 21:00"), instrument=None)
    note = Note(lesson_id=taught.lesson.id, body=USUAL, changed_at=home("2026-12-01 16:30"))
    export = Export(
        lesson_id=taught.lesson.id,
        path="notes/Brandvold/2026-12-01 Ilse.md",
        is_final=True,
        exported_at=home("2026-12-01 16:31"),
    )
    lessons, missing = review_day(
        [taught, bare, absent, cancelled, late], {taught.lesson.id: note}, {taught.lesson.id: export}, EVENING
    )
    owed = FollowUp(lesson_id=taught.lesson.id, body="send the *recital* date")
    return DayReview(
        on=date(2026, 12, 1),
        lessons=lessons,
        missing=missing,
        owed=(OwedFollowUp(follow_up=owed, student=ILSE.name, noted_at=taught.lesson.starts_at),),
        tomorrow_on=date(2026, 12, 2),
        tomorrow=(
            booking(starts_at=home("2026-12-02 16:00")),
            booking(TEODOR, starts_at=home("2026-12-02 18:30"), outcome=Outcome.CANCELLED),
        ),
    )
