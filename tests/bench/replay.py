"""The bare script of a workbook: every call that the writer makes of the file library, replayed."""

import io
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace

import xlsxwriter
from xlsxwriter.chart import Chart
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from builder.plan.cells import Book
from builder.write import workbook as writer

KEPT = (Worksheet, Format, Chart)
HEAD = "import datetime, io, sys, xlsxwriter\n\ndef replay():\n    file = io.BytesIO()\n"
TAIL = (
    "    return file.getvalue()\n\n"
    "if __name__ == '__main__':\n"
    "    with open(sys.argv[1], 'wb') as target:\n"
    "        target.write(replay())\n"
)


class Recorder:
    """Stands for an object of the file library; its calls are done and written down."""

    def __init__(self, real: object, name: str, lines: list[str]) -> None:
        self.real, self.name, self.lines = real, name, lines

    def __repr__(self) -> str:
        return self.name

    def __getattr__(self, method: str) -> Callable[..., object]:
        def call(*args: object, **more: object) -> object:
            answer = getattr(self.real, method)(*map(unwrap, args), **more)
            given = [repr(value) for value in args if not isinstance(value, type)]  # our own sheet
            given += [f"{key}={value!r}" for key, value in more.items()]
            words = f"{self.name}.{method}({', '.join(given)})"
            if isinstance(answer, KEPT):
                name = f"o{len(self.lines)}"
                self.lines.append(f"{name} = {words}")
                return Recorder(answer, name, self.lines)
            self.lines.append(words)
            return answer

        return call


def unwrap(value: object) -> object:
    """Return what stands behind recorders, in dictionaries too."""
    if isinstance(value, dict):
        return {key: unwrap(inner) for key, inner in value.items()}
    return value.real if isinstance(value, Recorder) else value


def record(book: Book, stored: writer.Stored) -> tuple[str, bytes]:
    """Return the bare script that writes a plan, and the file that it is to give."""
    lines: list[str] = []

    def begin(buffer: io.BytesIO, options: dict[str, object]) -> Recorder:
        lines.append(f"book = xlsxwriter.Workbook(file, {options!r})")
        return Recorder(xlsxwriter.Workbook(buffer, options), "book", lines)

    library, writer.xlsxwriter = writer.xlsxwriter, SimpleNamespace(Workbook=begin)
    try:
        data = writer.write_book(book, stored)
    finally:
        writer.xlsxwriter = library
    return HEAD + "".join(f"    {line}\n" for line in lines) + TAIL, data


def write_script(folder: Path, book: Book, stored: writer.Stored) -> tuple[Path, bytes]:
    """Write the script, and return its path and the file that it is to give."""
    script, data = record(book, stored)
    path = folder / "replayed.py"
    path.write_text(script, encoding="utf-8")
    return path, data
