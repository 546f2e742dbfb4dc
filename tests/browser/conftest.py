"""A real browser on a real server.

Chromium is Debian's (``apt-get install chromium``) or the one that ``FAYING_CHROMIUM`` names. Where there is
none these tests are skipped, but not in continuous integration (``CI`` is set), where they fail.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, ConsoleMessage, Page, Request, sync_playwright

from tests.acceptance.processes import PROJECT, Server, environment, faying, serving

CHROMIUM = os.environ.get("FAYING_CHROMIUM") or shutil.which("chromium") or "/usr/bin/chromium"
AXE = Path(os.environ.get("FAYING_AXE") or PROJECT / "build" / "axe" / "package" / "axe.min.js")
SCREENSHOTS = PROJECT / "build" / "screenshots"
OPTIONS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
WIDTHS = (390, 1024, 1600)


def missing(what: str) -> None:
    if os.environ.get("CI"):
        pytest.fail(f"{what}, and CI may not go without")
    pytest.skip(what)


@dataclass
class Visit:
    """A page under watch: what it complained of and where it reached."""

    page: Page
    address: str
    complaints: list[str] = field(default_factory=list)
    hosts: set[str] = field(default_factory=set)

    def watch(self) -> None:
        self.page.on("console", self._hear)
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.on("request", self._follow)

    def open(self, path: str) -> None:
        self.page.goto(self.address + path)
        self.page.wait_for_load_state("networkidle")

    def check(self) -> None:
        assert self.complaints == []
        assert self.hosts <= {urlsplit(self.address).netloc}

    def keep(self, name: str) -> None:
        """Keep a picture of the whole page at each width, and see that nothing sticks out sideways."""
        SCREENSHOTS.mkdir(parents=True, exist_ok=True)
        for width in WIDTHS:
            self.page.set_viewport_size({"width": width, "height": 900})
            overflow = self.page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
            assert overflow <= 0, f"{name} is {overflow} px too wide at {width}"
            self.page.screenshot(path=SCREENSHOTS / f"{name}-{width}.png", full_page=True)

    def _hear(self, message: ConsoleMessage) -> None:
        if message.type in {"error", "warning"}:
            self.complaints.append(message.text)

    def _follow(self, request: Request) -> None:
        if not request.url.startswith("data:"):
            self.hosts.add(urlsplit(request.url).netloc)


@pytest.fixture(scope="session")
def chromium() -> str:
    if not Path(CHROMIUM).exists():
        missing(f"no Chromium at {CHROMIUM}; install Debian's, or name one with FAYING_CHROMIUM")
    return CHROMIUM


@pytest.fixture(scope="module")
def browser(chromium: str) -> Iterator[Browser]:
    """Open a browser for one module: its driver's event loop leaves no room for that of another test."""
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=chromium, args=list(OPTIONS))
        yield opened
        opened.close()


@pytest.fixture(scope="session")
def prepared(chromium: str, tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """Environment of a server whose database is set up."""
    env = environment(tmp_path_factory.mktemp("browser") / "faying.sqlite3")
    made = faying("setup", env=env)
    assert made.status == 0, made.complaint
    return env


@pytest.fixture(scope="session")
def server(prepared: dict[str, str], tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    with serving(prepared, log=tmp_path_factory.mktemp("server") / "log") as running:
        yield running


@pytest.fixture(scope="session")
def reviewer_key(prepared: dict[str, str]) -> str:
    """An API key that may read and review."""
    scopes = ("--scope", "catalogue:read", "--scope", "knowledge:review")
    made = faying("key", "create", "reviewer", "--tenant", "laboratory", *scopes, env=prepared)
    assert made.status == 0, made.complaint
    return made.output.strip().splitlines()[-1]


@pytest.fixture(scope="session")
def axe() -> str:
    if not AXE.exists():
        missing(
            f"no axe-core at {AXE}; `npm pack axe-core` unpacked there brings it, FAYING_AXE names another"
        )
    return AXE.read_text(encoding="utf-8")


@pytest.fixture
def visit(server: Server, browser: Browser) -> Iterator[Visit]:
    page = browser.new_page(viewport={"width": 1024, "height": 900})
    watched = Visit(page, server.address)
    watched.watch()
    yield watched
    page.close()
