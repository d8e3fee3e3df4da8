"""What comes next: the rule of climbing, applied to a pack and a journal."""

from printkit.climbing.model import Move, Proposal
from printkit.climbing.proposals import propose
from printkit.climbing.rule import CHOSEN_DAYS, REST_WEEKS, Seen, Verdict, judge
from printkit.climbing.sentences import as_json_values, faults, line, reason, remark, told, words_of

__all__ = [
    "CHOSEN_DAYS",
    "REST_WEEKS",
    "Move",
    "Proposal",
    "Seen",
    "Verdict",
    "as_json_values",
    "faults",
    "judge",
    "line",
    "propose",
    "reason",
    "remark",
    "told",
    "words_of",
]
