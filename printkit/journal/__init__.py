"""The family's journal: what was seen, one plain line a note, in `journal.txt` beside the pack file."""

from printkit.journal.file import JOURNAL, append, journal_file, read_journal
from printkit.journal.lines import entry_line, parse
from printkit.journal.model import RESULTS, Broken, Entry, Journal, Result
from printkit.journal.noting import day_of, noted, played_in

__all__ = [
    "JOURNAL",
    "RESULTS",
    "Broken",
    "Entry",
    "Journal",
    "Result",
    "append",
    "day_of",
    "entry_line",
    "journal_file",
    "noted",
    "parse",
    "played_in",
    "read_journal",
]
