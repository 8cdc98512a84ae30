"""How the labels of assignments are spelled, and why some words are none."""

import re

from cockpit.studio.notes.kept_back import COLON, has_sign, is_kept_back
from cockpit.studio.notes.spelling import column_of, with_plain_signs, without_unseen
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels, Meaning, is_areas_name, says_goal, says_to_get
from cockpit.studio.values import Value

_LEAD = r"[\W_]*+(?:(?:\d{1,3}|[^\W\d_]{1,2})[.)][\W_]*+)*+(?:\d{1,2}\s++)?+"
_ONE = r"[^\W\d_]+"
_AREA = re.compile(
    rf"{_LEAD}(?P<label>(?P<words>(?:\d(?:st|nd|rd|th|ère|er|ème|e|a|º)\s+)?{_ONE}(?:(?:\s*[&+/,]\s*|[\s'-]+){_ONE}){{0,5}})"
    rf"(?P<number>\s*(?:#|№|\bn[or]\.?|n°)?\s*\d{{1,3}}[a-d]?\b)?(?:\s*[(\[][^()\[\]]{{0,60}}[)\]])?)"
    rf"(?:[\s*_)\]\"'»]*{COLON}[*_]*|\s+-+\s)",
    re.IGNORECASE,
)
_SPACES = re.compile(r"\s+")
# "Hanon 5:", "Mum #2:", and no time of day: "Lesson at 5: bring the stand".
NUMBER_BEHIND = r"(?:(?<!\bat)(?<!\bby)(?<!\bto)(?<!\bfrom)(?<!\buntil)(?<!\bbefore)(?<!\bafter)(?:\s(?:n[or]\.\s?)?|\s?[#№]\s?)\d{1,3}[a-d]?)"
_NUMBER = re.compile(rf"{NUMBER_BEHIND}$", re.IGNORECASE)


class AreaLabel(Value):
    """The label of a line that the family reads: what it says, as typed, its number, and the column behind it."""

    meaning: Meaning
    typed: str
    number: str | None
    ends: int

    @property
    def own(self) -> str | None:
        """It as typed, where it says more than the name of an area, or that something is to be got, or is a goal."""
        is_plain = says_goal if self.meaning.is_goal else says_to_get if self.meaning.is_to_get else is_areas_name
        return None if is_plain(self.typed) else self.typed


def area_label(typed: str, labels: Labels = BUILT_IN) -> AreaLabel | None:
    """The label that a line begins with, of those that the family reads; also numbered, in stars, with a dash for a colon."""
    if not has_sign(typed):
        return None
    line, columns = without_unseen(typed)
    label = _AREA.match(with_plain_signs(line))
    meaning = labels.meaning(label["words"]) if label else None
    if label is None or meaning is None or line.startswith("//", label.end()):
        return None
    words = _SPACES.sub(" ", line[slice(*label.span("label"))]).strip()
    ends = column_of(columns, label.end(), typed)
    return AreaLabel(meaning=meaning, typed=words, number=label["number"], ends=ends)


def why_no_label(words: str, labels: Labels = BUILT_IN) -> str:
    """Why words are no label: `has no colon`."""
    if words.endswith(":"):
        is_one = labels.meaning(_NUMBER.sub("", words[:-1])) is not None or is_kept_back(words[:-1])
        return "does not begin its line" if is_one else "is no label"
    if words[0].isalnum() and with_plain_signs(words).endswith("-"):
        return "is no label"
    return "has no colon" if words[0].isalnum() else "keeps nothing back"
