"""What deleting a family will remove and what it removed, as sentences for the teacher."""

from collections.abc import Iterable, Sequence

from cockpit.studio.clocks.words import counted
from cockpit.studio.leaving.family_record import FamilyRecord
from cockpit.studio.leaving.leaver import Forgotten, NamingPaper

_FILE, _PAGE = "file", "end-of-day page"
_TO_OTHERS = ("program or letter", "programs and letters")
_ELSEWHERE = "Copies that were sent, handed out, or made by other programs are not deleted. Delete those yourself."


def record_text(record: FamilyRecord) -> str:
    """How much is kept about a family."""
    students = ", ".join(student.name for student in record.students) or "no students"
    return (
        f"Family {record.family.name}: {students}. {counted(len(record.lessons), 'lesson')}, "
        f"{counted(len(record.notes), 'set of notes', 'sets of notes')}, {counted(len(record.exports), 'practice note')} in the folder, "
        f"{counted(len(record.outgoing), 'entry', 'entries')} in the outbox."
    )


def what_goes_text(
    record: FamilyRecord, files: tuple[Sequence[str], Sequence[str], Sequence[str]], naming: Sequence[NamingPaper]
) -> str:
    """Says what deleting a family removes: its papers, its lines in reviews and copies, and the words that name it in papers for others."""
    papers, reviews, copies = files
    waiting = sum(item.is_open for item in record.outgoing)
    said = [
        record_text(record),
        f"Everything about this family will be deleted from the database{_and_copies(len(copies))}"
        f"{f', along with {counted(len(papers), _FILE)}' if papers else ''}.",
        *([f"{counted(len(reviews), _PAGE)} that may name the family will be rewritten."] * bool(reviews)),
        *(
            [f"{counted(waiting, 'email or file', 'emails and files')} in the outbox will never be sent."]
            * bool(waiting)
        ),
        *([_naming_text(naming)] * bool(naming)),
        _ELSEWHERE,
    ]
    return "\n".join(said)


def _naming_text(naming: Sequence[NamingPaper]) -> str:
    still = sum(each.is_open for each in naming)
    not_gone = f" {counted(still, 'copy', 'copies')} not sent yet will be withdrawn." if still else ""
    words = "loses its" if len(naming) == 1 else "lose their"
    return (
        f"{counted(len(naming), *_TO_OTHERS)} for other families in the outbox {words} words, which name this family."
        f"{not_gone}"
    )


def _and_copies(count: int) -> str:
    return f" and {counted(count, 'copy', 'copies')} of it" if count else ""


def forgotten_text(name: str, done: Forgotten) -> str:
    """What was deleted, what was rewritten, and what is left for the teacher to do."""
    said = [
        f"The {name} family is deleted{f', along with {counted(len(done.papers), _FILE)}' if done.papers else ''}.",
        *(
            [f"{counted(done.emptied, *_TO_OTHERS)} for other families: the words are deleted from the outbox."]
            * bool(done.emptied)
        ),
        *_listed("Rewritten without the family:", (*done.copies, *done.reviews)),
        *_listed(
            "These files could not be read and may still name the family. Delete them yourself unless you need them:",
            (f"{file}: {why}" for file, why in done.unread.items()),
        ),
        *_listed(
            "A name or an address of the family is still here, in texts of yours or about others:",
            done.still_named,
        ),
    ]
    return "\n".join(said)


def elsewhere_text(folder: str) -> str:
    """Where this program put other copies of the family's notes."""
    return f"Notes that were copied to your folder are in {folder}. Delete them there."


def _listed(heading: str, items: Iterable[str]) -> list[str]:
    lines = [f"  {item}" for item in items]
    return [heading, *lines] if lines else []
