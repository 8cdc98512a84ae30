"""A typed line that names somebody and a moment: "nora bell thu 4pm phoenix", "thu 4pm for nora bell, cello".

Who it is stands in one run of words that mean nothing else, before the moment, behind it or in it; a place or a family is
one only after the time, so that Jack London and Otto Berg keep their names. What is no name is understood, as an
instrument is, or the line is refused with that word named. No list says which words are names, so the last name is told
apart before anything is done, and a word that does not look like the first one, or is near one that means something, is
asked about. All of it is common practice, no source.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import chain, islice

from cockpit.studio.clocks.calendar_words import MONTH_WORDS, WEEKDAY_WORDS
from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.words import MONTHS, listed
from cockpit.studio.errors import BadInput
from cockpit.studio.notes.spelling import is_near
from cockpit.studio.people.people import Family, Student, name_key
from cockpit.studio.typed_times.instruments import OR_NAMES, SPOKEN, instrument_at
from cockpit.studio.typed_times.parts import (
    Dated,
    FromToday,
    Instrument,
    Named,
    Number,
    Part,
    SameTime,
    Slashed,
    TimeOfDay,
    Weekday,
    ZoneName,
)
from cockpit.studio.typed_times.places import name_at, place_at, place_key
from cockpit.studio.typed_times.rules import RULES
from cockpit.studio.typed_times.studio_names import StudioNames
from cockpit.studio.typed_times.when import Reference, When, when_of
from cockpit.studio.typed_times.words import (
    OF_THE_DAY,
    Found,
    WordRun,
    by_rules,
    claims_of,
    filler,
    located,
    month_alone,
    not_understood,
)
from cockpit.studio.values import Value

_EXAMPLE = 'such as "nora bell thu 4pm phoenix 30m"'
_LEAD = re.compile(
    r"\s*(?:(?:an?|the|new|free|first|book|add)\s+)*(?:(?:trial|intro|taster|sample)(?:\s+(?:lesson|class))?|lesson|student|probestunde|schnupperstunde)"
    r"\s*(?::|\bfor\b|\bfür\b|\bwith\b)?\s+",
    re.IGNORECASE,
)
_SMALL = re.compile(
    rf"(?:(?:a )?trial(?: lesson)?|on|at|@|the|for|with|lesson|new student|{OF_THE_DAY}|[-–—])(?=[ ,;]|$)"
)
NAME_WORD = re.compile(r"[^\W\d_]+(?:['’.-]+[^\W\d_]+)*['’.]?(?:-[^\W\d_]+)?")
# Before a name, they say that it is a grown-up's; behind one, "Sr" is a part of it.
_TITLES = frozenset(
    """
    mr mrs ms mx miss dr prof professor sir madam herr frau hr fr mme mlle monsieur madame mademoiselle sr sra srta señor señora
    señorita senor senora senorita
    """.split()  # noqa: SIM905 a list would have a line for each word
)
# Words of a line about somebody that are no one's name.
_NO_NAMES = frozenset(
    """
    a ab about adult advanced after afternoon afternoons again age aged all also am an and approx are around asap at aunt
    auntie before beginner bis biweekly both brother but by call called can cancel canceled cancelled child children class
    come comes could dad daddy daughter day days delete each early eight either eleven email enquiry evening evenings
    every except father first five for former fortnight fortnightly four free friend from grade granddaughter grandfather
    grandma grandmother grandpa grandson granny guardian half has have he hello her hey hi his home hour hours husband if
    in inquiry instead interested intro is just kid kids last late lesson lessons level likes maybe midday midnight min
    mins minute minutes mom mommy month months morning mornings mother move moved mum mummy my neighbor neighbour nephew never new
    next niece night nights nine no noon not of old oma on one online only opa or paid parent parents past per perhaps
    phone please pls plus pm probably quarter referral referred remove reschedule returning returns seven she sibling
    siblings sister six skip some son student students tbc tbd teacher tel ten tentative text the their then they three
    through til till tmrw to today tomorrow tonight trial try twelve twins two uhr um uncle undo unless unpaid until via
    video waiting waitlist waitlisted wanted wants was week weekend weekends weekly weeks who wife will with without would
    year years yesterday yo you your yr yrs zoom
    """.split()  # noqa: SIM905 a list would have a line for each word
)
# Words of the calendar that people are called, too.
_GIVEN = frozenset(
    [
        "april",
        "may",
        "mai",
        "june",
        "juli",
        "august",
        "marc",
        "jan",
        "frida",
        "wednesday",
        "sun",
        "su",
        "mo",
        "di",
        "mi",
        "do",
        "so",
        "abril",
        "avril",
        "domingo",
        "janvier",
        "julio",
        "mars",
        "mayo",
        "hoy",
    ]
)
_CALENDAR = frozenset((*MONTH_WORDS, *WEEKDAY_WORDS)) - _GIVEN
_CALENDAR_NAMES = tuple(word.casefold() for word in (*WEEKDAYS, *MONTHS))
_MEANT = (*_CALENDAR_NAMES, *sorted(_NO_NAMES), *SPOKEN)
_SUFFIXES = frozenset(["jr", "sr", "ii", "iii"])
_OWN = re.compile(r"['’]s$", re.IGNORECASE)
_MOST_WORDS = 5
_MOST_ASKED = 3
_SHORTEST_SHARED = 3
_SHORTEST_NEAR = 7
_SHORTEST_ASKED = 5
_LONGEST_CODE = 3
_DAYS = (Dated, Slashed, FromToday, Weekday)


class TrialLine(Value):
    """Whom a line names, and when.

    `student` and `family` are those of the studio, where they are known. `asks` are sentences on people of the studio who
    may be meant instead.
    """

    name: str
    when: When
    student: Student | None = None
    family: Family | None = None
    instrument: str | None = None
    asks: tuple[str, ...] = ()

    @property
    def last_name(self) -> str:
        """The last word of the name, with the small ones before it: de la Cruz; empty where the name is one word."""
        words = self.name.split()
        begins = len(words) - 1
        while begins > 1 and (words[begins - 1].islower() or words[begins].casefold().strip(".") in _SUFFIXES):
            begins -= 1
        return " ".join(words[begins:]) if begins > 0 else ""


def read_trial(text: str, names: StudioNames, reference: Reference) -> TrialLine:
    """Whom a line names and the moment, which is read as `read_when` does.

    Raises:
        BadInput: a word is not understood, or the line names nobody, no time, or somebody that more than one can be.
    """
    lead = _LEAD.match(text)
    return _Reader(text[lead.end() :] if lead is not None else text, names, reference).read()


class _Reader:
    def __init__(self, text: str, names: StudioNames, reference: Reference) -> None:
        self._text = text
        self._names = names
        self._reference = reference
        self._zones = {place_key(family.name): family.zone for family in names.families.values()}

    def read(self) -> TrialLine:
        """Reads the line.

        Raises:
            BadInput.
        """
        runs = self._runs(self._text)
        unknown = [place for place, run in enumerate(runs) if run.is_unknown]
        if not unknown and self._is_moment(runs):
            raise BadInput(f"The line has a time but no name. Add a name, {_EXAMPLE}.")
        for name, others in self._names_in_front():
            return self._trial(name, others)
        if not unknown:
            raise BadInput(f"The line has no name. Add one, {_EXAMPLE}.")
        first = last = unknown[0]
        while last + 1 in unknown:
            last += 1
        name = " ".join(run.text for run in runs[first : last + 1])
        _check_name(" ".join(run.text + "," * run.has_comma for run in runs[first : last + 1]))
        if last < unknown[-1]:
            raise not_understood(runs[next(place for place in unknown if place > last) :], self._zones)
        if not any(run.parts for run in (*runs[:first], *runs[last + 1 :])):
            raise BadInput(f"Type a name and a time, {_EXAMPLE}.")
        self._check_apart(name, runs, first, last)
        return self._trial(name, (*runs[:first], *runs[last + 1 :]))

    def _runs(self, text: str) -> tuple[WordRun, ...]:
        """The runs of a line, where a place is one only behind a time."""
        rules, small, has_time = by_rules(RULES), filler(_SMALL), False

        def find(said: str, place: int) -> Found:
            nonlocal has_time
            found = self._family(said, place)
            if found is None and has_time:
                found = located(said, place, name_at(said, place, self._zones))
            found = found or rules(said, place)
            if found is None and has_time:
                found = located(said, place, place_at(said, place, self._zones))
            has_time |= found is not None and any(isinstance(part, TimeOfDay | Number | SameTime) for part in found[0])
            return found or _instrument(said, place, is_sure=has_time) or small(said, place)

        return claims_of(text, (find,))

    def _family(self, said: str, place: int) -> Found:
        return self._names.find(said, place) if said.startswith(("family ", "the family "), place) else None

    def _names_in_front(self) -> Iterator[tuple[str, tuple[WordRun, ...]]]:
        """The line as a name and a moment behind it, the shortest name first: May on 3 December is no fourth of May."""
        words = self._text.split()
        for count in range(1, min(len(words), _MOST_WORDS + 1)):
            try:
                own, others = (self._runs(" ".join(part)) for part in (words[:count], words[count:]))
            except BadInput:
                continue
            days = [run for run in own if not run.is_unknown]
            # Sun Li may come on a Thursday, but "thu nora 4pm" is nobody called Thu, and "may 21" is a day.
            is_name = len(days) < len(own) and all(run.text.casefold() in _GIVEN for run in days)
            is_name &= not any(map(_is_of_calendar, words[:1]))
            is_name &= not any(_is_of_calendar(word) and not _is_month_name(word) for word in words[1:count])
            is_name &= not (
                month_alone(words[count - 1].casefold()) and isinstance(next(iter(_parts(others)), None), Number)
            )
            has_day = any(isinstance(part, _DAYS) for part in _parts(others))
            has_time = any(isinstance(part, TimeOfDay | Number) for part in _parts(others))
            if is_name and (has_day or not days) and has_time and not any(run.is_unknown for run in others):
                yield " ".join(words[:count]).strip(",;:"), others

    def _is_moment(self, runs: Sequence[WordRun]) -> bool:
        try:
            when_of(_parts(runs), self._reference)
        except BadInput:
            return False
        return True

    def _check_apart(self, name: str, runs: Sequence[WordRun], first: int, last: int) -> None:
        """Refuses a name behind the time that a place stands beside: it may be a part of the name."""
        beside = [place for place in (first - 1, last + 1) if 0 <= place < len(runs)]
        for place in beside:
            run = runs[place]
            words = [run.text, name] if place < first else [name, run.text]
            has_comma = runs[place if place < first else last].has_comma
            # Tim is not a part of the place in "tim, phoenix", but Texas is one in "paris, texas".
            is_sure = run.text.casefold().endswith(" time") or (
                place > last if has_comma else run.text.casefold().startswith("in ")
            )
            if is_sure or not any(isinstance(part, ZoneName) for part in run.parts):
                continue
            rest = " ".join(each.text for at, each in enumerate(runs) if not first <= at <= last and at != place)
            raise BadInput(
                f'"{run.text}" could be a place or a part of the name. '
                f'Type "{" ".join(words)} {rest}" or "{name} {rest} {run.text}".'
            )

    def _trial(self, name: str, runs: Sequence[WordRun]) -> TrialLine:
        name = _OWN.sub("", name)
        _check_name(name)
        rest = " ".join(run.text for run in runs if run.parts)
        instruments = list(dict.fromkeys(part.text for part in _parts(runs) if isinstance(part, Instrument)))
        if len(instruments) > 1:
            raise BadInput(f"The line has two instruments: {listed(instruments)}. Keep one.")
        _check_last_word(name, rest)
        self._check_title(name, rest)
        named = [family for part in _parts(runs) if isinstance(part, Named) for family in part.families]
        moment = [part for part in _parts(runs) if not isinstance(part, Named | Instrument)]
        when = when_of(moment, self._reference)
        if not any(isinstance(part, _DAYS) for part in moment):
            # A day that is spelled otherwise would be a word of the name.
            for word in name.split():
                near = _near_meaning(word)
                if near is not None:
                    raise BadInput(f'"{word}" is not understood. Did you mean "{near}"?')
            raise BadInput(f'The line has no day. Type "{name} today {rest}", or another day.')
        if len({family.id for family in named}) > 1:
            raise BadInput(f"The line has two families: {listed([family.name for family in named])}. Keep one.")
        student = self._known(name, named, rest)
        family = self._names.families[student.family_id] if student is not None else named[0] if named else None
        return TrialLine(
            name=student.name if student is not None else with_capitals(name),
            when=when,
            student=student,
            family=family,
            instrument=instruments[0] if instruments else None,
            asks=self._asks(name, student, family, rest),
        )

    def _check_title(self, name: str, rest: str) -> None:
        """Refuses a grown-up's title; who is meant may be of a family of the studio, or new."""
        title, *others = name.split()
        if title.casefold().strip(".") not in _TITLES:
            return
        key = place_key(" ".join(others))
        family = next(
            (f", family {each.name}" for each in self._names.families.values() if place_key(each.name) == key), ""
        )
        raise BadInput(f'"{title}" is a title. Type the student\'s own name, such as "nora{family} {rest}".')

    def _known(self, name: str, named: Sequence[Family], rest: str) -> Student | None:
        """The student of the studio who is called so."""
        key = name_key(name)
        found = [
            student
            for student in self._names.students
            if key
            in {name_key(student.name), name_key(f"{student.name} {self._names.families[student.family_id].name}")}
            and (not named or student.family_id == named[0].id)
        ]
        if len(found) > 1:
            called = [f"{student.name}, family {self._names.families[student.family_id].name}" for student in found]
            lines = " or ".join(f'"{each} {rest}"' for each in called)
            raise BadInput(f'"{name}" is more than one student in your studio. Type {lines}.')
        return found[0] if found else None

    def _asks(self, name: str, student: Student | None, family: Family | None, rest: str) -> tuple[str, ...]:
        """What is asked before somebody of the studio gets a trial, or somebody new who is called as one is."""
        if student is not None and family is not None:
            return (
                f"{student.name} of the {family.name} family is already your student, and this trial is for {student.name}. "
                "For somebody new, add a last name.",
            )
        doubts = (
            f'"{word}" is read as part of the name{near and f", not as {near}"}. If it is not, take it out.'
            for word, near in _doubtful(name)
        )
        words, full = place_key(name).split(), with_capitals(name)
        first = full.split()[0]
        families = (
            f"The {each.name} family is already in your studio. This adds another family. "
            f'To add {first} to it, type "{first}, family {each.name} {rest}".'
            for each in self._names.families.values()
            if family is None and _share(words, place_key(each.name).split())
        )
        students = (
            f"{each.name} of the {whose.name} family is already your student. This adds another student, {full}. "
            f'For {each.name}, type "{each.name}, family {whose.name} {rest}".'
            for each, whose in ((each, self._names.families[each.family_id]) for each in self._names.students)
            if family in {None, whose} and _share(words, place_key(each.name).split())
        )
        return tuple(islice(chain(doubts, families, students), _MOST_ASKED))


