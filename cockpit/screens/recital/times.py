"""When a recital over a call suits all: the starts of a day, the fewest sittings that reach everybody, and each family's hours."""

from collections.abc import Iterable
from datetime import datetime

from rich.cells import cell_len
from textual import on
from textual.content import Content
from textual.widget import Widget
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.recital.desk import RecitalDesk
from cockpit.screens.commands.commands import Place
from cockpit.screens.look.show import NEEDS_HER, OPEN, WIDEST, cut_at_word, hung, placed, role
from cockpit.screens.recital.lines import ask_recital_line
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import Rows, group
from cockpit.studio.changes.recital import RecitalId
from cockpit.studio.clocks.moments import local_time, zone_at
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import city, clock_time, counted, listed, near_date
from cockpit.studio.errors import Refused
from cockpit.studio.people.people import Family, FamilyId
from cockpit.studio.recital.line_again import time_to_type
from cockpit.studio.recital.program import RecitalProgram
from cockpit.studio.recital.sittings import (
    Sitting,
    StartWindow,
    best_sittings,
    fewest_sittings,
    out_of_reach,
    windows_of,
)
from cockpit.studio.shown import one_line
from cockpit.studio.values import Value


class SuitingView(Value):
    """The starts of the day of a recital, and the program that it is about."""

    program: RecitalProgram
    sittings: tuple[Sitting, ...]
    home: TeacherClock

    def family(self, family_id: FamilyId) -> Family:
        """One of the families."""
        return next(each for each in self.program.families if each.id == family_id)


def times_options(view: SuitingView, width: int) -> list[Option]:
    """The rows in so many columns; the id of a row that can be chosen is its first start."""
    width = min(width, WIDEST)
    best, fewest = best_sittings(view.sittings), fewest_sittings(view.sittings)
    if not view.sittings:
        said = "No start of this day has the whole recital in your own hours. Change the day, or make it shorter."
        return [Option(Content("\n").join(hung(Content.styled(said, role("quiet")), width)), disabled=True)]
    missing = len(best[0].at_night)
    words = "suits all" if not missing else f"suits all but {counted(missing, 'family', 'families')}"
    options: list[Option] = [group(words, width, len(best))]
    options += [_start(each, view, width, f"best:{number}") for number, each in enumerate(best)]
    if len(fewest) > 1:
        options.append(group("the fewest sittings that reach everybody", width, len(fewest)))
        options += [_start(each, view, width, f"few:{number}") for number, each in enumerate(fewest)]
    options.append(group("each family's starts, on your clock", width, len(view.program.families)))
    options += [Option(_family(each, view, width), disabled=True) for each in view.program.families]
    unreached = out_of_reach(view.sittings)
    return [*options, *(Option(_unreached(view.family(each), width), disabled=True) for each in sorted(unreached))]


def sitting_of(view: SuitingView, row: str) -> Sitting | None:
    """The starts that a row stands for."""
    kind, _, number = row.partition(":")
    found = {"best": best_sittings(view.sittings), "few": fewest_sittings(view.sittings)}.get(kind)
    return found[int(number)] if found is not None else None


