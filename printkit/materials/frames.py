"""What things lie on: frames of ten, and the light ground of a set that holds 0."""

from printkit.materials.arrange import Frame
from printkit.materials.layout import FAINT, SOFT
from printkit.pieces import Box, Line, Mark
from printkit.units import Rect


def frame_marks(frame: Frame) -> list[Mark]:
    """Outline and inner lines of one frame."""
    left, top, width, height = frame.box
    right, bottom = left + width, top + height
    columns, rows = round(width / frame.cell), round(height / frame.cell)
    across = [top + i * frame.cell for i in range(1, rows)]
    down = [left + i * frame.cell for i in range(1, columns)]
    return [
        Box(x=left, y=top, width=width, height=height, radius=0.6, stroke=SOFT, line=0.4),
        *(Line(x1=left, y1=y, x2=right, y2=y, color=SOFT, line=0.25) for y in across),
        *(Line(x1=x, y1=top, x2=x, y2=bottom, color=SOFT, line=0.25) for x in down),
    ]


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
