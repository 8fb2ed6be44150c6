"""The local page in a real browser: filled in with mouse, with keyboard, without script; printed; audited.

Wants Chromium at /usr/bin/chromium, or where BEARLINE_CHROMIUM says: apt-get install chromium.
"""

import os
import re
import subprocess
import sys
import threading
import tomllib
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from importlib.resources import files
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect, sync_playwright

CHROMIUM = Path(os.environ.get("BEARLINE_CHROMIUM", "/usr/bin/chromium"))
pytestmark = pytest.mark.skipif(
    not CHROMIUM.exists(),
    reason=f"no browser at {CHROMIUM}: apt-get install chromium, or set BEARLINE_CHROMIUM",
)
DEMO = (files("beamcheck.survey") / "demo.toml").read_bytes()
FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
WIDE, NARROW = {"width": 1400, "height": 900}, {"width": 360, "height": 740}


@pytest.fixture(scope="module")
def address(tmp_path_factory) -> Iterator[str]:
    """The page of the demonstration, served by the command itself."""
    house = tmp_path_factory.mktemp("house") / "house.toml"
    house.write_bytes(DEMO)
    running = serve(house)
    assert running.stdout is not None
    yield re.search(r"http://\S+", running.stdout.readline())[0]
    running.terminate()
    running.wait(30)
    running.stdout.close()


def serve(house: Path) -> subprocess.Popen[str]:
    """The command as a process."""
    command = [sys.executable, "-m", "beamcheck", "page", str(house), "--no-open"]
    return subprocess.Popen(command, stdout=subprocess.PIPE, text=True)


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """Chromium, asked for nothing but what the test asks for."""
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield chromium
        chromium.close()


@pytest.fixture
def page(browser: Browser, address: str) -> Iterator[Page]:
    """The page; afterwards its console must be empty and every request have gone to the page itself."""
    made = browser.new_page(viewport=WIDE)
    console: list[str] = []
    requests: list[str] = []
    made.on("console", lambda message: console.append(message.text))
    made.on("pageerror", lambda error: console.append(str(error)))
    made.on("request", lambda request: requests.append(request.url))
    made.goto(address)
    yield made
    made.close()
    assert console == []
    assert [url for url in requests if not url.startswith(address)] == []
    assert requests


def field(page: Page, name: str):
    """The control of one key path."""
    return page.locator(f'[id="{name}"]')


def ratio(page: Page) -> str:
    """The utilisation that governs, as the strip says it."""
    return page.locator("#strip").inner_text()


def tab_to(page: Page, wanted: str) -> None:
    """Go on with the tabulator until the wanted element has the focus."""
    for _ in range(400):
        page.keyboard.press("Tab")
        if page.evaluate("(one) => document.activeElement.matches(one)", wanted):
            return
    pytest.fail(f"the keyboard does not reach {wanted}")


def test_filling_in_changes_the_utilisations(page: Page) -> None:
    """A longer span typed into its field changes strip, chain, drawing and hash without a click."""
    expect(page.locator("#strip")).to_contain_text("governs:")
    before, chain = ratio(page), page.locator("#sheet .chain").inner_text()
    drawing = page.locator("#sheet .broad svg desc").first.text_content()
    field(page, "carried[1].span_a").fill("15 ft 9 in")
    expect(page.locator("#strip")).not_to_have_text(before)
    assert page.locator("#sheet .chain").inner_text() != chain
    assert page.locator("#sheet .broad svg desc").first.text_content() != drawing
    assert page.url.endswith("/")


def test_a_fault_stands_at_its_field_and_goes_when_mended(page: Page) -> None:
    """A bare figure is named at its field; the old summary stays, marked as old, until it is mended."""
    clear = field(page, "wall.clear_opening")
    clear.fill("13.5")
    told = field(page, "wall.clear_opening~fault")
    expect(told).to_contain_text("13.5 has no unit")
    expect(clear).to_have_attribute("aria-invalid", "true")
    expect(page.locator("#strip")).to_contain_text("1 thing to mend")
    expect(page.locator("#live")).to_have_class("live stale")
    expect(page.locator(".old")).to_be_visible()
    page.locator("#faults a").click()
    assert page.evaluate("location.hash") == "#wall.clear_opening"
    clear.fill("13 ft 6 in")
    expect(told).to_be_empty()
    expect(clear).not_to_have_attribute("aria-invalid", "true")
    expect(page.locator("#live")).to_have_class("live")