class TimesScreen(CockpitScreen):
    """Enter sets the time of the recital by a line; `s` makes another sitting."""

    PLACE = Place.TIMES
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts, recital_id: RecitalId) -> None:
        super().__init__(parts)
        self._recital_id = recital_id
        self._view: SuitingView | None = None

    def body(self) -> Iterable[Widget]:
        """The list."""
        yield Rows(id="times", markup=False)

    def on_mount(self) -> None:
        """Shows it."""
        self.show()
        self.query_one(Rows).focus()

    @property
    def recitals(self) -> RecitalDesk:
        """What takes the steps."""
        return self.desk.recitals()

    def show(self) -> None:
        """Looks again."""
        home = self.settings.preferences.home
        program = self.recitals.reading.program(self._recital_id)
        view = SuitingView(program=program, sittings=self.recitals.reading.suiting(self._recital_id), home=home)
        self._view = view
        local = home.local(program.starts_at)
        today = home.date_of(self.desk.clock.now())
        minutes = -(-program.times.total // 60)
        said = f"{near_date(local.date(), today)}  {counted(minutes, 'minute')}"
        self.entitle(said, f"now at {clock_time(local, home.hours)}")
        self.query_one(Rows).lay_out(lambda width: times_options(view, width))

    @on(OptionList.OptionSelected)
    def set_chosen(self, event: OptionList.OptionSelected) -> None:
        """Sets the time that was tapped."""
        event.stop()
        self.action_set_time()

    def action_set_time(self) -> None:
        """Asks for the time of the recital, begun with the first start of the chosen ones."""
        self._ask(Purpose.RECITAL_CHANGE)

    def action_add_sitting(self) -> None:
        """Asks for a further sitting, begun with the first start of the chosen ones."""
        self._ask(Purpose.SITTING)

    def _ask(self, purpose: Purpose) -> None:
        def ask() -> None:
            view, option = self._view, self.query_one(Rows).highlighted_option
            sitting = sitting_of(view, option.id or "") if view is not None and option is not None else None
            if view is None or sitting is None:
                raise Refused("Choose a row with starts first.")
            recital = view.program.recital
            at = local_time(sitting.starts.first, recital.zone)
            typed = time_to_type(at, view.home.hours)
            if purpose is Purpose.SITTING:
                ask_recital_line(self, purpose, (recital.parent_id or recital.id, None), typed)
            else:
                ask_recital_line(self, Purpose.RECITAL_TIME, (recital.id, None), typed)

        self.attempt(ask)


def _window(window: StartWindow, home: TeacherClock) -> str:
    first, last = home.time(window.first), home.time(window.last)
    return first if window.first == window.last else f"{first} to {last}"


def _start(sitting: Sitting, view: SuitingView, width: int, row: str) -> Option:
    home, starts_at = view.home, view.program.starts_at
    is_now = sitting.starts.first <= starts_at <= sitting.starts.last
    sign, style = OPEN, role("text")
    window = _window(sitting.starts, home)
    at_night = [_at_night(view.family(each), sitting.starts.first, home) for each in sorted(sitting.at_night)]
    who = f"night for {listed(at_night)}" if at_night else "in the day of everybody"
    who = f"as it is now, {who}" if is_now else who
    at = 24
    if width < at + 30:
        lines = hung(Content.styled(who, role("quiet")), width - 2)
        head = placed(width, (0, sign, style), (2, window, role("text", "bold")))
        return Option(Content("\n").join([head, *(Content("  ") + line for line in lines)]), id=row)
    lines = hung(Content.styled(who, role("quiet")), width - at)
    head = placed(at, (0, sign, style), (2, window, role("text", "bold"))) + lines[0]
    return Option(Content("\n").join([head, *(Content(" " * at) + line for line in lines[1:])]), id=row)


def _at_night(family: Family, at: datetime, home: TeacherClock) -> str:
    local = local_time(at, family.zone)
    return f"{one_line(family.name)} ({clock_time(local, home.hours)} in {city(zone_at(family.zone, local))})"


def _family(family: Family, view: SuitingView, width: int) -> Content:
    windows = windows_of(family.id, view.sittings)
    said = "  ".join(_window(each, view.home) for each in windows) or "no start of this day"
    longest = max(cell_len(one_line(each.name)) for each in view.program.families)
    name_room = min(longest, 20, width // 3)
    place = city(zone_at(family.zone, local_time(view.program.starts_at, family.zone)))
    name = (2, cut_at_word(one_line(family.name), name_room), role("text"))
    at = 2 + name_room + 2
    if width < at + 16 + len("11:00 am to 11:00 am"):
        return placed(width, name, (at, cut_at_word(said, width - at), role("quiet")))
    return placed(
        width, name, (at, cut_at_word(place, 14), role("quiet")), (at + 16, cut_at_word(said, width - at - 16), role("text"))
    )  # fmt: skip


def _unreached(family: Family, width: int) -> Content:
    words = f"No start of this day suits the {one_line(family.name)} family."
    return Content.styled(cut_at_word(f"{NEEDS_HER} {words}", width), role("warning", "bold"))
