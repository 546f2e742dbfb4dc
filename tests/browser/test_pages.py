"""The pages in a browser: they work, stay on their host, complain of nothing, and anybody can use them."""

from __future__ import annotations

import re
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import urlencode

import pytest
from playwright.sync_api import Browser, expect

from tests.acceptance.processes import PROJECT, Server
from tests.browser.conftest import Visit

DEMO = PROJECT / "seed_data" / "demo"
FILES: list[str | Path] = [DEMO / "harbour-tide-gauge.csv", DEMO / "harbour-tide-gauge-joints.csv"]
COUPLE = urlencode(
    {
        "first": "EN AW-6082-T6, anodized 15 µm",
        "second": "A4-80",
        "environment": "marine-atmosphere-0-100-m",
    }
)
AMBIGUOUS = urlencode(
    {
        "first": "Cu-ETP, tinned 5 µm",
        "second": "EN AW-6082-T6",
        "environment": "marine-atmosphere-0-100-m",
    }
)
UNKNOWN = urlencode({"first": "CuZn99", "second": "A4-80", "environment": "seawater-quiescent"})
DRY = urlencode(
    {
        "first": "Tin plated copper lug",
        "second": "brass",
        "environment": "heated-indoor",
        "functions": "power contact",
    }
)
PAGES = {
    "ask": "/",
    "answer": f"/ask?{COUPLE}",
    "ambiguous": f"/ask?{AMBIGUOUS}",
    "unknown": f"/ask?{UNKNOWN}",
    "dry": f"/ask?{DRY}",
    "matrix": "/matrix",
    "bom": "/bom",
    "knowledge": "/knowledge",
    "materials": "/knowledge/materials",
    "electrode": "/knowledge/electrodes/aluminium-6xxx",
    "rule": "/knowledge/rules/hazard-anodised-edges",
    "history": "/knowledge/materials/al-6082-t6/history",
    "releases": "/knowledge/releases",
    "propose": "/knowledge/measurements/flowing-points-zinc/propose",
    "proposals": "/proposals",
    "guide": "/guide",
    "embed": f"/embed?{COUPLE}",
    "sign-in": "/sign-in",
    "failure": "/knowledge/materials/unobtainium",
}