def _instrument(said: str, place: int, *, is_sure: bool) -> Found:
    found = instrument_at(said, place, is_sure=is_sure)
    return ((Instrument(text=found[0]),), found[1]) if found is not None else None


def _parts(runs: Iterable[WordRun]) -> list[Part]:
    return [part for run in runs for part in run.parts]


def _check_name(name: str) -> None:
    """Refuses what is no name: a number, an address, a word of another kind."""
    words = name.split()
    for number, (before, typed) in enumerate(zip(("", *words), words, strict=False)):
        word = typed.strip(",;()")
        if (
            before.endswith((",", ";"))
            or word != typed.strip(",;")
            or not NAME_WORD.fullmatch(word)
            or (_is_of_calendar(word) and not (number and _is_month_name(word)))
            or word.casefold().strip(".") in _NO_NAMES
        ):
            raise BadInput(
                f'"{word}" is not part of a name. Type a name and a time, and behind that a city or an instrument, {_EXAMPLE}.'
            )
    if len(words) > _MOST_WORDS:
        raise BadInput(f'"{name}" is long for a name. Type a name and a time, {_EXAMPLE}.')


def _doubtful(name: str) -> Iterator[tuple[str, str]]:
    """The words behind the first one that may be no name: written in another way than it, or near a word that means something, which is told."""
    first, *others = name.split()
    for number, word in enumerate(others, 1):
        near = _near_meaning(word)
        is_small = word.islower() and not first.islower() and not any(map(_begins_large, others[number:]))
        is_code = word.isupper() and not first.isupper() and word.isalpha() and 1 < len(word) <= _LONGEST_CODE
        if near is not None or is_small or is_code:
            yield word, f'"{near}"' if near is not None else ""


