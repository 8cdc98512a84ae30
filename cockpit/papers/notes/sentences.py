"""What every form of the practice notes says in the same words; times are on the family's own clock."""

from collections.abc import Iterator
from datetime import datetime

from cockpit.papers.notes.theory import answers, without_asking
from cockpit.papers.words.dates import city, clock_time, long_date, short_dates
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.assignments.assignment import Assignment
from cockpit.studio.clocks.words import utc_offset
from cockpit.studio.notes.notes import Line, NoteLine
from cockpit.studio.practice.notes import PracticeNotes
from cockpit.studio.values import replace

_SUNG = frozenset(
    [
        "voice",
        "vocal",
        "vocals",
        "singing",
        "sing",
        "singer",
        "gesang",
        "stimme",
        "singen",
        "chant",
        "voix",
        "canto",
        "voz",
    ]
)


def phrases_of_paper(paper: PracticeNotes, phrases: Phrases) -> Phrases:
    """The phrases as they are for a paper: who sings has another word for a warm-up in some languages."""
    is_sung = paper.instrument is not None and not _SUNG.isdisjoint(paper.instrument.casefold().split())
    sung = phrases.by_key.get("areas.warm-up_sung") if is_sung else None
    if sung is None:
        return phrases
    return replace(phrases, by_key={**phrases.by_key, "areas.warm-up": sung})


def title(paper: PracticeNotes, phrases: Phrases) -> str:
    """Whose practice notes they are."""
    return phrases.say("notes.title", student=paper.student)


def taught(paper: PracticeNotes, phrases: Phrases) -> str:
    """When the lesson was: `Tuesday 1 December 2026, 3:00 pm Phoenix time`."""
    return beginning(_when(paper.taught_at, paper.zone, paper.hours, phrases))


def length(paper: PracticeNotes, phrases: Phrases) -> str:
    """How long the lesson was booked for, and what it was: `30 minutes of cello`."""
    booked = phrases.minutes(paper.minutes)
    return phrases.say("notes.length", minutes=booked, instrument=paper.instrument) if paper.instrument else booked


def assignment_label(assignment: NoteLine | Assignment, phrases: Phrases) -> str:
    """What an assignment works on, as a label: her own word, or the area's in the family's language, `Method book:`."""
    return phrases.say("notes.label", label=assignment_name(assignment, phrases))


def assignment_name(assignment: NoteLine | Assignment, phrases: Phrases) -> str:
    """The same without a colon."""
    return beginning(assignment.own_label or phrases.say(f"areas.{assignment.area or Line.ASSIGNMENT}"))


def lasting_line(line: NoteLine) -> str:
    """A thing that the family is to get, or a goal: behind her label, where that says more than so."""
    text = without_asking(line.text)
    return f"{beginning(line.own_label)}: {text}" if line.own_label else text


def lasting_parts(paper: PracticeNotes, phrases: Phrases) -> Iterator[tuple[str, tuple[tuple[str, ...], ...]]]:
    """What stays on the sheet from lesson to lesson, with its heading: things to get, then goals; each with answers below it."""
    for key, lines in (("notes.to_get", paper.to_get), ("notes.goals", paper.goals)):
        if lines:
            yield (
                phrases.say(key),
                tuple((lasting_line(each), *answers(each.text, phrases, paper.theory)) for each in lines),
            )


def next_lesson(paper: PracticeNotes, phrases: Phrases) -> str:
    """When the next lesson is, with the offset from UTC, and on which days before it there is none.

    `Tuesday, December 8, 2026, 3:00 pm Phoenix time (UTC−07:00)`.
    """
    if paper.next_at is None:
        return phrases.say("notes.not_booked")
    following = (
        f"{_when(paper.next_at, paper.next_zone, paper.hours, phrases)} ({utc_offset(paper.next_at, paper.next_zone)})"
    )
    if paper.none_on:
        following = phrases.say("notes.none_on", next=following, days=short_dates(paper.none_on, phrases))
    if paper.none_until is not None:
        day = short_dates([paper.none_until], phrases)
        following = phrases.say("notes.none_until", next=following, day=day)
    return beginning(following)


def beginning(words: str) -> str:
    """Words that stand first on their line: with a capital, also in languages that write the days of a week small."""
    return words[:1].upper() + words[1:]


def _when(at: datetime, zone: str, hours: int, phrases: Phrases) -> str:
    time = clock_time(at, hours, phrases)
    return phrases.say("notes.when", date=long_date(at.date(), phrases), time=time, city=city(zone, phrases))