@contextmanager
def other_site(html: str) -> Iterator[str]:
    """Another origin of this machine that shows one page."""

    class Showing(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            self.send_response(200)
            self.send_header("Content-Type", "text/html")
            self.end_headers()
            self.wfile.write(html.encode())

        def log_message(self, *_: object) -> None:
            """Say nothing."""

    with ThreadingHTTPServer(("127.0.0.1", 0), Showing) as site:
        threading.Thread(target=site.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{site.server_port}/"
        site.shutdown()


def check_report(visit: Visit) -> None:
    """Drop the demonstration's files and wait for its report."""
    visit.open("/bom")
    visit.page.set_input_files("#files", FILES)
    visit.page.get_by_role("button", name="Check it").click()
    expect(visit.page.get_by_role("heading", name="Joints, worst first")).to_be_visible(timeout=30_000)


def violations(visit: Visit, axe: str) -> list[str]:
    visit.page.evaluate(axe)
    found = visit.page.evaluate("async () => (await axe.run()).violations")
    return [f"{each['id']}: {node['html'][:160]}" for each in found for node in each["nodes"]]


@pytest.mark.parametrize("name", list(PAGES))
def test_every_page_is_sound(visit: Visit, name: str) -> None:
    visit.open(PAGES[name])
    visit.keep(name)
    if name != "failure":  # a browser itself notes that the status is 404
        visit.check()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("name", list(PAGES))
def test_axe_finds_nothing(visit: Visit, axe: str, name: str, scheme: str) -> None:
    visit.page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
    visit.open(PAGES[name])
    assert violations(visit, axe) == []


def test_a_question_is_asked_with_the_keyboard_alone(visit: Visit) -> None:
    visit.open("/")
    keyboard = visit.page.keyboard
    keyboard.press("Tab")
    expect(visit.page.get_by_role("link", name="Skip to the content")).to_be_focused()
    keyboard.press("Enter")
    keyboard.press("Tab")
    expect(visit.page.get_by_label("First surface")).to_be_focused()
    keyboard.type("EN AW-6082-T6")
    keyboard.press("Tab")
    keyboard.type("A4-80")
    keyboard.press("Enter")
    expect(visit.page.get_by_role("heading", level=1)).to_contain_text("itable")
    visit.check()


def test_names_are_suggested_while_somebody_types(visit: Visit) -> None:
    visit.open("/")
    with visit.page.expect_response("**/suggestions?*"):
        visit.page.get_by_label("First surface").press_sequentially("EN AW-608")
    field = visit.page.get_by_label("First surface")
    expect(visit.page.locator("#first-near [role=option]").first).to_be_visible()
    visit.page.keyboard.press("ArrowDown")
    expect(field).to_have_attribute("aria-activedescendant", "first-near-0")
    visit.page.keyboard.press("Enter")
    expect(field).to_have_value(re.compile("6082|6081|608"))
    expect(visit.page.locator("#first-near")).to_be_hidden()
    field.press_sequentially(", anod")
    visit.page.get_by_role("option").filter(has_text="anodise").first.click()
    expect(field).to_have_value(re.compile("anodise"))
    visit.check()


def test_a_reading_is_chosen_by_a_click(visit: Visit) -> None:
    visit.open(PAGES["ambiguous"])
    summary = visit.page.get_by_text("The texts can be read otherwise")
    if summary.count():  # where all readings agree they wait behind a line
        summary.click()
    visit.page.locator(".choices a").first.click()
    expect(visit.page.get_by_role("heading", name="One question would settle this")).to_have_count(0)
    expect(visit.page.locator(".choices")).to_have_count(0)
    visit.check()


def test_measures_come_by_themselves_and_are_sorted(visit: Visit) -> None:
    visit.open(PAGES["answer"])
    table = visit.page.locator(".remedy-table").first
    expect(table).to_be_visible(timeout=20_000)
    heading = table.get_by_role("columnheader", name="Loss over allowance (95 %)")
    heading.get_by_role("button").press("Enter")
    expect(heading).to_have_attribute("aria-sort", "ascending")
    least = table.locator("tbody tr").first.locator("td").nth(2)
    assert float(least.get_attribute("data-value") or "nan") < 0.01
    visit.check()


def test_a_cell_of_the_matrix_leads_to_its_answer(visit: Visit) -> None:
    visit.open("/matrix")
    visit.page.locator(".stairs a").first.click()
    expect(visit.page.get_by_role("heading", name="In pictures")).to_be_visible()
    visit.check()


def test_a_bill_of_materials_is_dropped_judged_and_mended(visit: Visit, axe: str) -> None:
    check_report(visit)
    visit.keep("report")
    assert violations(visit, axe) == []
    field = visit.page.get_by_label("Read Cu-ETP | tinned 5 µm as", exact=True)
    field.fill("Cu-ETP with 5 µm tin plate, matte")
    visit.page.get_by_role("button", name="Judge again").click()
    expect(visit.page.get_by_role("heading", name="Texts that were not settled")).to_be_visible(
        timeout=30_000
    )
    expect(field).to_have_count(0)
    with visit.page.expect_download() as download:
        visit.page.get_by_role("link", name="workbook").click()
    assert Path(download.value.path()).read_bytes().startswith(b"PK")
    visit.check()


def test_a_change_is_proposed_and_reviewed_with_another_key(
    visit: Visit, reviewer_key: str, axe: str
) -> None:
    visit.open("/knowledge/measurements/flowing-points-zinc")
    visit.page.get_by_role("link", name="Propose a change").click()
    visit.page.get_by_label("Value", exact=True).fill("-1.02")
    visit.page.get_by_label("Why", exact=True).fill("The second printing corrects this figure.")
    visit.page.get_by_role("button", name="Propose", exact=True).click()
    expect(visit.page.get_by_role("heading", level=1)).to_contain_text("Change: Measurements")
    expect(visit.page.get_by_text("somebody with another key has to review it")).to_be_visible()
    visit.page.get_by_label("Your remark").fill("Page 675.")
    visit.page.get_by_role("button", name="Add the remark").click()
    expect(visit.page.get_by_text("Page 675.")).to_be_visible()
    address = visit.page.url.removeprefix(visit.address)
    visit.keep("proposal-own")
    assert violations(visit, axe) == []
    visit.open("/sign-in?next=/proposals")
    visit.page.get_by_label("API key").fill(reviewer_key)
    visit.page.get_by_role("button", name="Sign in").click()
    visit.page.locator(f'a[href="{address}"]').click()
    expect(visit.page.get_by_role("button", name="Approve")).to_be_visible()
    visit.keep("proposal-review")
    assert violations(visit, axe) == []
    visit.page.get_by_label("Why").fill("Checked against the source.")
    visit.page.get_by_role("button", name="Approve").click()
    expect(visit.page.get_by_text("Checked against the source.")).to_be_visible()
    expect(visit.page.get_by_role("button", name="Approve")).to_have_count(0)
    visit.keep("proposal-approved")
    visit.check()


def test_everything_reads_without_scripts(server: Server, browser: Browser) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{server.address}/")
    page.get_by_label("First surface").fill("EN AW-6082-T6")
    page.get_by_label("Second surface").fill("A4-80")
    page.get_by_role("button", name="May they touch?").click()
    expect(page.get_by_role("heading", name="Evidence")).to_be_visible()
    page.get_by_role("link", name="Measures if the couple has to stay").click()
    expect(page.locator(".remedy-table")).to_be_visible()
    page.goto(f"{server.address}/bom")
    page.set_input_files("#files", FILES)
    page.get_by_role("button", name="Check it").click()
    expect(page.get_by_role("heading", name="Joints, worst first")).to_be_visible(timeout=30_000)
    context.close()


def test_an_answer_prints_without_its_forms(visit: Visit) -> None:
    visit.open(PAGES["answer"])
    visit.page.emulate_media(media="print")
    expect(visit.page.get_by_role("heading", name="Keep, cite, repeat")).to_be_hidden()
    expect(visit.page.get_by_role("heading", name="In pictures")).to_be_visible()


def test_an_answer_can_be_framed_and_no_other_page(visit: Visit) -> None:
    for path, is_shown in ((PAGES["embed"], True), (PAGES["answer"], False)):
        frame_html = f'<iframe src="{visit.address}{path}" width="500" height="400"></iframe>'
        with other_site(frame_html) as address:
            visit.page.goto(address)
            visit.page.wait_for_load_state("networkidle")
        frame = visit.page.frame_locator("iframe")
        heading = frame.get_by_role("heading", level=1)
        if is_shown:
            expect(heading).to_contain_text("Conditional")
        else:
            expect(heading).to_have_count(0)
