"""What forgetting a family takes away and took away, told to the teacher."""

from collections.abc import Iterable, Sequence

from cockpit.studio.clocks.words import counted
from cockpit.studio.leaving.family_record import FamilyRecord
from cockpit.studio.leaving.leaver import Forgotten

_ELSEWHERE = "What was sent, handed out or copied elsewhere, also by other programs, is for you to delete."


def record_text(record: FamilyRecord) -> str:
    """How much is kept about a family."""
    students = ", ".join(student.name for student in record.students) or "no students"
    return (
        f"Family {record.family.name}: {students}; {counted(len(record.lessons), 'lesson')}, "
        f"{counted(len(record.notes), 'set')} of notes, {counted(len(record.exports), 'practice note')} in the folder, "
        f"{counted(len(record.outgoing), 'entry', 'entries')} of the outbox."
    )


def what_goes_text(record: FamilyRecord, papers: Sequence[str], reviews: Sequence[str], copies: Sequence[str]) -> str:
    """What forgetting the family will take away."""
    waiting = sum(item.is_open for item in record.outgoing)
    said = [
        record_text(record),
        f"All of it goes: out of the database and of {counted(len(copies), 'copy', 'copies')} of it, with "
        f"{counted(len(papers), 'file')} of papers; {counted(len(reviews), 'review')} that may name them "
        f"{'is' if len(reviews) == 1 else 'are'} written anew.",
        *(
            [f"{counted(waiting, 'mail or paper', 'mails and papers')} in the outbox will never go out."]
            * bool(waiting)
        ),
        _ELSEWHERE,
    ]
    return "\n".join(said)


def forgotten_text(name: str, done: Forgotten) -> str:
    """What was deleted, what was written anew, and what is left for her."""
    said = [
        f"The family {name} is forgotten. {counted(len(done.papers), 'file')} of papers deleted.",
        *_listed("Written anew without them:", (*done.copies, *done.reviews)),
        *_listed(
            "These could not be read, and may hold them. Delete them yourself, unless you need them:",
            (f"{file}: {why}" for file, why in done.unread.items()),
        ),
        *_listed(
            "A name or an address of theirs still stands here: in what you wrote, or in what is kept about others:",
            done.still_named,
        ),
    ]
    return "\n".join(said)


def elsewhere_text(folder: str) -> str:
    """Where else papers of the family lie that this program put there."""
    return f"Papers that went into a folder of yours lie in {folder}: delete them there."


def _listed(heading: str, items: Iterable[str]) -> list[str]:
    lines = [f"  {item}" for item in items]
    return [heading, *lines] if lines else []
