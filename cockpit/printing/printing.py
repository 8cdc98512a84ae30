"""Makes documents by way of `papers`, and of practice notes what goes out, with the style sheet and the phrases from their files."""

from collections.abc import Sequence
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from cockpit.printing.phrase_files import phrases_of
from cockpit.studio.errors import BadSettings
from cockpit.studio.post.channels import Channel
from cockpit.studio.post.outgoing import Paper
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import replace

if TYPE_CHECKING:
    from cockpit.papers.notes.theory import Draw
    from cockpit.papers.words.phrases import Phrases
    from cockpit.studio.calendar.clock_changes import Concerned, FamilyMessage
    from cockpit.studio.day.board import Board
    from cockpit.studio.day.posting import Letter
    from cockpit.studio.day.review import DayReview
    from cockpit.studio.inquiries.inquiry import Inquiry
    from cockpit.studio.lessons.scheduled import ScheduledLesson
    from cockpit.studio.notes.notes import FamilyNotes
    from cockpit.studio.people.people import Family
    from cockpit.studio.pieces.progress_sheet import ProgressSheet
    from cockpit.studio.post.family_letter import LetterFor, LetterText
    from cockpit.studio.post.letters import TimeLetter
    from cockpit.studio.post.outgoing import Outgoing
    from cockpit.studio.practice.notes import PracticeNotes
    from cockpit.studio.practice.sheet import FamilySheet
    from cockpit.studio.recital.papers import CalendarDay, FamilyProgram, PublicProgram
    from cockpit.studio.recital.running_sheet import RunningSheet
    from cockpit.studio.theory.lesson_theory import LessonTheory
    from cockpit.studio.theory.reading import Answer


def _letter(to: "Family | Inquiry", about: str, title: str, text: str, language: str) -> "Letter":
    from cockpit.papers.mail.words import paragraphs
    from cockpit.studio.day.posting import Letter
    from cockpit.studio.inquiries.inquiry import Inquiry

    paper = Paper.REPLY if isinstance(to, Inquiry) else Paper.LETTER
    page = f"{paragraphs(text)}\n"
    return Letter(paper=paper, to=to, about=about, title=title, text=text, page=page, language=language)


