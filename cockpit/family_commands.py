"""What the command line does for a family that leaves: all that is kept about it as one file, and its deletion."""

from pathlib import Path

from cockpit import __version__
from cockpit.commands import asked
from cockpit.desk.leaving import Leaving
from cockpit.outlets.kept_files import KeptFiles
from cockpit.studio.errors import Refused
from cockpit.studio.family_record import FamilyRecord, without_private
from cockpit.studio.words import counted
from cockpit.wiring import Studio

_HOLDS_PRIVATE = (
    "It holds your private lines, follow-ups and remarks. Before you give it away: --without-private leaves them out."
)
_HOLDS_NONE = "Nothing private is in it: the notes stand as the family sees them."


def tell(folder: Path, name: str) -> str:
    """What is kept about a family, in sentences."""

    def ask(studio: Studio) -> str:
        leaving = leaving_of(studio, folder)
        return (
            f"{kept_words(leaving.record(leaving.family(name)))}\n--export FILE.zip writes it out, --forget deletes it."
        )

    return asked(folder, ask)


def export(folder: Path, name: str, out: Path, *, with_private: bool) -> str:
    """Writes all that is kept about a family into a zip file; returns a sentence.

    Raises:
        Refused: there is a file of that name, or it would lie in the studio folder.
    """
    if folder.resolve() in out.absolute().resolve().parents:
        raise Refused(f"{out} would lie in the studio folder, where it is kept and not given. Write another place.")

    def ask(studio: Studio) -> str:
        from cockpit.outlets.zip_file import put_zip

        leaving = leaving_of(studio, folder)
        record = leaving.record(leaving.family(name))
        record = record if with_private else without_private(record)
        put_zip(out, _documents(studio, leaving, record), studio.desk.clock.now())
        return f"{kept_words(record)}\nAll of it is in {out}. {_HOLDS_PRIVATE if with_private else _HOLDS_NONE}"

    return asked(folder, ask)


def leaving_of(studio: Studio, folder: Path) -> Leaving:
    """What gathers the record of a family in an open studio."""
    return Leaving(studio.store.reading, studio.sending, studio.printer, KeptFiles(folder), studio.habits)


def kept_words(record: FamilyRecord) -> str:
    """How much is kept about a family."""
    students = ", ".join(student.name for student in record.students) or "no students"
    return (
        f"Family {record.family.name}: {students}; {counted(len(record.lessons), 'lesson')}, "
        f"{counted(len(record.notes), 'set')} of notes, {counted(len(record.exports), 'practice note')} in the folder, "
        f"{counted(len(record.outgoing), 'entry', 'entries')} of the outbox."
    )


def _documents(studio: Studio, leaving: Leaving, record: FamilyRecord) -> dict[str, bytes]:
    from cockpit.desk.handing_out import HandingOut
    from cockpit.papers.calendar_file import calendar_file
    from cockpit.papers.family_files import family_files

    clock = studio.desk.clock
    files = family_files(record, clock.now(), __version__)
    handing_out = HandingOut(studio.store.reading, clock, studio.desk.ahead.practice)
    return {
        **{name: text.encode() for name, text in files.items()},
        "calendar.ics": calendar_file(handing_out.calendar(None, record.family)).encode(),
        **leaving.practice_notes(record),
        # A draft may say what became private afterwards.
        **(leaving.other_papers(record) if record.has_private else {}),
    }
