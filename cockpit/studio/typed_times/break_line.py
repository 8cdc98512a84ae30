"""A typed line that says when there are no lessons: "dec 21 to jan 3 holidays", "family okonjo dec 24".

The line is read from left to right: whose days they are, which days, and why. A reason is made of words that are known
to be one, or it has a mark that only says why: a colon, a dash, quotes, "because". Behind a mark too a name of the studio, a
number, a time, and a word that limits or joins is none of it. Whatever else is left is named, and the line is refused: it
may say whose lessons, or when, and would call off everybody's. All of it is common practice, no source.
"""

import re
from collections.abc import Sequence
from contextlib import suppress
from datetime import date, timedelta

from cockpit.studio.clocks.calendar_words import WEEKDAY_WORDS
from cockpit.studio.clocks.moments import WEEKDAYS, local_time
from cockpit.studio.clocks.words import MONTHS, listed, long_date
from cockpit.studio.errors import BadInput
from cockpit.studio.notes.spelling import is_near
from cockpit.studio.people.people import Family, FamilyId
from cockpit.studio.typed_times.days import Days, day_of, in_one_order, in_year_of, or_year
from cockpit.studio.typed_times.parts import (
    Dated,
    DayCount,
    DayPart,
    FromToday,
    Joint,
    Link,
    Named,
    Number,
    Part,
    ReasonWord,
    TimeOfDay,
    Unknown,
    Weekday,
    WeekOf,
)
from cockpit.studio.typed_times.reasons import group_in, long_reason_at, reason_at
from cockpit.studio.typed_times.rules import DAY_RULES
from cockpit.studio.typed_times.studio_names import StudioNames
from cockpit.studio.typed_times.when import Reference
from cockpit.studio.typed_times.words import Finder, Found, WordRun, by_rules, claims_of, filler, month_alone
from cockpit.studio.values import Value, replace

_NO_LESSONS = re.compile(
    r"(?:(?:there (?:is|are) )?no (?:more )?(?:music )?(?:lessons?|teaching|classes)(?: at all)?|"
    r"(?:(?:the )?studio (?:is )?|we(?:['’]re| are) )?closed|(?:i['’]m |i am |we['’]re |we are )?off|(?:a )?days? off|"
    r"(?:a )?break|(?:(?:the )?(?:whole|full|entire)|all) day|cancel(?:led|ed)?)(?=[ ,;.]|$)"
)
_BECAUSE = re.compile(
    r"(?:because(?: of)?|due to|owing to|reason|wegen|weil|à cause d[eu]s?|parce que?|porque|debido a)(?=[ ,;]|$)"
)
_SMALL = re.compile(r"(?:on|at|@|the|(?:le|el)(?= [0-9])|for|of|is|inclusive|incl)(?=[.]?(?:[ ,;]|$))")
_WEEKDAY = "|".join(sorted(WEEKDAY_WORDS, key=len, reverse=True))
_ISO = r"\d{4}-\d{1,2}-\d{1,2}"
# A dash between two days: "dec 21-31", "24.12.-2.1.", "12/21-1/3", "mon-fri"; but none in 2026-12-21 or in half-term.
_DASH = re.compile(
    rf"(?P<before>{_ISO}|\b(?:{_WEEKDAY})(?=[-–—](?:{_WEEKDAY})\b))(?:[-–—](?=\d|[a-z]))?|"
    r"(?<=[\d.])[-–—](?=\d|[a-z]{3,9} ?\d)|(?<=[a-z])[-–—](?=\d)",
    re.IGNORECASE,
)
_DASHES = ("-", "–", "—")
_QUOTES = '"“”„«»'
_UNQUOTED = re.compile(f"[{_QUOTES}]")
# Words of a reason that has a mark: behind a free word ("trip to Rome", "ski week"), and beside one ("last day of term").
_BEHIND = frozenset(["to", "and", "&", "week", "weeks", "weekend", "weekends"])
_ORDINALS = frozenset(["last", "first", "second", "third"])
_LETTERS = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")
_ONE_DAY = timedelta(days=1)
_YEARS = range(2000, 2100)
_DAY = (Dated, FromToday, Weekday, Number, WeekOf)
# Doubts, conditions, and parts of a day, which are no reason behind a mark either.
_NEVER = frozenset(
    """
    if unless when whenever maybe perhaps possibly probably provisionally tentative tentatively optional optionally tbc tbd
    unconfirmed unsure undecided forenoon midmorning midafternoon falls wenn eventuell vielleicht wahrscheinlich morgens
    mittags peut-être probablement si matin matinée soir soirée après-midi quizá quizás mañana tarde noche
    """.split()  # noqa: SIM905 a list would have a line for each word
)
# Words that a misspelled one is not a reason for.
_LIMITS = (
    *(name.casefold() for name in (*WEEKDAYS, *MONTHS)),
    *("morning", "afternoon", "evening", "noon", "today", "tomorrow", "weekend", "week", "family"),
    *("except", "without", "until", "through", "before", "after", "excluding", "only"),
    *("cancel", "undo", "open", "reopen", "remove", "delete"),  # the opposite of a break
)  # fmt: skip