def test_posts_and_carried_items_come_and_go(page: Page) -> None:
    """A post put between the others is asked for its station, is drawn, and can be taken away again."""
    page.get_by_role("button", name="Add one after post 1").click()
    expect(field(page, "post[2].member")).to_be_focused()
    page.keyboard.type("6x6 Douglas Fir-Larch No.1")
    expect(field(page, "post[2].station~fault")).to_contain_text("needs a station")
    field(page, "post[2].station").fill("6 ft 9 in")
    expect(page.locator("#sheet .broad").first).to_contain_text("post 3")
    page.get_by_role("button", name="Add one after carried item 3").click()
    field(page, "carried[4].name").fill("chimney")
    field(page, "carried[4].kind").select_option("point")
    field(page, "carried[4].station").fill("4 ft")
    field(page, "carried[4].dead_load").fill("900 lb")
    expect(page.locator("#sheet .broad").first).to_contain_text("chimney")
    page.get_by_role("button", name="Remove post 2").click()
    expect(page.locator("#sheet .broad").first).not_to_contain_text("post 3")
    expect(field(page, "carried[4].dead_load")).to_have_value("900 lb")


def test_what_is_known_of_a_field_can_be_said(page: Page) -> None:
    """Trust, range and note of a field are reached from it, and are in the survey that is downloaded."""
    field(page, "wall.ceiling_height.trust").select_option("seen")
    field(page, "wall.ceiling_height~said").locator("summary").click()
    page.get_by_label("ceiling height: at least").fill("8 ft 1 in")
    page.get_by_label("ceiling height: at most").fill("8 ft 2 in")
    page.get_by_label("ceiling height: note").fill("at the window")
    expect(field(page, "wall.ceiling_height~gist")).to_have_text("8 ft 1 in to 8 ft 2 in; at the window")
    with page.expect_download() as got:
        page.get_by_role("button", name="survey", exact=True).click()
    assert got.value.suggested_filename == "house.toml"
    entry = tomllib.loads(Path(got.value.path()).read_text("utf-8"))["wall"]["ceiling_height"]
    assert entry == {
        "value": "8 ft 1-1/2 in",
        "trust": "seen",
        "note": "at the window",
        "low": "8 ft 1 in",
        "high": "8 ft 2 in",
    }


def test_the_keyboard_alone_does_everything(page: Page) -> None:
    """By keyboard a field is filled, a choice made, a note opened, a post added, the summary reached."""
    before = ratio(page)
    tab_to(page, '[id="carried[1].span_b"]')
    page.keyboard.press("Control+A")
    page.keyboard.type("14 ft")
    expect(page.locator("#strip")).not_to_have_text(before)
    page.keyboard.press("Tab")
    page.keyboard.press("s")
    expect(field(page, "carried[1].span_b.trust")).to_have_value("seen")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    expect(field(page, "carried[1].span_b.low")).to_be_focused()
    tab_to(page, 'button[value="add post[2]"]')
    page.keyboard.press("Enter")
    expect(field(page, "post[2].member")).to_be_focused()
    tab_to(page, "#live")


def test_it_prints_the_summary_and_nothing_of_the_form(page: Page) -> None:
    """Printed to PDF, the page is the summary on several pages, without form and buttons."""
    page.emulate_media(media="print")
    expect(page.locator("#survey")).to_be_hidden()
    expect(page.get_by_role("button", name="Refresh")).to_be_hidden()
    expect(page.locator("#sheet")).to_be_visible()
    made = page.pdf(prefer_css_page_size=True)
    assert made.startswith(b"%PDF")
    assert 2 <= len(re.findall(rb"/Type\s*/Page\b", made)) <= 12


@pytest.mark.parametrize(
    ("size", "state"),
    [(WIDE, "whole"), (WIDE, "grown"), (NARROW, "whole"), (NARROW, "faulty")],
    ids=["1400-whole", "1400-grown", "360-whole", "360-faulty"],
)
def test_no_serious_hindrance(page: Page, size, state: str) -> None:
    """An audit of the page finds nothing serious for people who cannot see it or use a mouse."""
    page.set_viewport_size(size)
    if state == "faulty":
        field(page, "wall.clear_opening").fill("13.5")
        expect(page.locator(".mend")).to_be_visible()
    if state == "grown":
        missing = page.locator("details.division:not([open])").first
        name = missing.get_attribute("id")
        missing.locator("summary").first.click()
        field(page, name).get_by_role("button", name="Add: ").click()
        expect(field(page, name).locator(".row").first).to_be_visible()
    found = Axe().run(page).response
    assert len(found["passes"]) > 20
    assert [
        (one["id"], one["help"]) for one in found["violations"] if one["impact"] in ("serious", "critical")
    ] == []


@pytest.mark.parametrize("width", [360, 600, 1000, 1200, 1400, 2400])
def test_it_fits_every_width(page: Page, width: int) -> None:
    """Nothing runs out of the window; where there is room, form and summary stand side by side."""
    page.set_viewport_size({"width": width, "height": 800})
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    form, live = page.locator("#survey").bounding_box(), page.locator("#live").bounding_box()
    assert form is not None
    assert live is not None
    beside = live["x"] >= form["x"] + form["width"] - 1
    assert beside == (width >= 1200)
    if not beside:
        assert live["y"] >= form["y"] + form["height"] - 1
    expect(page.locator("#strip")).to_be_in_viewport()