class OurPrinter:
    """Makes documents by way of `papers`; the imports of each wait until it is asked for."""

    def __init__(self, preferences: Preferences, folder: Path | None = None) -> None:
        self._preferences = preferences
        self._folder = folder
        self._by_language: dict[str, Phrases] = {}

    def phrases(self, language: str) -> "Phrases":
        """The fixed phrases of a language, the teacher's own first; those of English where it has none."""
        if language not in self._by_language:
            self._by_language[language] = phrases_of(language, self._folder)
        return self._by_language[language]

    def markdown(self, paper: "PracticeNotes") -> str:
        """Practice notes as Markdown."""
        from cockpit.papers.notes.text import practice_notes_markdown

        return practice_notes_markdown(paper, self.phrases(paper.language))

    def page(self, paper: "PracticeNotes") -> str:
        """Practice notes as one self-contained page."""
        from cockpit.papers.notes.page import practice_notes_page

        phrases = self.phrases(paper.language)
        return practice_notes_page(paper, self._style_of_sheet(), phrases, self._draw(phrases))

    def clock_message(self, concerned: "Concerned") -> "FamilyMessage":
        """What a family is told about a clock change."""
        from cockpit.papers.calendar.clock_messages import clock_message

        language = concerned.family.language or self._preferences.sending.language
        return clock_message(concerned, self._preferences.home.hours, self.phrases(language))

    def review(self, review: "DayReview") -> str:
        """A day's review as Markdown."""
        from cockpit.papers.review import review_markdown

        return review_markdown(review, self._preferences.home)

    def title(self, paper: "PracticeNotes") -> str:
        """What the practice notes are called."""
        from cockpit.papers.notes import sentences

        return sentences.title(paper, self.phrases(paper.language))

    def text(self, paper: "PracticeNotes") -> str:
        """Practice notes as plain text."""
        from cockpit.papers.notes.text import practice_notes_text

        return practice_notes_text(paper, self.phrases(paper.language))

    def laid_out(self, paper: "PracticeNotes") -> "FamilySheet":
        """Practice notes as they lie on their page, for a screen to draw."""
        from cockpit.papers.notes.text import practice_notes_sheet

        return practice_notes_sheet(paper, self.phrases(paper.language))

    def body(self, paper: "PracticeNotes") -> str:
        """Practice notes as what stands on their page."""
        from cockpit.papers.notes.page import practice_notes_body

        return practice_notes_body(paper, self.phrases(paper.language))

    def language(self, paper: "PracticeNotes") -> str:
        """The short name of the language that the notes are in."""
        return self.phrases(paper.language).language

    def next_lesson(self, booking: "ScheduledLesson", edition: tuple[str, int], made_at: datetime) -> str:
        """A family's next lesson as a calendar file of its own."""
        from cockpit.papers.calendar.file import calendar_file
        from cockpit.studio.calendar.shared import SharedCalendar, SharedLesson

        uid, revision = edition
        phrases, student = (
            self.phrases(booking.family.language or self._preferences.sending.language),
            booking.student.name,
        )
        lesson = SharedLesson(
            uid=f"{booking.lesson.id}@{uid}",
            title=phrases.say("calendar.lesson", whose=phrases.whose(student)),
            starts_at=booking.lesson.starts_at,
            minutes=booking.lesson.minutes,
            call_link=booking.call_link,
        )
        name = phrases.say("calendar.next", student=student)
        made_at = made_at.replace(microsecond=0)
        calendar = SharedCalendar(uid=f"next-{uid}", name=name, revision=revision, made_at=made_at, lessons=(lesson,))
        return calendar_file(calendar)

    def message_id(self, items: "Sequence[Outgoing]", studio_uid: str) -> str:
        """The lasting identifier of a mail."""
        from cockpit.papers.mail.message import message_id

        account = self._preferences.sending.account
        return message_id(items[0], studio_uid, account.sender if account is not None else "", items[1:])

    def message(self, items: "Sequence[Outgoing]", on: date, references: Sequence[str], sent_at: datetime) -> bytes:
        """A mail, complete; `on` is the day of the first lesson in it.

        Raises:
            CockpitError: there is no account to send it from.
        """
        from cockpit.papers.mail.message import message

        rules, phrases = self._preferences.sending, self.phrases(items[0].language)
        if rules.account is None:
            raise BadSettings("settings.toml has no email account; add a section [sending.mail]")
        return message(
            items,
            rules.account,
            rules,
            phrases,
            self._style(),
            day=self._day(on, items[0].language),
            references=references,
            sent_at=sent_at,
            sheets=[self._sheet_with_staves(each) for each in items],
        )

    def draft(self, item: "Outgoing", on: date, made_at: datetime) -> bytes:
        """A mail that the teacher's mail program opens, for her to send."""
        from cockpit.papers.mail.message import draft

        rules, phrases = self._preferences.sending, self.phrases(item.language)
        day = self._day(on, item.language)
        sheet = self.sheet(item)
        return draft(item, rules.account, rules, phrases, self._style(), day=day, made_at=made_at, sheet=sheet)

    def as_read(self, item: "Outgoing", on: date, sent_at: datetime) -> tuple[str, str, str]:
        """The subject, the plain text and the page of a mail or draft, read out of its own bytes."""
        from cockpit.papers.mail.message import as_read

        is_draft = item.way is Channel.DRAFT
        return as_read(self.draft(item, on, sent_at) if is_draft else self.message([item], on, (), sent_at))

    def letter(self, letter: "TimeLetter") -> "Letter":
        """A letter about times, in the family's language."""
        from cockpit.papers.mail.letters import letter_words

        phrases = self.phrases(letter.family.language or self._preferences.sending.language)
        title, text = letter_words(letter, self._preferences.family_hours, phrases)
        return _letter(letter.family, phrases.joined(letter.students), title, text, phrases.language)

    def family_letter(self, text: "LetterText", to: "LetterFor") -> "Letter":
        """A letter to many as one family gets it, filled in in its language."""
        from cockpit.papers.mail.family_letter import family_letter_words

        family = to.family
        phrases = self.phrases(family.language or self._preferences.sending.language)
        title, body = family_letter_words(text, to, self._preferences.family_hours, phrases)
        letter = _letter(family, phrases.joined(to.students), title, body, phrases.language)
        return replace(letter, paper=Paper.NEWS)

    def reply(self, inquiry: "Inquiry", text: str) -> "Letter":
        """An answer to an inquiry, in the teacher's own words and language."""
        phrases = self.phrases(self._preferences.sending.language)
        named = inquiry.instruments
        title = (
            phrases.say("letter.subject_reply", instrument=phrases.joined(named))
            if named
            else phrases.say("letter.subject_reply_to_any")
        )
        return _letter(inquiry, inquiry.name, title, text, phrases.language)

    def with_words(self, letter: "Letter", text: str) -> "Letter":
        """A letter with her own words in it."""
        return _letter(letter.to, letter.about, letter.title, text, letter.language)

    def progress(self, sheet: "ProgressSheet", family: "Family") -> "Letter":
        """A progress sheet, in the family's language, as it goes out."""
        from cockpit.papers.pieces.progress import progress_body, progress_text, progress_title
        from cockpit.studio.day.posting import Letter

        phrases = self.phrases(family.language or self._preferences.sending.language)
        return Letter(
            paper=Paper.REPORT,
            to=family,
            about=sheet.student,
            title=progress_title(sheet, phrases),
            text=progress_text(sheet, phrases),
            page=progress_body(sheet, phrases),
            language=phrases.language,
        )

    def progress_files(self, sheet: "ProgressSheet", family: "Family") -> tuple[str, str]:
        """A progress sheet for the folder: as Markdown, and as one self-contained page."""
        from cockpit.papers.notes.page import page_frame
        from cockpit.papers.pieces.progress import progress_body, progress_markdown, progress_title

        phrases = self.phrases(family.language or self._preferences.sending.language)
        title, body = progress_title(sheet, phrases), progress_body(sheet, phrases)
        return progress_markdown(sheet, phrases), page_frame(title, body, self._style(), phrases.language)

    def recital_program(self, papers: "FamilyProgram", calendar: str | None = None) -> "Letter":
        """What a family gets of a recital, in its language, as it goes out; `calendar` goes along."""
        from cockpit.papers.recital.program import sheet_body, sheet_text, sheet_title
        from cockpit.studio.day.posting import Letter
        from cockpit.studio.shown import one_line

        family = papers.family
        phrases = self.phrases(family.language or self._preferences.sending.language)
        hours = family.hours or self._preferences.family_hours
        return Letter(
            paper=Paper.PROGRAM,
            to=family,
            about=phrases.joined([one_line(each) for each in papers.students]),
            title=sheet_title(papers, phrases),
            text=sheet_text(papers, hours, phrases),
            page=sheet_body(papers, hours, phrases),
            language=phrases.language,
            calendar=calendar,
        )

    def recital_calendar(
        self, papers: "FamilyProgram", days: "Sequence[CalendarDay]", edition: tuple[str, int], made_at: datetime
    ) -> str:
        """The recital and its rehearsals as a calendar file, in the language of a family. The edition is the studio's lasting name and how often this went before."""
        from cockpit.papers.calendar.file import calendar_file
        from cockpit.studio.calendar.shared import SharedCalendar, SharedLesson

        uid, revision = edition
        phrases = self.phrases(papers.family.language or self._preferences.sending.language)
        events = tuple(
            SharedLesson(
                uid=f"recital-{each.id}@{uid}",
                title=phrases.say(
                    "recital.calendar_rehearsal" if each.is_rehearsal else "recital.calendar", name=papers.program.name
                ),
                starts_at=each.starts_at,
                minutes=each.minutes,
                call_link=each.link,
            )
            for each in days
        )
        name = phrases.say("recital.calendar", name=papers.program.name)
        made_at = made_at.replace(microsecond=0)
        calendar = SharedCalendar(
            uid=f"recital-{days[0].id}@{uid}", name=name, revision=revision, made_at=made_at, lessons=events
        )
        return calendar_file(calendar)

    def program_files(self, program: "PublicProgram") -> tuple[str, str]:
        """The program in the teacher's own language, for the folder: as Markdown, and as one self-contained page to be printed and folded."""
        from cockpit.papers.notes.page import page_frame
        from cockpit.papers.recital.program import program_body, program_markdown, program_title

        phrases, hours = self.phrases(self._preferences.sending.language), self._preferences.home.hours
        body = program_body(program, hours, phrases)
        page = page_frame(program_title(program), body, self._style_of_program(), phrases.language)
        return program_markdown(program, hours, phrases), page

    def running_sheet(self, sheet: "RunningSheet") -> str:
        """The sheet by which she runs a recital, as Markdown; hers alone."""
        from cockpit.papers.recital.running_sheet import running_sheet_markdown

        return running_sheet_markdown(sheet, self._preferences.home)

    def theory_rows(self, answer: "Answer", language: str) -> tuple[str, ...]:
        """An answer of theory in a language, in the rows in which it is read."""
        from cockpit.papers.notes.theory import rows_of

        return rows_of(answer, self.phrases(language))

    def family_lines(self, notes: "FamilyNotes", language: str, lesson: "LessonTheory") -> tuple[str, ...]:
        """The lines of a family's notes in its language: those of its paper, without plan and times."""
        from cockpit.papers.notes.board import family_lines

        return family_lines(notes, self.phrases(language), lesson)

    def board_page(self, board: "Board | None") -> str:
        """The board as one self-contained page; one that says nothing while no lesson runs."""
        from cockpit.papers.notes.board import board_page
        from cockpit.screens.look.theming import themes_folder

        style = (themes_folder() / "board.css").read_text(encoding="utf-8")
        if board is None:
            return board_page(None, style, "en")
        phrases = self.phrases(board.language)
        return board_page(board, style, phrases.language, self._draw(phrases))

    def sheet(self, item: "Outgoing") -> str:
        """The notes as one self-contained page."""
        from cockpit.papers.notes.page import page_frame
        from cockpit.papers.notes.theory import with_staves

        body = with_staves(item.page, self._draw(self.phrases(item.language)))
        style = self._style_of_program() if item.paper is Paper.PROGRAM else self._style_of_sheet()
        return page_frame(item.title, body, style, item.language)

    def staff(self, answer: "Answer", instrument: str | None, language: str = "en") -> str | None:
        """An answer of theory as a staff of an instrument, as SVG; None where it has none, or without the extra `staff`."""
        from cockpit.printing.staves import staff_svg

        return staff_svg(answer, instrument, self.phrases(language).say)

    def _draw(self, phrases: "Phrases") -> "Draw":
        def draw(words: str, lesson: "LessonTheory") -> str | None:
            from cockpit.printing.staves import staff_asked  # with Verovio 80 ms, which no other page pays

            return staff_asked(words, lesson, phrases.say)

        return draw

    def _sheet_with_staves(self, item: "Outgoing") -> str:
        """The page that goes with a mail, which itself shows no staves and prints no program; empty where it has neither."""
        from cockpit.papers.notes.theory import has_staves

        if item.paper is Paper.PROGRAM:
            return self.sheet(item)
        page = self.sheet(item) if has_staves(item.page) else ""
        return page if has_staves(page) else ""

    def _day(self, on: date, language: str) -> str:
        from cockpit.papers.words.dates import short_date

        return short_date(on, self.phrases(language))

    def _style_of_sheet(self) -> str:
        """The style sheet with what only staves need: they are in no mail, where every letter of it counts."""
        from cockpit.screens.look.theming import themes_folder

        return self._style() + (themes_folder() / "staves.css").read_text(encoding="utf-8")

    def _style_of_program(self) -> str:
        """The style sheet with what only the printed program of a recital needs."""
        from cockpit.screens.look.theming import themes_folder

        return self._style() + (themes_folder() / "program.css").read_text(encoding="utf-8")

    def _style(self) -> str:
        from cockpit.screens.look.theming import themes_folder

        return (themes_folder() / "family.css").read_text(encoding="utf-8")
