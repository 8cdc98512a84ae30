"""Who gets the papers of a recital: each family in a row, what would go and what is there; F9 alone sends."""

from collections.abc import Iterable

from rich.cells import cell_len
from textual import on
from textual.content import Content
from textual.widget import Widget
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from cockpit.desk.recital.papers import PapersFor, PapersView, RecitalPapers
from cockpit.outlets.browser import open_file
from cockpit.screens.commands.commands import Place
from cockpit.screens.look.show import HAPPENED, NEEDS_HER, OPEN, WIDEST, cut_at_word, placed, role
from cockpit.screens.post.preview import PreviewScreen
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import Rows, group
from cockpit.studio.changes.recital import RecitalId
from cockpit.studio.errors import Refused
from cockpit.studio.people.people import FamilyId
from cockpit.studio.post.channels import TO_AN_ADDRESS
from cockpit.studio.post.outgoing import DeliveryStatus
from cockpit.studio.shown import one_line
from cockpit.wording.recital import trouble_words

_FAMILY, _STUDENTS = 14, 20
_ROOM_FOR_STUDENTS = 66
_MOST_TROUBLES = 3


def papers_options(view: PapersView, again: frozenset[FamilyId], width: int) -> list[Option]:
    """A row a family, whose id is that of the family."""
    columns = min(width, WIDEST)
    going = sum(each.goes or each.family.id in again for each in view.families)
    rows: list[Option] = [group("families", columns, f"{going} of {len(view.families)}, F9 sends")]
    return [
        *rows,
        *(
            Option(_row(each, columns, is_again=each.family.id in again), id=str(each.family.id))
            for each in view.families
        ),
    ]


def _row(papers: PapersFor, width: int, *, is_again: bool) -> Content:
    said, sign, color = _said(papers, is_again=is_again)
    students = cut_at_word(one_line(papers.students), _STUDENTS) if width >= _ROOM_FOR_STUDENTS else ""
    at = 3 + _FAMILY
    addresses = ", ".join(each.address for each in papers.at if each.address)
    room = width - at - cell_len(said) - 2 - (_STUDENTS + 2 if students else 0)
    return placed(
        width,
        (0, sign, role(color)),
        (2, cut_at_word(one_line(papers.family.name), _FAMILY), role("text")),
        *([(at, students, role("quiet"))] if students else []),
        (at + (_STUDENTS + 2 if students else 0), cut_at_word(addresses, max(room, 0)), role("quiet")),
        (width - cell_len(said), said, role(color)),
    )


def _said(papers: PapersFor, *, is_again: bool) -> tuple[str, str, str]:
    """What there is to do for a family, its sign, and the color of both."""
    if any(each.way in TO_AN_ADDRESS and not each.address for each in papers.at):
        return "no address", NEEDS_HER, "warning"
    if papers.is_changed:
        return ("goes again", OPEN, "text") if is_again else ("changed since, enter", NEEDS_HER, "warning")
    if papers.goes:
        to_copy = all(each.way not in TO_AN_ADDRESS for each in papers.at)
        return "to copy" if to_copy else "goes", OPEN, "text"
    fates = {each.fate for each in papers.at}
    if fates == {DeliveryStatus.SENT}:
        return "has it", HAPPENED, "finished"
    return (
        ("not confirmed", NEEDS_HER, "warning") if DeliveryStatus.UNSURE in fates else ("in the outbox", OPEN, "quiet")
    )


class PapersScreen(CockpitScreen):
    """Enter has what has changed go again to the chosen family."""

    PLACE = Place.PAPERS
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts, recital_id: RecitalId) -> None:
        super().__init__(parts)
        self._recital_id = recital_id
        self._view: PapersView | None = None
        self._again: frozenset[FamilyId] = frozenset()

    def body(self) -> Iterable[Widget]:
        """What stands against the recital, and the families."""
        yield Static(id="papers-said", classes="footnote", markup=False)
        yield Rows(id="papers", markup=False)

    def on_mount(self) -> None:
        """Shows it."""
        self.show()
        self.query_one(Rows).focus()

    @property
    def papers(self) -> RecitalPapers:
        """What makes the papers."""
        return self.desk.recital_papers()

    def show(self) -> None:
        """Looks again."""
        view = self._view = self.papers.view(self._recital_id)
        self._again &= {each.family.id for each in view.families if each.is_changed}
        changed = sum(each.is_changed for each in view.families)
        since = f"changed since for {changed}" if changed else ""
        self.entitle(one_line(view.program.recital.name), since)
        self.query_one("#papers-said", Static).update(self._troubles(view))
        self._lay_out()

    def outbox_changed(self) -> None:
        """Looks again."""
        self.show()

    @on(OptionList.OptionSelected)
    def choose_tapped(self, event: OptionList.OptionSelected) -> None:
        """Chooses the family that was tapped."""
        event.stop()
        self.action_choose()

    def action_choose(self) -> None:
        """Has changed papers go again to the chosen family, or not."""

        def choose() -> None:
            chosen = self._chosen()
            if not chosen.is_changed:
                raise Refused(f"Nothing has changed for the {one_line(chosen.family.name)} family since.")
            self._again ^= {chosen.family.id}
            self._lay_out()

        self.attempt(choose)

    def action_send(self) -> None:
        """Puts the papers into the outbox."""

        def send() -> str:
            said = self.papers.put_out(self._recital_id, self._again)
            self.post_message(self.OutboxChanged())
            return said

        self.step(send)

    def action_preview(self) -> None:
        """Shows what the chosen family gets."""
        self.attempt(
            lambda: self.app.push_screen(
                PreviewScreen(self.parts, self.papers.preview(self._recital_id, self._chosen().family.id))
            )
        )

    def action_keep_files(self) -> None:
        """Puts the program and her running sheet into the folder, and opens the program."""

        def keep() -> None:
            _, page, running = self.papers.keep_files(self._recital_id)
            self.say(f"{'Opened' if open_file(page) else 'The program is'} {page}. Yours: {running.name}")

        self.attempt(keep)

    def action_close(self) -> None:
        """Goes back to the recital."""
        self.dismiss(None)

    def _lay_out(self) -> None:
        view, again = self._view, self._again
        if view is not None:
            self.query_one(Rows).lay_out(lambda width: papers_options(view, again, width))

    def _troubles(self, view: PapersView) -> Content:
        """What to look at before anything goes: the first of what stands against the recital."""
        home = self.settings.preferences.home
        lines = [trouble_words(each, home) for each in view.program.troubles]
        if not view.families:
            lines = ["Nobody plays yet. Add an item to the recital first."]
        more = [f"and {len(lines) - _MOST_TROUBLES + 1} more"] if len(lines) > _MOST_TROUBLES else []
        shown = [*lines[: _MOST_TROUBLES - len(more)], *more]
        return Content.styled("\n".join(shown), role("warning"))

    def _chosen(self) -> PapersFor:
        option = self.query_one(Rows).highlighted_option
        families = self._view.families if self._view is not None else ()
        found = [each for each in families if option is not None and str(each.family.id) == option.id]
        if not found:
            raise Refused("Choose a family first.")
        return found[0]
