"""A family's record, gathered whole: what an export holds, and what forgetting would take away."""

from collections.abc import Iterable, Mapping
from typing import Protocol

from cockpit.desk.ports import Printer, R, Reading
from cockpit.desk.post.paper_making import PaperMaking
from cockpit.studio.changes.pieces import Piece, PieceAlias, StrandLeft
from cockpit.studio.changes.recital import Recital, RecitalItem, RecitalNoted
from cockpit.studio.changes.records import Accepted, BoardLine, Export, FollowUp, Heard, MarkSet, Note
from cockpit.studio.errors import NotFound, Refused
from cockpit.studio.inquiries.inquiry import Inquiry, InquiryStep
from cockpit.studio.leaving.family_record import FamilyRecord, accepted_of, titles_of
from cockpit.studio.leaving.leaver import leaver_of
from cockpit.studio.lessons.breaks import Break, Pause
from cockpit.studio.lessons.calls import CallLoss
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.lessons.scheduled import People, ScheduledLesson
from cockpit.studio.lessons.weekly_times import ImportedTime, StandingTime
from cockpit.studio.lessons.withdrawn import WithdrawnClock, WithdrawnLesson, WithdrawnTime
from cockpit.studio.notes.vocabulary import Labels
from cockpit.studio.people.people import Family, name_key
from cockpit.studio.people.permissions import Permission
from cockpit.studio.post.family_letter import LetterGuardian
from cockpit.studio.post.outgoing import Outgoing
from cockpit.studio.practice.notes import safe_name
from cockpit.studio.progress import Report, in_steps, unheard

_AFTER_A_DRAFT = (".eml", ", ")


class Files(Protocol):
    """The files of the studio folder, by their names relative to it."""

    def below(self, folder: str = "") -> tuple[str, ...]: ...  # noqa: D102 said where it is done
    def content(self, name: str) -> bytes | None: ...  # noqa: D102


class Leaving:
    """Gathers what is kept about a family."""

    def __init__(
        self, reading: Reading, paper_making: PaperMaking, printer: Printer, files: Files, labels: Labels
    ) -> None:
        self._reading = reading
        self._paper_making = paper_making
        self._printer = printer
        self._files = files
        self._labels = labels

    def family(self, name: str) -> Family:
        """The family of a name; of two with one name, the one whose number stands behind it: `Quist (12)`.

        Raises:
            NotFound: there is none; the sentence names those that there are.
            Refused: there are several; the sentence tells them apart.
        """
        return family_meant(self._reading.people(), name)

    def record(self, family: Family) -> FamilyRecord:
        """Everything that the database holds of a family."""

        def of_family(kind: type[R]) -> tuple[R, ...]:
            return self._reading.of_family(kind, family.id)

        leaver = leaver_of(self._reading.people(), self._reading.guardians(), family)
        names = (each.name for each in leaver.students)
        titles = titles_of(
            self._reading.calendar_titles(), names, (each.name for each in leaver.others.students.values())
        )
        standing_times, lessons = of_family(StandingTime), of_family(Lesson)
        ids = (*(str(each.id) for each in standing_times), *(each.id for each in lessons))
        return FamilyRecord(
            family=family,
            guardians=tuple(sorted(leaver.guardians, key=lambda each: each.position)),
            students=leaver.students,
            permissions=of_family(Permission),
            standing_times=standing_times,
            lessons=tuple(sorted(lessons, key=lambda each: (each.student_id, each.starts_at))),
            notes=of_family(Note),
            marks=of_family(MarkSet),
            heard=of_family(Heard),
            follow_ups=of_family(FollowUp),
            exports=of_family(Export),
            breaks=of_family(Break),
            pauses=of_family(Pause),
            # By family and not by lesson: of a student who came from another one, its address is nobody else's to have.
            outgoing=tuple(each for each in of_family(Outgoing) if each.family_id in {family.id, None}),
            titles=titles,
            accepted=tuple(Accepted(key=key) for key in accepted_of(self._reading.accepted(), ids)),
            imported_times=of_family(ImportedTime),
            labels=self._labels,
            withdrawn_lessons=of_family(WithdrawnLesson),
            withdrawn_times=of_family(WithdrawnTime),
            withdrawn_clocks=of_family(WithdrawnClock),
            inquiries=of_family(Inquiry),
            inquiry_steps=of_family(InquiryStep),
            call_losses=of_family(CallLoss),
            pieces=of_family(Piece),
            piece_aliases=of_family(PieceAlias),
            strands_left=of_family(StrandLeft),
            letters_given=of_family(LetterGuardian),
            recitals=of_family(Recital),
            recital_items=of_family(RecitalItem),
            recital_noted=of_family(RecitalNoted),
            board_lines=of_family(BoardLine),
        )

    def practice_notes(self, record: FamilyRecord, report: Report = unheard) -> Mapping[str, bytes]:
        """The practice notes as they lie in the folder; made anew where they are gone or the notes have changed since.

        Both are made by `for_family`, from the notes as they stand now. `report` counts the papers.
        """
        people, lessons = self._reading.people(), {lesson.id: lesson for lesson in record.lessons}
        found: dict[str, bytes] = {}
        for export in in_steps(record.exports, report):
            kept = self._as_kept(export)
            made = kept or self._made(export, lessons[export.lesson_id], people)
            found |= {f"practice-notes/{name.removeprefix('notes/')}": content for name, content in made.items()}
        return found

    def other_papers(self, record: FamilyRecord) -> Mapping[str, bytes]:
        """The drafts of mails and the messages to the family that lie in the folder."""
        others = papers_of_others(self._reading, record.family)
        names = (*drafts_of(record, self._files, others), *messages_of(record.family, self._files))
        return {name: self._files.content(name) or b"" for name in names}

    def _as_kept(self, export: Export) -> Mapping[str, bytes] | None:
        note = self._reading.notes([export.lesson_id]).get(export.lesson_id)
        if note is None or note.changed_at > export.exported_at:
            return None
        names = (export.path, f"{export.path.removesuffix('.md')}.html")
        kept = {name: content for name in names if (content := self._files.content(name)) is not None}
        return kept if len(kept) == len(names) else None

    def _made(self, export: Export, lesson: Lesson, people: People) -> Mapping[str, bytes]:
        student = people.students[lesson.student_id]
        booking = ScheduledLesson(
            lesson=lesson, student=student, family=people.families[student.family_id], is_recorded=True
        )
        note = self._reading.notes([lesson.id]).get(lesson.id)
        paper = self._paper_making.paper(booking, note.body if note is not None else "")
        return {
            export.path: self._printer.markdown(paper).encode(),
            f"{export.path.removesuffix('.md')}.html": self._printer.page(paper).encode(),
        }


