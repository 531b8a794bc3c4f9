"""What a sheet has besides its cells: rules, coloured states, protection, what it shows."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from openpyxl.formatting.rule import Rule as SourceRule
from openpyxl.worksheet.worksheet import Worksheet

from builder.audit.looks import describe_style
from builder.audit.normalization import describe_validation, normalize_formula

VISIBLE = "visible"
RIGHTS = (  # a switch that is on forbids
    "formatCells",
    "formatColumns",
    "formatRows",
    "insertColumns",
    "insertRows",
    "insertHyperlinks",
    "deleteColumns",
    "deleteRows",
    "sort",
    "autoFilter",
    "pivotTables",
    "objects",
    "scenarios",
)
STATES = "; "


@dataclass(frozen=True, slots=True)
class Rule:
    """What the cells of an area accept, or how they are coloured; `shown` as the file spells it."""

    area: str
    text: str
    shown: str = field(compare=False)


@dataclass(frozen=True, slots=True)
class Page:
    """One sheet apart from its cells."""

    title: str
    visible: bool
    protected: bool
    allowed: list[str]
    validated: list[Rule]
    coloured: list[Rule]
    unlocked: list[str]
    hidden: list[str]
    links: dict[str, str]
    printed: str
    repeated: str


def read_page(sheet: Worksheet) -> Page:
    """Return what a sheet has besides cells."""
    spans = [*sheet.column_dimensions.items(), *sheet.row_dimensions.items()]
    return Page(
        title=sheet.title,
        visible=sheet.sheet_state == VISIBLE,
        protected=bool(sheet.protection.sheet),
        allowed=[right for right in RIGHTS if not getattr(sheet.protection, right)],
        validated=list(read_rules(sheet)),
        coloured=list(read_states(sheet)),
        unlocked=[str(key) for key, span in spans if not span.protection.locked],
        hidden=list(read_hidden(sheet)),
        links=dict(read_links(sheet)),
        printed=str(sheet.print_area or ""),
        repeated=f"{sheet.print_title_rows or ''} {sheet.print_title_cols or ''}".strip(),
    )


def read_rules(sheet: Worksheet) -> Iterator[Rule]:
    """Yield what cells accept, area by area, in the order of the sheet."""
    for item in sheet.data_validations.dataValidation:
        text = describe_validation(item, normalize_formula)
        for area in sorted(str(area) for area in item.sqref.ranges):
            yield Rule(area, text, describe_validation(item, str))


def read_states(sheet: Worksheet) -> Iterator[Rule]:
    """Yield how cells are coloured, area by area; the state that goes before the others first."""
    for item in sheet.conditional_formatting:
        rules = sorted(item.rules, key=lambda rule: rule.priority)
        text, shown = (
            STATES.join(describe_state(rule, spell) for rule in rules)
            for spell in (normalize_formula, str)
        )
        for area in sorted(str(area) for area in item.cells.ranges):
            yield Rule(area, text, shown)


def describe_state(rule: SourceRule, spell: Callable[[str], str]) -> str:
    """Return when a state is coloured, and how."""
    formulas = " and ".join(spell(f"={formula}") for formula in rule.formula)
    return f"{rule.type} {rule.operator or ''} {formulas}: {describe_style(rule.dxf)}"


def read_hidden(sheet: Worksheet) -> Iterator[str]:
    """Yield the rows and columns that nobody sees."""
    for letter, column in sheet.column_dimensions.items():
        if column.hidden or column.width == 0:
            yield str(letter)
    for number, row in sheet.row_dimensions.items():
        if row.hidden or row.height == 0:
            yield str(number)


def read_links(sheet: Worksheet) -> Iterator[tuple[str, str]]:
    """Yield cell and address of each link that leaves the workbook."""
    for row in sheet.iter_rows():
        for cell in row:
            link = getattr(cell, "hyperlink", None)
            if link is not None and link.target:
                yield str(cell.coordinate), str(link.target)
