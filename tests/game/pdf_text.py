"""What a PDF of ours says: its lines of text, read from the file by the format's own rules (ISO 32000)."""

import re
import zlib

__all__ = ["pdf_lines", "pdf_objects"]

ESCAPES = {b"r": b"\r", b"n": b"\n", b"t": b"\t", b"b": b"\b", b"f": b"\f"}


def pdf_objects(data: bytes) -> dict[int, bytes]:
    """Body of every object by its number."""
    return {int(n): body for n, body in re.findall(rb"(\d+) 0 obj\n(.*?)\nendobj", data, re.DOTALL)}


def stream(body: bytes) -> bytes:
    """The stream of an object, unpacked."""
    found = re.search(rb"stream\r?\n(.*)\r?\nendstream", body, re.DOTALL)
    assert found is not None
    return zlib.decompress(found[1]) if b"/FlateDecode" in body else found[1]


def letters(cmap: bytes) -> dict[int, str]:
    """Code to letter of a ToUnicode map (bfchar and bfrange)."""
    out = {}
    for block in re.findall(rb"beginbfchar(.*?)endbfchar", cmap, re.DOTALL):
        for code, letter in re.findall(rb"<(\w+)>\s*<(\w+)>", block):
            out[int(code, 16)] = bytes.fromhex(letter.decode()).decode("utf-16-be")
    for block in re.findall(rb"beginbfrange(.*?)endbfrange", cmap, re.DOTALL):
        for low, high, first in re.findall(rb"<(\w+)>\s*<(\w+)>\s*<(\w+)>", block):
            for k in range(int(low, 16), int(high, 16) + 1):
                out[k] = chr(int(first, 16) + k - int(low, 16))
    return out


def pdf_lines(data: bytes) -> list[str]:
    """Every line of text in the order in which it is drawn."""
    objects = pdf_objects(data)
    fonts = {}
    for body in objects.values():
        for name, number in re.findall(rb"/(F\d+) (\d+) 0 R", body):
            to_unicode = re.search(rb"/ToUnicode (\d+) 0 R", objects[int(number)])
            assert to_unicode is not None
            fonts[name] = letters(stream(objects[int(to_unicode[1])]))
    pages = [body for body in objects.values() if b"/Type /Page\n" in body]
    assert len(pages) == 1
    content = re.search(rb"/Contents (\d+) 0 R", pages[0])
    assert content is not None
    drawn = rb"/(F\d+) [\d.]+ Tf|\(((?:\\.|[^\\)])*)\) Tj"
    out, font = [], b""
    for name, text in re.findall(drawn, stream(objects[int(content[1])]), re.DOTALL):
        if name:
            font = name
            continue
        codes = re.sub(rb"\\(.)", lambda m: ESCAPES.get(m[1], m[1]), text, flags=re.DOTALL)
        pairs = [int.from_bytes(codes[k : k + 2]) for k in range(0, len(codes), 2)]
        out.append("".join(fonts[font][code] for code in pairs))
    return out
