"""Bills of materials: parts, the joints between them, and a report on all of them."""

from service.assemblies.assembly import Assembly
from service.assemblies.judged import JudgedJoint
from service.assemblies.reading import File, read_assembly
from service.assemblies.report import Report, check

__all__ = ["Assembly", "File", "JudgedJoint", "Report", "check", "read_assembly"]
