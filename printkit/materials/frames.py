"""The marks of a frame of ten: an outline with a line between its two rows and its five columns."""

from printkit.materials.arrange import Frame
from printkit.materials.layout import SOFT
from printkit.pieces import Box, Line, Mark


def frame_marks(frame: Frame) -> list[Mark]:
    """Outline and inner lines of one frame."""
    cell, right, bottom = frame.cell, frame.left + 5 * frame.cell, frame.top + 2 * frame.cell
    middle = frame.top + cell
    marks: list[Mark] = [
        Box(x=frame.left, y=frame.top, width=5 * cell, height=2 * cell, radius=0.6, stroke=SOFT, line=0.4),
        Line(x1=frame.left, y1=middle, x2=right, y2=middle, color=SOFT, line=0.25),
    ]
    for i in range(1, 5):
        x = frame.left + i * cell
        marks.append(Line(x1=x, y1=frame.top, x2=x, y2=bottom, color=SOFT, line=0.25))
    return marks
