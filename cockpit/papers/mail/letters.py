"""The words of a letter about times, in the family's language: its subject, and a short plain text."""

from cockpit.papers.words.dates import city, clock_time, long_date
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.post.letters import LessonTold, News, TimeLetter, TimeThere
from cockpit.studio.shown import one_line

_SUBJECTS = {
    News.CALLED_OFF: "letter.subject_called_off",
    News.CANCELED: "letter.subject_canceled",
    News.MOVED: "letter.subject_moved",
    News.BOOKED: "letter.subject_booked",
    News.CHOICE: "letter.subject_choice",
}
_SENTENCES = {
    News.CALLED_OFF: "letter.called_off",
    News.CANCELED: "letter.canceled",
    News.MOVED: "letter.moved",
    News.BOOKED: "letter.booked",
    News.CHOICE: "letter.choice",
}


def letter_words(letter: TimeLetter, hours: int, phrases: Phrases) -> tuple[str, str]:
    """The subject and the text. Times are on the family's clock, in its habit of 12 or 24 hours, or else in `hours`."""
    hours, first = letter.family.hours or hours, letter.lessons[0]
    day = long_date(first.starts.at.date(), phrases, is_in_sentence=True)
    who = phrases.joined([one_line(name) for name in letter.students])
    subject = phrases.say(_SUBJECTS[letter.news], student=who, date=day)
    sentences = [_sentence(letter, each, hours, phrases) for each in letter.lessons]
    if letter.news is News.CHOICE:
        choices = "\n".join(f"- {_moment(at, hours, phrases)}" for at in letter.times)
        return subject, "\n\n".join([*sentences, phrases.say("letter.choose"), choices]) + "\n"
    after = [phrases.say("letter.new_time")] if letter.news is News.CALLED_OFF else []
    return subject, "\n\n".join([*sentences, *after]) + "\n"


def _sentence(letter: TimeLetter, lesson: LessonTold, hours: int, phrases: Phrases) -> str:
    is_today = letter.news is News.CALLED_OFF and lesson.starts.at.date() == letter.today
    return phrases.say(
        "letter.called_off_today" if is_today else _SENTENCES[letter.news],
        student=one_line(lesson.student),
        date=long_date(lesson.starts.at.date(), phrases, is_in_sentence=True),
        time=clock_time(lesson.starts.at, hours, phrases),
        city=city(lesson.starts.zone, phrases),
    )


def _moment(there: TimeThere, hours: int, phrases: Phrases) -> str:
    return phrases.say(
        "letter.moment",
        date=long_date(there.at.date(), phrases),
        time=clock_time(there.at, hours, phrases),
        city=city(there.zone, phrases),
    )
