"""Letters to many families at the desk: whom one is for, what each family gets, and how it goes into the outbox."""

from collections.abc import Iterable, Sequence
from enum import StrEnum
from typing import Protocol

from cockpit.desk.lookup import next_of
from cockpit.desk.ports import Clock, PostPrinter, Reading
from cockpit.desk.steps import Steps
from cockpit.studio.calendar.year import make_ups_owed
from cockpit.studio.changes.records import Edit, added
from cockpit.studio.clocks.moments import local_time, zone_at
from cockpit.studio.clocks.words import counted, listed
from cockpit.studio.day.posting import Letter, destinations, letter_out, ways_of
from cockpit.studio.errors import BadInput, NotFound, Refused
from cockpit.studio.people.people import Family, FamilyId, Gets, Guardian, GuardianId, StudentId, first_name, name_key
from cockpit.studio.post.channels import TO_AN_ADDRESS, Channel
from cockpit.studio.post.family_letter import (
    LONGEST,
    FamilyLetter,
    FamilyLetterId,
    LetterFor,
    LetterGuardian,
    faults_in,
    fields_in,
    foreign_language,
    languages_in,
    text_for,
)
from cockpit.studio.post.letters import LessonTold, TimeThere
from cockpit.studio.post.outgoing import DeliveryStatus, Outgoing, withdrawn
from cockpit.studio.preferences import Preferences
from cockpit.studio.roster.entries import RosterEntry
from cockpit.studio.roster.whom import Addressees, Candidate, read_whom
from cockpit.studio.values import Value, replace

_OURS = frozenset(
    {"en", "de", "es", "fr"}
)  # languages with phrases: a text may be ready before its first family is there

_NOT_GONE = frozenset({DeliveryStatus.WAITING, DeliveryStatus.REFUSED})


class Sends(StrEnum):
    """What a letter does with a guardian: it goes there, it went already, she left them out, or they have no address."""

    GOES = "goes"
    WENT = "went"
    LEFT_OUT = "left out"
    NO_ADDRESS = "no address"


class Recipient(Value):
    """A guardian who gets news, for whom a letter is or would be, and by which ways; none where she is to copy it.

    Of one whom it went to, `fate` is what became of that in the outbox.
    """

    guardian: Guardian
    family: Family
    students: tuple[Candidate, ...]
    sends: Sends
    ways: tuple[Channel, ...]
    fate: DeliveryStatus | None = None


class LetterView(Value):
    """A letter, whom it is for in words or why the line is not understood, and each guardian, by family.

    `unreached` are families of which no guardian gets news; `foreign`, the family and the language of each that gets a text in one
    that is not its own. `went` says that it went to somebody before.
    """

    letter: FamilyLetter
    whom: str
    is_understood: bool
    recipients: tuple[Recipient, ...] = ()
    unreached: tuple[str, ...] = ()
    foreign: tuple[tuple[str, str], ...] = ()
    went: bool = False

    def of(self, sends: Sends) -> list[Recipient]:
        """The guardians with whom the letter does one thing."""
        return [each for each in self.recipients if each.sends is sends]


class Students(Protocol):
    """All students of a day."""

    @property
    def entries(self) -> tuple[RosterEntry, ...]: ...  # noqa: D102 said where it is done


class Roster(Protocol):
    """What knows the students."""

    def view(self) -> Students: ...  # noqa: D102 said where it is done


