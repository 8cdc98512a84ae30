"""The section [policy]: what she owes for lessons that were not taught, also with a date from which another one is in force."""

from cockpit.settings.reading import TomlTable
from cockpit.studio.lessons.lesson import Outcome
from cockpit.studio.lessons.policy import MONTHLY, USUAL_POLICY, Policies, Policy

_OWED = {
    "canceled_in_time": Outcome.CANCELLED,
    "canceled_late": Outcome.CANCELLED_LATE,
    "absent": Outcome.ABSENT,
    "called_off": Outcome.CALLED_OFF,
}
_MAKE_UP, _ONCE, _NOTHING = "make-up", "make-up once a term", "nothing"
_ONCE_A_TERM = frozenset({Outcome.CANCELLED_LATE, Outcome.ABSENT})  # what is the family's doing
_KEYS = (*_OWED, "forgive_sick", "make_up_within_days", "make_ups_a_term", "terms_begin", "from")


def policies_in(table: TomlTable) -> Policies:
    """The section [policy], or sections [[policy]], each with the date from which it is in force.

    Raises:
        BadSettings: the file, the key, what was found and what would work.
    """
    if table.is_section("policy"):
        return Policies(each=(_policy(table.table("policy"), USUAL_POLICY),))
    found: list[Policy] = []
    for each in table.tables("policy", "one section [policy], or sections [[policy]] with from"):
        before = found[-1] if found else USUAL_POLICY
        policy = _policy(each, before)
        if found and policy.from_on is None:
            raise each.fault("from", "nothing", "a date such as 2027-01-01")
        if policy.from_on is not None and before.from_on is not None and policy.from_on <= before.from_on:
            raise each.fault("from", str(policy.from_on), f"a day after {before.from_on}")
        found.append(policy)
    return Policies(each=tuple(found)) if found else Policies()


def _policy(table: TomlTable, before: Policy) -> Policy:
    """A policy; what it does not say is as it was before."""
    table.only(_KEYS, f"one of {', '.join(_KEYS)}")
    said = {outcome: _owed(table, key, outcome, before) for key, outcome in _OWED.items()}
    days = 0 if (ends_with_term := _ends_with_term(table, before)) else _days(table, before)
    most = table.number("make_ups_a_term", before.most_a_term or 0, range(101), "0 for no limit, or 1 to 100")
    return Policy(
        from_on=table.date("from"),
        owing=frozenset(outcome for outcome, words in said.items() if words != _NOTHING),
        once_a_term=frozenset(outcome for outcome, words in said.items() if words == _ONCE),
        forgives_sick=table.yes_or_no("forgive_sick", default=before.forgives_sick),
        within_days=days or None,
        ends_with_term=ends_with_term,
        most_a_term=most or None,
        terms_begin=_terms(table, before),
    )


def _owed(table: TomlTable, key: str, outcome: Outcome, before: Policy) -> str:
    was = _ONCE if outcome in before.once_a_term else _MAKE_UP if outcome in before.owing else _NOTHING
    return table.choice(key, was, (_MAKE_UP, _ONCE, _NOTHING) if outcome in _ONCE_A_TERM else (_MAKE_UP, _NOTHING))


def _ends_with_term(table: TomlTable, before: Policy) -> bool:
    if table.has("make_up_within_days"):
        return table.says("make_up_within_days", "term")
    return before.ends_with_term


def _days(table: TomlTable, before: Policy) -> int:
    expected = '0 for no end, 1 to 366 days, or "term" for the end of the term'
    return table.number("make_up_within_days", before.within_days or 0, range(367), expected)


def _terms(table: TomlTable, before: Policy) -> tuple[tuple[int, int], ...]:
    if table.says("terms_begin", "monthly"):
        return MONTHLY
    expected = '"monthly", or first days of terms such as ["09-01", "01-01", "06-01"]'
    return table.months_and_days("terms_begin", before.terms_begin, expected)
