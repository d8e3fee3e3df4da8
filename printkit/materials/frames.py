"""What things lie on: frames of ten, and the light ground of a set that holds 0."""

from printkit.materials.arrange import Frame
from printkit.materials.layout import FAINT, SOFT
from printkit.pieces import Box, Line, Mark
from printkit.units import Rect


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


def ground_marks(box: Rect) -> tuple[Mark, ...]:
    """The light outline round the place where things lie, on every card of a set that holds 0."""
    edge = box.inset(-0.8)
    return (
        Box(
            x=edge.left,
            y=edge.top,
            width=edge.width,
            height=edge.height,
            radius=3,
            stroke=FAINT,
            line=0.4,
        ),
    )
