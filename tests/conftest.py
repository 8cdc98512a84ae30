"""What every test stands on: pinned zone data, a plain terminal, and properties that do not race a clock."""

import os

from hypothesis import settings

from cockpit.clock import pin_zone_data

pin_zone_data()

# The machine's own habits would change pictures, themes and folders.
for name in ("NO_COLOR", "TEXTUAL_THEME", "COCKPIT_FOLDER"):
    os.environ.pop(name, None)
os.environ["TEXTUAL_ANIMATIONS"] = "none"

settings.register_profile("desk", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True, print_blob=True)
settings.load_profile("ci" if os.environ.get("CI") else "desk")
