"""The widths that the drawing reckons with, against a browser that sets the same words in a font of the same metrics.

Skipped only where there is no browser, or none of the fonts Helvetica, Arial and Liberation Sans.
"""

import json
import re
import shutil
import subprocess
from pathlib import Path

import pytest
from one_line_plans import plan_by_lot

from planlint.desk import Desk
from planlint.output.one_line.page import lay_out
from planlint.output.one_line.svg import one_line_svgs
from planlint.output.one_line.typeface import MARGIN, shortened, width, wrapped
from planlint.papers.one_line.drawing import one_line

ROOT = Path(__file__).parents[2]
BROWSER = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
FONTS = ("Liberation Sans", "Arial", "Helvetica")
PRINTABLE = [chr(code) for code in range(32, 127)] + ["…"]

MEASURE = """
const found = {letters: [], texts: []};
for (const bold of [false, true]) {
  for (const letter of LETTERS) {
    const text = document.getElementById(bold ? "bold" : "plain");
    text.textContent = "x" + letter + "x";
    const three = text.getComputedTextLength();
    text.textContent = "xx";
    found.letters.push([letter, bold, three - text.getComputedTextLength()]);
  }
}
for (const sheet of document.querySelectorAll("svg.sheet, div > svg")) {
  const boxes = [];
  for (const text of sheet.querySelectorAll("text[textLength]")) {
    const box = text.getBBox(), size = parseFloat(text.getAttribute("font-size")), y = parseFloat(text.getAttribute("y"));
    boxes.push([box.x, y - 0.73 * size, box.x + box.width, y + 0.21 * size]);
    const given = parseFloat(text.getAttribute("textLength"));
    text.removeAttribute("textLength");
    found.texts.push([text.textContent, given, box.width, text.getComputedTextLength()]);
  }
  found.overlaps = (found.overlaps || 0);
  for (let i = 0; i < boxes.length; i++) for (let j = i + 1; j < boxes.length; j++) {
    const [a, b] = [boxes[i], boxes[j]];
    if (a[0] < b[2] - 0.3 && b[0] < a[2] - 0.3 && a[1] < b[3] - 0.1 && b[1] < a[3] - 0.1) found.overlaps += 1;
  }
}
document.getElementById("found").textContent = JSON.stringify(found);
"""


def font() -> str:
    """The first of the fonts that is installed."""
    try:
        installed = subprocess.run(["fc-list", ":", "family"], capture_output=True, text=True).stdout
    except OSError:
        return ""
    return next((name for name in FONTS if name in installed), "")


@pytest.fixture(scope="module")
def measured(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[list[object]]]:
    name = font()
    if BROWSER is None or not name:
        pytest.skip("no browser here, or no font with the widths of Helvetica")
    sheets = [one_line(Desk().docket_file(ROOT / "fixtures" / "cottage-faults.plan"))]
    sheets += [one_line(Desk().docket_text(plan_by_lot(seed))) for seed in (0, 5, 10, 15, 25)]
    drawn = "".join(f"<div>{svg}</div>" for drawing in sheets for svg in one_line_svgs(drawing, lay_out(drawing)))
    page = tmp_path_factory.mktemp("widths") / "page.html"
    page.write_text(
        f'<!doctype html><meta charset="utf-8"><style>text {{font-kerning: none; font-family: "{name}"}}</style>{drawn}'
        '<svg><text id="plain" font-size="1000">x</text><text id="bold" font-size="1000" font-weight="bold">x</text></svg>'
        '<pre id="found"></pre>'
        f"<script>const LETTERS = {json.dumps(PRINTABLE)};{MEASURE}</script>",
        encoding="utf-8",
    )
    options = ["--headless", "--no-sandbox", "--disable-gpu", "--dump-dom"]
    dump = subprocess.run([BROWSER, *options, page.as_uri()], capture_output=True, text=True, timeout=300).stdout
    said = re.search(r'<pre id="found">(.*?)</pre>', dump, re.DOTALL)
    assert said is not None and said[1], dump[:500]
    found: dict[str, list[list[object]]] = json.loads(said[1].replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&"))
    return found


def test_every_letter_is_as_wide_as_the_table_has_it(measured: dict[str, list[list[object]]]) -> None:
    assert len(measured["letters"]) == 2 * len(PRINTABLE)
    for letter, bold, wide in measured["letters"]:
        reckoned = width(str(letter), 1000, bool(bold)) / MARGIN
        assert abs(float(str(wide)) - reckoned) < 3, (letter, bold, wide, reckoned)


def test_no_words_are_wider_than_the_room_they_are_given(measured: dict[str, list[list[object]]]) -> None:
    texts = measured["texts"]
    assert len(texts) > 300
    for text, given, in_drawing, natural in texts:
        # The browser's box takes in the edges of letters, and accents without a letter below them, that hang out of them.
        assert float(str(in_drawing)) <= float(str(given)) * 1.06 + 1.5, text
        if str(text).isascii():
            assert float(str(natural)) <= float(str(given)) + 0.05, text
            assert float(str(natural)) >= float(str(given)) * 0.9, text


def test_no_words_overlap_as_the_browser_sets_them(measured: dict[str, object]) -> None:
    assert measured["overlaps"] == 0


def test_words_are_broken_and_shortened_to_their_room() -> None:
    phrases = ["2 x 4/0 aluminum XHHW-2", "neutral 2/0 aluminum XHHW-2", "w" * 90, "38 ft"]
    for room in (40.0, 80.0, 200.0):
        lines = wrapped(phrases, room, 7, 9)
        assert all(width(line, 7) <= room for line in lines)
    assert " ".join(wrapped(phrases[:2], 110.0, 7, 9)) == "2 x 4/0 aluminum XHHW-2; neutral 2/0 aluminum XHHW-2"
    assert len(wrapped(["many words here"] * 40, 80.0, 7, 3)) == 3
    short = shortened("house-panel-of-the-east-barn", 60, 7)
    assert short.startswith("house") and short.endswith("barn") and "…" in short
