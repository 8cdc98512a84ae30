"""A family forgotten on a real terminal: asked twice, taken back, and final however the program ends."""

import os
import shutil
import signal
from pathlib import Path

import pytest
from support.bytes_of import files_holding, snapshot
from support.leaving import WORDS
from support.real_terminal import RealTerminal

CTRL_C, CTRL_D = "\x03", "\x04"
LAST_QUESTION = "Type u to bring everything back"


@pytest.fixture
def studio(full_studio, tmp_path) -> Path:
    return Path(shutil.copytree(full_studio, tmp_path / "studio"))


def forgetting(studio: Path, *more: str) -> RealTerminal:
    return RealTerminal("family", "zwijndrecht", *(more or ("--forget",)), "--folder", str(studio))


def forgotten(terminal: RealTerminal) -> None:
    """Answers both questions, up to the last one."""
    terminal.wait_for("Delete this family?")
    terminal.send("y\n")
    terminal.wait_for("type the family's name")
    terminal.send("Zwijndrecht\n")
    terminal.wait_for(LAST_QUESTION)


@pytest.mark.long
@pytest.mark.parametrize("answers", [[CTRL_C], ["y\n", "Okonjo\n"], ["\n"], [CTRL_D], ["y\n", "\n"], ["y\n", CTRL_D]])
def test_any_other_answer_to_either_question_changes_nothing(studio, answers):
    before = snapshot(studio)
    with forgetting(studio) as terminal:
        for question, answer in zip(("Delete this family?", "type the family"), answers, strict=False):
            terminal.wait_for(question)
            terminal.send(answer)
        assert terminal.ended() == (130 if answers == [CTRL_C] else 0)
        assert "Traceback" not in terminal.text()
    assert snapshot(studio) == before


def test_u_takes_all_of_it_back(studio):
    before = snapshot(studio)
    with forgetting(studio) as terminal:
        forgotten(terminal)
        assert files_holding(studio, WORDS).keys() == {"family.recovery"}
        terminal.send("u\n")
        terminal.wait_for("is as it was")
        assert terminal.ended() == 0
    assert snapshot(studio) == before


@pytest.mark.parametrize(
    ("keys", "status"),
    [pytest.param("\n", 0, marks=pytest.mark.long), pytest.param(CTRL_D, 0, marks=pytest.mark.long), (CTRL_C, 130)],
)
def test_however_the_last_question_is_left_it_is_final(studio, keys, status):
    with forgetting(studio) as terminal:
        forgotten(terminal)
        terminal.send(keys)
        assert terminal.ended() == status
        assert "Traceback" not in terminal.text()
    assert files_holding(studio, WORDS) == {}


@pytest.mark.parametrize("number", [signal.SIGTERM, pytest.param(signal.SIGHUP, marks=pytest.mark.long)])
def test_a_signal_at_the_last_question_makes_it_final(studio, number):
    with forgetting(studio) as terminal:
        forgotten(terminal)
        terminal.kill(number)
        assert terminal.ended() == 128 + number
    assert files_holding(studio, WORDS) == {}


@pytest.mark.long
def test_a_closed_window_at_the_last_question_makes_it_final(studio):
    with forgetting(studio) as terminal:
        forgotten(terminal)
        terminal.close()
        terminal.ended()
    assert files_holding(studio, WORDS) == {}


@pytest.mark.long
@pytest.mark.parametrize(("answer", "is_back"), [("u\n", True), ("\n", False)])
def test_killed_at_the_last_question_the_file_is_named_and_offered_the_next_time(studio, answer, is_back):
    before = snapshot(studio)
    with forgetting(studio) as terminal:
        forgotten(terminal)
        terminal.kill(signal.SIGKILL)
        assert terminal.ended() == -signal.SIGKILL
    assert files_holding(studio, WORDS).keys() == {"family.recovery"}
    with RealTerminal("family", "okonjo", "--folder", str(studio), columns=200) as terminal:
        terminal.wait_for("family.recovery was left")
        terminal.wait_for("bring the Zwijndrecht family back")
        terminal.send(answer)
        terminal.wait_for("Family Okonjo: Ilse")
        assert terminal.ended() == 0
    if is_back:
        assert snapshot(studio) == before
    else:
        assert files_holding(studio, WORDS) == {}


def test_a_signal_in_the_middle_of_it_leaves_everything_as_it_was(studio):
    before = snapshot(studio)
    stopping = (
        "import os, signal, sys\n"
        "def hook(name, arguments):\n"
        "    if name == 'os.remove' and str(arguments[0]).endswith('2026-12-01 Ilse.md'):\n"
        "        os.kill(os.getpid(), signal.SIGTERM)\n"
        "sys.addaudithook(hook)\n"
        "from cockpit.cli.main import main\nsys.exit(main(sys.argv[1:]))"
    )
    arguments = ("family", "zwijndrecht", "--forget", "--sure", "Zwijndrecht", "--folder", str(studio))
    with RealTerminal(*arguments, program=("-c", stopping)) as terminal:
        assert terminal.ended() == 128 + signal.SIGTERM
        assert "Stopped. Everything about the Zwijndrecht family is as it was." in terminal.text()
    assert snapshot(studio) == before
    assert not os.path.lexists(studio / "family.recovery")
