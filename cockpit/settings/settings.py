"""settings.toml of a studio folder: what differs between teachers."""

import os
import re
import tomllib
from collections.abc import Callable, Mapping
from datetime import time
from pathlib import Path
from types import MappingProxyType

from cockpit.settings.inquiries import inquiry_rules
from cockpit.settings.labels import own_areas, studio_labels
from cockpit.settings.pacing import pacing_plans
from cockpit.settings.pieces import piece_rules
from cockpit.settings.policy import policies_in
from cockpit.settings.practice import practice_rules
from cockpit.settings.reading import TomlTable
from cockpit.settings.reading import read_table as read_table  # the themes are read by it too
from cockpit.settings.sending import sending_rules
from cockpit.settings.teaching import teaching_hours
from cockpit.settings.text import FIRST
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.errors import BadSettings
from cockpit.studio.lessons.pacing import USUAL, Pacing
from cockpit.studio.preferences import Preferences
from cockpit.studio.theory.lesson_theory import CountingSystem
from cockpit.studio.values import Value, field

CUES: Mapping[int, int] = MappingProxyType({30: 3, 45: 4, 60: 5})
NAME_OF_SETTINGS = "settings.toml"
_KEYS = (
    "abbreviations", "areas", "away", "counting", "curtain_clock", "day_begins", "day_ends", "early_minutes", "family_hours", "gap_minutes", "home_zone",
    "hours", "inquiry", "keep_months", "keys", "labels", "mix", "month_first", "notice_hours", "pacing", "policy", "practice", "promised_lessons", "proposals", "repertoire_gaps", "report_marks", "sending", "signs",
    "teaching", "theme", "wait_minutes", "window_title", "wrap_up_minutes", "year_begins",
)  # fmt: skip
_THEME = r"""(?m)^([ \t]*theme[ \t]*=[ \t]*)(?:"[^"\r\n]*"|'[^'\r\n]*')"""  # compiled when she chooses a theme
_KEY = re.compile(r"\S+")
_SHORT = re.compile(r"\w+")
# These are heard in the notes too: a letter of theirs could not be typed any more.


class Settings(Value):
    """What the teacher prefers, and what her screens alone need: minutes, theme; `keys` by command id.

    Where `pacing` is empty, the parts of a lesson are not shown.
    """

    preferences: Preferences
    theme: str = "ebony"
    signs: str = "drawn"
    wait_minutes: int = 15
    wrap_up_minutes: Mapping[int, int] = field(default_factory=lambda: CUES)
    pacing: Mapping[int, Pacing] = field(default_factory=lambda: USUAL)
    keys: Mapping[str, str] = field(default_factory=dict)
    proposals: bool = True
    curtain_clock: bool = True
    window_title: bool = True
    abbreviations: Mapping[str, str] = field(default_factory=dict)


def read_settings(folder: Path, zone_if_new: Callable[[], str]) -> tuple[Settings, str | None]:
    """The settings of a studio folder, and a sentence for the teacher if the file was missing and was created.

    Raises:
        BadSettings: the file, the key, what was found and what would work.
    """
    path = folder / NAME_OF_SETTINGS
    if path.exists():
        return parse_settings(_text_of(path), str(path)), None
    zone = zone_if_new()
    try:
        new = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)  # a link to nothing is not followed
        with os.fdopen(new, "w", encoding="utf-8") as file:
            file.write(FIRST.format(zone=zone))
    except OSError as fault:
        return _settings_in(zone), f"{path} could not be created ({fault.strerror}). Your time zone is set to {zone}."
    return _settings_in(zone), f"Your time zone, {zone}, was taken from this computer. You can change it in {path}."


