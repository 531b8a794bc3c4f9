"""Makes the pictures of `specs/drawings` from their sources: `python -m face.draw` in `tests`.

Each picture holds the fingerprint of the source that it was made from, so that a test can see an
old one without drawing anything: another version of a package gives other bytes.
"""

import hashlib
import io
from pathlib import Path

FOLDER = Path(__file__).parents[2] / "specs" / "drawings"
WIDTH, COLOURS = 800, 8  # so small that two drawings cost the workbook 23 kB
SOURCE = "source"


def fingerprint(source: Path) -> str:
    return hashlib.sha256(source.read_bytes()).hexdigest()


def draw(source: Path) -> bytes:
    """Return the picture of a source, whose letters are strokes: no font of the machine is used."""
    import resvg_py
    from PIL import Image, PngImagePlugin

    text = source.read_text(encoding="utf-8")
    full = bytes(resvg_py.svg_to_bytes(svg_string=text, width=WIDTH, skip_system_fonts=True))
    plain = Image.open(io.BytesIO(full)).convert("RGB")
    few = plain.quantize(COLOURS, dither=Image.Dither.NONE)
    told = PngImagePlugin.PngInfo()
    told.add_text(SOURCE, fingerprint(source))
    target = io.BytesIO()
    few.save(target, "PNG", optimize=True, pnginfo=told)
    return target.getvalue()


if __name__ == "__main__":
    for source in sorted(FOLDER.glob("*.svg")):
        source.with_suffix(".png").write_bytes(draw(source))
