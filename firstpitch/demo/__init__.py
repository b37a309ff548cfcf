"""Three demo vans: build sheets of caravans that do not exist, one for each common sort of fit-out.

People, places, figures and chassis numbers in them are invented.
"""

from __future__ import annotations

from importlib.resources import files
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping
    from importlib.resources.abc import Traversable

_SUFFIX = ".yaml"


def sheets() -> Mapping[str, Traversable]:
    """The demo build sheets by name, in order of the alphabet.

    >>> list(sheets())
    ['heron', 'plover', 'wren']
    """
    found = sorted(
        (item for item in files(__name__).iterdir() if item.name.endswith(_SUFFIX)), key=lambda item: item.name
    )
    return MappingProxyType({item.name.removesuffix(_SUFFIX): item for item in found})
