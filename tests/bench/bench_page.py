"""How fast the local page answers, printed by  python tests/bench/bench_page.py [--no-browser].

Server: the pure function alone, for the demonstration survey. Browser: from the key stroke to the new summary
laid out, less the 200 ms for which the page waits to see whether more is typed.
"""

import re
import statistics
import sys
import threading
import time
from importlib.resources import files
from urllib.parse import urlencode

from beamcheck.views.page.asked import Asked
from beamcheck.views.page.form import PARTS, form_entries
from beamcheck.views.page.routes import Site, answered, opened
from beamcheck.views.page.rows import divisions
from beamcheck.views.page.server import PageServer

DEMO = (files("beamcheck.survey") / "demo.toml").read_bytes()
LENGTHS = ("13 ft 5-1/2 in", "13 ft 5-3/4 in", "13 ft 6 in", "13 ft 6-1/4 in", "13 ft 6-1/2 in")
WAIT = 0.2


def main() -> None:
    """Print the times of server and browser."""
    start = opened("demo.toml", DEMO)
    site = Site(8000, "t", start)
    first = time.perf_counter()
    page = answered(site, Asked("GET", "/t/", (("host", "127.0.0.1:8000"),), b"", "n")).body
    took = 1000 * (time.perf_counter() - first)
    print(f"first page, with imports and typesetting: {took:.0f} ms, {len(page):,} bytes")
    shape = re.search(rb'data-shape="([0-9a-f]+)"', page)
    assert shape is not None
    names = dict(_names(start))
    for name, more in (("whole page", ()), ("update", (("x-shape", shape[1].decode()),))):
        times = [_post(site, {**names, "wall.clear_opening": LENGTHS[n % 5]}, more) for n in range(40)]
        print(f"{name}, server: {_told(times)}")
    if "--no-browser" not in sys.argv:
        print(f"update, browser: {_told(_browser(start))}")


def _names(start):
    for division in divisions(form_entries(start.entries), ()):
        for part in division.parts:
            for row in part.every:
                yield row.name, row.entry["value"]
                yield from ((f"{row.name}.{said}", row.entry[said]) for said in PARTS[1:] if row.entry[said])


def _post(site: Site, values: dict[str, str], more: tuple[tuple[str, str], ...]) -> float:
    body = urlencode(values).encode()
    headers = (
        ("host", "127.0.0.1:8000"),
        ("origin", "http://127.0.0.1:8000"),
        ("content-type", "application/x-www-form-urlencoded"),
        ("content-length", str(len(body))),
        *more,
    )
    begun = time.perf_counter()
    assert answered(site, Asked("POST", "/t/", headers, body, "n")).status == 200
    return time.perf_counter() - begun


def _browser(start) -> list[float]:
    from playwright.sync_api import sync_playwright

    script = """async (text) => {
        const field = document.getElementById("wall.clear_opening");
        const begun = performance.now();
        field.value = text;
        field.dispatchEvent(new Event("input", { bubbles: true }));
        const what = { childList: true, subtree: true, characterData: true };
        await new Promise((done, lost) => {
            setTimeout(() => lost("no answer"), 10000);
            new MutationObserver((_, watch) => { watch.disconnect(); done(); })
                .observe(document.getElementById("live"), what);
        });
        document.getElementById("sheet").getBoundingClientRect();
        return (performance.now() - begun) / 1000;
    }"""
    with PageServer(start) as server, sync_playwright() as playwright:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        browser = playwright.chromium.launch(
            executable_path="/usr/bin/chromium", args=["--headless", "--no-sandbox"]
        )
        page = browser.new_page(viewport={"width": 1400, "height": 900})
        page.goto(server.address)
        times = [page.evaluate(script, LENGTHS[number % 5]) - WAIT for number in range(25)]
        browser.close()
        server.shutdown()
    return times


def _told(times: list[float]) -> str:
    ordered = sorted(1000 * one for one in times[5:])
    return f"median {statistics.median(ordered):.0f} ms, least {ordered[0]:.0f}, most {ordered[-1]:.0f} ms"


if __name__ == "__main__":
    main()
