"""Reads our printed sheets with none of our code: pdfplumber takes text, coordinates and fonts out of
the PDF, pypdfium2 renders pages, zxing-cpp reads the codes on them. Checked for three houses on four
papers: paper size, embedded fonts, sizes of text and lines, the 100 mm bar, the scale of the plan
against the saved coordinates (1 % at worst), text on text, and every bore, cable and drop once in
each list.

Run from the top of the repository; ends with 0 when all of it agreed.
"""

import json
import re
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path

import pdfplumber
import pypdfium2
import zxingcpp
from PIL import ImageFilter

PLANS = Path("tests/plans")
ADDRESS = "https://borewright.example/"
MM = 72 / 25.4
# Millimetres, upright. ANSI/ASME Y14.1 and ISO 216.
PAPERS = {
    "letter": (215.9, 279.4),
    "11x17": (279.4, 431.8),
    "a4": (210.0, 297.0),
    "a3": (297.0, 420.0),
}
BODY, IDENTITY, FINEST = 10.0, 13.0, 0.35
# Dressed width of a 2x6, millimetres: PS 20, size table.
WIDTH = {"2x4": 88.9, "2x6": 139.7, "2x8": 184.15}


def example(name, *arguments):
    """Runs one of our examples; gives what it prints."""
    command = ["cargo", "run", "-q", "-p", "borewright-core", "--example", name, "--", *arguments]
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def ratio(text):
    """House millimetres to a paper millimetre, from the words of the scale."""
    metric = re.search(r"\b1:(\d+)\b", text)
    if metric:
        return float(metric[1])
    found = re.search(r"(?:(\d+)/(\d+)|(\d+)) in = (\d+) ft", text)
    over, under, whole, feet = found.groups()
    inches = int(over) / int(under) if over else int(whole)
    return int(feet) * 12 / inches


def kind(page):
    """The page's title: the large words at the head's left."""
    words = page.crop((0, 0, page.width, 30 * MM)).extract_words(extra_attrs=["size"])
    words = [word for word in words if word["size"] > IDENTITY + 0.2]
    first = min(words, key=lambda word: word["x0"])["size"] if words else 0
    return " ".join(word["text"] for word in words if abs(word["size"] - first) < 0.1)


def is_labels(page):
    """Label stock carries no frame."""
    return "100 mm at 100 %" not in (page.extract_text() or "")


def check_fonts(page, name):
    for char in page.chars:
        assert re.match(r"[A-Z]{6}\+BorewrightSans-(Regular|Bold)$", char["fontname"]), char["fontname"]
        # Text that reads upwards is boxed on its side.
        size = char["size"] if char["upright"] else max(char["width"], char["height"])
        assert size >= BODY - 0.02, f"{name}: {char['text']!r} at {size}"


def check_lines(page, name):
    for line in page.lines + page.curves + page.rects:
        if line.get("stroke") and line.get("linewidth"):
            assert line["linewidth"] >= (FINEST - 0.01) * MM, f"{name}: a line of {line['linewidth']} pt"


def check_bar(page, name):
    bars = [line for line in page.lines if abs(line["x1"] - line["x0"] - 100 * MM) < 0.3]
    assert len(bars) == 1, f"{name}: {len(bars)} bars of 100 mm"


