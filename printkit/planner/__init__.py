"""The planner: which trays a child's shelf has, and which of them are out in which week."""

from printkit.planner.model import (
    AREAS,
    ChildPlan,
    Move,
    Reason,
    Season,
    Week,
)
from printkit.planner.season import child_plan, season

__all__ = [
    "AREAS",
    "ChildPlan",
    "Move",
    "Reason",
    "Season",
    "Week",
    "child_plan",
    "season",
]
