"""Bills of materials: parts, the joints between them, and a report on all of them."""

from service.assemblies.assembly import Assembly
from service.assemblies.reading import File, read_assembly
from service.assemblies.report import JudgedJoint, judge_joints

__all__ = ["Assembly", "File", "JudgedJoint", "judge_joints", "read_assembly"]
