"""Reads kept links with none of our code: base64 and zlib of Python's own library, the columns by
the description at the top of core/src/file/link/mod.rs, and the printed code with zxing-cpp from a
picture as a camera or scanner would make it. Compares with the plan file kept beside the link.

Run from the top of the repository; ends with 0 when all of it agreed.
"""

import base64
import json
import sys
import zlib
from pathlib import Path

FILES = Path("tests/files")
ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ$*+-./:"
WALLS, OPENINGS, DROPS = 5, 7, 17


def copied(text):
    """Bytes of the spelling for copying."""
    assert text[0] == "b"
    return base64.urlsafe_b64decode(text[1:] + "=" * (-len(text[1:]) % 4))


def printed(text):
    """Bytes of the spelling for printed codes: three letters for two bytes, two for one."""
    assert text[0] == "Q"
    out = bytearray()
    for at in range(1, len(text), 3):
        group = text[at : at + 3]
        value = sum(ALPHABET.index(letter) * 43**place for place, letter in enumerate(group))
        out += value.to_bytes(len(group) - 1, "big")
    return bytes(out)


def contents(link):
    """What the envelope holds, its checksum checked."""
    assert link[0] == 0xB1, "version 1"
    length = int.from_bytes(link[1:4], "little")
    total = int.from_bytes(link[4:8], "little")
    assert length == len(link) - 8
    unpacked = zlib.decompress(link[8:], wbits=-15)
    assert zlib.crc32(unpacked) == total
    return unpacked


class Reader:
    """Numbers and columns, from bytes."""

    def __init__(self, data):
        self.data, self.at = data, 0

    def byte(self):
        self.at += 1
        return self.data[self.at - 1]

    def number(self):
        value, shift = 0, 0
        while True:
            byte = self.byte()
            value |= (byte & 0x7F) << shift
            shift += 7
            if byte < 0x80:
                return value

    def signed(self):
        folded = self.number()
        return (folded >> 1) ^ -(folded & 1)

    def column(self, count):
        if count == 0:
            return []
        mode = self.byte()
        if mode == 0:
            return [0] * count
        if mode == 1:
            return [self.signed()] * count
        if mode == 2:
            return [self.signed() for _ in range(count)]
        if mode == 3:
            return self.sums(count)
        assert mode == 4, mode
        table = self.sums(self.number())
        return [table[self.number()] for _ in range(count)]

    def sums(self, count):
        values, last = [], 0
        for _ in range(count):
            last += self.signed()
            values.append(last)
        return values

    def identities(self, count):
        values, last = [], 0
        for gap in self.column(count):
            last += gap + 1
            values.append(last)
        return values


def sections(data):
    reader, found = Reader(data), {}
    while reader.at < len(data):
        tag, length = reader.byte(), reader.number()
        found[tag] = data[reader.at : reader.at + length]
        reader.at += length
    return found


def walls(section, levels):
    """Number and ends of every wall."""
    reader = Reader(section)
    count = sum(reader.column(levels))
    ids = reader.identities(count)
    across, down = reader.column(2 * count), reader.column(2 * count)
    ends = list(zip(across, down))
    return [(ids[n], ends[2 * n], ends[2 * n + 1]) for n in range(count)]


def openings(section, levels):
    """Number, wall, width, sill, head and offset of every opening."""
    reader = Reader(section)
    count = sum(reader.column(levels))
    columns = [reader.identities(count), reader.column(count)]
    reader.column(count)
    columns += [reader.column(count) for _ in range(4)]
    return list(zip(*columns))


def drops(section):
    """The numbers of all drops."""
    reader = Reader(section)
    return reader.identities(reader.number())


def check_link(path):
    plan = json.loads(path.with_suffix(".json").read_text())
    link = copied(path.read_text())
    assert link == printed(path.with_suffix(".code").read_text())
    found = sections(contents(link))
    levels = plan["levels"]
    true_walls = [
        (wall["id"], tuple(wall["from"]), tuple(wall["to"]))
        for level in levels
        for wall in level["walls"]
    ]
    assert walls(found[WALLS], len(levels)) == true_walls
    true_openings = [
        tuple(opening[key] for key in ("id", "wall", "width", "sill", "head", "offset"))
        for level in levels
        for opening in level["openings"]
    ]
    assert openings(found[OPENINGS], len(levels)) == true_openings
    assert drops(found[DROPS]) == [drop["id"] for drop in plan["drops"]]
    print(
        f"{path.name}: {len(link)} bytes, {len(true_walls)} walls, {len(true_openings)} openings"
        f" and {len(plan['drops'])} drops agree with the file"
    )


def check_code(path):
    """The printed code, 0.5 mm a module at 150 dpi, turned and blurred."""
    from PIL import Image, ImageFilter
    import zxingcpp

    numbers = path.read_text().split()
    size = int(numbers[1])
    picture = Image.new("L", (size + 8, size + 8), 255)
    for at, dark in enumerate(numbers[3:]):
        if dark == "1":
            picture.putpixel((4 + at % size, 4 + at // size), 0)
    wanted = "https://example.test/plan/#" + path.with_suffix(".code").read_text()
    side = round((size + 8) * 0.5 / 25.4 * 150)
    large = picture.resize(((size + 8) * 12,) * 2, Image.NEAREST)
    for turn, blur in ((0, 0), (1.5, 0.6), (-4, 0.8), (12, 0.5)):
        seen = large.rotate(turn, Image.BICUBIC, expand=True, fillcolor=255)
        side_seen = round(side * seen.width / large.width)
        seen = seen.resize((side_seen,) * 2, Image.LANCZOS)
        seen = seen.filter(ImageFilter.GaussianBlur(blur))
        results = zxingcpp.read_barcodes(seen)
        texts = [result.text for result in results]
        assert texts == [wanted], f"{path.name}: turned {turn}, blurred {blur}: {texts}"
    print(f"{path.name}: {size} modules across, read at 150 dpi, turned and blurred")


def main():
    links, codes = sorted(FILES.glob("*.link")), sorted(FILES.glob("*.pbm"))
    assert links and codes
    for path in links:
        check_link(path)
    for path in codes:
        check_code(path)


if __name__ == "__main__":
    sys.exit(main())