class DaysAsked(Value):
    """What a line of days is asked for: what they are called, lines that work, words that say nothing in it.

    Where it `can_be_open`, a line may say a first day alone.
    """

    noun: str
    examples: tuple[str, ...]
    small: re.Pattern[str] | None = None
    can_be_open: bool = False

    @property
    def example(self) -> str:
        """Its examples, one of which is to be typed."""
        return f"{', '.join(self.examples[:-1])}{',' if len(self.examples) > 2 else ''} or {self.examples[-1]}"


A_BREAK = DaysAsked(
    noun="break", examples=('"dec 21 to jan 3 holidays"', '"dec 21 for 2 weeks"', '"family okonjo dec 24"')
)


class BreakLine(Value):
    """What a line names: the days, the first and the last of them, whose they are, and why.

    `whom` is the student or the family that was named, as the studio spells it; empty for the whole studio. The last day is
    `date.max` where a line that can be open says none.
    """

    family_id: FamilyId | None
    from_on: date
    until_on: date
    reason: str
    whom: str = ""


def read_break(text: str, people: StudioNames, reference: Reference, asked: DaysAsked = A_BREAK) -> BreakLine:
    """The days without lessons that a line names, on the teacher's clock.

    A family, or a student who is the only one of a family, may be named before the days or behind them. The first day
    may have passed, but not the last. A week is Monday to Sunday; this week begins today.

    Raises:
        BadInput: a word is not understood, or the line names no day, a time, or more than one family.
    """
    finders = (
        long_reason_at(lambda word: people.near(word) is not None),
        people.find_long,
        filler(_NO_LESSONS),
        _because_at,
        by_rules(DAY_RULES),
        # Behind the days: a student may be called June.
        *([filler(asked.small)] if asked.small is not None else []),
        people.find,
        filler(_SMALL),
        reason_at,
    )
    today = local_time(reference.now, reference.home_zone).date()
    days = Days(today=today, around=today, month_first=reference.month_first, can_be_past=True)
    # Behind this, a semicolon is a colon: only that says why.
    return _Reader(_DASH.sub(_apart, text.replace(";", ",")), finders, people, days, asked).read()


