"""The choices of spelling and gender a family has: tag -> choices, the usual one first."""

from collections.abc import Mapping

from printkit.words.choices import germanic, others, romance, slavic
from printkit.words.model import Choice

CHOICES: Mapping[str, tuple[Choice, ...]] = (
    romance.CHOICES | germanic.CHOICES | slavic.CHOICES | others.CHOICES
)
