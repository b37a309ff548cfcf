"""The build sheet: its types, its reader, its schema, and what it leaves unknown.

Units and YAML libraries load only when a sheet is read.
"""

from firstpitch.sheet.errors import FirstpitchError, SheetError
from firstpitch.sheet.kit import KindLike, Kinds, resolve_links
from firstpitch.sheet.read import read_sheet, read_sheet_text
from firstpitch.sheet.schema import build_schema, schema_of
from firstpitch.sheet.types import BuildSheet, Kit, LinkGap, Links, Quantity
from firstpitch.sheet.unknown import Unknown, unknowns

__all__ = [
    "BuildSheet",
    "FirstpitchError",
    "KindLike",
    "Kinds",
    "Kit",
    "LinkGap",
    "Links",
    "Quantity",
    "SheetError",
    "Unknown",
    "build_schema",
    "read_sheet",
    "read_sheet_text",
    "resolve_links",
    "schema_of",
    "unknowns",
]
