"""The words that turn a claim around, by what they turn around and where they stand."""

from typing import NamedTuple

from cockpit.studio.assignments.assignment import Part
from cockpit.studio.assignments.reading_tokens import words_in

NOTHING_ON = words_in("off rest rests resting free none nothing away busy break")
PRACTICE = words_in("practice practise practicing practising play playing music work lesson lessons need")
# Words between a claim and what turns it around: "no practice at all on Tue", "Sat and Sun are rest days".
LEADING_TO = PRACTICE | words_in(
    "a an the any all at on in of for to with from by as and or only just ever do does use using try add out "
    "yet day days this week my your his her both either : = - – — / &"
)
LEADING_FROM = words_in(
    "is are be been being was were will would it he she they we i has have had a an the all both at on in for can s "
    "day days always usually now my your his her feel feels felt sounds sounded seems : = - – — ' ’"
)
# How `reading_denied` calls what is made of two words: last week or last time, and "or more", "and up".
LAST_WEEK, OR_MORE = "last week", "or more"
_PAST = frozenset({LAST_WEEK, "yesterday"})
_NOT = words_in(
    "no not never without except excluding skip omit minus avoid neither nor instead than leave drop n't dont cant cannot wont"
)
_NOT_BEHIND = words_in("later optional")
# Recitals are no practice, and "more on weekends" speaks of the other days as well.
_OTHER_EVENTS = words_in(
    "recital recitals concert concerts exam exams lesson lessons rehearsal rehearsals orchestra band choir camp trip "
    "vacation holiday holidays travel traveling travelling performance performing competition audition party "
    "closed sick ill"
)
_COMPARING = words_in("below under above over beyond slower faster")
_MORE = words_in("more less longer shorter double extra half harder")


class Denying(NamedTuple):
    """The words that turn a part around: right before it, anywhere before it in its clause, right behind it.

    `is_finishable` says that words of being finished turn it around too.
    """

    before: frozenset[str] = _NOT | _PAST
    far_before: frozenset[str] = frozenset()
    behind: frozenset[str] = _PAST
    is_finishable: bool = False


_OF_A_PASSAGE = Denying(before=_NOT | _PAST | {"later"}, behind=_NOT_BEHIND | _PAST, is_finishable=True)
DENYING = {
    Part.DAYS: Denying(
        before=_NOT | _PAST | NOTHING_ON | _OTHER_EVENTS | _MORE | {"but"},
        far_before=(_NOT | NOTHING_ON) - words_in("free break leave drop"),
        behind=NOTHING_ON
        | _OTHER_EVENTS
        | _MORE
        | _NOT_BEHIND
        | words_in("except excepted unavailable n't cannot cant wont"),
    ),
    Part.HANDS: Denying(
        before=_NOT | _PAST | words_in("less but rest resting later"),
        behind=_NOT_BEHIND | _PAST | words_in("rest rests resting silent tacet off out if"),
        is_finishable=True,
    ),
    Part.MEASURES: _OF_A_PASSAGE,
    Part.PAGES: _OF_A_PASSAGE,
    Part.KEY: Denying(),
    Part.OCTAVES: Denying(),
    Part.TIMES: Denying(),
    Part.MINUTES: Denying(
        before=_NOT | _PAST | words_in("under below over above was"), behind=_PAST | words_in("off was")
    ),
    Part.TEMPO: Denying(
        before=_NOT | _PAST | _COMPARING | words_in("least most minimum exceed past was were today had"),
        behind=_NOT_BEHIND | _PAST | words_in("was were too today least minimum") | {OR_MORE},
        is_finishable=True,
    ),
}
