"""A theme at a glance: eight of its motifs."""

from pathlib import Path

from printkit.materials.layout import picture
from printkit.pictures import Theme, load_theme
from printkit.pieces import Mark
from printkit.sheets import Page
from printkit.units import Rect
from printkit.web.workshop import Workshop

_SIDE, _GAP, _DPI = 20.0, 6.0, 90


def theme_picture(workshop: Workshop, base: Path, name: str) -> bytes:
    """A PNG of a built-in theme, or of one in a folder of `base`. Raises PrintkitError."""
    theme = load_theme(name, base, name)
    return workshop.png(("theme", id(theme), name), lambda: _page(theme), _DPI)


def _page(theme: Theme) -> Page:
    """Motifs in two rows of four."""
    marks: list[Mark] = []
    motifs = theme.motifs[:8]
    step = _SIDE + _GAP
    for place, motif in enumerate(motifs):
        spot = Rect(_GAP + step * (place % 4), _GAP + step * (place // 4), _SIDE, _SIDE)
        marks.append(picture(motif.drawing("color", size=_SIDE), spot))
    rows = max(1, -(-len(motifs) // 4))
    return Page(width=4 * step + _GAP, height=rows * step + _GAP, marks=tuple(marks))