def _text_of(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as fault:
        raise BadSettings(f"{path} is not UTF-8 (byte {fault.start + 1}). Save it as UTF-8.") from fault


def parse_settings(text: str, source: str) -> Settings:
    """The settings in a TOML text; `source` names it in errors.

    Raises:
        BadSettings: the file, the key, what was found and what would work.
    """
    return _settings(TomlTable(read_table(text, source), source))


def with_theme(text: str, name: str) -> str:
    """The text of a settings file with another theme in it; nothing else of it changes.

    Raises:
        ValueError: where that cannot be said of it, or it is no TOML.
    """
    text = text if re.search(_THEME, text) else f'theme = ""\n{text}'
    changed = re.sub(_THEME, lambda found: f'{found[1]}"{name}"', text, count=1)
    before, after = (tomllib.loads(each) for each in (text, changed))
    if after != {**before, "theme": name}:
        raise ValueError(name)
    return changed


def _settings_in(zone: str) -> Settings:
    """The settings of a file that names her zone alone."""
    return Settings(preferences=Preferences(home=TeacherClock(zone=zone)))


def _settings(table: TomlTable) -> Settings:
    table.only(_KEYS, f"one of {', '.join(_KEYS)}")
    return Settings(
        preferences=_preferences(table),
        theme=table.word("theme", "ebony"),
        signs=table.choice("signs", "drawn", ("drawn", "ascii")),
        wait_minutes=table.number("wait_minutes", 15, range(241), "0 to 240 minutes"),
        wrap_up_minutes=_cues(table),
        pacing=pacing_plans(table),
        keys=_keys(table),
        proposals=table.yes_or_no("proposals", default=True),
        curtain_clock=table.yes_or_no("curtain_clock", default=True),
        window_title=table.yes_or_no("window_title", default=True),
        abbreviations=_abbreviations(table),
    )


def _preferences(table: TomlTable) -> Preferences:
    areas = own_areas(table)
    return Preferences(
        home=_home(table),
        family_hours=table.number("family_hours", 12, {12, 24}, "12 or 24"),
        early_minutes=table.number("early_minutes", 10, range(241), "0 to 240 minutes"),
        notice_hours=table.number("notice_hours", 24, range(24 * 14 + 1), "0 to 336 hours"),
        gap_minutes=table.number("gap_minutes", 0, range(121), "0 to 120 minutes"),
        day_begins=time(table.number("day_begins", 7, range(24), "an hour from 0 to 23")),
        day_ends=time(table.number("day_ends", 21, range(1, 25), "an hour from 1 to 24") % 24),  # 24 is midnight
        teaching=teaching_hours(table.table("teaching")),
        month_first=table.yes_or_no("month_first", default=True),
        lesson_times=table.number("promised_lessons", 36, range(1, 367), "1 to 366 lessons"),
        year_begins=table.month_and_day("year_begins", "09-01"),
        keep_months=table.number("keep_months", 24, range(241), "0 to 240 months"),
        policies=policies_in(table),
        practice=practice_rules(table.table("practice"), areas),
        sending=sending_rules(table.table("sending")),
        labels=studio_labels(table, areas),
        inquiry=inquiry_rules(table.table("inquiry")),
        pieces=piece_rules(table, areas),
        counting=CountingSystem(table.choice("counting", CountingSystem.NUMBERS, tuple(CountingSystem))),
    )


def _home(table: TomlTable) -> TeacherClock:
    zone, hours = table.zone("home_zone"), table.number("hours", 12, {12, 24}, "12 or 24")
    away = tuple(map(_stay, table.tables("away", "sections [[away]] with zone, from, and until")))
    return TeacherClock(zone=Home(zone=zone, stays=away) if away else zone, hours=hours)


def _stay(table: TomlTable) -> Stay:
    table.only({"zone", "from", "until"}, "zone, from, or until")
    from_on, until_on = table.date("from"), table.date("until")
    if from_on is None:
        raise table.fault("from", "nothing", "a date such as 2027-02-01")
    if until_on is not None and until_on < from_on:
        raise table.fault("until", until_on, f"a day on or after {from_on}")
    return Stay(zone=table.zone("zone"), from_on=from_on, until_on=until_on)


def _keys(table: TomlTable) -> Mapping[str, str]:
    found: dict[str, str] = {}
    for name, value in table.section("keys").items():
        if not isinstance(value, str) or not all(_KEY.fullmatch(one.strip()) for one in value.split(",")):
            raise table.fault(f"keys.{name}", value, 'keys in quotes, such as "f9,ctrl+s"')
        found[name] = value
    return found


def _abbreviations(table: TomlTable) -> Mapping[str, str]:
    found: dict[str, str] = {}
    for short, meaning in table.section("abbreviations").items():
        if not isinstance(meaning, str) or not meaning.strip() or not meaning.isprintable():
            raise table.fault(f"abbreviations.{short}", meaning, 'words in quotes, such as hs = "hands separately"')
        if not _SHORT.fullmatch(short):
            raise table.fault(f"abbreviations.{short}", f'"{short}"', "one word of letters and digits")
        found[short.lower()] = meaning.strip()
    return found


def _cues(table: TomlTable) -> Mapping[int, int]:
    expected = "a lesson length and minutes, such as 45 = 4"
    cues: dict[int, int] = {}
    for minutes, cue in table.by_length("wrap_up_minutes", expected).items():
        key = f"wrap_up_minutes.{minutes}"
        if not isinstance(cue, int) or isinstance(cue, bool):
            raise table.fault(key, cue, expected)
        if not 0 <= cue < minutes:
            raise table.fault(key, cue, f"fewer than the lesson's {minutes} minutes")
        cues[minutes] = cue
    return cues or CUES
