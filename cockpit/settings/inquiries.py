"""The section [inquiry] of settings.toml: what she promises whoever asks about lessons, and how she answers."""

import re
from collections.abc import Mapping

from cockpit.settings.reading import TomlTable
from cockpit.studio.clocks.horizons import LESSON_MINUTES
from cockpit.studio.inquiries.rules import AGES, FIELDS, InquiryRules
from cockpit.studio.people.people import Level

_KEYS = ("reply_hours", "follow_up_days", "trial_minutes", "months", "answer", "lengths")
_FIELD = re.compile(r"\{(\w*)\}")
_IN_BRACES = ", ".join(f"{{{each}}}" for each in FIELDS)
_USUAL = InquiryRules()


def inquiry_rules(table: TomlTable) -> InquiryRules:
    """The rules in the section; what is not in it is as usual.

    Raises:
        BadSettings: the file, the key, what was found and what would work.
    """
    table.only(_KEYS, f"one of {', '.join(_KEYS)}")
    expected = "days in brackets, each more than the one before, such as [5, 12]"
    days = table.numbers("follow_up_days", _USUAL.follow_up_days, range(1, 366), expected)
    if list(days) != sorted(set(days)):
        raise table.fault("follow_up_days", list(days), expected)
    return InquiryRules(
        reply_hours=table.number("reply_hours", _USUAL.reply_hours, range(1, 24 * 14 + 1), "1 to 336 hours"),
        follow_up_days=days,
        trial_minutes=table.number("trial_minutes", _USUAL.trial_minutes, LESSON_MINUTES, "5 to 240 minutes"),
        months=table.number("months", _USUAL.months, range(1, 121), "1 to 120 months"),
        answer=_answer(table),
        lengths=_lengths(table.table("lengths")),
    )


def _answer(table: TomlTable) -> str:
    said = table.words("answer") or _USUAL.answer
    unknown = next((name for name in _FIELD.findall(said) if name not in FIELDS), None)
    if unknown is not None:
        raise table.fault("answer", f"{{{unknown}}}", f"your own words, and in braces only {_IN_BRACES}")
    return said


def _lengths(table: TomlTable) -> Mapping[Level, tuple[int, ...]]:
    table.only(Level, f"one of {', '.join(Level)}")
    expected = f"{len(AGES)} lesson lengths in brackets, for ages {', '.join(AGES)}"
    found: dict[Level, tuple[int, ...]] = {}
    for level, usual in _USUAL.lengths.items():
        found[level] = table.numbers(level, usual, LESSON_MINUTES, expected)
        if len(found[level]) != len(AGES):
            raise table.fault(level, list(found[level]), expected)
    return found