def test_the_cautions_stand_on_top_in_every_state(page: Page) -> None:
    """Status and caution are in view before and after a fault, at the top of the window."""
    for text in ("13 ft 6 in", "13.5"):
        field(page, "wall.clear_opening").fill(text)
        expect(page.locator("header.status")).to_contain_text("NOT FOR CONSTRUCTION")
        expect(page.locator("header.status")).to_be_in_viewport()
    assert page.locator("header.status").bounding_box()["y"] == 0
    page.set_viewport_size(NARROW)
    field(page, "post[2].member").scroll_into_view_if_needed()
    expect(page.locator(".brief")).to_be_in_viewport()
    expect(page.locator(".brief")).to_contain_text("decides nothing")


def test_it_works_without_script(browser: Browser, address: str) -> None:
    """With script off, Enter refreshes, buttons add parts, faults stand at their field, downloads come."""
    context = browser.new_context(java_script_enabled=False, viewport=WIDE)
    page = context.new_page()
    page.goto(address)
    field(page, "wall.clear_opening").fill("13.5")
    field(page, "wall.clear_opening").press("Enter")
    expect(field(page, "wall.clear_opening~fault")).to_contain_text("has no unit")
    field(page, "wall.clear_opening").fill("13 ft 6 in")
    page.get_by_role("button", name="Add one after post 1").click()
    expect(field(page, "post[2].member")).to_be_focused()
    with page.expect_download() as got:
        page.get_by_role("button", name="survey", exact=True).click()
    assert "# DRAFT" in Path(got.value.path()).read_text("utf-8")
    page.get_by_role("button", name="PDF").click()
    expect(field(page, "post[2].member~fault")).to_contain_text("is needed")
    page.get_by_role("button", name="Remove post 2").click()
    with page.expect_download() as got:
        page.get_by_role("button", name="PDF").click()
    assert Path(got.value.path()).read_bytes().startswith(b"%PDF")
    context.close()


def test_leaving_with_unsaved_entries_asks_first(browser: Browser, address: str) -> None:
    """Leaving the page asks only while something that was typed is not in a downloaded survey."""
    asked: list[str] = []
    page = browser.new_page()
    page.on("dialog", lambda dialog: (asked.append(dialog.type), dialog.accept()))
    page.goto(address)
    page.goto(address)
    assert asked == []
    field(page, "study.title").press_sequentially("x")
    page.goto(address)
    assert asked == ["beforeunload"]
    field(page, "study.title").press_sequentially("x")
    with page.expect_download():
        page.get_by_role("button", name="survey", exact=True).click()
    page.goto(address)
    assert asked == ["beforeunload"]
    page.close()


class _Other(BaseHTTPRequestHandler):
    """A page of somebody else on this machine."""

    def do_GET(self) -> None:
        self.send_response(200)
        self.send_header("Content-Type", "text/html")
        self.end_headers()
        self.wfile.write(b"<!DOCTYPE html><title>other</title><p>other</p>")

    def log_message(self, *told) -> None:
        pass


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost"])
def test_a_page_of_another_origin_gets_nothing(browser: Browser, address: str, host: str) -> None:
    """Form and script of another port or name of this machine are refused, though they know the address."""
    with ThreadingHTTPServer(("127.0.0.1", 0), _Other) as other:
        threading.Thread(target=other.serve_forever, daemon=True).start()
        page = browser.new_page()
        page.goto(f"http://{host}:{other.server_port}/")
        for mode in ("cors", "no-cors"):
            got = page.evaluate(
                "([to, mode]) => fetch(to, { mode }).then(() => 'read', () => 'nothing')", [address, mode]
            )
            assert got == "nothing"
        form = "<form method=post><input name='study.title' value=x></form>"
        page.evaluate(
            "([to, form]) => { document.body.innerHTML = form; document.forms[0].action = to }",
            [address, form],
        )
        with page.expect_response(address) as sent:
            page.evaluate("document.forms[0].submit()")
        assert sent.value.status == 403
        page.close()
        other.shutdown()


def test_when_the_program_has_ended_the_form_stays(browser: Browser, tmp_path: Path) -> None:
    """If the program is gone, the page says so and keeps what is typed."""
    house = tmp_path / "house.toml"
    house.write_bytes(DEMO)
    running = serve(house)
    assert running.stdout is not None
    address = re.search(r"http://\S+", running.stdout.readline())[0]
    page = browser.new_page()
    page.goto(address)
    running.terminate()
    running.wait(30)
    running.stdout.close()
    field(page, "study.title").fill("Mine")
    expect(page.locator("#strip")).to_contain_text("still running?")
    expect(field(page, "study.title")).to_have_value("Mine")
    page.close()
