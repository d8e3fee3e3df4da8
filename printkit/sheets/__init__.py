"""Sheets: pieces -> paper, grid, cuts, what lies behind what. Knows mm, not numbers."""

from printkit.sheets.grid import Frame, turned_to_fit
from printkit.sheets.layout import SetPieces, frame_of, sheet_files
from printkit.sheets.model import FOOT, Bookmark, Cut, Page, Placed, SheetFile

__all__ = [
    "FOOT",
    "Bookmark",
    "Cut",
    "Frame",
    "Page",
    "Placed",
    "SetPieces",
    "SheetFile",
    "frame_of",
    "sheet_files",
    "turned_to_fit",
]
