"""Rosters for tests: rows drawn at random, and files written in every dialect that is read."""

import unicodedata
from collections.abc import Mapping
from datetime import date, time

from hypothesis import strategies as st
from support.studio import TO_DENVER

from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moments import WEEKDAYS, Zone
from cockpit.studio.clocks.moves import clock_text
from cockpit.studio.lessons.weekly_times import KeptIn
from cockpit.studio.people.people import Level, PlanForm, name_key
from cockpit.studio.roster.columns import COLUMNS, RosterRow
from cockpit.studio.roster.practice_days import practice_days_words
from cockpit.studio.roster.values import is_no_name
from cockpit.studio.values import Value

ZONES = ("America/Phoenix", "America/Halifax", "America/St_Johns", "Pacific/Honolulu", "Europe/London", "Asia/Kolkata")
MOVES = (
    TO_DENVER,
    Home(
        zone="Europe/London",
        stays=(
            Stay(zone="Asia/Kolkata", from_on=date(2024, 6, 1), until_on=date(2024, 8, 31)),
            Stay(zone="America/Halifax", from_on=date(2026, 12, 1)),
        ),
    ),
)


class Dialect(Value):
    """How a file is written."""

    separator: str = ","
    line_end: str = "\n"
    has_mark: bool = False
    quotes_all: bool = False
    columns: tuple[str, ...] = COLUMNS


@st.composite
def names(draw: st.DrawFn) -> str:
    """A name in any script, composed and with single spaces; quotation marks and semicolons may be in it."""
    text = draw(_LETTERS)
    name = " ".join(unicodedata.normalize("NFC", text).replace(",", ";").split())
    name = name.lstrip("=#").lstrip()  # or it may be a formula, or an error of a sheet
    return (not is_no_name(name) and name) or draw(
        st.sampled_from(("Ilse", "Þóra", "Δάφνη", "Олена", "सरिता", "小春", "ليلى"))
    )


@st.composite
def dialects(draw: st.DrawFn, columns: tuple[str, ...] = COLUMNS) -> Dialect:
    """A dialect with the columns in any order."""
    return Dialect(
        separator=draw(st.sampled_from((",", ";", "\t"))),
        line_end=draw(st.sampled_from(("\n", "\r\n", "\r"))),
        has_mark=draw(st.booleans()),
        quotes_all=draw(st.booleans()),
        columns=tuple(draw(st.permutations(columns))),
    )


