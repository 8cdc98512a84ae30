"""What is proposed behind the cursor: dim, no text, taken by one key, and never in the way."""

from contextlib import suppress

from support.screens import on_screen
from textual.worker import WorkerCancelled

from cockpit.screens.day.proposing import ProposingText
from cockpit.studio.changes.records import Change, Edit
from cockpit.studio.values import replace


async def remembering(opened) -> ProposingText:
    opened.notes._remember()
    while opened.app.workers:
        # The day's own timer may begin a newer memory meanwhile, which cancels this one.
        with suppress(WorkerCancelled):
            await opened.app.workers.wait_for_complete()
        await opened.pilot.pause()
    return opened.notes.text


def test_the_rest_of_a_line_is_proposed_and_taken_by_one_key(tmp_path):
    async def steps(opened):
        text = await remembering(opened)
        before = opened.body("Ilse").rstrip("\n")
        await opened.type("Ear: sing")
        assert text.suggestion == " the first phrase before you play it"
        assert "sing the first phrase" in opened.drawn()
        assert opened.body("Ilse") == f"{before}\nEar: sing"
        whole = f"Ear: sing{text.suggestion}"
        for columns in (72, 77, 88):
            await opened.pilot.resize_terminal(columns, 24)
            drawn = next(line for line in opened.drawn().splitlines() if "Ear: sing" in line)
            shown = drawn[drawn.index("Ear: sing") :].rstrip()
            assert shown == whole or (shown[-1] == "…" and whole.startswith(f"{shown[:-1]} ")), (columns, shown)
        await opened.press("end")
        assert opened.body("Ilse") == f"{before}\nEar: sing the first phrase before you play it"
        assert text.cursor_location == text.document.end
        await opened.press("ctrl+z")
        assert opened.body("Ilse") == f"{before}\nEar: sing"

    on_screen(tmp_path, steps, size=(150, 45), proposals=True)


def test_one_word_is_taken_by_a_key_and_typing_goes_on_through_a_proposal(tmp_path):
    async def steps(opened):
        text = await remembering(opened)
        await opened.type("Ear: sing")
        await opened.press("right")
        assert opened.body("Ilse").endswith("Ear: sing the ")
        await opened.type("f")
        assert text.suggestion.startswith("irst")
        await opened.type("ox")
        assert opened.body("Ilse").endswith("Ear: sing the fox")

    on_screen(tmp_path, steps, proposals=True)


def test_nothing_is_proposed_in_the_middle_of_a_line_and_the_arrows_go_their_way(tmp_path):
    async def steps(opened):
        text = await remembering(opened)
        await opened.type("Ear: sing")
        body = opened.body("Ilse")
        await opened.press("left", "left")
        assert text.suggestion == ""
        await opened.press("right", "right")
        assert opened.body("Ilse") == body
        assert text.suggestion
        await opened.press("home", "end")
        assert opened.body("Ilse") == body
        assert text.cursor_location == text.document.end

    on_screen(tmp_path, steps, proposals=True)


def test_her_abbreviation_is_written_out_by_the_key_only(tmp_path):
    async def steps(opened):
        text = await remembering(opened)
        await opened.type("Etude: no. 3 hs")
        assert text.suggestion == " = hands separately"
        assert opened.body("Ilse").endswith("no. 3 hs")
        await opened.press("end")
        assert opened.body("Ilse").endswith("Etude: no. 3 hands separately")
        await opened.type(", hs ")
        assert opened.body("Ilse").endswith("hands separately, hs ")

    on_screen(tmp_path, steps, proposals=True, abbreviations={"hs": "hands separately"})


def test_private_words_on_another_student_are_never_proposed(tmp_path):
    async def steps(opened):
        await opened.press("f5")
        await opened.type("Private: zephyrine blue reeds\nReview: the quokkawaltz again")
        await opened.press("enter", "f2")
        opened.clock.wind(minutes=30)
        await opened.press("f9")
        opened.clock.wind(seconds=5)
        await opened.press("f9")
        opened.studio.desk.day.go_to(opened.id_of("Ilse"))
        opened.day.step(lambda: None)
        text = await remembering(opened)
        await opened.press("enter")
        for start in ("Private: z", "Review: the q", "zep"):
            await opened.type(start)
            assert "ephyrine" not in text.suggestion
            assert "uokka" not in text.suggestion
            await opened.press("enter")

    on_screen(tmp_path, steps, proposals=True)


def test_another_lesson_has_another_memory_and_closed_notes_none(tmp_path):
    async def steps(opened):
        text = await remembering(opened)
        await opened.type("Ear: sing")
        assert text.suggestion
        opened.studio.desk.day.go_to(opened.id_of("Eilidh"))
        opened.day.step(lambda: None)
        assert text.suggestion == ""
        await remembering(opened)
        assert text.read_only
        assert text.suggestion == ""

    on_screen(tmp_path, steps, proposals=True)


def test_the_end_key_inserts_nothing_where_nothing_is_typed_yet(tmp_path):
    async def steps(opened):
        opened.notes.text.propose_with(lambda _above, line: "Scales: D major" if not line.strip() else "ly", None)
        assert opened.notes.text.suggestion == "Scales: D major"
        before = opened.notes.text.text
        await opened.press("end")
        assert opened.notes.text.text == before
        await opened.type("slow")
        await opened.press("end")
        assert opened.notes.text.text == f"{before}slowly"

    on_screen(tmp_path, steps)


def test_an_answer_is_told_as_its_brace_closes_and_written_by_the_key_that_takes_a_suggestion(tmp_path):
    async def steps(opened):
        text = opened.notes.text
        await opened.type("Theory: {B F")
        assert text.suggestion == ""
        await opened.type("}")
        assert text.suggestion == " = B F (= diminished fifth, 6 half steps · inversion: augmented fourth)"
        assert "diminished fifth, 6 half steps" in str(opened.notes.query_one("#understood-line").content)
        assert opened.body("Ilse").endswith("Theory: {B F}")
        await opened.press("end")
        assert opened.body("Ilse").endswith(
            "Theory: B F (= diminished fifth, 6 half steps · inversion: augmented fourth)"
        )
        assert "not read" not in str(opened.notes.query_one("#understood-line").content)
        await opened.press("ctrl+z")
        assert opened.body("Ilse").endswith("Theory: {B F}")
        await opened.type(", {D majr}")
        assert text.suggestion == ""
        assert "{D majr} is not read; {D major} works" in str(opened.notes.query_one("#understood-line").content)
        await opened.press("end")
        assert opened.body("Ilse").endswith("Theory: {B F}, {D majr}")

    on_screen(tmp_path, steps)


def test_an_answer_is_written_in_the_language_of_the_family_and_told_in_english(tmp_path):
    async def steps(opened):
        booking = opened.studio.desk.day.shown
        german = replace(booking.family, language="de")
        opened.studio.store.writing.apply(Change(said="", edits=(Edit(before=booking.family, after=german),)))
        opened.studio.desk.day.reload()
        opened.day.show()
        await opened.type("Theory: {B major}")
        assert opened.notes.text.suggestion.startswith(" = B major (= H Cis Dis E Fis Gis Ais H · 5 Kreuze")
        assert "B C♯ D♯ E F♯ G♯ A♯ B" in str(opened.notes.query_one("#understood-line").content)
        await opened.press("end")
        assert opened.body("Ilse").endswith(
            "Theory: B major (= H Cis Dis E Fis Gis Ais H · 5 Kreuze: Fis Cis Gis Dis Ais)"
        )
        assert "not read" not in str(opened.notes.query_one("#understood-line").content)

    on_screen(tmp_path, steps)
