"""What was noted of an item, in one sign for a narrow row."""

from datetime import date

from cockpit.studio.recital.readiness import ItemFacts, ItemNeeds, NotedAnswer, Ready, Tick, readiness
from cockpit.studio.values import replace
from cockpit.wording.readiness import exceptions, worst_answer

TODAY, THE_DAY = date(2026, 12, 1), date(2026, 12, 19)


def test_a_no_goes_before_what_nobody_said_and_where_there_is_no_exception_there_is_no_sign():
    def found(**ticks):
        facts = ItemFacts(
            needs=ItemNeeds(costume=True),
            ticks={Ready[name]: Tick(is_yes=is_yes, on=TODAY) for name, is_yes in ticks.items()},
        )
        return replace(readiness(facts, THE_DAY, TODAY), clean_runs=0)

    assert worst_answer(found(BY_HEART=False), TODAY) is NotedAnswer.NO
    assert worst_answer(found(BY_HEART=True), TODAY) is NotedAnswer.NOT_SAID
    ready = found(BY_HEART=True, COSTUME=True)
    assert [*exceptions(ready, TODAY)] == []  # permissions are told elsewhere
    assert worst_answer(ready, TODAY) is None
    assert worst_answer(replace(ready, clean_runs=None), TODAY) is NotedAnswer.NOT_SAID
