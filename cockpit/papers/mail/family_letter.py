"""A letter to many families as one of them gets it: her words as typed, with the family's own facts in its language."""

from cockpit.papers.words.dates import city, clock_time, long_date
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.post.family_letter import LetterFor, LetterText, filled
from cockpit.studio.post.letters import LessonTold
from cockpit.studio.shown import one_line


def family_letter_words(text: LetterText, to: LetterFor, hours: int, phrases: Phrases) -> tuple[str, str]:
    """The subject and the text. Times are on the family's clock, in its habit of 12 or 24 hours, or else in `hours`."""
    values = {
        "student": phrases.joined([one_line(name) for name in to.students]),
        "family": one_line(to.family.name),
        "time": _times(to, to.family.hours or hours, phrases),
        "place": city(to.place, phrases),
    }
    return one_line(filled(text.subject, values)), f"{filled(text.body, values)}\n"


def _times(to: LetterFor, hours: int, phrases: Phrases) -> str:
    """The next lesson; of several students that of each, with the name."""
    said = [_moment(each, hours, phrases) for each in to.lessons]
    if len(to.students) < 2:
        return phrases.joined(said) if said else ""
    named = [
        phrases.say("letter.moment_of", moment=moment, student=one_line(each.student))
        for moment, each in zip(said, to.lessons, strict=True)
    ]
    return phrases.joined(named) if named else ""


def _moment(lesson: LessonTold, hours: int, phrases: Phrases) -> str:
    there = lesson.starts
    return phrases.say(
        "letter.moment",
        date=long_date(there.at.date(), phrases, is_in_sentence=True),
        time=clock_time(there.at, hours, phrases),
        city=city(there.zone, phrases),
    )