def overlaps(page):
    """Pairs of letters of different texts that lie on each other, by ink rather than by line."""
    cells, found = {}, []
    for at, char in enumerate(page.chars):
        high = char["bottom"] - char["top"]
        box = (char["x0"] + 0.4, char["top"] + 0.3 * high, char["x1"] - 0.4, char["bottom"] - 0.25 * high)
        if char["text"].isspace() or box[0] >= box[2]:
            continue
        for x in range(int(box[0] // 12), int(box[2] // 12) + 1):
            for y in range(int(box[1] // 12), int(box[3] // 12) + 1):
                for other, theirs in cells.get((x, y), []):
                    if box[0] < theirs[2] and theirs[0] < box[2] and box[1] < theirs[3] and theirs[1] < box[3]:
                        found.append((page.chars[other]["text"], char["text"], box))
                cells.setdefault((x, y), []).append((at, box))
    return found


def identities(pages):
    """Texts in 13 pt bold that start a row, by how often they stand."""
    counts = Counter()
    for page in pages:
        words = page.extract_words(extra_attrs=["size", "fontname"], keep_blank_chars=False)
        for word in words:
            if abs(word["size"] - IDENTITY) < 0.02 and word["fontname"].endswith("Bold"):
                counts[word["text"]] += 1
    return counts


def span(level, size):
    """Width and height over the outside walls of the saved plan, faces included."""
    walls = [wall for wall in level["walls"] if wall["role"] == "exterior"]
    half = max(WIDTH.get(wall["lumber"], 0) for wall in walls) / 2
    if any(wall["lumber"] not in WIDTH for wall in walls):
        return None
    ends = [end for wall in walls for end in (wall["from"], wall["to"])]
    return tuple(max(e[n] for e in ends) - min(e[n] for e in ends) + 2 * half for n in (0, 1))


def check_scale(page, level, name):
    """Black areas of the plan against the saved outside walls."""
    truth = span(level, None)
    if truth is None or "building" in page.extract_text():
        return False
    scale = ratio(page.extract_text())
    # Walls are filled and outlined; the scale bar is filled alone.
    filled = [
        shape
        for shape in page.rects + page.curves
        if shape.get("fill") and shape.get("stroke") and shape.get("non_stroking_color") in ((0,), (0.0,), 0, [0])
        and max(shape["width"], shape["height"]) > 9 * MM
    ]
    for low, high, length in (("x0", "x1", truth[0]), ("top", "bottom", truth[1])):
        measured = (max(s[high] for s in filled) - min(s[low] for s in filled)) / MM * scale
        assert abs(measured - length) <= 0.01 * length, f"{name}: {measured:.0f} mm for {length:.0f} mm"
    return True


def check_lists(pages, plan, report, name):
    cables = [f"{d['letter']}{d['number']}{c['letter']}" for d in plan["drops"] for c in d["cables"]]
    drops = [f"{d['letter']}{d['number']}" for d in plan["drops"]]
    numbers = [str(row["number"]) for row in report["drill_list"]]
    lists = {
        "Drill list": numbers,
        "Cut list and pull sheet": cables,
        "Closet sheet": cables,
        "Test record": cables,
        "Room list": drops,
        "Trim-out list": drops,
        "Protection sheet, boxes": drops,
    }
    for title, wanted in lists.items():
        some = [page for page in pages if title in kind(page)]
        assert some or not wanted, f"{name}: no {title}"
        counts = identities(some)
        missing = [one for one in wanted if counts[one] < 1]
        assert not missing, f"{name}, {title}: {missing} missing"
        # A bore's number may also be a page's or a bit's figure; labels of cables and drops may not.
        if title != "Drill list":
            twice = [one for one in wanted if counts[one] > 1]
            assert not twice, f"{name}, {title}: {twice} more than once"
    return len(cables), len(numbers)


def check_code(path):
    """The plan's code, on the first page with room for it, and a code of a wall, as a scanner or a phone
    would see them: 150 dpi, blurred, a little turned."""
    found = []
    for page in pypdfium2.PdfDocument(str(path)):
        picture = page.render(scale=150 / 72).to_pil().convert("L")
        picture = picture.filter(ImageFilter.GaussianBlur(0.7)).rotate(2.5, fillcolor=255, expand=True)
        found += [code.text for code in zxingcpp.read_barcodes(picture)]
    for what in ("#Q", "#W"):
        assert any(text.startswith(ADDRESS + what) for text in found), f"{path}: no code {what} read"


def check(house, paper, folder):
    name = f"{house} on {paper}"
    plan = json.loads((PLANS / f"{house}.json").read_text())
    out = Path(folder) / f"{house}-{paper}.pdf"
    example("sheets", str(PLANS / f"{house}.json"), str(out), paper, ADDRESS)
    report = json.loads(example("schedules", str(PLANS / f"{house}.json")))
    scaled = 0
    with pdfplumber.open(out) as pdf:
        framed = [page for page in pdf.pages if not is_labels(page)]
        sides = sorted(PAPERS[paper])
        for page in pdf.pages:
            where = f"{name}, page {page.page_number}"
            check_fonts(page, where)
            assert not overlaps(page), f"{where}: {overlaps(page)[:3]}"
        for page in framed:
            where = f"{name}, page {page.page_number}"
            for side, wanted in zip(sorted((page.width, page.height)), sides):
                assert abs(float(side) / MM - wanted) < 0.1, where
            check_lines(page, where)
            check_bar(page, where)
            assert f"{page.page_number} of {len(framed)}" in page.extract_text(), where
            for level in plan["levels"]:
                if f"{level['name']}, plan" in kind(page):
                    scaled += check_scale(page, level, where)
        cables, bores = check_lists(framed, plan, report, name)
    print(f"{name}: {len(framed)} pages, {scaled} plans to scale, {cables} cables and {bores} rows of bores once each")
    return out, scaled


def main():
    scaled = 0
    with tempfile.TemporaryDirectory() as folder:
        for house in ("house-a", "house-b", "house-c"):
            for paper in PAPERS:
                out, plans = check(house, paper, folder)
                scaled += plans
                check_code(out)
    assert scaled >= 8, "too few plans could be measured"
    print("The code of every plan, and one of a wall, was read at 150 dpi, blurred and turned.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
