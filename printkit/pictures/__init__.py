"""Pictures: a folder of SVG, PNG, JPEG or WebP files -> motifs, and what differs between two looks.

`themes` reads a folder; `motifs` gives each picture in an ink, with parts left out or recolored;
`differences` finds what can be told apart at print size. Behind them: `svg` and `raster` read the
files, `flatten` turns drawings into pixels to measure.
"""

from printkit.pictures.differences import Difference, candidates, differences
from printkit.pictures.flatten import rasterise
from printkit.pictures.motifs import Ink, Motif, spoken
from printkit.pictures.seen import Look
from printkit.pictures.themes import Theme, built_in, load_theme

__all__ = [
    "Difference",
    "Ink",
    "Look",
    "Motif",
    "Theme",
    "built_in",
    "candidates",
    "differences",
    "load_theme",
    "rasterise",
    "spoken",
]
