"""A typed line that says which students a letter is about: `cello on tuesday, wren, but not bell`.

Words that stand together narrow: `cello tuesday` plays the cello and comes on Tuesdays. A comma or "and" adds. Behind
"but not" stand those who are left out. Each word is claimed once, and what is not understood is named.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Sequence

from cockpit.studio.clocks.calendar_words import WEEKDAY_PLURALS, WEEKDAY_WORDS
from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.words import listed
from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.status import Status
from cockpit.studio.people.people import Family, Student, first_name, name_key
from cockpit.studio.values import Value

EXAMPLES = "all   cello   tuesday   in the recital   owes a make-up   paused   trial   wren, bell   all but not bell"
_WANTED = 'Type "all", an instrument, a weekday, "in the recital", "owes a make-up", "paused", "trial", or a name.'
_LONGEST = 300
_ALL = ("all", "everybody", "everyone", "all families", "all students")
_MAKE_UPS = (
    "owes a make-up",
    "owe a make-up",
    "owed a make-up",
    "make-up",
    "make-ups",
    "makeup",
    "makeups",
    "owes a makeup",
)
_RECITAL = ("in the recital", "in the next recital", "recital", "in recital")
_PAUSED, _TRIAL = ("paused", "pausing", "on pause", "who pause"), ("trial", "trials", "trial lesson", "trial lessons")
_SMALL = frozenset(("students", "student", "families", "family", "players", "the", "to", "of", "on", "who", "with", "in", "are", "is", "a", "have", "has"))  # fmt: skip
_BUT_NOT = re.compile(r"[\s,;]*\b(?:but not|but|except for|except|without|not)\b[\s,;:]*", re.IGNORECASE)
_ADDS = re.compile(r"\s*[,;+&]\s*(?:and\s+)?|\s+(?:and|or)\s+", re.IGNORECASE)
_WORD = re.compile(r"\S+")
_STUDENTS = frozenset({Status.ACTIVE, Status.BEGINS, Status.PAUSED})


class Candidate(Value):
    """A student as a line can mean them: what they play, and on which weekdays of her clock (Monday is 0)."""

    student: Student
    family: Family
    status: Status
    instruments: frozenset[str] = frozenset()
    weekdays: frozenset[int] = frozenset()
    is_owed: bool = False
    is_in_recital: bool = False

    @property
    def is_student(self) -> bool:
        """Whether the student has a weekly time now or to come: a trial or one who ended is named alone."""
        return self.status in _STUDENTS


class Addressees(Value):
    """The students whom a line names, in the order of the roster, and in words who they are."""

    students: tuple[Candidate, ...]
    said: str


class _Claim(Value):
    """What some words mean: whom they are true of, and how that is said, with the place of it in a sentence."""

    is_true: Callable[[Candidate], bool]
    said: str
    place: int


def read_whom(line: str, candidates: Sequence[Candidate]) -> Addressees:
    """The students whom a line names.

    Raises:
        BadInput: a word is not understood, or could be two, or nobody is meant.
    """
    typed = " ".join(line.split())
    if len(typed) > _LONGEST:
        raise BadInput(f"The line is too long. Use at most {_LONGEST} characters.")
    named, *left_out = _BUT_NOT.split(typed, maxsplit=1)
    if not named.strip(" ,;"):
        raise BadInput(f"Type whom the letter is for. {_WANTED}")
    wanted, unwanted = _groups(named, candidates), _groups(left_out[0], candidates) if left_out else []
    if not wanted:
        raise BadInput(f"Type whom the letter is for. {_WANTED}")
    if left_out and not unwanted:
        raise BadInput(f'Type who is left out behind "but not". {_WANTED}')
    for words, group in (*wanted, *unwanted):
        if not any(_is_in(group, each) for each in candidates):
            raise BadInput(f'"{words}" is nobody at the moment.')
    students = tuple(
        each
        for each in candidates
        if any(_is_in(group, each) for _, group in wanted) and not any(_is_in(group, each) for _, group in unwanted)
    )
    if not students:
        raise BadInput("Nobody is left.")
    said = listed([_said(group) for _, group in wanted])
    return Addressees(
        students=students, said=f"{said}, but not {listed([_said(g) for _, g in unwanted])}" if unwanted else said
    )


def _groups(text: str, candidates: Sequence[Candidate]) -> list[tuple[str, list[_Claim]]]:
    groups = []
    for words in filter(None, (part.strip(" ,;.") for part in _ADDS.split(text))):
        claims = list(_claims(words, candidates))
        if claims:
            groups.append((words, claims))
    return groups


def _claims(words: str, candidates: Sequence[Candidate]) -> Iterator[_Claim]:
    """What a part of the line means, the longest run of words first; each word is claimed once."""
    typed = _WORD.findall(words)
    place, unknown = 0, []
    while place < len(typed):
        ends = range(len(typed), place, -1)
        runs = ((end, _meanings(" ".join(typed[place:end]), candidates)) for end in ends)
        end, found = next(((end, found) for end, found in runs if found), (place + 1, []))
        run = " ".join(typed[place:end])
        if len(found) > 1:
            raise BadInput(f'"{run}" could be {listed([each.said for each in found])}. Type more of the name.')
        if not found and run.casefold() not in _SMALL:
            unknown.append(f'"{run}"')
        yield from found
        place = end
    if unknown:
        raise BadInput(f"{listed(unknown)} {'is' if len(unknown) == 1 else 'are'} not understood. {_WANTED}")


def _meanings(run: str, candidates: Sequence[Candidate]) -> list[_Claim]:
    """All that a run of words can mean: more than one is a question to her."""
    word = name_key(run).strip(".")
    if word in _ALL:
        return [_Claim(is_true=lambda each: each.is_student, said="all students", place=0)]
    if word in _MAKE_UPS:
        return [_Claim(is_true=lambda each: each.is_owed, said="who are owed a make-up", place=2)]
    if word in _RECITAL:
        return [_Claim(is_true=lambda each: each.is_in_recital, said="in the next recital", place=2)]
    if word in _PAUSED:
        return [_Claim(is_true=lambda each: each.status is Status.PAUSED, said="who pause", place=2)]
    if word in _TRIAL:
        return [_Claim(is_true=lambda each: each.status is Status.TRIAL, said="with a trial lesson", place=2)]
    return [*_people(word, candidates), *_weekdays(word, candidates), *_instruments(word, candidates)]


def _people(word: str, candidates: Sequence[Candidate]) -> Iterator[_Claim]:
    """Families of the name, and students by their whole or their first name; a name that both have is the family's."""
    families = {each.family.id: each.family for each in candidates if name_key(each.family.name) == word}
    for number, family in families.items():
        theirs = _still_here([each for each in candidates if each.family.id == number])
        yield _Claim(is_true=_is_one_of(theirs), said=f"the {family.name} family", place=0)
    if families:
        return
    whole = [each for each in candidates if word in {name_key(each.student.name), _with_family(each)}]
    first = [each for each in candidates if name_key(first_name(each.student, each.family)) == word]
    for each in _still_here(whole or first):
        yield _Claim(is_true=_is_one_of([each]), said=f"{each.student.name} ({each.family.name})", place=0)


