"""What the command `recital` prints: the recitals to come."""

from pathlib import Path

from cockpit.wiring import Studio


def recitals(folder: Path) -> str:
    """The recitals to come with their sittings and rehearsals, each in columns."""
    from cockpit.cli.commands import asked
    from cockpit.wording.recital import recital_text, recital_title

    def ask(studio: Studio) -> str:
        desk, home = studio.desk.recitals().reading, studio.preferences.home
        found = [desk.program(each.recital.id) for each in desk.view().coming]
        told = [
            f"Rehearsal: {recital_title(each, home)}\n" if each.recital.is_rehearsal else recital_text(each, home)
            for each in found
        ]
        return "\n".join(told).rstrip("\n") or "No recital is coming up."

    return asked(folder, ask)
