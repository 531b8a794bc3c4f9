"""The plan of a workbook as text, one line a cell: what reviewers read when a cell changes."""

from collections.abc import Iterator, Mapping

from builder.plan.cells import Book, Cell, PlannedSheet, column_letters

SHOWN_DIGITS = 12  # of a value; the last ones differ from one processor to the next


def write_text(book: Book, values: Mapping[tuple[str, int, int], float | str]) -> str:
    """Return a line for each sheet, cell that holds something, chart and drawing of a plan."""
    names: dict[tuple[str, int, int], list[str]] = {}
    for name, area in book.names.items():
        names.setdefault((area.sheet, area.row, area.col), []).append(name)
    lines = [f"{book.title} | {book.locale} {book.paper} | {book.footer}"]
    for sheet in book.sheets:
        lines += ["", describe_sheet(sheet)]
        for cell in sorted(sheet.cells, key=lambda cell: (cell.row, cell.col)):
            spot = sheet.title, cell.row, cell.col
            parts = list(list_parts(cell, names.get(spot, []), values.get(spot)))
            if len(parts) > 1 or cell.typed:
                lines.append(" | ".join([f"{column_letters(cell.col)}{cell.row + 1}", *parts]))
        lines += [
            f"shade {s.look} where {s.formula}: {s.area.address.rpartition('!')[2]}"
            for s in sheet.shades
        ]
        lines += [f"chart {picture.title!r} at row {picture.row + 1}" for picture in sheet.pictures]
        lines += [f"drawing at row {d.row + 1}: {d.alt!r}" for d in sheet.drawings]
    return "\n".join(lines) + "\n"


def describe_sheet(sheet: PlannedSheet) -> str:
    """Return how a sheet prints."""
    widths = " ".join(f"{width:g}" for width in sheet.widths)
    paper = sheet.paper
    turned = "landscape" if paper.turned else "portrait"
    pages = f"{paper.wide}x{paper.high} pages" + f" {paper.percent} %" * bool(paper.percent)
    frozen = f"{sheet.frozen_rows} rows {sheet.frozen_cols} columns frozen"
    return f"== {sheet.title} | {sheet.role} {turned} {pages}, {frozen} | {widths}"


def list_parts(cell: Cell, names: list[str], value: float | str | None) -> Iterator[str]:
    """Yield look, names, content, value and rule of a cell."""
    digits = "" if cell.digits is None else f" .{cell.digits}"
    yield f"{cell.look}{digits}{' typed' if cell.typed else ''}"
    if names:
        yield " ".join(sorted(names))
    if cell.formula is not None:
        yield cell.formula
        yield show(value)
    elif cell.number is not None:
        yield show(cell.number)
    elif cell.text is not None:
        yield repr(cell.text)
    if cell.link:
        yield f"to {cell.link}"
    if cell.validation:
        rule = cell.validation
        yield f"{rule.kind} {rule.source} {rule.title!r} {rule.prompt!r} {rule.error!r}"


def show(value: float | str | None) -> str:
    """Return a value in the digits that are the same everywhere."""
    return f"{value:.{SHOWN_DIGITS}g}" if isinstance(value, int | float) else repr(value)
