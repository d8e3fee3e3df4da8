"""The one place that knows where data files lie: beside the package in a checkout, inside it in a wheel."""

from pathlib import Path


def resource(path: str) -> Path:
    """The file or folder of that name, such as 'fonts/Andika-Regular.ttf' or 'themes/rock-pool'."""
    package = Path(__file__).resolve().parent
    inside = package / path
    return inside if inside.exists() else package.parent / path
