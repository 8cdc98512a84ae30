"""The section [practice] of settings.toml: how a week's practice is planned, and when it has grown suddenly."""

from collections.abc import Mapping
from types import MappingProxyType

from cockpit.settings.reading import TomlTable
from cockpit.studio.errors import BadInput
from cockpit.studio.notes.areas import AnyArea, Area
from cockpit.studio.people.people import PlanForm
from cockpit.studio.practice.rules import WEIGHTS, HealthLine, LoadRules, PlanRules, PracticeRules
from cockpit.studio.roster.practice_days import read_practice_days

_KEYS = (
    "plan", "health_line", "days", "largest_step", "longest_passage", "span_measures", "overlap", "turn_minutes", "review_gaps",
    "sudden_increase_percent", "sudden_increase_minutes", "weights",
)  # fmt: skip
_USUAL, _USUAL_LOAD = PlanRules(), LoadRules()


def practice_rules(table: TomlTable, own: Mapping[AnyArea, int] = MappingProxyType({})) -> PracticeRules:
    """The rules in the section; what is not in it is as usual. Areas of her own come with their weights.

    Raises:
        BadSettings: the file, the key, what was found and what would work.
    """
    table.only(_KEYS, f"one of {', '.join(_KEYS)}")
    return PracticeRules(
        form=PlanForm(table.choice("plan", PlanForm.CHART, tuple(PlanForm))),
        health_line=HealthLine(table.choice("health_line", HealthLine.MONTHLY, tuple(HealthLine))),
        days=_days(table),
        plan=_plan(table, own),
        load=LoadRules(
            percent=table.number(
                "sudden_increase_percent", _USUAL_LOAD.percent, range(1001), "a percentage from 0 to 1000"
            ),
            minutes=table.number("sudden_increase_minutes", _USUAL_LOAD.minutes, range(601), "0 to 600 minutes"),
        ),
    )


def _plan(table: TomlTable, own: Mapping[AnyArea, int]) -> PlanRules:
    rules = PlanRules(
        weights={**_weights(table.table("weights")), **own},
        largest_step=table.number("largest_step", _USUAL.largest_step, range(1, 40), "1 to 39 marks per day"),
        longest_passage=table.number("longest_passage", _USUAL.longest_passage, range(1, 1000), "1 to 999 measures"),
        span_measures=table.number("span_measures", _USUAL.span_measures, range(1, 1000), "1 to 999 measures"),
        overlap=table.number("overlap", _USUAL.overlap, range(1000), "fewer measures than span_measures"),
        turn_minutes=table.number("turn_minutes", _USUAL.turn_minutes, range(1, 61), "1 to 60 minutes"),
        review_gaps=table.numbers(
            "review_gaps", _USUAL.review_gaps, range(1, 367), "practice days in brackets, such as [1, 2, 3, 4]"
        ),
    )
    if rules.overlap >= rules.span_measures:
        raise table.fault("overlap", rules.overlap, f"fewer measures than span_measures, {rules.span_measures}")
    return rules


def _weights(table: TomlTable) -> dict[AnyArea, int]:
    table.only(Area, f"one of {', '.join(Area)}")
    return {area: table.number(area, WEIGHTS[area], range(101), "a weight from 0 to 100") for area in Area}


def _days(table: TomlTable) -> frozenset[int]:
    said = table.word("days", "daily")
    try:
        return read_practice_days(said)
    except BadInput as fault:
        raise table.fault("days", f'"{said}"', 'days such as "Mon-Sat", "M W F", or "daily"') from fault
