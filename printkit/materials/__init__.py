"""The materials: one module a kind, found by looking; sorted by (order, name).

A module of this package that has an attribute `MATERIAL` is a material; nothing else lists them.
"""

import importlib
import pkgutil
from functools import cache

from printkit.materials.base import Made, Material, Need, Room
from printkit.materials.seeing import answering
from printkit.pack import MaterialKeys

__all__ = ["Made", "Material", "Need", "Room", "material_keys", "materials", "track_of"]


@cache
def materials() -> dict[str, Material]:
    """Every material by its name, in teaching order."""
    modules = (importlib.import_module(f"{__name__}.{info.name}") for info in pkgutil.iter_modules(__path__))
    found = [module.MATERIAL for module in modules if hasattr(module, "MATERIAL")]
    return {item.name: answering(item) for item in sorted(found, key=lambda item: (item.order, item.name))}


def material_keys() -> dict[str, MaterialKeys]:
    """What the pack reader must know of each material."""
    return {
        name: MaterialKeys(settings=item.settings, stock=item.stock) for name, item in materials().items()
    }


def track_of(material: str) -> str | None:
    """The ladder that a child climbs with a material; None for one that climbs none, or an unknown name."""
    found = materials().get(material)
    return found.track if found else None
