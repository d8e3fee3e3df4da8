"""Ladders: the rungs of counting, operations, looking and writing, each ladder climbed by itself.

A rung stands for keys of a child and settings of materials. No material's code is known here; which
ladder a material climbs is told by the material itself (`track`).
"""

from printkit.ladder.climbing import after, before, differ, kept_on, new_on, rung, rungs, tracks
from printkit.ladder.rungs import Expectation, Fact, Rung
from printkit.ladder.standing import standing

__all__ = [
    "Expectation", "Fact", "Rung", "after", "before", "differ", "kept_on", "new_on", "rung", "rungs",
    "standing", "tracks",
]  # fmt: skip
