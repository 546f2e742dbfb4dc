"""A picture of a page as a file: the drawing as SVG, its figures as CSV."""

from __future__ import annotations

import csv
import io

from fastapi import Request, Response

from service.web.errors import NoSuchPathError
from service.web.pages.drawing import Picture, standalone
from service.web.pages.ramp import style_rules


def picture_file(request: Request, picture: Picture, kind: str) -> Response:
    """Answer with one of both forms.

    Raises
    ------
    NoSuchPathError
        If there is no such form.
    """
    headers = {"Content-Disposition": f'attachment; filename="{picture.id}.{kind}"'}
    if kind == "svg":
        drawing = standalone(picture.svg, style_rules())
        return Response(drawing, headers=headers, media_type="image/svg+xml")
    if kind == "csv":
        return Response(table_of(picture), headers=headers, media_type="text/csv")
    raise NoSuchPathError(request.url.path, ())


def table_of(picture: Picture) -> str:
    """Write the figures of a picture as CSV."""
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(picture.columns)
    writer.writerows(picture.rows)
    return stream.getvalue()
