"""The steps that the teacher took, so that the last one can be taken back."""

from collections.abc import Callable

from cockpit.desk.ports import Writing
from cockpit.studio.changes.records import Change, Edit, Record
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.lesson import Lesson, LessonId
from cockpit.studio.lessons.weekly_times import StandingTime, StandingTimeId
from cockpit.studio.post.outgoing import DeliveryStatus, Outgoing

_REMEMBERED = 200
_Key = StandingTimeId | LessonId


class Steps:
    """Carries out changes and remembers them. Without `writing` each is refused with the sentence `why_not`.

    In a rehearsal nothing comes to wait in the outbox: it would go when this copy of the studio is opened at its own time.
    """

    def __init__(self, writing: Writing | None, why_not: str | None, *, is_rehearsal: bool = False) -> None:
        self._is_rehearsal = is_rehearsal
        self._writing = writing
        self._why_not = why_not or "Nothing can be changed here."
        self._taken: list[Change] = []

    @property
    def writing(self) -> Writing:
        """What changes the records.

        Raises:
            Refused: this program may only read.
        """
        if self._writing is None:
            raise Refused(self._why_not)
        return self._writing

    @property
    def last(self) -> Change | None:
        """The step that undo would take back."""
        return self._taken[-1] if self._taken else None

    @property
    def can_write(self) -> bool:
        """Whether anything can be changed."""
        return self._writing is not None

    def new_id(self) -> int:
        """A number for a new record.

        Raises:
            Refused: this program may only read.
        """
        return self.writing.new_id()

    def take(self, said: str, *edits: Edit, durable: bool = False) -> None:
        """Carries out a step that can be undone; `said` names it after "Undone:", as in "finishing Ilse's lesson"."""
        change = Change(said=said, edits=edits)
        self._apply(change, durable=durable)
        self._taken = [*self._taken[-_REMEMBERED:], change]

    def keep(self, before: Record | None, after: Record) -> None:
        """Keeps a record that is not a step of the teacher's, and that undo leaves alone."""
        self._apply(Change(said="", edits=(Edit(before=before, after=after),)), durable=False)

    def record(self, *changed: tuple[Record | None, Record | None]) -> None:
        """Keeps changed records, each before and after, None where it is not there; undo leaves them alone. They are on the disk when this returns."""
        edits = tuple(Edit(before=before, after=after) for before, after in changed)
        self._apply(Change(said="", edits=edits), durable=True)

    def _apply(self, change: Change, *, durable: bool) -> None:
        if self._is_rehearsal and any(map(_comes_to_wait, change.edits)):
            raise Refused("A rehearsal sends nothing, now or later.")
        self.writing.apply(change, durable=durable)

    def undo(self) -> Change:
        """Takes the last step back, and returns it.

        Raises:
            Refused: there is none.
        """
        if not self._taken:
            raise Refused("Nothing to undo since you opened the cockpit.")
        change = self._taken[-1]
        try:
            self.writing.apply(change.turned_around(), durable=True)
        except Refused:
            self._taken = _without_its_ground(self._taken)  # it stays for good
            raise
        self._taken.pop()
        return change


class ReservedNumbers:
    """Numbers for the new records of a proposal. They stay the same until they are used: a line is read again at each of its keys."""

    def __init__(self, new_id: Callable[[], int]) -> None:
        self._new_id = new_id
        self._reserved: list[int] = []

    def at(self, place: int) -> int:
        """The number for the record at a place among them."""
        while len(self._reserved) <= place:
            self._reserved.append(self._new_id())
        return self._reserved[place]

    def use(self) -> None:
        """Notes that the numbers were used: from now on others are given."""
        self._reserved = []


def _comes_to_wait(edit: Edit) -> bool:
    """Whether something would go out after a change that was not to go before it."""
    return _waits(edit.after) and not _waits(edit.before)


def _waits(record: Record | None) -> bool:
    return isinstance(record, Outgoing) and record.fate is DeliveryStatus.WAITING


def _without_its_ground(taken: list[Change]) -> list[Change]:
    """The steps that can still be taken back when the last one cannot: those that it was not made on."""
    kept: list[Change] = []
    stays = _changed(taken[-1])
    for change in reversed(taken[:-1]):
        if stays & _changed(change):
            stays |= _changed(change)
        else:
            kept.insert(0, change)
    return kept


def _changed(change: Change) -> frozenset[_Key]:
    """The weekly times and lessons that a change is about."""
    records = (edit.before or edit.after for edit in change.edits)
    return frozenset(record.id for record in records if isinstance(record, StandingTime | Lesson))
