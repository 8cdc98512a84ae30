"""A family forgotten: out of the database, its copies and the papers; and taken back while the program has not ended."""

import json
from collections.abc import Callable, Iterable
from datetime import date, timedelta
from pathlib import Path
from typing import Protocol

from cockpit.desk.day.board import PAGE as BOARD_PAGE
from cockpit.desk.leaving.leaving import Files, drafts_about, drafts_of, messages_of, papers_of_others
from cockpit.desk.ports import Reading
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.errors import CockpitError, Refused
from cockpit.studio.leaving.family_record import FamilyRecord
from cockpit.studio.leaving.leaver import Forgotten, Leaver, NamingPaper, is_named, leaver_of, names_of
from cockpit.studio.people.people import Family, FamilyId, name_key
from cockpit.studio.progress import Report, in_steps, unheard
from cockpit.studio.values import Value, replace

_DAY = timedelta(days=1)
# Where a name may stand in the database for others, by what the teacher knows it as.
_PLACES = {
    "note": "notes",
    "follow_up": "follow-ups",
    "student": "remarks",
    "recital": "recitals",
    "recital_item": "recitals",
    "family_letter": "letters",
    "outgoing": "the outbox",
    "break": "breaks",
    "pause": "pauses",
    "lesson": "reasons of lessons",
    "standing_time": "weekly times",
    "calendar_title": "titles of your calendar",
    "inquiry": "inquiries",
    "duty": "what you owe",
}
_FOLDERS = ("notes", "drafts", "messages", "reviews", "previews", "recitals")


class RowsOfFamilies(Protocol):
    """The rows of the open database."""

    def fold(self) -> None: ...  # noqa: D102 said where it is done
    def naming(self, family_id: FamilyId, words: Iterable[str]) -> tuple[NamingPaper, ...]: ...  # noqa: D102
    def delete(self, family_id: FamilyId, words: Iterable[str]) -> None: ...  # noqa: D102
    def scrub(self) -> None: ...  # noqa: D102
    def put_back(self, copy: Path, family_id: FamilyId) -> None: ...  # noqa: D102
    def texts(self) -> Iterable[tuple[str, str]]: ...  # noqa: D102


class Copies(Protocol):
    """The backups and the databases that were set aside."""

    def names(self) -> tuple[str, ...]: ...  # noqa: D102 said where it is done
    def with_logs(self, names: Iterable[str]) -> tuple[str, ...]: ...  # noqa: D102
    def lone_logs(self) -> tuple[str, ...]: ...  # noqa: D102
    def make(self, name: str, leaver: Leaver) -> bool: ...  # noqa: D102
    def put_in_place(self, names: Iterable[str]) -> None: ...  # noqa: D102
    def tidy(self) -> None: ...  # noqa: D102


class RecoveryFile(Protocol):
    """The file that holds others as they were."""

    path: Path

    def keep(self, names: Iterable[str], about: str) -> None: ...  # noqa: D102 said where it is done
    def about(self) -> str | None: ...  # noqa: D102
    def put_back(self, but: str) -> None: ...  # noqa: D102
    def extract(self, name: str, target: Path) -> None: ...  # noqa: D102
    def remove(self) -> None: ...  # noqa: D102


class RemovableFiles(Files, Protocol):
    """The files of the studio folder."""

    def remove(self, names: Iterable[str]) -> None: ...  # noqa: D102 said where it is done


class Keepers(Value):
    """All that holds words of a family. `database` is the path of the open one."""

    rows: RowsOfFamilies
    copies: Copies
    recovery: RecoveryFile
    files: RemovableFiles
    database: Path


class LeftOver(Value):
    """What a recovery file says of the family in it. `reviews` are those that named it."""

    family_id: FamilyId
    name: str
    reviews: tuple[str, ...]


