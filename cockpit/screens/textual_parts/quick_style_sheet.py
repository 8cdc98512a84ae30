"""The style sheet, asked only what can be different."""

from typing import TYPE_CHECKING

from textual.css.model import RuleSet
from textual.css.stylesheet import Stylesheet

if TYPE_CHECKING:
    from collections.abc import Iterable

    from textual.css.styles import RulesMap
    from textual.css.types import Specificity3
    from textual.dom import DOMNode


class QuickStyleSheet(Stylesheet):
    """Textual's own, which tries each rule on all parts that a part lies in, and sets each style again that is set already.

    It leans on private names of Textual, which is why that is pinned to one version; a test compares the styles of both.
    """

    @classmethod
    def _check_rule(cls, rule_set: RuleSet, css_path_nodes: "list[DOMNode]") -> "Iterable[Specificity3]":
        """How specific each selector is that selects the last of the nodes, which the end of it speaks of."""
        node = css_path_nodes[-1]
        if any(each.selectors[-1].check(node) for each in rule_set.selector_set):
            yield from super()._check_rule(rule_set, css_path_nodes)

    @classmethod
    def replace_rules(cls, node: "DOMNode", rules: "RulesMap", animate: bool = False) -> None:  # noqa: FBT001, FBT002 as there
        """Gives a node the rules that now are its own."""
        if animate or node.styles.base._rules != rules:  # noqa: SLF001 nothing else tells what is set
            super().replace_rules(node, rules, animate)
        else:
            node.notify_style_update()
