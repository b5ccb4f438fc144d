"""The one-line diagram as SVG: valid XML whatever the names, one id for each element, words for those who can't see it."""

import re
import shutil
import subprocess
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from one_line_plans import HOSTILE, plan_by_lot

from planlint.desk import Desk
from planlint.output.one_line.page import lay_out
from planlint.output.one_line.svg import one_line_svgs
from planlint.papers.one_line.drawing import one_line

ROOT = Path(__file__).parents[2]
SVG = "{http://www.w3.org/2000/svg}"
SEEDS = range(40)


def svgs(text: str) -> list[str]:
    drawing = one_line(Desk().docket_text(text))
    return one_line_svgs(drawing, lay_out(drawing))


@pytest.fixture(scope="module")
def by_lot() -> dict[int, list[str]]:
    return {seed: svgs(plan_by_lot(seed)) for seed in SEEDS if seed % 4 == 0}


@pytest.fixture(scope="module")
def faulty() -> str:
    (only,) = svgs((ROOT / "fixtures" / "cottage-faults.plan").read_text().replace("tern-county", "model-2020"))
    return only


def ids(root: ET.Element) -> list[str]:
    return [element.attrib["id"] for element in root.iter() if "id" in element.attrib]


def test_every_sheet_is_xml_with_ids_of_its_own(by_lot: dict[int, list[str]]) -> None:
    for sheets in by_lot.values():
        roots = [ET.fromstring(sheet) for sheet in sheets]
        found = [one for root in roots for one in ids(root)]
        assert len(found) == len(set(found))
        for root in roots:
            assert {element.tag.removeprefix(SVG) for element in root.iter()} <= {
                "svg", "title", "desc", "g", "a", "text", "circle", "rect", "path", "polyline",
            }  # fmt: skip
            assert not any(name.startswith("on") for element in root.iter() for name in element.attrib)


@pytest.mark.parametrize("title", HOSTILE)
def test_any_title_stands_as_text(title: str) -> None:
    (sheet,) = svgs(f'plan "{title}"\n  edition 2020\npanel p\n')
    root = ET.fromstring(sheet)
    assert (root.findtext(f"{SVG}title") or "").replace(" ", "").endswith(title.replace(" ", ""))


def test_it_has_a_title_and_tells_the_path_in_words(faulty: str) -> None:
    root = ET.fromstring(faulty)
    assert root.get("role") == "img"
    named = {element.get("id"): element for element in root.iter()}
    title, told = (named[one].text or "" for one in root.attrib["aria-labelledby"].split())
    assert title == "One-line diagram of Plover Lane cottage"
    order = [told.index(f"{name} (") for name in ("utility", "meter-post", "house-disconnect", "house-panel", "studio-panel")]
    assert order == sorted(order)
    for words in ("kiln", "neutral bonded here", "footing-bar"):
        assert words in told


def test_each_finding_is_a_link_to_its_number(faulty: str) -> None:
    root = ET.fromstring(faulty)
    links = list(root.iter(f"{SVG}a"))
    numbers = {link.attrib["href"] for link in links}
    assert all(re.fullmatch(r"#finding-[0-9]+", number) for number in numbers)
    for link in links:
        assert link.attrib["href"].endswith(f"-{link.findtext(f'{SVG}text')}")
    group = next(element for element in root.iter(f"{SVG}g") if element.get("id") == "element-house-disconnect")
    assert list(group.iter(f"{SVG}a"))


def test_it_has_one_color_which_the_page_may_turn(faulty: str) -> None:
    root = ET.fromstring(faulty)
    for element in root.iter():
        for name in ("fill", "stroke"):
            assert element.get(name) in (None, "none", "currentColor")


def test_a_plan_of_nothing_says_so() -> None:
    (sheet,) = svgs('plan "Nothing yet"\n  edition 2020\n')
    assert "The plan states no supply, gear, service or feeder." in sheet


@pytest.mark.skipif(shutil.which("rsvg-convert") is None, reason="no program here that turns SVG into a picture")
def test_it_can_be_turned_into_a_picture(by_lot: dict[int, list[str]], faulty: str) -> None:
    for sheet in (faulty, *by_lot[0], *by_lot[20]):
        made = subprocess.run(["rsvg-convert", "--width", "600"], input=sheet.encode(), capture_output=True)
        assert made.returncode == 0, made.stderr
        assert made.stdout.startswith(b"\x89PNG") and len(made.stdout) > 4000
