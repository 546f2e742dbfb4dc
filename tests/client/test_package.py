"""The client works where nothing of the server is installed."""

from __future__ import annotations

import subprocess
import sys
import zipfile
from importlib.metadata import distribution
from pathlib import Path

import pytest
from packaging.requirements import Requirement

PROJECT = Path(__file__).parents[2]
ASK = """
import sys
from service.client import Client, SaveHook
try:
    import fastapi
except ModuleNotFoundError:
    pass
else:
    sys.exit("the server is installed here")
with Client(sys.argv[1], sys.argv[2]) as client:
    print(client.decide_couple(first="A4-80", second="EN AW-6082-T6", environment="heated-indoor").verdict)
"""


def needed(name: str, *, extra: str = "") -> set[str]:
    """Distributions that an installation of one brings, in this environment."""
    found = {name}
    for text in distribution(name).requires or []:
        requirement = Requirement(text)
        if requirement.marker is None or requirement.marker.evaluate({"extra": extra}):
            found |= needed(requirement.name)
    return found


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)],
        cwd=PROJECT, check=True, capture_output=True,
    )  # fmt: skip
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the wheel and what its metadata asks for without any extra, linked from where it is."""
    folder = tmp_path_factory.mktemp("site")
    zipfile.ZipFile(wheel).extractall(folder)
    (metadata,) = folder.glob("*.dist-info/METADATA")
    lines = [line for line in metadata.read_text().splitlines() if line.startswith("Requires-Dist: ")]
    requirements = [Requirement(line.removeprefix("Requires-Dist: ")) for line in lines]
    plain = [each.name for each in requirements if each.marker is None]
    assert sorted(plain) == ["anyio", "httpx", "msgspec"]
    for name in set.union(*(needed(each) for each in plain)):
        for file in distribution(name).files or []:
            top = file.parts[0]
            if top not in {"..", "__pycache__"} and not (folder / top).exists():
                (folder / top).symlink_to(str(distribution(name).locate_file(top)))
    return folder


def isolated(folder: Path, code: str, *arguments: str) -> subprocess.CompletedProcess[str]:
    """Run code in a Python that sees this folder and the standard library only."""
    start = f"import sys; sys.path.insert(0, {str(folder)!r})\n"
    return subprocess.run(
        [sys.executable, "-I", "-S", "-c", start + code, *arguments],
        cwd=folder, capture_output=True, text=True, check=False, timeout=60,
    )  # fmt: skip


def test_it_asks_the_service_from_a_place_without_the_server(installed: Path, service_address: str) -> None:
    from service.settings import LOCAL_DEVELOPMENT_KEY

    done = isolated(installed, ASK, service_address, LOCAL_DEVELOPMENT_KEY)
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() in {"suitable", "conditional", "unsuitable", "undetermined"}


def test_the_command_line_says_what_is_missing(installed: Path) -> None:
    done = isolated(installed, "import service.__main__")
    assert done.returncode == 1
    assert done.stderr.strip().endswith("the command line comes with faying[server]")


def test_the_client_tells_type_checkers_that_it_is_typed(wheel: Path) -> None:
    assert "service/py.typed" in zipfile.ZipFile(wheel).namelist()


def test_importing_it_imports_nothing_of_the_server() -> None:
    code = "import sys, service.client\nprint(*sorted({name.split('.')[0] for name in sys.modules}))"
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=PROJECT, capture_output=True, text=True, check=True, timeout=60
    )
    server = {
        "fastapi",
        "starlette",
        "pydantic",
        "sqlalchemy",
        "numpy",
        "scipy",
        "orjson",
        "typer",
        "uvicorn",
    }
    assert not server & set(done.stdout.split())
