"""A workbook in the strict form of Office Open XML (ISO/IEC 29500-1)."""

import io
import zipfile

SPACES = {
    b"http://schemas.openxmlformats.org/spreadsheetml/2006/main": b"spreadsheetml/main",
    b"http://schemas.openxmlformats.org/drawingml/2006/main": b"drawingml/main",
    b"http://schemas.openxmlformats.org/officeDocument/2006/relationships": (
        b"officeDocument/relationships"
    ),
    b"http://schemas.openxmlformats.org/officeDocument/2006/extended-properties": (
        b"officeDocument/extendedProperties"
    ),
    b"http://schemas.openxmlformats.org/officeDocument/2006/custom-properties": (
        b"officeDocument/customProperties"
    ),
    b"http://schemas.openxmlformats.org/officeDocument/2006/docPropsVTypes": (
        b"officeDocument/docPropsVTypes"
    ),
}


def make_strict(data: bytes, ending: str = "") -> bytes:
    """Return a workbook with the namespaces of the strict form, in parts of an ending alone."""
    target = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(target, "w") as new:
        for name in old.namelist():
            part = old.read(name)
            for usual, strict in SPACES.items() if name.endswith(ending) else ():
                part = part.replace(usual, b"http://purl.oclc.org/ooxml/" + strict)
            new.writestr(name, part)
    assert target.getvalue() != data
    return target.getvalue()
