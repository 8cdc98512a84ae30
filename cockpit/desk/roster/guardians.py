"""The guardians of a family, changed by a line."""

from itertools import count

from cockpit.desk.calendar.lines import Lines
from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.lookup import Whose, guardians_of
from cockpit.desk.ports import Reading
from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.words import listed
from cockpit.studio.errors import Refused
from cockpit.studio.people.people import Family, Gets, Guardian, GuardianId, addresses_of
from cockpit.studio.roster.guardian_line import read_guardians, with_line


class ChangingGuardians:
    """Proposes who gets what of a family."""

    def __init__(self, reading: Reading, lines: Lines) -> None:
        self._reading = reading
        self._lines = lines

    def propose(self, whose: Whose, line: str) -> Proposal:
        """A line about the guardians of a student's family.

        Raises:
            BadInput: a part is not understood, or names nobody; the sentence names it.
            Refused: nothing would change.
        """
        family, numbers = whose.family, count()
        before = after = guardians_of(self._reading, family.id)
        for said in read_guardians(line):
            after = with_line(after, said, family.id, lambda: GuardianId(self._lines.id_number(next(numbers))))
        old = {each.id: each for each in before}
        new = {each.id: each for each in after}
        edits = [Edit(before=each, after=None) for each in before if each.id not in new]
        edits += [Edit(before=old.get(each.id), after=each) for each in after if old.get(each.id) != each]
        if not edits:
            raise Refused("That is so already.")
        facts = [_words(each, old.get(each.id)) for each in after if old.get(each.id) != each]
        facts += [f"{_called(each)} is no guardian any more" for each in before if each.id not in new]
        return Proposal(
            understood=f"{family.name} family: {'; '.join(facts)}.",
            edits=tuple(edits),
            said=f"changing the guardians of the {family.name} family",
            troubles=tuple(self._troubles(family, before, after)),
        )

    def _troubles(self, family: Family, before: tuple[Guardian, ...], after: tuple[Guardian, ...]) -> list[str]:
        people, told = self._reading.people(), []
        known = {each.email for each in before}
        for address in dict.fromkeys(each.email for each in after if each.email and each.email not in known):
            others = {each.family_id for each in self._reading.guardians() if each.email == address} - {family.id}
            told += [
                f"{address} is an address of the {people.families[each].name} family, too." for each in sorted(others)
            ]
        if addresses_of(before, family.id) and not addresses_of(after, family.id):
            told.append(f"Nobody in the {family.name} family gets the notes then.")
        return told


def _called(guardian: Guardian) -> str:
    return guardian.name or guardian.email or guardian.phone or "a guardian"


def _words(after: Guardian, before: Guardian | None) -> str:
    """Who it is, and what is another than it was; of somebody new, all of it."""
    is_new = before is None
    gets = listed([str(each) for each in Gets if each in after.gets]) if after.gets else "nothing"
    facts = []
    if before is not None and before.name and before.name != after.name:
        facts.append(f"was {before.name}")
    if before is None or (before.email, before.gets) != (after.email, after.gets):
        facts.append(f"gets {gets} at {after.email}" if after.email else "has no email address")
        if before is not None and before.email and before.email != after.email:
            facts.append(f"in place of {before.email}")
    if after.phone != (before.phone if before is not None else None):
        facts.append(f"phone {after.phone}, for you alone" if after.phone else "no phone any more")
    return f"{_called(after)}{' (new)' if is_new else ''} {', '.join(facts)}".strip()
