"""Values as JSON that a terminal shows and does not obey."""

import json
import re

_RAW = re.compile("[\x7f-\x9f\ud800-\udfff]")  # what JSON lets stand, unlike the control characters below U+0020


def json_text(value: object) -> str:
    """A value as JSON on indented lines: letters of every script as they are, each control character escaped."""
    written = json.dumps(value, ensure_ascii=False, indent=2)
    return _RAW.sub(lambda found: f"\\u{ord(found[0]):04x}", written)
