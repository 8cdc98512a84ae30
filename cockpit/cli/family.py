"""What the command line does for a family that leaves: all that is kept about it as one file, and its deletion."""

import contextlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from cockpit import __version__
from cockpit.cli.commands import asked
from cockpit.cli.progress import shown_progress, stoppable
from cockpit.cli.signals import ended_by_signals
from cockpit.clock import SystemClock
from cockpit.desk.leaving.forgetting import Forgetting, Keepers
from cockpit.desk.leaving.leaving import Leaving, family_meant
from cockpit.outlets.folder import StudioFolder
from cockpit.outlets.recovery import Recovery
from cockpit.papers.family.forgotten import elsewhere_text, forgotten_text, record_text, what_goes_text
from cockpit.running.last_words import LastWords
from cockpit.store.leaving import FamilyRows, OldCopies
from cockpit.store.schema import NAME
from cockpit.studio.errors import CockpitError, Refused
from cockpit.studio.leaving.family_record import FamilyRecord, without_private
from cockpit.studio.leaving.leaver import Forgotten
from cockpit.studio.people.people import Family
from cockpit.studio.progress import Report
from cockpit.studio.values import Value
from cockpit.wiring import Studio, studio_at

_HOLDS_PRIVATE = "It contains your private lines, follow-ups, and remarks on students. For a copy to give away, add --without-private."
_HOLDS_NONE = "It contains nothing private. The notes are as the family sees them."
_NOTHING = "Nothing was deleted."


class Talk(Value):
    """How to speak with her: `ask` returns what she typed, None at the end of what can be read; asked on a terminal only."""

    say: Callable[[str], None]
    ask: Callable[[str], str | None]
    is_terminal: bool


def tell(folder: Path, name: str, talk: Talk) -> str:
    """What is kept about a family, in sentences."""
    _settle_left_over(folder, talk)

    def ask(studio: Studio) -> str:
        leaving = _leaving(studio)
        text = record_text(leaving.record(leaving.family(name)))
        return f"{text}\nUse --export FILE.zip to save all of it, or --forget to delete it."

    return asked(folder, ask)


def export(folder: Path, name: str, out: Path, talk: Talk, *, with_private: bool) -> str:
    """Writes all that is kept about a family into a zip file; returns a sentence.

    Raises:
        Refused: there is a file of that name, or it would lie in the studio folder.
    """
    _settle_left_over(folder, talk)
    if folder.resolve() in out.absolute().resolve().parents:
        raise Refused(f"{out} is inside the studio folder. Choose a place outside it.")

    def ask(studio: Studio) -> str:
        from cockpit.outlets.zip_file import put_zip

        leaving = _leaving(studio)
        record = leaving.record(leaving.family(name))
        record = record if with_private else without_private(record)
        with stoppable("Gathering the practice notes: {} lessons", "Nothing was saved.") as report:
            documents = _documents(studio, leaving, record, report)
        put_zip(out, documents, studio.desk.clock.now())
        return f"{record_text(record)}\nEverything is saved in {out}. {_HOLDS_PRIVATE if with_private else _HOLDS_NONE}"

    return asked(folder, ask)


def forget(folder: Path, name: str, sure: str | None, talk: Talk) -> str:
    """Deletes a family after asking twice, and takes it back if she says so before this ends.

    `sure` is the family's name, for a script: then nothing is asked, and nothing can be taken back.

    Raises:
        Refused: another cockpit has the studio open, nobody is there to answer, `sure` is not the name, or a file of unsaved
            notes may be the family's.
    """
    _settle_left_over(folder, talk, finishes=sure is not None)
    with ended_by_signals() as signals, _to_write(folder) as studio:
        _take_in_unsaved(studio, talk)
        leaving, forgetting = _leaving(studio), _forgetting(studio)
        family = leaving.family(name)
        record = leaving.record(family)
        _refuse_unsaved(studio, record)
        if not _is_meant(studio, forgetting, record, sure, talk):
            return _NOTHING
        done = _forgotten(forgetting, record, talk)
        is_taken_back = False
        try:
            talk.say(forgotten_text(family.name, done))
            is_taken_back = sure is None and _is_taken_back(talk)
        finally:
            signals.raises = False  # a window that is closed ends the reading first, and sends its signal now
            if is_taken_back:
                forgetting.take_back()
            forgetting.end()
        if is_taken_back:
            return f"Restored. Everything about the {family.name} family is as it was."
        return "\n".join([*_elsewhere(studio, family), "This family can no longer be brought back."])


def _forgotten(forgetting: Forgetting, record: FamilyRecord, talk: Talk) -> Forgotten:
    """Forgets the family; a signal that comes meanwhile has everything put back, and she is told."""
    try:
        with shown_progress("Deleting from the copies of the database: {}") as report:
            return forgetting.forget(record, report)
    except SystemExit:
        with contextlib.suppress(OSError):  # the terminal may be gone
            talk.say(f"Stopped. Everything about the {record.family.name} family is as it was.")
        raise


