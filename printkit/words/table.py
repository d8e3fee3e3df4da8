"""The one table of languages: what a pack file may name, and what stands behind each name."""

from printkit.words.model import Row
from printkit.words.rows import library, own, waiting

ROWS: tuple[Row, ...] = (*library.ROWS, *own.ROWS, *waiting.ROWS)
