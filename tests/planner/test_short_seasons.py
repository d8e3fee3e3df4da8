"""Seasons of one week or two: everything is out, and that is said in good English."""

import pytest
from guide.guides import whole_text
from strategies import PLAIN_THEME, read

from printkit.build import plan, summary
from printkit.planner.told import plan_lines

SETS = ("counting-cards", "clip-cards", "halves", "paths", "odd-one-out", "sizes", "pairs", "ten-frames")


@pytest.mark.parametrize(
    ("count", "weeks", "said", "told"),
    [(6, 1, "a single week", "one week: weeks = 2"), (8, 2, "2 weeks", "2 weeks: weeks = 4")],
)
def test_many_trays_in_a_short_season(count, weeks, said, told):
    """More trays than the weeks take calmly are told as that, by `check` and by the guide."""
    child = {"name": "Wren", "numbers": [1, 3], "materials": list(SETS[:count])}
    made = plan(read({"theme": PLAIN_THEME, "weeks": weeks, "children": [child]}))
    table = "\n".join(plan_lines(summary(made)["weeks"]))

    assert f"Wren has many trays for {said}" in whole_text(made)
    assert f"These are many sets for {told} would be calmer, or fewer sets." in table
    assert table.count("  N") == count
    assert "once out, each stays out" not in table