class FamilyLetters:
    """Keeps letters to many families as they are typed, and puts one into the outbox for each guardian alone."""

    def __init__(
        self,
        sources: tuple[Reading, Clock],
        steps: Steps,
        printer: PostPrinter,
        preferences: Preferences,
        roster: Roster,
    ) -> None:
        self._reading, self._clock = sources
        self._steps = steps
        self._printer = printer
        self._preferences = preferences
        self._roster = roster

    def letters(self) -> tuple[FamilyLetter, ...]:
        """All letters, that which was begun last first."""
        return tuple(reversed(self._reading.family_letters()))

    def fresh(self) -> FamilyLetter:
        """A new letter, which is kept as soon as something is typed.

        Raises:
            Refused: this program may only read.
        """
        return FamilyLetter(
            id=FamilyLetterId(self._steps.new_id()), whom="", text="", made_at=self._clock.now().replace(microsecond=0)
        )

    def keep(self, letter: FamilyLetter) -> None:
        """Keeps a letter as it stands; one without a word that went to nobody is not kept.

        Raises:
            Refused: it is too long, or this program may only read.
        """
        if len(letter.text) > LONGEST:
            raise Refused(f"Not saved. The letter has {len(letter.text):,} characters. It can have {LONGEST:,}.")
        before = next((each for each in self._reading.family_letters() if each.id == letter.id), None)
        if letter == before:
            return
        if letter.text.strip() or letter.whom.strip() or self._noted(letter):
            self._steps.keep(before, letter)
        elif before is not None:
            self._steps.record((before, None))

    def candidates(self) -> tuple[Candidate, ...]:
        """All students as the line that says whom a letter is for can mean them."""
        view, home = self._roster.view(), self._preferences.home
        owed = make_ups_owed(self._reading.closed_lessons(), self._preferences.owes)
        playing = self._in_recital()

        def weekdays(entry: RosterEntry) -> Iterable[int]:
            lessons = (entry.lesson_of(each, home) for each in entry.times)
            return (home.date_of(each.lesson.starts_at).weekday() for each in lessons if each is not None)

        return tuple(
            Candidate(
                student=each.student,
                family=each.family,
                status=each.status,
                instruments=frozenset(time.instrument for time in each.times if time.instrument),
                weekdays=frozenset(weekdays(each)),
                is_owed=bool(owed.get(each.student.id)),
                is_in_recital=each.student.id in playing,
            )
            for each in view.entries
        )

    def view(self, letter: FamilyLetter, candidates: Sequence[Candidate]) -> LetterView:
        """A letter as it stands, with each guardian whom it is for."""
        noted = self._noted(letter)
        went = any(each.given_at is not None for each in noted)
        try:
            whom = read_whom(letter.whom, candidates)
        except BadInput as fault:
            return LetterView(letter=letter, whom=str(fault), is_understood=False, went=went)
        recipients, unreached = self._recipients(whom, letter, {each.guardian_id: each for each in noted})
        return LetterView(
            letter=letter,
            whom=whom.said,
            is_understood=True,
            recipients=recipients,
            unreached=unreached,
            foreign=self._foreign(letter, recipients),
            went=went,
        )

    def leave_out(self, letter: FamilyLetter, recipient: Recipient) -> str:
        """Leaves a guardian out of a letter, or takes them in again; returns a sentence.

        Raises:
            Refused: the letter went there, or cannot.
        """
        name = called(recipient)
        if recipient.sends is Sends.WENT:
            raise Refused(f"This letter went to {name} already.")
        if recipient.sends is Sends.NO_ADDRESS:
            raise Refused(f"{name} has no email address. Press g on a student in the roster to add one.")
        self.keep(letter)
        row = LetterGuardian(letter_id=letter.id, guardian_id=recipient.guardian.id)
        if recipient.sends is Sends.GOES:
            self._steps.take(f"{name} left out", Edit(before=None, after=row))
            return f"{name} is left out."
        self._steps.take(f"{name} taken in", Edit(before=row, after=None))
        return f"{name} gets it."

    def preview(self, view: LetterView, recipient: Recipient) -> Outgoing:
        """What a guardian gets of a letter as it stands; nothing is kept.

        Raises:
            BadInput: something in the text cannot be filled in.
            Refused: there is no next lesson to name.
        """
        letter = self._letter(view.letter, recipient.family, recipient.students)
        places = self._places(recipient.ways, [recipient.guardian])
        now = self._clock.now()
        return letter_out(letter, places, (now, now), lambda: 0)[0]

    def minutes(self, view: LetterView) -> int:
        """How many minutes it takes until all mails of a letter are gone, begun ones counted; 0 below one."""
        account = self._preferences.sending.account
        mails = sum(Channel.MAIL in each.ways for each in view.of(Sends.GOES))
        return mails // account.mails_a_minute if account is not None else 0

    def check(self, view: LetterView) -> None:
        """Makes sure that a letter can go.

        Raises:
            BadInput: the line or the text is not understood.
            Refused: it would go to nobody, or this is a rehearsal.
        """
        self._check_text(view.letter)
        if not view.is_understood:
            raise BadInput(view.whom)
        if not view.of(Sends.GOES):
            raise Refused(
                "Nobody joined since. Everyone on the list has this letter."
                if view.of(Sends.WENT)
                else "It goes to nobody."
            )
        if self._clock.is_rehearsal:  # or it would go when this copy of the studio is opened without --at
            raise Refused("A rehearsal sends nothing. F11 shows what each guardian would get.")

    def put_out(self, view: LetterView) -> str:
        """Puts a letter into the outbox for each guardian who does not have it, as a step that can be undone.

        Returns a sentence.

        Raises:
            BadInput, Refused: it cannot go, and nothing of it goes.
            NotSaved: it is not there.
        """
        self.check(view)
        going = view.of(Sends.GOES)
        families = {each.family.id: each.family for each in going}
        letters = {
            number: self._letter(view.letter, family, next(each.students for each in going if each.family.id == number))
            for number, family in families.items()
        }
        self.keep(view.letter)
        now = self._clock.now()
        times = now, now + self._preferences.sending.wait
        out: list[Outgoing] = []
        with self._steps.writing.new_ids() as new_id:
            for number, letter in letters.items():
                theirs = [each for each in going if each.family.id == number]
                about = about_of(view.letter.id, number)
                places = self._places(theirs[0].ways, [each.guardian for each in theirs])
                version = max((each.version for each in self._reading.outgoing_about([about])), default=0) + 1
                out += [replace(each, version=version) for each in letter_out(letter, places, times, new_id, about)]
        rows = [LetterGuardian(letter_id=view.letter.id, guardian_id=each.guardian.id, given_at=now) for each in going]
        whom = f"{counted(len(going), 'guardian')} of {counted(len(families), 'family', 'families')}"
        self._steps.take(f"the letter to {whom}", *added(*out, *rows), durable=True)
        return f"The letter is in the outbox for {whom}.{self._how_it_goes(view)}"

    def stop(self, letter: FamilyLetter) -> str:
        """Withdraws what has not gone of a letter; those who would have got it can get it again. Returns a sentence.

        Raises:
            Refused: all of it went, or none of it is on its way.
        """
        now, people = self._clock.now(), self._reading.people()
        abouts = [about_of(letter.id, number) for number in people.families]
        out = self._reading.outgoing_about(abouts)
        waiting = [item for item in out if item.fate in _NOT_GONE]
        if not waiting:
            raise Refused("Nothing of this letter waits in the outbox.")
        guardians = {each.id: each for each in self._reading.guardians()}
        rows = [
            each
            for each in self._noted(letter)
            if each.given_at is not None and _is_stopped(_copies_of(letter, guardians[each.guardian_id], out))
        ]
        self._steps.record(*((item, withdrawn(item, now)) for item in waiting), *((each, None) for each in rows))
        return f"{counted(len(waiting), 'letter')} withdrawn. What had gone before is gone."

    def _how_it_goes(self, view: LetterView) -> str:
        going, rules = view.of(Sends.GOES), self._preferences.sending
        if not any(set(each.ways) & set(TO_AN_ADDRESS) for each in going):
            return " It waits there for you to copy."
        minutes = self.minutes(view)
        takes = f" All of it takes about {counted(minutes, 'minute')}." if minutes else ""
        return f" It goes in {rules.wait_seconds} seconds; F4 takes it back until then.{takes}"

    def _recipients(
        self, whom: Addressees, letter: FamilyLetter, noted: dict[GuardianId, LetterGuardian]
    ) -> tuple[tuple[Recipient, ...], tuple[str, ...]]:
        by_family: dict[FamilyId, list[Candidate]] = {}
        for each in whom.students:
            by_family.setdefault(each.family.id, []).append(each)
        guardians = self._reading.guardians()
        found: list[Recipient] = []
        unreached: list[str] = []
        for students in sorted(by_family.values(), key=lambda each: (name_key(each[0].family.name), each[0].family.id)):
            family = students[0].family
            theirs = sorted((g for g in guardians if g.family_id == family.id), key=lambda g: g.position)
            getting = [each for each in theirs if Gets.NEWS in each.gets]
            if not getting:
                unreached.append(family.name)
            out = self._reading.outgoing_about([about_of(letter.id, family.id)])
            known = ways_of(family, self._preferences.sending)
            ways = tuple(way for way in TO_AN_ADDRESS if way in known)
            found += [
                Recipient(
                    guardian=each,
                    family=family,
                    students=tuple(students),
                    sends=_sends(each, ways, noted.get(each.id)),
                    ways=ways,
                    fate=next((o.fate for o in reversed(out) if o.address in {each.email, ""}), None),
                )
                for each in getting
            ]
        return tuple(found), tuple(unreached)

    def _letter(self, letter: FamilyLetter, family: Family, students: Sequence[Candidate]) -> Letter:
        """What a family gets, filled in; of a letter that names a time, every student must have a next lesson."""
        self._check_text(letter)
        usual = self._preferences.sending.language
        now, home = self._clock.now(), self._preferences.home
        text = text_for(letter.text, family.language or usual, usual)
        lessons = []
        for each in students if "time" in fields_in(f"{text.subject}\n{text.body}") else ():
            following = next_of(self._reading, each.student.id, now, home)
            if following is None:
                raise Refused(
                    f"{each.student.name} ({family.name}) has no next lesson, so {{time}} is empty. Leave them out, or take {{time}} out."
                )
            at = following.lesson.starts_at
            there = TimeThere(at=local_time(at, family.zone).replace(tzinfo=None), zone=zone_at(family.zone, at))
            lessons.append(
                LessonTold(
                    student=first_name(each.student, family),
                    instrument=following.lesson.instrument,
                    kind=following.lesson.kind,
                    starts=there,
                )
            )
        to = LetterFor(
            family=family,
            students=tuple(first_name(each.student, family) for each in students),
            lessons=tuple(lessons),
            place=zone_at(family.zone, now),
        )
        return self._printer.family_letter(text, to)

    def _foreign(self, letter: FamilyLetter, recipients: Iterable[Recipient]) -> tuple[tuple[str, str], ...]:
        usual = self._preferences.sending.language
        families = {each.family.id: each.family for each in recipients if each.sends is Sends.GOES}
        found = ((each, foreign_language(letter.text, each.language or usual, usual)) for each in families.values())
        return tuple((family.name, language) for family, language in found if language is not None)

    def _check_text(self, letter: FamilyLetter) -> None:
        faults = [*faults_in(letter.text), *self._unread(letter)]
        if faults:
            raise BadInput(" ".join(faults[:2]))
        text_for(letter.text, "", self._preferences.sending.language)

    def _unread(self, letter: FamilyLetter) -> Iterable[str]:
        """Headings such as [end] that are no language: what stands below them would reach nobody."""
        families = self._reading.people().families.values()
        spoken = {*_OURS, self._preferences.sending.language, *(each.language or "" for each in families)}
        known = {each.lower().partition("-")[0] for each in spoken}
        for each in languages_in(letter.text):
            if each.partition("-")[0] not in known:
                yield f'[{each}] is the language of no family, so nobody would get the text below it. Write "({each})".'

    def _noted(self, letter: FamilyLetter) -> list[LetterGuardian]:
        return [each for each in self._reading.letter_guardians() if each.letter_id == letter.id]

    def _places(self, ways: Iterable[Channel], guardians: Sequence[Guardian]) -> list[tuple[Channel, str]]:
        return destinations(ways, list(dict.fromkeys(each.email for each in guardians if each.email)))

    def _in_recital(self) -> frozenset[StudentId]:
        """Who plays in the next recital, in any of its sittings."""
        today = self._preferences.home.date_of(self._clock.now())
        coming = [each for each in self._reading.recitals() if not each.is_rehearsal and each.held_on >= today]
        if not coming:
            return frozenset()
        whole = coming[0].parent_id or coming[0].id
        sittings = [each.id for each in coming if whole in {each.id, each.parent_id}]
        return frozenset(item.student_id for each in sittings for item in self._reading.recital_items(each))


