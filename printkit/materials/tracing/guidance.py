"""What tracing tells the guide."""

from collections.abc import Sequence

from printkit.materials.guidance import Guidance, Holding, when
from printkit.pack import Tray
from printkit.pieces import Hollow, Piece, Traced


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    settings = tray.settings
    marks = [mark for piece in pieces for mark in piece.front.marks]
    arrows = settings.help == "arrows" and any(isinstance(mark, Traced) for mark in marks)
    return Holding(
        variants=(settings.form, *when(arrows=arrows)),
        notes=when(
            arrows=arrows,
            hollow=any(isinstance(mark, Hollow) for mark in marks),
            left=tray.child.hand == "left" and settings.form != "card",
        ),
    )


GUIDANCE = Guidance(holding=_holding)
