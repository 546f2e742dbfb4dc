from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import anyio
import httpx
import pytest

from service.assemblies import File, read_assembly
from service.assemblies.assembly import Programme
from service.web.pages.bom import judge_run, mended
from service.web.pages.runs import Runs
from tests.factories.html import check_page
from tests.seed_catalogue import seed_catalogue

DEMO = Path(__file__).parents[3] / "seed_data" / "demo"
PARTS = (
    b"part_number,material,finish,zone\nP1,EN AW-6082-T6,anodized 15 um,\nP2,no such metal,,\nP3,A4-70,,\n"
)
JOINTS = b"joint,part_a,part_b\nJ1,P1,P2\nJ2,P1,P3\n"
FILES = [("files", ("parts.csv", PARTS)), ("files", ("joints.csv", JOINTS))]
PLACE = {"environment": "marine-atmosphere-0-100-m"}

pytestmark = pytest.mark.anyio


async def report_of(pages: httpx.AsyncClient, response: httpx.Response) -> httpx.Response:
    assert response.status_code == 303, response.text
    address = response.headers["location"]
    with anyio.fail_after(20):
        while not (await pages.get(f"{address}/progress")).json()["is_over"]:  # noqa: ASYNC110 - as the page does
            await anyio.sleep(0.05)
    return await pages.get(address)


async def test_the_form_takes_files(pages: httpx.AsyncClient) -> None:
    page = check_page((await pages.get("/bom")).text)
    (form,) = page.all("form")
    assert form.attributes["enctype"] == "multipart/form-data"
    assert (await pages.get("/bom/template.xlsx")).content.startswith(b"PK")


async def test_files_become_a_report(pages: httpx.AsyncClient) -> None:
    report = await report_of(pages, await pages.post("/bom", files=FILES, data=PLACE))
    page = check_page(report.text)
    assert "2 joints" in page.all("main")[0].text
    assert "no such metal" in report.text
    assert "Your heading" in report.text
    assert len(page.all("svg", role="img")) == 1


async def test_texts_are_mended_in_place(pages: httpx.AsyncClient) -> None:
    first = await report_of(pages, await pages.post("/bom", files=FILES, data=PLACE))
    page = check_page(first.text)
    action = next(
        form.attributes["action"] for form in page.all("form") if form.attributes["action"].endswith("/texts")
    )
    second = await report_of(pages, await pages.post(action, data={"text-0": "EN AW-5083 O, bare"}))
    assert "no such metal" not in second.text
    assert "5083" in second.text


@pytest.mark.parametrize(("kind", "start"), [("json", b"{"), ("csv", b"\xef\xbb\xbfjoint"), ("xlsx", b"PK")])
async def test_the_report_can_be_kept(pages: httpx.AsyncClient, kind: str, start: bytes) -> None:
    response = await pages.post("/bom", files=FILES, data=PLACE)
    await report_of(pages, response)
    kept = await pages.get(f"{response.headers['location']}/report.{kind}")
    assert kept.content.startswith(start)
    assert "attachment" in kept.headers["content-disposition"]
    assert (await pages.get(f"{response.headers['location']}/report.exe")).status_code == 404


@pytest.mark.parametrize(
    "files", [[("files", ("empty.csv", b""))], [("files", ("photo.png", b"\x89PNG\r\n\x1a\n\x00\x00"))]]
)
async def test_what_is_no_table_is_told_on_the_form(
    pages: httpx.AsyncClient, files: list[tuple[str, tuple[str, bytes]]]
) -> None:
    response = await pages.post("/bom", files=files, data=PLACE)
    assert response.status_code == 422
    assert check_page(response.text).all("p", role="alert")[0].text


async def test_a_form_without_a_file_is_told(pages: httpx.AsyncClient) -> None:
    response = await pages.post("/bom", data=PLACE)
    assert response.status_code == 422
    assert "Choose a file first" in response.text


async def test_a_run_that_nobody_began_is_a_404(pages: httpx.AsyncClient) -> None:
    response = await pages.get("/bom/invented")
    assert response.status_code == 404
    check_page(response.text)


async def test_a_form_from_another_site_is_refused(pages: httpx.AsyncClient) -> None:
    response = await pages.post("/bom", files=FILES, headers={"Sec-Fetch-Site": "cross-site"})
    assert response.status_code == 403


async def test_the_demonstration_is_judged(pages: httpx.AsyncClient) -> None:
    names = ("harbour-tide-gauge.csv", "harbour-tide-gauge-joints.csv")
    files = [("files", (name, (DEMO / name).read_bytes())) for name in names]
    report = await report_of(pages, await pages.post("/bom", files=files, data=PLACE))
    assert "34 joints" in check_page(report.text).all("main")[0].text


def test_an_empty_text_mends_nothing() -> None:
    assembly = read_assembly([File("parts.csv", PARTS), File("joints.csv", JOINTS)]).assembly
    changed = mended(assembly, {"P1": "", "P2": "EN AW-5083"})
    assert changed.parts["P1"] == assembly.parts["P1"]
    assert changed.parts["P2"].text == "EN AW-5083"
    assert changed.parts["P2"].material == ""


def test_what_goes_wrong_is_told_on_the_page() -> None:
    read = read_assembly([File("parts.csv", PARTS), File("joints.csv", JOINTS)])
    pinned = replace(read.assembly, programme=Programme(release="other"))
    run = Runs().begin("harbour", replace(read, assembly=pinned))
    judge_run(run, seed_catalogue())
    assert "other" in run.failure
    assert run.is_over


async def test_a_reading_is_chosen_from_a_list(pages: httpx.AsyncClient) -> None:
    names = ("harbour-tide-gauge.csv", "harbour-tide-gauge-joints.csv")
    files = [("files", (name, (DEMO / name).read_bytes())) for name in names]
    first = await pages.post("/bom", files=files, data=PLACE)
    page = check_page((await report_of(pages, first)).text)
    open_texts = len(page.all("select"))
    chosen = page.all("select")[0]
    option = next(each.text for each in page.all("option")[1:] if each.text != "choose a reading")
    again = await pages.post(f"{first.headers['location']}/texts", data={chosen.attributes["name"]: option})
    assert len(check_page((await report_of(pages, again)).text).all("select")) < open_texts


async def test_the_graph_of_joints_can_be_downloaded(pages: httpx.AsyncClient) -> None:
    response = await pages.post("/bom", files=FILES, data=PLACE)
    await report_of(pages, response)
    address = f"{response.headers['location']}/pictures"
    assert (await pages.get(f"{address}/joints.svg")).text.startswith("<svg")
    assert (await pages.get(f"{address}/joints.csv")).text.startswith("joint,")
    assert (await pages.get(f"{address}/portrait.svg")).status_code == 404