def _sends(guardian: Guardian, ways: Sequence[Channel], noted: LetterGuardian | None) -> Sends:
    if noted is not None:
        return Sends.LEFT_OUT if noted.given_at is None else Sends.WENT
    return Sends.GOES if guardian.email or not ways else Sends.NO_ADDRESS


def _copies_of(letter: FamilyLetter, guardian: Guardian, out: Iterable[Outgoing]) -> list[Outgoing]:
    """Finds a guardian's copies of a letter: those sent to the guardian's address or, without any, those that the teacher copies for the family."""
    theirs = [each for each in out if each.about == about_of(letter.id, guardian.family_id)]
    return [each for each in theirs if each.address and each.address == guardian.email] or [
        each for each in theirs if not each.address
    ]


def _is_stopped(copies: Sequence[Outgoing]) -> bool:
    """Whether withdrawing what still waits leaves a guardian with no copy. False where nothing waits."""
    fates = {each.fate for each in copies}
    return bool(fates & _NOT_GONE) and fates <= {*_NOT_GONE, DeliveryStatus.WITHDRAWN}


def about_of(letter_id: FamilyLetterId, family_id: FamilyId) -> str:
    """What a family's letter is about in the outbox: the letter to many, and the family."""
    return f"families-{letter_id}-{family_id}"


def called(recipient: Recipient) -> str:
    """What a guardian is called: by name, else by address, else by the family."""
    return recipient.guardian.name or recipient.guardian.email or f"the {recipient.family.name} family"


def students_words(recipient: Recipient) -> str:
    """The students whom a guardian's letter is about, by first name."""
    return listed([first_name(each.student, recipient.family) for each in recipient.students])


def meant(view: LetterView, guardian_id: GuardianId) -> Recipient:
    """A guardian on the list of a letter.

    Raises:
        NotFound: they are not there any more.
    """
    found = next((each for each in view.recipients if each.guardian.id == guardian_id), None)
    if found is None:
        raise NotFound("This guardian is not on the list any more.")
    return found
