"""The roles that colors play, and a theme: the colors of all of them, and how its clock is drawn."""

from collections.abc import Mapping

from cockpit.studio.values import Value

ROLES = (
    "ground", "pane", "text", "quiet", "line", "title", "student", "clock_running", "clock_wrap_up", "clock_over",
    "clock_waiting", "finished", "absent", "cancelled", "cursor_ground", "cursor_text",
    "selection_ground", "key", "private", "asked", "warning", "error", "notice_ground", "notice_text",
)  # fmt: skip


RESTS: Mapping[str, str] = {"line": "─", "dashes": "╌", "short-dashes": "┄", "dots": "┈"}
STROKES, CORNERS = ("even", "thin"), ("round", "square")


class Face(Value):
    """How a theme draws the clock, in the words of its file: the level strokes and corners of figures, the rest of a bar."""

    stroke: str = "even"
    corners: str = "round"
    rest: str = "line"

    @property
    def rest_sign(self) -> str:
        """What the part of a bar that is not played is made of."""
        return RESTS[self.rest]


class Look(Value):
    """A theme: its colors as `#rrggbb`, by role, and its face."""

    name: str
    title: str
    is_dark: bool
    colors: Mapping[str, str]
    face: Face = Face()


def face_variables(face: Face) -> dict[str, str]:
    """A face as variables of a theme, by which it comes to all that is drawn."""
    return {"face-stroke": face.stroke, "face-corners": face.corners, "face-rest": face.rest}


def face_of(variables: Mapping[str, str]) -> Face:
    """The face in the variables of a theme; the usual one where it has none."""
    usual = face_variables(Face())
    stroke, corners, rest = (variables.get(name, word) for name, word in usual.items())
    return Face(stroke=stroke, corners=corners, rest=rest)


def tinted(look: Look) -> dict[str, str]:
    """The grounds of the band in the wrap-up and over time: a part of the clock's color in the ground, less where it is light."""
    share, ground = 0.20 if look.is_dark else 0.14, look.colors["ground"]
    return {f"{phase}_ground": _mixed(ground, look.colors[f"clock_{phase}"], share) for phase in ("wrap_up", "over")}


def _mixed(first: str, second: str, share: float) -> str:
    """A color with a share of another in it, each channel by itself."""
    channels = ((int(first[at : at + 2], 16), int(second[at : at + 2], 16)) for at in (1, 3, 5))
    return "#" + "".join(f"{round(one + (other - one) * share):02X}" for one, other in channels)
