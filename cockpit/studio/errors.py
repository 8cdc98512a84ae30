"""The errors of the program: each message is a sentence that the teacher can act on.

CockpitError
├── Refused         a rule forbids it; nothing changed
├── NotFound        no such student, day or file
├── BadInput        something typed or read cannot be understood
├── BadSettings     settings.toml: which file, which key, what was found, what would work
├── NotSaved        the disk took nothing; the words are still on the screen
├── Interrupted     she ended the work; the sentence says what was done
├── StudioBusy      another program holds the studio
├── StudioDamaged   the database cannot be read
└── StudioTooNew    the database comes from a later version of the program
"""


class CockpitError(Exception):
    """Anything that the program tells the teacher instead of doing."""


class Refused(CockpitError):
    """A rule forbids it; nothing changed."""


class NotFound(CockpitError):
    """What was asked for is not in the studio."""


class BadInput(CockpitError):
    """Something typed or read cannot be understood."""


class BadSettings(CockpitError):
    """The settings file says something that cannot be used."""


class NotSaved(CockpitError):
    """The disk refused; what is on the screen is not in the database yet."""


class Interrupted(CockpitError):
    """She ended long work between two of its steps."""


class StudioBusy(CockpitError):
    """Another program holds this studio."""


class StudioDamaged(CockpitError):
    """The database cannot be read."""


class StudioTooNew(CockpitError):
    """The database was made by a later version of the program."""