class Forgetting:
    """Forgets families. `write_review` writes the review of a day anew; `home` is the teacher's clock.

    The database is changed last but for the reviews: whoever is cut off before finds the family there, and forgets again.
    """

    def __init__(
        self, reading: Reading, keepers: Keepers, write_review: Callable[[date], Path], home: TeacherClock
    ) -> None:
        self._reading = reading
        self._kept = keepers
        self._write_review = write_review
        self._home = home

    def papers(self, record: FamilyRecord) -> tuple[str, ...]:
        """The files of the family: all in its folder, its drafts and messages, a page left of a preview or of a board, and programs, made anew at a key.

        Drafts to others that name the family are among them.
        """
        files, folder = self._kept.files, record.family.folder
        others = papers_of_others(self._reading, record.family)
        found = {*(files.below(f"notes/{folder}") if folder else ()), *drafts_of(record, files, others)}
        found |= {*drafts_about((each.about for each in self.naming(record)), files)}
        exported = {name for each in record.exports for name in _both(each.path)}
        found |= exported & set(files.below("notes"))
        found |= {*messages_of(record.family, files), *files.below("previews"), *files.below("recitals")}
        found |= {BOARD_PAGE} if files.content(BOARD_PAGE) is not None else set()
        return tuple(sorted(found - {name for path in others for name in _both(path)}))

    def naming(self, record: FamilyRecord) -> tuple[NamingPaper, ...]:
        """Programs and letters to many that are in the outbox for others and name the family."""
        return self._kept.rows.naming(record.family.id, names_of(self._leaver(record)))

    def reviews(self, record: FamilyRecord) -> tuple[str, ...]:
        """The reviews that name the family or its students, or are of a day around a lesson of theirs."""
        files, near = self._kept.files, set(_days(record, self._home))
        names = [name_key(name) for name in (record.family.name, *(student.name for student in record.students))]
        found = []
        for path in files.below("reviews"):
            on = _day_of(path)
            text = name_key((files.content(path) or b"").decode(errors="replace").replace("\\", ""))
            if on is not None and (on in near or any(name.replace("\\", "") in text for name in names)):
                found.append(path)
        return tuple(found)

    def forget(self, record: FamilyRecord, report: Report = unheard) -> Forgotten:
        """Forgets a family; all of it is in the recovery file then. Whatever stops it, everything is as it was before.

        `report` counts the copies of the database that are looked through and written anew.

        Raises:
            Refused: a recovery file of an earlier time is there.
            StudioBusy, NotSaved: nothing was deleted.
        """
        if self._kept.recovery.about() is not None:
            raise Refused("There is a recovery file from an earlier deletion. Finish or undo that one first.")
        leaver = self._leaver(record)
        self._tidy()
        papers, reviews, naming = self.papers(record), self.reviews(record), self.naming(record)
        try:
            copies, unread = _made(self._kept.copies, leaver, report)
            self._kept.rows.fold()
            whole = [self._kept.database.name, *papers, *reviews, *self._kept.copies.with_logs(copies)]
            self._kept.recovery.keep(whole, _about(record.family, reviews))
            done = Forgotten(
                papers=papers, reviews=reviews, copies=copies, unread=unread, still_named=(), emptied=len(naming)
            )
            self._carry_out(leaver, done)
        except BaseException:
            if self._kept.recovery.about() is not None:
                self.take_back()
            self.end()
            raise
        return self._looked_over(done, leaver)

    def left_over(self) -> LeftOver | None:
        """What is in a recovery file that a program which was killed has left; None where there is none."""
        about = self._kept.recovery.about()
        if about is None:
            return None
        said = json.loads(about)
        return LeftOver(family_id=FamilyId(said["id"]), name=said["name"], reviews=tuple(said["reviews"]))

    def take_back(self) -> None:
        """Puts everything back out of the recovery file, which stays until the end.

        Raises:
            Refused: the studio has another family of that name by now.
        """
        left = self.left_over()
        if left is None:
            raise Refused("There is nothing to bring back.")
        families = self._reading.people().families.values()
        if any(name_key(each.name) == name_key(left.name) and each.id != left.family_id for each in families):
            raise Refused(f"The studio already has another {left.name} family, and the two could not be told apart.")
        database = self._kept.database
        copy = database.with_name(f"{database.name}.back.new")
        self._kept.recovery.put_back(but=database.name)
        self._kept.recovery.extract(database.name, copy)
        self._kept.rows.put_back(copy, left.family_id)
        self._tidy()

    def finish(self, left: LeftOver, record: Callable[[Family], FamilyRecord]) -> None:
        """Brings to its end what was cut off; only what is left to be done is done."""
        self._tidy()
        family = self._reading.people().families.get(left.family_id)
        reviews: tuple[str, ...] = left.reviews
        if family is not None and name_key(family.name) == name_key(left.name):
            theirs = record(family)
            reviews = (*reviews, *self.reviews(theirs))
            leaver = self._leaver(theirs)
            copies, unread = _made(self._kept.copies, leaver, unheard)
            papers = self.papers(theirs)
            done = Forgotten(papers=papers, reviews=reviews, copies=copies, unread=unread, still_named=())
            self._carry_out(leaver, done)
        else:
            self._write_reviews(reviews)
            self._kept.rows.scrub()
        self.end()

    def end(self) -> None:
        """Deletes the recovery file, and whatever is half-made: from now on nothing can be taken back."""
        self._tidy()
        self._kept.recovery.remove()

    def _leaver(self, record: FamilyRecord) -> Leaver:
        return leaver_of(self._reading.people(), self._reading.guardians(), record.family, record.inquiries)

    def _carry_out(self, leaver: Leaver, done: Forgotten) -> None:
        self._kept.copies.put_in_place(done.copies)
        self._kept.files.remove((*done.papers, *done.reviews))
        self._kept.rows.delete(leaver.family.id, names_of(leaver))
        self._write_reviews(done.reviews)
        self._kept.rows.scrub()

    def _write_reviews(self, names: tuple[str, ...]) -> None:
        for on in {on for name in names if (on := _day_of(name)) is not None}:
            self._write_review(on)

    def _looked_over(self, done: Forgotten, leaver: Leaver) -> Forgotten:
        files, words, database = self._kept.files, names_of(leaver), self._kept.database.name
        passed_over = {*done.unread, *self._kept.copies.names(), self._kept.recovery.path.name}
        still = [
            name
            for name in files.below()
            if name not in passed_over
            and not name.startswith(database)
            and is_named(words, (files.content(name) or b"").decode(errors="replace"))
        ]
        places = dict.fromkeys(place for place, text in self._kept.rows.texts() if is_named(words, text))
        if places:
            still.append(f"{database} ({', '.join(dict.fromkeys(_PLACES.get(each, 'others') for each in places))})")
        return replace(done, still_named=tuple(still))

    def _tidy(self) -> None:
        self._kept.copies.tidy()
        names = (name for folder in _FOLDERS for name in self._kept.files.below(folder))
        self._kept.files.remove([n for n in names if n.rpartition("/")[2].startswith(".") and n.endswith(".new")])


def _made(copies: Copies, leaver: Leaver, report: Report) -> tuple[tuple[str, ...], dict[str, str]]:
    """The copies that hold the family, each with a new one beside it; and those that could not be read."""
    made, unread = [], dict.fromkeys(copies.lone_logs(), "Its database is missing.")
    for name in in_steps(copies.names(), report):
        try:
            if copies.make(name, leaver):
                made.append(name)
        except (CockpitError, OSError) as fault:
            unread[name] = str(fault)
    return tuple(made), unread


def _both(path: str) -> tuple[str, str]:
    return path, f"{path.removesuffix('.md')}.html"


def _about(family: Family, reviews: tuple[str, ...]) -> str:
    return json.dumps({"id": family.id, "name": family.name, "reviews": reviews})


def _day_of(review: str) -> date | None:
    try:
        return date.fromisoformat(review.removeprefix("reviews/").removesuffix(".md"))
    except ValueError:
        return None


def _days(record: FamilyRecord, home: TeacherClock) -> list[date]:
    days = (home.date_of(lesson.starts_at) for lesson in record.lessons)
    return [on + step * _DAY for on in days for step in (-1, 0)]