def _begins_large(word: str) -> bool:
    return word[0].isupper()


def _near_meaning(word: str) -> str | None:
    """The weekday, month, instrument, or word of such a line that a word is, or is one edit away from, if nobody is called so."""
    if len(word) < _SHORTEST_ASKED or word.casefold() in _GIVEN:
        return None
    return next((each for each in _MEANT if abs(len(each) - len(word)) <= 1 and is_near(word, each)), None)


def _is_month_name(word: str) -> bool:
    """Whether a word is a month in full with a capital: behind a first name it may be a last one, such as March."""
    return _begins_large(word) and word.casefold() in _CALENDAR_NAMES


def _is_of_calendar(word: str) -> bool:
    """Whether a word is, or is meant as, a month or a weekday that nobody is called."""
    key = word.casefold().strip(".,;:")
    near = (each for each in _CALENDAR if min(len(each), len(key)) >= _SHORTEST_NEAR and is_near(key, each))
    return key not in _GIVEN and (key in _CALENDAR or any(near))


def _check_last_word(name: str, rest: str) -> None:
    """Refuses a name in small letters whose last word may be the instrument."""
    *before, last = name.split()
    if before and last in OR_NAMES:
        first = " ".join(before)
        raise BadInput(
            f'"{last}" could be a name or an instrument. Type "{with_capitals(name)} {rest}" or "{first} {rest} {last}".'
        )


def _share(words: Sequence[str], others: Sequence[str]) -> bool:
    """Whether two names have a word of three letters or more in common, or one that is an edit away."""
    return any(len(one) >= _SHORTEST_SHARED and is_near(one, other) for one in words for other in others)


def with_capitals(name: str) -> str:
    """A name as it was typed; one in small letters gets capitals."""
    return name if name != name.lower() else name.title()