class _Reader:
    """Goes over the claims of a line once; what stands where it cannot stand is named."""

    def __init__(self, text: str, finders: Sequence[Finder], people: StudioNames, days: Days, asked: DaysAsked) -> None:
        self._asked = asked
        self._claims = _with_dates(claims_of(text, finders), month_first=days.month_first)
        self._finders = finders
        self._people = people
        self._days = days
        self._at = 0

    def read(self) -> BreakLine:
        """Reads the line; it has no other claims than these.

        Raises:
            BadInput.
        """
        self._check_days()
        whom = self._whom()
        span = self._span()
        if span[1] < self._days.today:
            or_else = or_year([part for claim in self._claims for part in claim.parts])
            raise BadInput(
                f"The {self._asked.noun} would end on {long_date(span[1])}, which has passed. Type a later day{or_else}."
            )
        whom = self._one_of([*whom, *self._whom()], span)
        reason = self._reason(whom, span)
        family, called = self._family(whom, span)
        return BreakLine(
            family_id=family.id if family is not None else None,
            from_on=span[0],
            until_on=span[1],
            reason=reason,
            whom=called,
        )

    def _check_days(self) -> None:
        """Refuses a weekday that somebody of the studio is called: theirs would be everybody's break."""
        for part in (claim.parts[0] for claim in self._claims if len(claim.parts) == 1):
            day = WEEKDAYS[part.weekday].casefold() if isinstance(part, Weekday) else part.text
            if part.text != day and self._people.has(part.text):
                raise BadInput(
                    f'"{part.text}" could be a day or somebody in your studio. Type "{day}" for the day, or "family" and '
                    f"the name, such as {A_BREAK.examples[-1]}."
                )

    def _peek(self) -> Part | None:
        """The part of the next claim that says something; its first one, if it has more."""
        while self._at < len(self._claims) and not self._claims[self._at].parts:
            self._at += 1
        return self._claims[self._at].parts[0] if self._at < len(self._claims) else None

    def _takes(self, joint: Joint) -> bool:
        part = self._peek()
        if not isinstance(part, Link) or part.joint is not joint:
            return False
        self._at += 1
        return True

    def _takes_to(self) -> bool:
        """Whether the days go on to another one; a dash may also stand before the reason."""
        here = self._at
        if not self._takes(Joint.TO):
            return False
        if self._claims[self._at - 1].text in _DASHES and not isinstance(self._peek(), _DAY):
            self._at = here
            return False
        return True

    def _whom(self) -> list[Named]:
        """The names at this place, with "only" before them, and "and" between."""
        begins, found = self._at, []
        self._takes(Joint.ONLY)
        while isinstance(part := self._peek(), Named):
            found.append(part)
            self._at += 1
            begins = self._at
            if not (self._takes(Joint.AND) and isinstance(self._peek(), Named)):
                self._at = begins
        self._at = begins
        return found

    def _day(self) -> tuple[Part, ...]:
        """The parts of one day, or of a week, at this place."""
        found: list[Part] = []
        while isinstance(part := self._peek(), _DAY):
            if _is_part_of_day(self._claims[self._at]):
                raise self._refusal()
            self._at += 1
            if not isinstance(part, Number) or not found:
                found += self._claims[self._at - 1].parts
            elif isinstance(before := found[-1], Weekday):
                found.append(Dated(text=part.text, day=part.value))
            elif isinstance(before, Number | Dated) and part.value in _YEARS:
                day = before if isinstance(before, Dated) else Dated(text=before.text, day=before.value)
                found[-1] = replace(day, year=part.value)
            else:
                self._at -= 1
                break
        if not found:
            raise self._refusal()
        return tuple(found)

    def _span(self) -> tuple[date, date]:
        """The first and the last of the days at this place."""
        part = self._peek()
        if isinstance(part, DayCount) and not part.text.startswith("for "):
            return self._counted(part)
        if self._takes(Joint.TO):
            last = _typed(self._days_of(self._day(), self._days)[1], self._days.today)
            raise BadInput(f'The {self._asked.noun} has no first day. Try "today to {last}" or "tomorrow to {last}".')
        since = part.text if isinstance(part, Link) and self._takes(Joint.FROM) else ""
        begins, part = self._day(), self._peek()
        if self._takes_to() or (since == "between" and self._takes(Joint.AND)):
            return self._from_to(begins, self._day())
        if isinstance(part, DayCount) and part.text.startswith("for "):
            self._at += 1
            return self._for(begins, part.days)
        if since and self._asked.can_be_open:
            return self._days_of(begins, self._days)[0], date.max
        if since or self._takes(Joint.ON):
            first = _typed(self._days_of(begins, self._days)[0], self._days.today)
            raise BadInput(
                f'The {self._asked.noun} has no last day. Try "{first}" for one day, or "{first} for 2 weeks".'
            )
        return self._days_of(begins, self._days)

    def _counted(self, count: DayCount) -> tuple[date, date]:
        """Three days from a day on. "A week from" a day may be the day a week later."""
        here, self._at = self._at, self._at + 1
        if not self._takes(Joint.FROM):
            raise self._refusal(here)
        begins = self._day()
        if count.text.startswith("a"):
            first = _typed(self._days_of(begins, self._days)[0], self._days.today)
            later = _typed(self._days_of(begins, self._days)[0] + count.days * _ONE_DAY, self._days.today)
            raise BadInput(f'"{count.text} from" could be two things. Try "{first} for {count.text}" or "{later}".')
        return self._for(begins, count.days)

    def _for(self, begins: Sequence[Part], days: int) -> tuple[date, date]:
        if not days:
            raise BadInput(f"A {self._asked.noun} lasts one day or more. Try {self._asked.example}.")
        from_on = self._days_of(begins, self._days)[0]
        return from_on, from_on + (days - 1) * _ONE_DAY

    def _from_to(self, begins: tuple[Part, ...], ends: tuple[Part, ...]) -> tuple[date, date]:
        if self._days.month_first:
            _refuse_either_order(begins, ends)
        begins, ends = _each_complete(begins, ends)
        from_on = self._days_of(in_year_of(ends, begins, self._days.today), self._days)[0]
        return from_on, self._days_of(ends, replace(self._days, first=from_on))[1]

    def _days_of(self, parts: Sequence[Part], days: Days) -> tuple[date, date]:
        """The day that parts name, twice, or the first and the last day of the week that they name."""
        number = next((part for part in parts if isinstance(part, Number)), None)
        if number is not None:
            example = f' Try "dec {number.value}".' if 1 <= number.value <= 31 else f" Try {self._asked.example}."
            raise BadInput(f'"{number.text}" is not clear by itself.{example}')
        of = next((part for part in parts if isinstance(part, WeekOf)), None)
        named = [part for part in parts if not isinstance(part, WeekOf)]
        on = day_of(named, days)
        if on is None:
            raise BadInput(f"The line has no day. Try {self._asked.example}.")
        is_week = all(isinstance(part, FromToday) and part.is_week for part in named)
        if of is None and not is_week:
            return on, on
        monday = on - on.weekday() * _ONE_DAY
        first = monday + 5 * _ONE_DAY if of is not None and of.is_weekend else monday
        last = monday + 6 * _ONE_DAY
        return (max(first, min(days.today, last)) if is_week else first), last

    def _reason(self, whom: Sequence[Named], span: tuple[date, date]) -> str:
        """The words that are left, if they say why."""
        begins = self._at
        while begins < len(self._claims) and (not self._claims[begins].parts or _is_mark(self._claims[begins])):
            begins += 1
        if begins == len(self._claims):
            return ""
        for number, claim in enumerate(self._claims[begins:], begins):
            if claim.parts and not self._is_of_reason(number, begins):
                self._at = number
                raise self._more(whom, span)
        is_marked = self._is_marked(begins)
        while _SMALL.fullmatch(self._claims[begins - 1].text.casefold()):
            begins -= 1
        reason = self._claims[begins].rest.replace(";", ":").strip(f" ,:.-–—{_QUOTES}")
        if self._asked is A_BREAK and not any(each.families or each.students for each in whom):
            self._check_nobody(reason, span)
        if not is_marked:
            self._check_known(self._claims[begins:], reason, whom, span)
        return reason

    def _check_known(
        self, claims: Sequence[WordRun], reason: str, whom: Sequence[Named], span: tuple[date, date]
    ) -> None:
        """Refuses words without a mark that are not known to be a reason: they may say whose days they are, or when."""
        words = [(claim, claim.parts[0]) for claim in claims if claim.parts]
        weeks = {"week", "weeks", "weekend"} if span[0] != span[1] else set()
        named = [
            claim for claim, part in words if not isinstance(part, ReasonWord) and claim.text.casefold() not in weeks
        ]
        if not named and any(part.is_reason for _, part in words if isinstance(part, ReasonWord)):
            return
        odd = (named or [claim for claim, _ in words])[0].text.strip(_QUOTES)
        family = next((family for each in whom for family in self._families_of(each)), None)
        marked = f'{self._line(span, family)[:-1]}: {_UNQUOTED.sub("", reason)}"'
        said = f'"{odd}" is not understood. If it is the reason'
        if family is not None:
            raise BadInput(f"{said}, type {marked}.")
        if self._asked is not A_BREAK:
            raise BadInput(f"{said}, type {marked}. Without one, type {self._line(span)}.")
        one = "".join(f" For one family, type {self._line(span, each)}." for each in self._first_family())
        raise BadInput(f"{said} and everybody is off, type {marked}.{one}")

    def _check_nobody(self, reason: str, span: tuple[date, date]) -> None:
        """Refuses a reason that says whose lessons are meant, where everybody's would be called off."""
        who = group_in(reason)
        if who is None:
            return
        begins = max(0, reason.casefold().find(who))
        typed = reason[begins : begins + len(who)]
        who = typed if typed.casefold() == who else who
        lines = [f'{self._line(span)[:-1]}: holiday"', *(self._line(span, each) for each in self._first_family())]
        raise BadInput(
            f'"{who}" is not understood as a reason: it may be only some of your students. A break is for the whole studio '
            f"or for one family. Try {listed_or(lines)}."
        )

    def _first_family(self) -> list[Family]:
        """The first family of the studio by its name, if there is one."""
        return sorted(self._people.families.values(), key=lambda each: each.name.casefold())[:1]

    def _is_of_reason(self, number: int, begins: int) -> bool:
        """Whether a claim can say why behind a mark; one that could go on with the days does so only by a free word."""
        if self._is_free(number):
            return True
        word = self._claims[number].text.casefold()
        return (word in _BEHIND and number > begins and self._is_free(number - 1)) or (
            word in _ORDINALS and (number > begins or self._is_free(min(number + 1, len(self._claims) - 1)))
        )

    def _is_marked(self, begins: int) -> bool:
        """Whether a mark that only says why stands between the days and the reason, or the reason is in quotes."""
        typed = self._claims[begins].rest
        if typed[0] in _QUOTES and typed.rstrip(" .")[-1] in _QUOTES:
            return True
        for claim in reversed(self._claims[:begins]):
            if _is_mark(claim) or claim.has_colon:
                return True
            if claim.parts:
                return False
        return False

    def _is_free(self, number: int) -> bool:
        """Whether a claim can be of any reason: a word that means nothing else here, or one that only a break has."""
        claim = self._claims[number]
        if claim.is_unknown:
            return self._means_nothing(claim.text)
        if claim.parts and isinstance(claim.parts[0], ReasonWord):
            return True
        return not claim.parts and not _SMALL.fullmatch(claim.text.casefold())

    def _means_nothing(self, text: str) -> bool:
        """Whether a word that means nothing here can be one of a reason: it has letters and no digit, and is near no other meaning."""
        words = [word.casefold() for word in _LETTERS.findall(text)]
        if words and words[0] != text.casefold():  # a word may hide behind a sign: "not", half-day, a.m.
            claims = [*claims_of(" ".join(words), self._finders), *claims_of("".join(words), self._finders)]
            is_other = any(claim.parts and not isinstance(claim.parts[0], ReasonWord | Unknown) for claim in claims)
            words = [] if is_other else words
        return (
            len("".join(words)) > 1
            and not any(sign.isdigit() for sign in text)
            and text.casefold() not in _NEVER
            and not any(
                word in _NEVER or self._people.near(word) or _limit_near(word) or month_alone(word) for word in words
            )
        )

    def _family(self, whom: Sequence[Named], span: tuple[date, date]) -> tuple[Family | None, str]:
        if not whom or not (whom[0].families or whom[0].students):
            return None, ""
        named = whom[0]
        families = {each.id: each for each in named.families}
        families |= {s.family_id: self._people.families[s.family_id] for s in named.students}
        if len(families) > 1:
            lines = [self._line(span, family) for family in families.values()]
            raise BadInput(f'"{named.text}" is more than one in your studio. Try {listed_or(lines)}.')
        (family,) = families.values()
        if named.families:
            return family, family.name
        (student,) = named.students
        if len(self._people.children(family.id)) > 1:
            raise BadInput(
                f"A break is for the whole {family.name} family, not for {student.name} alone. Try "
                f"{listed_or([self._line(span, family), self._line(span)])}, or cancel {student.name}'s lessons one by one."
            )
        return family, student.name

    def _more(self, whom: Sequence[Named], span: tuple[date, date]) -> BadInput:
        """What is said of a claim behind the days that is no reason, with two lines that work where they can be told."""
        part = self._claims[self._at].parts[0]
        if isinstance(part, Named) and not whom:
            lines = [self._line(span, family) for family in self._families_of(part)]
            return BadInput(
                f'"{self._claims[self._at].text}" is not understood. A name stands right before or behind the days. '
                f"Try {listed_or([*lines, self._line(span)])}."
            )
        if isinstance(part, Link) and part.joint in {Joint.AND, Joint.EXCEPT}:
            here = self._at
            self._at += 1
            others = self._whom()
            if others and part.joint is Joint.AND:
                return self._one_by_one([*whom, *others], span)
            if others:
                families = [each for named in others for each in self._families_of(named)]
                lines = [self._line(span), *(self._line(span, family) for family in families)]
                return BadInput(
                    f'"{part.text}" is not understood. A break is for the whole studio or for one family. '
                    f"Try {listed_or(lines[:2])}."
                )
            with suppress(BadInput):
                two = self._two_spans(part, span, self._span())
                if two is not None:
                    return two
            self._at = here
        return self._refusal()

    def _two_spans(self, link: Link, span: tuple[date, date], other: tuple[date, date]) -> BadInput | None:
        spans = [span, other]
        if link.joint is Joint.EXCEPT:
            around = [(span[0], other[0] - _ONE_DAY), (other[1] + _ONE_DAY, span[1])]
            spans = (
                [each for each in around if each[0] <= each[1]] if span[0] <= other[0] <= other[1] <= span[1] else []
            )
        if not spans:
            return None
        lines = listed_or([self._line(each) for each in spans])
        return BadInput(
            f'"{link.text}" is not understood. A {self._asked.noun} is one row of days. Type each by itself: {lines}.'
        )

    def _one_of(self, whom: Sequence[Named], span: tuple[date, date]) -> list[Named]:
        """Those who were named, if they are of one family; a family and its only student are one.

        Raises:
            BadInput: they are of more than one, or a family and the whole studio.
        """
        unique = list({(each.families, each.students): each for each in whom}.values())
        families = {tuple(each.id for each in self._families_of(named)) for named in unique}
        if len(families) > 1:
            raise self._one_by_one(unique, span)
        return sorted(unique, key=lambda named: not named.families)

    def _one_by_one(self, whom: Sequence[Named], span: tuple[date, date]) -> BadInput:
        each = listed([f'"{named.text}"' for named in whom])
        lines = [self._line(span, family) for named in whom for family in self._families_of(named) or (None,)]
        return BadInput(f"{each} are not one family. Type each by itself: {listed_or(lines)}.")

    def _families_of(self, named: Named) -> tuple[Family, ...]:
        return (*named.families, *(self._people.families[student.family_id] for student in named.students))

    def _line(self, span: tuple[date, date], family: Family | None = None) -> str:
        """A line that works."""
        first = _typed(span[0], self._days.today)
        days = first if span[0] == span[1] else f"{first} to {_typed(span[1], self._days.today)}"
        days = f"from {first}" if span[1] == date.max else days
        return f'"family {family.name.casefold()} {days}"' if family is not None else f'"{days}"'

    def _refusal(self, at: int | None = None) -> BadInput:
        """What is said of a claim that cannot stand where it does; of the one at this place, if not told."""
        self._peek()
        place = self._at if at is None else at
        if place >= len(self._claims):
            return BadInput(f"The line has no day. Try {self._asked.example}.")
        claim, part = self._claims[place], self._claims[place].parts[0]
        if _is_part_of_day(claim):
            return BadInput(
                f'"{claim.text}" is not a whole day, but a {self._asked.noun} is whole days. Try {self._asked.example}.'
            )
        typed = claim.text.strip(_QUOTES) or claim.text
        word = typed.casefold()
        if isinstance(part, ReasonWord):
            return BadInput(
                f'"{typed}" is not read as a date. Type the days and then the reason, such as {self._asked.examples[0]}.'
            )
        if month_alone(word):
            return BadInput(f'"{word}" needs a day. Type both, such as "{word} 12".')
        near = self._people.near(word) or _limit_near(word)
        if claim.is_unknown and near is not None and near != word:
            return BadInput(f'"{typed}" is not understood. Did you mean "{near}"? Try {self._asked.example}.')
        behind = " A reason goes after the days." if claim.is_unknown and place == 0 else ""
        behind = f" A {self._asked.noun} is whole days in a row." if isinstance(part, Link) else behind
        return BadInput(f'"{typed}" is not understood.{behind} Try {self._asked.example}.')


