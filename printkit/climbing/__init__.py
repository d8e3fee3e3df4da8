"""What comes next: the rule of climbing, applied to a pack and a journal."""

from printkit.climbing.model import Move, Proposal
from printkit.climbing.proposals import propose
from printkit.climbing.rule import CHOSEN_DAYS, REST_WEEKS, Seen, Verdict, judge

__all__ = ["CHOSEN_DAYS", "REST_WEEKS", "Move", "Proposal", "Seen", "Verdict", "judge", "propose"]