def _still_here(candidates: Sequence[Candidate]) -> Sequence[Candidate]:
    """Those who did not end, or all where all did: of two with one name the one who comes is meant."""
    return [each for each in candidates if each.status is not Status.ENDED] or candidates


def _is_one_of(candidates: Iterable[Candidate]) -> Callable[[Candidate], bool]:
    numbers = {each.student.id for each in candidates}
    return lambda each: each.student.id in numbers


def _with_family(each: Candidate) -> str:
    return name_key(f"{first_name(each.student, each.family)} {each.family.name}")


def _weekdays(word: str, candidates: Iterable[Candidate]) -> Iterator[_Claim]:  # noqa: ARG001 a finder as the others
    day = WEEKDAY_PLURALS.get(word, WEEKDAY_WORDS.get(word))
    if day is not None:
        yield _Claim(is_true=lambda each: each.is_student and day in each.weekdays, said=f"on {WEEKDAYS[day]}", place=1)


def _instruments(word: str, candidates: Iterable[Candidate]) -> Iterator[_Claim]:
    played = {each for candidate in candidates for each in candidate.instruments}
    for name in sorted(played):
        if word in {f"{name_key(name)}{end}" for end in ("", "s", " students", " players")}:
            yield _Claim(is_true=_plays(name), said=f"{name} students", place=0)


def _plays(instrument: str) -> Callable[[Candidate], bool]:
    return lambda each: each.is_student and instrument in each.instruments


def _is_in(group: Sequence[_Claim], candidate: Candidate) -> bool:
    """Whether all words of a part are true of a student."""
    return all(claim.is_true(candidate) for claim in group)


def _said(group: Sequence[_Claim]) -> str:
    """A part in words: `cello students on Tuesday who pause`."""
    ordered = sorted(group, key=lambda claim: claim.place)
    lead = [] if ordered[0].place == 0 else ["students"]
    return " ".join((*lead, *(claim.said for claim in ordered)))