def _apart(dash: re.Match[str]) -> str:
    before: str = dash["before"] or ""
    return dash[0] if dash[0] == before else f"{before} - "


def _because_at(said: str, place: int) -> Found:
    match = _BECAUSE.match(said, place)
    return ((ReasonWord(text=match[0], is_reason=False),), match.end()) if match is not None else None


def _is_part_of_day(claim: WordRun) -> bool:
    """Whether a claim says a time; "tomorrow morning" does so besides the day."""
    return any(isinstance(part, TimeOfDay | DayPart) for part in claim.parts)


def _is_mark(claim: WordRun) -> bool:
    return claim.text in _DASHES or _BECAUSE.fullmatch(claim.text.casefold()) is not None


def _with_dates(claims: Sequence[WordRun], *, month_first: bool) -> tuple[WordRun, ...]:
    """The claims with every `12/3` as a date, in one order for all of the line."""
    dated = iter(in_one_order([part for claim in claims for part in claim.parts], month_first=month_first))
    return tuple(replace(claim, parts=tuple(next(dated) for _ in claim.parts)) for claim in claims)


def _each_complete(begins: tuple[Part, ...], ends: tuple[Part, ...]) -> tuple[tuple[Part, ...], tuple[Part, ...]]:
    """Both days, where one says the month or the week for the other: `dec 21 - 31`, `mon to fri next week`."""
    week = [part for part in ends if isinstance(part, FromToday) and part.is_week]
    if week and len(begins) == 1 and isinstance(begins[0], Weekday):
        begins = (*week, *begins)
    first, last = _dated_in(begins), _dated_in(ends)
    day = _day_alone(begins)
    if day is not None and last is not None and last.month is not None and day.day < last.day:
        begins = (replace(last, text=begins[0].text, day=day.day),)
    day = _day_alone(ends)
    if day is not None and first is not None and first.month is not None and first.day < day.day:
        ends = (replace(first, text=ends[0].text, day=day.day, year=day.year or first.year),)
    return begins, ends


