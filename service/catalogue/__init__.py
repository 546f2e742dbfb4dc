"""The frozen knowledge base of one release, and how releases are made, compared and overlaid."""

from service.catalogue.catalogue import Catalogue
from service.catalogue.difference import Change, ChangeKind, diff
from service.catalogue.errors import CatalogueError
from service.catalogue.grading import grade
from service.catalogue.overlay import Overlay, apply_overlay, overlay_from_rows
from service.catalogue.release import content_hash, freeze, thaw
from service.catalogue.surfaces import Condition, Layer, Surface
from service.catalogue.tables import KEYS, TABLES, record_from_row, row_from_record

__all__ = [
    "KEYS",
    "TABLES",
    "Catalogue",
    "CatalogueError",
    "Change",
    "ChangeKind",
    "Condition",
    "Layer",
    "Overlay",
    "Surface",
    "apply_overlay",
    "content_hash",
    "diff",
    "freeze",
    "grade",
    "overlay_from_rows",
    "record_from_row",
    "row_from_record",
    "thaw",
]