def _settle_left_over(folder: Path, talk: Talk, *, finishes: bool = False) -> None:
    """Tells of a recovery file that a program which was killed has left, and does with it what she says."""
    recovery = Recovery(folder)
    if recovery.about() is None:
        return
    talk.say(f"{recovery.path} was left behind when the cockpit closed while it was deleting a family.")
    with ended_by_signals(), _to_write(folder) as studio:
        forgetting = _forgetting(studio)
        left = forgetting.left_over()
        if left is None:
            return
        match (
            ""
            if finishes
            else _said(talk, f"Type u to bring the {left.name} family back, or press enter to delete it for good: ")
        ):
            case "u":
                forgetting.take_back()
                forgetting.end()
                talk.say(f"Restored. Everything about the {left.name} family is as it was.")
            case "":
                forgetting.finish(left, _leaving(studio).record)
                talk.say(f"The {left.name} family is deleted for good, and so is the file.")
            case _:
                talk.say("It is kept until you run `cockpit family` in a terminal.")


def _take_in_unsaved(studio: Studio, talk: Talk) -> None:
    """Takes notes that could not be saved into the database: what is forgotten must not stay in a file beside it."""
    for sentence in LastWords(studio).take_in():
        talk.say(sentence)


def _refuse_unsaved(studio: Studio, record: FamilyRecord) -> None:
    students = {student.name for student in record.students}
    for path, kept in LastWords(studio).rescue.found():
        if kept is None or kept.notes.student in students:
            raise Refused(f"{path} contains notes that may be this family's. Read it and delete it first. {_NOTHING}")


def _is_meant(studio: Studio, forgetting: Forgetting, record: FamilyRecord, sure: str | None, talk: Talk) -> bool:
    family = record.family
    if sure is not None:
        if _named(studio, sure) != family:
            raise Refused(f"--sure {sure} is not the name of the {family.name} family. {_NOTHING}")
        return True
    copies = OldCopies(studio.desk.folder).names()
    files = forgetting.papers(record), forgetting.reviews(record), copies
    goes = what_goes_text(record, files, forgetting.naming(record))
    talk.say("\n".join([goes, *_elsewhere(studio, family)]))
    if not talk.is_terminal:
        raise Refused(
            f"{_NOTHING} You are asked twice, in a terminal. In a script, use --forget --sure '{family.name}'."
        )
    if _said(talk, "Delete this family? Type y for yes, or press enter to keep everything: ") not in {"y", "yes"}:
        return False
    typed = _said(talk, "To delete everything, type the family's name: ")
    return typed is not None and _named(studio, typed) == family


def _said(talk: Talk, question: str) -> str | None:
    """What she typed, without blanks around it and in small letters; None where nobody answers."""
    typed = talk.ask(question) if talk.is_terminal else None
    return None if typed is None else typed.strip().lower()


def _named(studio: Studio, typed: str) -> Family | None:
    try:
        return family_meant(studio.store.reading.people(), typed)
    except CockpitError:
        return None


def _is_taken_back(talk: Talk) -> bool:
    while True:
        match _said(talk, "Type u to bring everything back, or press enter to delete it for good: "):
            case "u":
                return True
            case "" | None:
                return False
            case _:
                pass


@contextmanager
def _to_write(folder: Path) -> Iterator[Studio]:
    asked(folder, lambda _: "")  # or a studio would be made where there is none
    with studio_at(folder, SystemClock(), to_write=True) as studio:
        if studio.store.writing is None:
            raise Refused(f"{studio.store.why_read_only} {_NOTHING}")
        yield studio


def _leaving(studio: Studio) -> Leaving:
    files = StudioFolder(studio.desk.folder)
    return Leaving(studio.store.reading, studio.paper_making, studio.printer, files, studio.preferences.labels)


def _forgetting(studio: Studio) -> Forgetting:
    folder = studio.desk.folder
    keepers = Keepers(
        rows=FamilyRows(studio.store.connection, folder / NAME),
        copies=OldCopies(folder),
        recovery=Recovery(folder),
        files=StudioFolder(folder),
        database=folder / NAME,
    )
    return Forgetting(studio.store.reading, keepers, studio.desk.reviewing.write_out, studio.preferences.home)


def _elsewhere(studio: Studio, family: Family) -> list[str]:
    root = studio.preferences.sending.folder
    if root is None or family.folder is None:
        return []
    theirs = Path(root).expanduser() / family.folder
    return [elsewhere_text(str(theirs))] if theirs.exists() else []


def _documents(studio: Studio, leaving: Leaving, record: FamilyRecord, report: Report) -> dict[str, bytes]:
    from cockpit.desk.calendar.handing_out import HandingOut
    from cockpit.papers.calendar.file import calendar_file
    from cockpit.papers.family.family_files import family_files

    clock = studio.desk.clock
    files = family_files(record, clock.now(), __version__)
    handing_out = HandingOut(studio.store.reading, clock, studio.preferences)
    return {
        **{name: text.encode() for name, text in files.items()},
        "calendar.ics": calendar_file(handing_out.calendar(None, record.family)).encode(),
        **leaving.practice_notes(record, report),
        # A draft may say what became private afterwards.
        **(leaving.other_papers(record) if record.has_private else {}),
    }
