"""Deleting a family: its students, lessons, notes, and the papers in the folder."""

from cockpit.desk.lookup import family_named
from cockpit.desk.ports import Folder, Reading, Writing
from cockpit.studio.errors import Refused
from cockpit.studio.words import counted

_BACKUPS = (
    "The backups of the last days still hold it; they go as new ones come, or when you delete the folder 'backups'. "
    "What was sent, copied or backed up elsewhere is for you to delete."
)


class Forgetting:
    """Deletes families."""

    def __init__(self, reading: Reading, writing: Writing | None, folder: Folder) -> None:
        self._reading = reading
        self._writing = writing
        self._folder = folder

    def what_goes(self, name: str) -> str:
        """What deleting a family would delete.

        Raises:
            NotFound: there is no such family.
        """
        family = family_named(self._reading.people(), name)
        students = ", ".join(s.name for s in self._reading.people().students.values() if s.family_id == family.id)
        papers = counted(len(self._reading.papers_of(family.id)), "set")
        return (
            f"Family {family.name}: {students}, every lesson and note of theirs, and {papers} of practice notes. "
            f"Nothing was deleted. With --yes it is gone for good. {_BACKUPS}"
        )

    def forget(self, name: str) -> str:
        """Deletes a family for good.

        Raises:
            NotFound: there is no such family.
            Refused: this program may only read.
        """
        family = family_named(self._reading.people(), name)
        if self._writing is None:
            raise Refused("Another cockpit has this studio open. Close it first.")
        papers = self._reading.papers_of(family.id)
        self._writing.forget(family.id)
        self._folder.remove(self._folder.names(f"messages/* ({family.id}).txt"))
        self._folder.remove(paper.removesuffix(".md") + ending for paper in papers for ending in (".md", ".html"))
        return f"Family {family.name} is deleted. {_BACKUPS}"