def papers_of_others(reading: Reading, family: Family) -> frozenset[str]:
    """The paths of the practice notes of every other family."""
    others = (each.id for each in reading.people().families.values() if each.id != family.id)
    return frozenset(each.path for family_id in others for each in reading.of_family(Export, family_id))


def family_meant(people: People, name: str) -> Family:
    """The family that a name stands for, however it is spelled in case and blanks."""
    key = name_key(name)
    found = [f for f in people.families.values() if key in {name_key(f.name), f"{name_key(f.name)} ({f.id})"}]
    if len(found) == 1:
        return found[0]
    if found:
        several = (f"{f.name} ({f.id}): {', '.join(_students(people, f)) or 'no students'}" for f in found)
        raise Refused(f"{len(found)} families are named {found[0].name}. Add the number: {'; '.join(several)}.")
    known = ", ".join(family.name for family in people.families.values())
    raise NotFound(f"No family is named {name!r}. Your families: {known or 'none'}.")


def drafts_of(record: FamilyRecord, files: Files, of_others: Iterable[str]) -> tuple[str, ...]:
    """The drafts of mails to a family: beside its papers' names, or in its folder; `of_others` are papers of others.

    A student may have come from another family, whose folder holds the drafts of that time.
    """
    theirs, others = _drafts(each.path for each in record.exports), _drafts(of_others)
    # Without papers a draft is named after what it is about, in a folder of their name that may be another family's.
    abouts = (*(lesson.id for lesson in record.lessons), *(each.about for each in record.outgoing))
    by_about = {*drafts_about(abouts, files)}
    folder = f"drafts/{record.family.folder}/" if record.family.folder else None
    return tuple(
        name
        for name in files.below("drafts")
        if name.startswith(theirs)
        or (folder is not None and name.startswith(folder) and not name.startswith(others))
        or name in by_about
    )


def drafts_about(abouts: Iterable[str], files: Files) -> tuple[str, ...]:
    """The drafts that are named after what they are about."""
    endings = tuple(f" {safe_name(about)}{end}" for about in dict.fromkeys(abouts) for end in _AFTER_A_DRAFT)
    return tuple(name for name in files.below("drafts") if any(ending in name for ending in endings))


def _drafts(papers: Iterable[str]) -> tuple[str, ...]:
    """How the names of the drafts of some papers begin."""
    return tuple(
        f"drafts/{path.removeprefix('notes/').removesuffix('.md')}{end}" for path in papers for end in _AFTER_A_DRAFT
    )


def messages_of(family: Family, files: Files) -> tuple[str, ...]:
    """The messages about clock changes that were written for a family."""
    return tuple(name for name in files.below("messages") if name.endswith(f" ({family.id}).txt"))


def _students(people: People, family: Family) -> list[str]:
    return [student.name for student in people.students.values() if student.family_id == family.id]
