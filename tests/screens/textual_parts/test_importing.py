import subprocess
import sys

FIRST = "import sys\nfrom cockpit.screens.textual_parts.importing import import_textual\nimport_textual()\n"


def said(code: str) -> str:
    done = subprocess.run([sys.executable, "-c", FIRST + code], capture_output=True, text=True, check=True)
    return done.stdout.strip()


def test_the_first_screen_loads_neither_tls_nor_widgets_that_it_does_not_show():
    code = (
        "import cockpit.screens.app, cockpit.screens.day.day\n"
        "late = {'ssl', 'textual.types', 'textual.widgets._select', 'textual.widgets._directory_tree'}\n"
        "print(sorted(late & set(sys.modules)))"
    )
    assert said(code) == "[]"


def test_what_was_not_loaded_is_there_when_something_asks_for_it():
    code = (
        "import smtplib, ssl, textual.types, textual.command\n"
        "same = textual.types.IgnoreReturnCallbackType is textual.command.IgnoreReturnCallbackType\n"
        "print(ssl.create_default_context().check_hostname, hasattr(smtplib, 'SMTP_SSL'), same, textual.types.__name__)"
    )
    assert said(code) == "True True True textual.types"
