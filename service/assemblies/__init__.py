"""Bills of materials: parts, the joints between them, and a report on all of them."""

from service.assemblies.errors import AssemblyError, MalformedTableError
from service.assemblies.parts import Assembly, Joint, Part
from service.assemblies.report import JudgedJoint, judge_joints
from service.assemblies.tables import read_assembly

__all__ = [
    "Assembly",
    "AssemblyError",
    "Joint",
    "JudgedJoint",
    "MalformedTableError",
    "Part",
    "judge_joints",
    "read_assembly",
]
