"""What may be shown of a student: who said so when, until when, and what that comes to on a day.

What nobody said is not allowed. This is general information; local rules and a licensed adviser decide.
"""

from collections.abc import Iterable
from datetime import date, timedelta
from enum import StrEnum

from cockpit.studio.clocks.words import long_date
from cockpit.studio.people.people import StudentId
from cockpit.studio.values import Value

# Common practice, no source.
_TOLD_BEFORE = timedelta(days=30)


class Shown(StrEnum):
    """How a student can be shown to others than the family."""

    RECITAL = "seen in a recital"
    RECORDED = "recorded"
    NAMED = "named"
    PICTURED = "in pictures"


class PermissionSaid(Value):
    """What is said of one way to be shown. One that is given may end with a last day; `words` are the teacher's own."""

    what: Shown
    is_given: bool
    until_on: date | None = None
    words: str = ""


class Permission(Value):
    """What a guardian, or an adult student, said of one way to be shown, on `said_on`, a day of the teacher's clock.

    All of it is for the teacher alone.
    """

    student_id: StudentId
    what: Shown
    is_given: bool
    said_on: date
    until_on: date | None = None
    words: str = ""

    @property
    def said(self) -> PermissionSaid:
        """What is said, of whomever and whenever."""
        return PermissionSaid(what=self.what, is_given=self.is_given, until_on=self.until_on, words=self.words)


def permissions_after(
    student_id: StudentId, known: Iterable[Permission], said: Iterable[PermissionSaid], today: date
) -> tuple[Permission, ...]:
    """What there is of a student when some of it is said on a date; what was said so before stays as it was."""
    before = {each.what: each for each in known}
    fresh = {
        each.what: before[each.what]
        if each.what in before and before[each.what].said == each
        else Permission(
            student_id=student_id,
            what=each.what,
            is_given=each.is_given,
            said_on=today,
            until_on=each.until_on,
            words=each.words,
        )
        for each in said
    }
    return tuple(found for what in Shown if (found := fresh.get(what) or before.get(what)) is not None)


def allowed(permissions: Iterable[Permission], what: Shown, on: date) -> bool:
    """Whether a student may be shown in a way on a day, by all that was said of that student; no, where nobody said so."""
    said = [each for each in permissions if each.what is what and each.said_on <= on]
    return bool(said) and all(each.is_given and on <= (each.until_on or date.max) for each in said)


def running_out(permissions: Iterable[Permission], today: date) -> tuple[Permission, ...]:
    """Those that are given and end within 30 days of a date, the first to end first."""
    ends = ((each.until_on, each) for each in permissions if each.is_given and each.until_on is not None)
    soon = [(on, each) for on, each in ends if today <= on <= today + _TOLD_BEFORE]
    return tuple(each for _, each in sorted(soon, key=lambda pair: (pair[0], pair[1].student_id, pair[1].what)))


def said_words(said: PermissionSaid) -> str:
    """It in words: `may be recorded through Wednesday, June 30, 2027`, `may not be in pictures`."""
    may = "may be" if said.is_given else "may not be"
    until = f" through {long_date(said.until_on)}" if said.until_on is not None else ""
    words = f" ({said.words})" if said.words else ""
    return f"{may} {said.what}{until}{words}"


def permissions_cell(said: Iterable[PermissionSaid]) -> str:
    """All of it as a cell of a roster, which is read as the same again: `named; not in pictures`."""
    return "; ".join(_entry(each) for each in sorted(said, key=lambda each: list(Shown).index(each.what)))


def _entry(said: PermissionSaid) -> str:
    until = f" until {said.until_on.isoformat()}" if said.until_on is not None else ""
    words = f': "{said.words}"' if said.words else ""
    return f"{'' if said.is_given else 'not '}{said.what}{until}{words}"
