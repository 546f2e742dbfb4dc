"""The API reference: pages rendered from the OpenAPI document, without any script or outside file."""

from service.web.reference.render import STYLES, render_problem, render_problems, render_reference

__all__ = ["STYLES", "render_problem", "render_problems", "render_reference"]