@st.composite
def rosters(draw: st.DrawFn) -> list[RosterRow]:
    """Rows that agree with each other; each `line` is 0."""
    drawn = draw(st.lists(names(), min_size=2, max_size=8, unique_by=name_key))
    families, students = drawn[: len(drawn) // 2], drawn[len(drawn) // 2 :]
    households = {name: draw(_HOUSEHOLDS) for name in drawn}
    rows: list[RosterRow] = []
    for student in students:
        family = draw(st.none() | st.sampled_from(families))
        rows += draw(_rows_of(student, family, households[family or student]))
    return draw(st.permutations(rows))


@st.composite
def _rows_of(
    draw: st.DrawFn,
    student: str,
    family: str | None,
    household: tuple[str | None, Zone | None, int | None, str | None, str | None, str | None, str | None, str | None],
) -> list[RosterRow]:
    email, zone, hours, send_by, language, guardian, phone, gets = household
    daily_minutes, practice_days, remark, plan, yearly_lessons, permissions, level, slots = draw(_STUDENTS)
    return [
        RosterRow(
            line=0,
            student=student,
            weekday=weekday,
            at=at,
            minutes=minutes,
            family=family,
            email=email,
            instrument=instrument,
            zone=zone,
            kept_in=kept_in,
            from_on=from_on,
            until_on=until_on,
            daily_minutes=daily_minutes,
            call_link=call_link,
            remark=remark,
            hours=hours,
            every_weeks=every_weeks,
            practice_days=practice_days,
            plan=plan,
            yearly_lessons=yearly_lessons,
            send_by=send_by,
            language=language,
            guardian=guardian,
            phone=phone,
            gets=gets,
            permissions=permissions,
            level=level,
        )
        for weekday, at in slots
        for minutes, instrument, kept_in, from_on, until_on, call_link, every_weeks in [draw(_ROWS)]
    ]


def times() -> st.SearchStrategy[time]:
    """A time of day, whole minutes."""
    return st.integers(0, 24 * 60 - 1).map(lambda minutes: time(minutes // 60, minutes % 60))


# Made once: to make a strategy costs more than to draw from it.
_LETTERS = st.text(st.characters(categories=("L", "M", "N", "P", "S", "Zs")), min_size=1, max_size=12)
_HOUSEHOLDS = st.tuples(
    st.sampled_from((None, "a.b@example.org", "õ@example.org, a@example.org")),
    st.sampled_from((None, *ZONES, *MOVES)),
    st.sampled_from((None, 12, 24)),
    st.sampled_from((None, "none", "mail", "clipboard, folder, draft, mail")),
    st.sampled_from((None, "en", "es", "eus")),
    st.sampled_from((None, "Ana", "; Per", 'Óscar "O" Bell; Per')),
    st.sampled_from((None, "+1 602 555 0100", "-5 555 555; 020 7946 0100 (work, mornings)")),
    st.sampled_from((None, "notes", "none", "notes, news")),
)
_STUDENTS = st.tuples(
    st.none() | st.integers(0, 600),
    st.none() | st.frozensets(st.integers(0, 6), min_size=1),
    st.sampled_from((None, "bow hand", "shy; say hello first", 'likes "Ländler"', "one\ntwo,\nthree")),
    st.sampled_from((None, *PlanForm)),
    st.sampled_from((None, 1, 36, 366)),
    st.sampled_from(
        (None, "named", 'seen in a recital; recorded until 2027-06-30: "the audition; once, only"; not in pictures')
    ),
    st.sampled_from((None, *Level)),
    st.lists(st.tuples(st.integers(0, 6), times()), min_size=1, max_size=4, unique=True),
)
_ROWS = st.tuples(
    st.integers(5, 240),
    st.sampled_from((None, "cello", "guitar", "clarinet, B flat")),
    st.sampled_from((None, *KeptIn)),
    st.none() | st.dates(date(2024, 1, 1), date(2025, 1, 1)),
    st.none() | st.dates(date(2025, 1, 1), date(2027, 1, 1)),
    st.sampled_from((None, "https://call.example.org/r?x=1;y=2,3")),
    st.sampled_from((None, 1, 2)),
)


def written(row: RosterRow) -> dict[str, str]:
    """The cells of a row by column, each in its plainest form."""
    values = {
        "student": row.student,
        "weekday": WEEKDAYS[row.weekday],
        "time": f"{row.at:%H:%M}",
        "minutes": row.minutes,
        "family": row.family,
        "email": row.email,
        "send_by": row.send_by,
        "language": row.language,
        "guardian": row.guardian,
        "phone": row.phone,
        "gets": row.gets,
        "permissions": row.permissions,
        "with": row.shared_with,
        "paused_from": row.paused_from,
        "paused_until": row.paused_until,
        "instrument": row.instrument,
        "zone": clock_text(row.zone) if row.zone is not None else None,
        "kept_in": row.kept_in,
        "from": row.from_on,
        "until": row.until_on,
        "daily_minutes": row.daily_minutes,
        "call_link": row.call_link,
        "remark": row.remark,
        "level": row.level,
        "clock": row.hours,
        "every_weeks": row.every_weeks,
        "plan": row.plan,
        "yearly_lessons": row.yearly_lessons,
        "practice_days": practice_days_words(row.practice_days) if row.practice_days is not None else None,
    }
    return {column: "" if value is None else str(value) for column, value in values.items()}


def file_of(rows: list[Mapping[str, str]], dialect: Dialect) -> tuple[str, list[int]]:
    """The text of a file, and the line on which each row begins; cells are written as RFC 4180 says."""
    table = [dict(zip(dialect.columns, dialect.columns, strict=True)), *rows]
    text, begins, line = "\ufeff" if dialect.has_mark else "", [], 1
    for cells in table:
        row = dialect.separator.join(_cell(cells[column], dialect) for column in dialect.columns)
        begins.append(line)
        line += row.count("\n") + 1
        text += row + dialect.line_end
    return text, begins[1:]


def _cell(text: str, dialect: Dialect) -> str:
    if dialect.quotes_all or set(text) & set(f'{dialect.separator}"\r\n'):
        return '"' + text.replace('"', '""') + '"'
    return text
