"""The fixed phrases of families' papers in English; `themes/phrases/en.toml` says the same, for those who translate.

They stand here as well, so that an English paper waits for no file, and a phrase that a language lacks is at hand.
"""

from collections.abc import Mapping
from types import MappingProxyType

from cockpit.studio.practice.notes import CAUTION

_NOTES = {
    "title": "Practice notes for {student}",
    "when": "{date}, {time} {city} time",
    "length": "{minutes} of {instrument}",
    "assignments": "What to practice",
    "remarks": "From the lesson",
    "next_lesson": "Next lesson",
    "not_booked": "The next lesson is not booked yet.",
    "none_on": "{next}. No lesson on {days}",
    "label": "{label}:",
    "caution": CAUTION,
}
_WORDS = {
    "and": "{first} and {last}",
    "minutes_one": "{count} minute",
    "minutes_other": "{count} minutes",
    "minutes_short": "{count} min",
    "once": "once",
    "times_2": "twice",
    "times_3": "three times",
    "times_4": "four times",
    "times_5": "five times",
    "times_6": "six times",
    "times_7": "seven times",
    "times_8": "eight times",
    "times_9": "nine times",
    "times_10": "ten times",
    "times_11": "eleven times",
    "times_12": "twelve times",
    "times_other": "{count} times",
}
_DATES = {
    "range": "{first} to {last}",
    "first_of_month": "1",
    "time_12": "{time}",
    "time_24": "{time}",
}
_AREAS = {
    "warm-up": "warm-up",
    "scales": "scales",
    "technique": "technique",
    "etude": "etude",
    "method book": "method book",
    "piece": "piece",
    "review": "review",
    "theory": "theory",
    "ear": "ear",
    "sight-reading": "sight-reading",
    "listening": "listening",
    "assignment": "assignment",
}
_PLAN = {
    "heading": "Practice plan",
    "what_it_is": "Sums for planning, not a promise; how to practice each one stands above.",
    "every_day": "Every practice day",
    "never": "On no practice day of this week",
    "each_practice_day": "{minutes} each practice day",
    "each_day": "{minutes} each day",
    "in_all": "{minutes} in all",
    "of_the_daily": "{count} of the daily {minutes}",
    "more_than_daily": "{minutes} more than the daily {daily}",
    "measure": "measure {measures}",
    "measures": "measures {measures}",
    "to_the_end": "{first} to the end",
    "turns": "in turns with {names}",
    "turns_of": "in turns with {names}: {minutes}",
    "through": "about {times} through",
    "less_than_once": "less than once through",
    "in_common_time": "{through} (in 4/4)",
}
_TEMPO = {
    "beat": "{beat} = {tempo}",
    "about": "about {tempo}",
    "range": "{first} to {last}",
    "up_to": "up to {tempo}",
    "whole": "whole",
    "half": "half",
    "quarter": "quarter",
    "eighth": "eighth",
    "sixteenth": "sixteenth",
    "dotted_whole": "dotted whole",
    "dotted_half": "dotted half",
    "dotted_quarter": "dotted quarter",
    "dotted_eighth": "dotted eighth",
    "dotted_sixteenth": "dotted sixteenth",
    "quarters": "{count} quarters",
}
_CALENDAR = {
    "lesson": "{whose} lesson",
    "next": "Next lesson, {student}",
}
_CLOCKS = {
    "reason": "Clocks do not change everywhere on the same day, and in some places not at all.",
    "moves_one": "That moves this lesson on your clock:",
    "moves_other": "That moves these lessons on your clock:",
    "moved_one": "This lesson moves on your clock:",
    "moved_other": "These lessons move on your clock:",
    "subject_one": "{lesson}: another time from {date}",
    "subject_other": "Lessons at another time from {date}",
    "lesson": "{whose} lesson",
    "lesson_of": "{whose} {instrument} lesson",
    "only_on": "Only on {date}, it begins {new}.",
    "until": "From {first} up to and including {last}, it begins {new}.",
    "from": "From {first} on, it begins {new}.",
    "again": "at {time} again, {place}",
    "instead": "at {time} {place} instead of {old}",
    "place": "{city} time ({offset})",
    "old": "{time} ({offset})",
    "old_on": "{weekday} at {time} ({offset})",
}
_MAIL = {
    "subject": "{title}, {day}",
    "title_of_several": "Practice notes for {students}",
    "updated_subject": "Updated: {subject}",
    "updated": "These notes have changed. They take the place of those you were sent before.",
    "calendar_of_next": "Next lesson",
}
_SECTIONS = {
    "notes": _NOTES,
    "words": _WORDS,
    "dates": _DATES,
    "areas": _AREAS,
    "plan": _PLAN,
    "tempo": _TEMPO,
    "calendar": _CALENDAR,
    "clocks": _CLOCKS,
    "mail": _MAIL,
}

ENGLISH: Mapping[str, str] = MappingProxyType(
    {f"{section}.{name}": phrase for section, phrases in _SECTIONS.items() for name, phrase in phrases.items()}
)
