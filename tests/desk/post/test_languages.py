"""Each family's notes in its own language, from the roster or the settings to what it is sent."""

from contextlib import contextmanager
from datetime import UTC, datetime

from support.outbox import Posted

from cockpit.clock import SetClock
from cockpit.papers.mail.message import as_read
from cockpit.wiring import studio_at

MORNING = datetime(2026, 12, 1, 14, tzinfo=UTC)  # 8:00 in Chicago
ROSTER = """student,weekday,time,minutes,family,email,zone,send_by,language
Ilse,Tuesday,16:00,30,Brandvold,a@brandvold.example,America/Phoenix,mail,de
Ilse,Tuesday,16:30,30,Okonjo,ada@okonjo.example,Europe/London,mail,
Mireille,Tuesday,18:00,45,Perreault,m@perreault.example,America/St_Johns,mail,en
"""
SETTINGS = """home_zone = "America/Chicago"
[sending]
language = "{language}"
[sending.mail]
host = "localhost"
security = "none"
sender = "teacher@studio.example"
"""


@contextmanager
def studio(folder, language):
    (folder / "settings.toml").write_text(SETTINGS.format(language=language), encoding="utf-8")
    clock = SetClock(MORNING)
    with studio_at(folder, clock, to_write=True) as opened:
        opened.enrolling.take_in(ROSTER)
        yield Posted(opened, clock)


def finished(posted, folder):
    """What each family's papers in the folder begin with, and the language of its page."""
    for student, family in (("Ilse", "Brandvold"), ("Ilse", "Okonjo"), ("Mireille", "Perreault")):
        posted.finish(student, family, "Scales: D major, 5 min")
        lying = folder / "notes" / family / f"2026-12-01 {student}"
        lines = lying.with_suffix(".md").read_text(encoding="utf-8").splitlines()
        page = lying.with_suffix(".html").read_text(encoding="utf-8")
        yield lines[0], lines[2].rstrip(), page.split("<html ")[1].split(">")[0]


def test_a_familys_papers_are_in_the_language_of_the_roster_or_else_of_the_settings(tmp_path):
    with studio(tmp_path, "es") as posted:
        assert list(finished(posted, tmp_path)) == [
            ("# Notizen zum Üben für Ilse", "Dienstag, 1. Dezember 2026, 3:00\u202fPM, Ortszeit Phoenix", 'lang="de"'),
            ("# Notas de práctica para Ilse", "Martes, 1 de diciembre de 2026, 10:30\u202fp.\u202fm., hora de Londres", 'lang="es"'),
            ("# Practice notes for Mireille", "Tuesday, December 1, 2026, 8:30 pm St. John's time", 'lang="en"'),
        ]  # fmt: skip


def test_a_mail_is_in_the_familys_language_and_so_is_the_next_lesson_in_it(tmp_path):
    with studio(tmp_path, "es") as posted:
        posted.finish("Ilse", "Brandvold", "Scales: D major, 5 min")
        (parcel,) = posted.send().carried
        subject, text, page = as_read(parcel.documents[0].content)
        assert subject == "Notizen zum Üben für Ilse, Di., 1. Dezember"
        assert text.splitlines()[0] == "Notizen zum Üben für Ilse"
        assert '<html lang="de">' in page
        (entry,) = posted.entries()
        assert "SUMMARY:Stunde: Ilse" in entry.next_lesson
        assert "Nächste Stunde\\, Ilse" in entry.next_lesson


def test_her_own_phrases_are_on_the_papers_and_a_faulty_one_is_told_when_the_studio_opens(tmp_path):
    (tmp_path / "themes" / "phrases").mkdir(parents=True)
    path = tmp_path / "themes" / "phrases" / "de.toml"
    path.write_text('[notes]\ntitle = "Für {student}"\nlength = "{minutes}"\n', encoding="utf-8")
    with studio(tmp_path, "it") as posted:
        first = next(finished(posted, tmp_path))
        assert first[0] == "# Für Ilse"
        told = posted.studio.opening_notices
    assert f"{path}, notes.length: found {{minutes}}. Use {{instrument}} and {{minutes}}." in told
    assert any('language: there are no phrases for "it". Use one of de, en, es, fr' in sentence for sentence in told)


def test_a_family_whose_language_has_no_phrases_reads_english(tmp_path):
    with studio(tmp_path, "it") as posted:
        posted.finish("Ilse", "Okonjo", "Scales: D major, 5 min")
        (parcel,) = posted.send().carried
        subject, _, page = as_read(parcel.documents[0].content)
        assert subject == "Practice notes for Ilse, Tue, December 1"
        assert '<html lang="en">' in page


def test_a_message_about_a_clock_change_is_in_the_familys_language(tmp_path):
    with studio(tmp_path, "es") as posted:
        posted.clock.at = datetime(2027, 3, 1, 14, tzinfo=UTC)
        texts = [path.read_text(encoding="utf-8") for path in posted.studio.desk.ahead.write_messages(12)]
        assert [text.split("\n")[0] for text in texts] == [
            "Stunde von Ilse: andere Uhrzeit ab Dienstag, 16. März 2027",
            "Clase de Ilse: otra hora desde el martes 16 de marzo de 2027",
        ]
