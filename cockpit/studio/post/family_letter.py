"""A letter to many families, each alone: its text with fields in braces, and by language; to whom it went.

`{student}`, `{family}`, `{time}`, and `{place}` are filled in for each family. Below a heading such as `[es]` stands the
text for families of that language. The first line of a text is the subject.
"""

import re
from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import NewType

from cockpit.studio.errors import BadInput
from cockpit.studio.notes.notes import Line, read_notes
from cockpit.studio.people.people import Family, GuardianId
from cockpit.studio.post.letters import LessonTold
from cockpit.studio.values import Value

FamilyLetterId = NewType("FamilyLetterId", int)
FIELDS = ("student", "family", "time", "place")
LONGEST = 20_000
"""Signs of a text: more was pasted by mistake, and each key would wait for all of it."""
_MONEY = frozenset(
    ("sum", "amount", "balance", "fee", "fees", "money", "total", "tuition", "owed", "charge", "charges", "payment")
)
_BRACED = re.compile(r"\{(?P<name>[^{}\n]*)(?P<end>\}?)")
_HEADING = re.compile(r"^\[(?P<language>[A-Za-z]{2,3}(?:-[A-Za-z]{2,4})?)\][ \t]*$", re.MULTILINE)
_ARE = "{student}, {family}, {time}, or {place}"


class FamilyLetter(Value):
    """A letter as it was typed: `whom` is the line that says whom it is for. It is a draft until it goes to somebody."""

    id: FamilyLetterId
    whom: str
    text: str
    made_at: datetime


class LetterGuardian(Value):
    """A guardian whom a letter went to at a moment (UTC), or who was left out, without one."""

    letter_id: FamilyLetterId
    guardian_id: GuardianId
    given_at: datetime | None = None


class LetterText(Value):
    """The text for one language: its subject, and what stands below."""

    subject: str
    body: str


class LetterFor(Value):
    """What is filled in for one family: its students by first name, the next lesson of each who has one, and where it lives.

    `place` is the IANA zone that the family's clock shows.
    """

    family: Family
    students: tuple[str, ...]
    lessons: tuple[LessonTold, ...]
    place: str


def texts_of(typed: str) -> Mapping[str, str]:
    """The texts by language, in small letters; what stands above the first heading has none, the empty one."""
    texts, language, begins = {}, "", 0
    for heading in _HEADING.finditer(typed):
        texts[language] = typed[begins : heading.start()]
        language, begins = heading["language"].lower(), heading.end()
    texts[language] = typed[begins:]
    return {spoken: text.strip() for spoken, text in texts.items() if text.strip()}


def text_for(typed: str, language: str, usual: str) -> LetterText:
    """The text for a family: that of its language, else the one without a heading, else the one in her `usual` language.

    Raises:
        BadInput: there is none, or it has nothing but a subject.
    """
    texts = texts_of(typed)
    if not texts:
        raise BadInput("The letter is empty. Its first line is the subject.")
    subject, _, body = texts[_chosen(texts, language, usual)].partition("\n")
    if not body.strip():
        raise BadInput("The letter has a subject, which is its first line, and no text below it.")
    return LetterText(subject=subject.strip(), body=body.strip())


def foreign_language(typed: str, language: str, usual: str) -> str | None:
    """The language of the text that a family gets, where that is neither its own nor her `usual` one; None where it is."""
    texts = texts_of(typed)
    chosen = _chosen(texts, language, usual) if texts else ""
    is_read = chosen.partition("-")[0] in {"", *(each.lower().partition("-")[0] for each in (language, usual))}
    return None if is_read else chosen


def _chosen(texts: Mapping[str, str], language: str, usual: str) -> str:
    names = (language.lower(), language.lower().partition("-")[0], "", usual.lower(), next(iter(texts)))
    return next(name for name in names if name in texts)


def languages_in(typed: str) -> tuple[str, ...]:
    """The languages of the headings, in small letters, in order."""
    return tuple(found["language"].lower() for found in _HEADING.finditer(typed))


def faults_in(typed: str) -> Iterator[str]:
    """What cannot go out, a sentence for each: a private line, a language twice, an unknown field, money, an open brace."""
    private = next((line.typed.strip() for line in read_notes(typed) if line.line is Line.PRIVATE), None)
    if private is not None:
        yield f'"{private[:40]}" is private, and a letter has no private lines. Take it out.'
    languages = languages_in(typed)
    for twice in dict.fromkeys(each for each in languages if languages.count(each) > 1):
        yield f"[{twice}] is there twice, and only one text could go. Keep one heading."
    for field in dict.fromkeys(found.groups() for found in _BRACED.finditer(typed)):
        name, end = field
        if _key(name) in _MONEY:
            yield f"{{{name.strip()}}} is money, which stands in statements alone. Take it out."
        elif not end:
            yield f'"{{{name[:20].rstrip()}" has no closing brace. Braces are for {_ARE}.'
        elif _key(name) not in FIELDS:
            yield f"{{{name}}} is not filled in. Use {_ARE}."


def fields_in(typed: str) -> frozenset[str]:
    """The fields that a text has."""
    return frozenset(_key(found["name"]) for found in _BRACED.finditer(typed) if found["end"])


def filled(typed: str, values: Mapping[str, str]) -> str:
    """A text with its fields filled in, once: braces in a name are no field. What has no value stays as typed."""
    return _BRACED.sub(lambda found: values.get(_key(found["name"]), found[0]) if found["end"] else found[0], typed)


def _key(name: str) -> str:
    return name.strip().casefold()