def _dated_in(parts: Sequence[Part]) -> Dated | None:
    return next((part for part in parts if isinstance(part, Dated)), None)


def _day_alone(parts: Sequence[Part]) -> Dated | None:
    """A day that is named without its month."""
    match parts:
        case [Number(text=text, value=value)]:
            return Dated(text=text, day=value)
        case [Dated(month=None) as day]:
            return day
        case _:
            return None


def _refuse_either_order(begins: Sequence[Part], ends: Sequence[Part]) -> None:
    """Refuses "1-3/2": a number before a dash is a day, so that the month may be behind it where it is first elsewhere.

    Raises:
        BadInput.
    """
    match begins, ends:
        case [Number(value=first) as number], [Dated(month=int(one), day=other) as last] if "/" in last.text:
            spans = [(month, day) for month, day in ((one, other), (other, one)) if month <= 12 and first < day]
            if other > 12 or not spans:
                return
            lines = [f'"{MONTHS[month - 1][:3].lower()} {first} to {day}"' for month, day in spans]
            raise BadInput(f'"{number.text}" and "{last.text}" could be days of two months. Try {listed_or(lines)}.')
        case _:
            return


def _limit_near(word: str) -> str | None:
    return next((each for each in _LIMITS if is_near(word, each)), None)


def _typed(on: date, today: date) -> str:
    """A date as a line can say it, with its year where it may mean another."""
    is_next = on >= today and (on - today).days < 300
    return f"{MONTHS[on.month - 1][:3].lower()} {on.day}" + ("" if is_next else f" {on.year}")


def listed_or(lines: Sequence[str]) -> str:
    """Lines that work, one of which is to be typed."""
    unique = list(dict.fromkeys(lines))
    return " or ".join((", ".join(unique[:-1]), unique[-1])) if len(unique) > 1 else unique[0]
