"""What the figures were measured on."""

from __future__ import annotations

import os
import platform
from importlib.metadata import version
from pathlib import Path


def describe() -> dict[str, object]:
    """Processor, memory, system and the packages that matter."""
    packages = ("numpy", "uvicorn", "starlette", "fastapi", "pydantic", "orjson", "msgspec")
    return {
        "processor": _processor(),
        "cores": os.cpu_count(),
        "memory_GB": _memory_gb(),
        "system": f"{platform.system()} {platform.release()}",
        "python": platform.python_version(),
        "packages": {name: version(name) for name in packages},
        "load_before": [round(load, 1) for load in os.getloadavg()],
    }


def _processor() -> str:
    for line in _lines("/proc/cpuinfo"):
        if line.startswith("model name"):
            return line.partition(":")[2].strip()
    return platform.processor() or platform.machine()


def _memory_gb() -> float:
    for line in _lines("/proc/meminfo"):
        if line.startswith("MemTotal"):
            return round(int(line.split()[1]) / 1e6, 1)
    return 0.0


def _lines(path: str) -> list[str]:
    file = Path(path)
    return file.read_text(encoding="ascii", errors="replace").splitlines() if file.exists() else []
