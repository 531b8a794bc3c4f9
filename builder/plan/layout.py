"""Lays out the whole workbook: every sheet, block by block."""

from collections.abc import Callable
from dataclasses import replace
from itertools import chain

from builder import __version__
from builder.calculation import Known
from builder.exchange.machine import Machine
from builder.formula.grids import grid_columns, list_group
from builder.plan.canvas import Canvas
from builder.plan.cards import (
    lay_card,
    lay_card_head,
    lay_notes,
    lay_safety,
    lay_strip,
    lay_writing,
)
from builder.plan.cells import Area, Book, Picture, PlannedSheet
from builder.plan.context import Context
from builder.plan.documents import lay_about, lay_fields, lay_method
from builder.plan.drawings import lay_drawing
from builder.plan.grids import lay_grids
from builder.plan.inputs import lay_bearer, lay_identity, lay_inputs
from builder.plan.links import lay_index, lay_title, name_target
from builder.plan.naming import list_borne
from builder.plan.pictures import find_lines, lay_picture
from builder.plan.printing import plan_paper
from builder.plan.registers import (
    lay_constants,
    lay_limits,
    lay_sources,
    lay_table,
    lay_units,
    lay_words,
)
from builder.plan.results import lay_answers, lay_homes, lay_results
from builder.plan.selftest import lay_selftest
from builder.plan.steps import lay_checklist
from builder.plan.today import lay_details, lay_figures, lay_headline, lay_links
from builder.plan.values import lay_values
from builder.plan.verdicts import lay_checks, lay_master
from builder.spec.editions import digest_words
from builder.spec.pages import BEHIND, Block, Sheet
from builder.spec.records import Grid
from builder.spec.specification import Spec

BEHIND_WIDTHS = [62.0, 15.0, 14.0, 16.0, 15.0, 12.0, 15.0, 12.0, 9.0]
# For people: a label in two lines, what is typed or shown, its unit, its state, and room for text.
WIDTHS = [20.0, 9.0, 12.0, 3.0, 52.0]
SPAN = 9
GRID_WIDTH = 12.0
FIRST_WIDTH = 9.0


def lay_text(canvas: Canvas, block: Block, context: Context) -> None:
    """Lay out paragraphs under a heading."""
    if block.heading:
        canvas.put_head([(0, "head", context.pick(block.heading))])
    for text in block.text:
        canvas.put_prose(text, context.lang)
    canvas.next_row()


BLOCKS: dict[str, Callable[[Canvas, Block, Context], None]] = {
    "about": lay_about,
    "answers": lay_answers,
    "bearer": lay_bearer,
    "card": lay_card,
    "card_head": lay_card_head,
    "chart": lay_picture,
    "checklist": lay_checklist,
    "checks": lay_checks,
    "constants": lay_constants,
    "details": lay_details,
    "fields": lay_fields,
    "figures": lay_figures,
    "grid": lay_grids,
    "headline": lay_headline,
    "homes": lay_homes,
    "identity": lay_identity,
    "inputs": lay_inputs,
    "limits": lay_limits,
    "links": lay_links,
    "master": lay_master,
    "method": lay_method,
    "notes": lay_notes,
    "picture": lay_drawing,
    "results": lay_results,
    "safety": lay_safety,
    "selftest": lay_selftest,
    "sources": lay_sources,
    "strip": lay_strip,
    "table": lay_table,
    "text": lay_text,
    "units": lay_units,
    "values": lay_values,
    "words": lay_words,
    "writing": lay_writing,
}
OWN_HEADS = ("headline", "card_head")  # blocks that begin a sheet without the head of the others


def plan_book(spec: Spec, machine: Machine, lang: str, units: str, worked: Known) -> Book:
    """Return the plan of one workbook; `worked` are the numbers of the self-test's case."""
    names: dict[str, Area] = {}
    context = Context(spec, machine, lang, units, names, worked)
    sheets = [plan_sheet(sheet, context) for sheet in spec.sheets]
    drawn = [
        draw(planned, sheet, context) for planned, sheet in zip(sheets, spec.sheets, strict=True)
    ]
    properties = {
        "version": __version__,
        "specs": spec.digest,
        "words": digest_words(spec, lang),
        "language": lang,
        "units": units,
    }
    states = {key: context.word(key) for key in ("ok", "look", "stop", "missing", "none")}
    language = spec.languages[lang]
    footer = f"{context.word('page')}  ·  rinsebook {__version__}"
    title = tell_title(context)
    borne = frozenset(list_borne(drawn, names, spec))
    locale, paper = language.locale, language.paper
    return Book(drawn, names, borne, title, lang, locale, paper, footer, properties, states)


def tell_title(context: Context) -> str:
    """Return what the book is and whose."""
    machine = context.machine.title
    return context.word("book_of").format(machine=machine) if machine else context.word("book")


def plan_sheet(sheet: Sheet, context: Context) -> PlannedSheet:
    """Return the plan of one sheet."""
    widths = plan_widths(sheet, context)
    span = min(sheet.columns or SPAN, len(widths))
    canvas = Canvas(context.pick(sheet.title), widths, context.names, span)
    top = lay_blocks(canvas, sheet, context)
    canvas.define(name_target(sheet.key), canvas.area(0, canvas.frozen_rows))
    first = canvas.heads[0][0] if is_wide(sheet) and sheet.columns else 0
    paper = plan_paper(canvas, sheet, top, first, len(widths) if canvas.beside_px else span)
    if sheet is context.spec.sheets[0]:
        lay_index(canvas, context)
    return PlannedSheet(
        title=canvas.title,
        role=sheet.role,
        cells=canvas.cells,
        widths=widths,
        heights=canvas.heights,
        states=canvas.states,
        shades=canvas.shades,
        pictures=canvas.pictures,
        drawings=canvas.drawings,
        frozen_rows=canvas.frozen_rows,
        frozen_cols=sheet.frozen,
        paper=paper,
    )


def lay_blocks(canvas: Canvas, sheet: Sheet, context: Context) -> int:
    """Lay out head and blocks of a sheet, and return the first row below the head."""
    if sheet.blocks[0].kind not in OWN_HEADS:
        lay_top(canvas, sheet, context)
    top = canvas.row
    for block in sheet.blocks:
        canvas.breaks += [canvas.row] if block.back else []
        shown = block.kind == "results" and sheet.role != BEHIND
        BLOCKS["answers" if shown else block.kind](canvas, block, context)
    return top


def lay_top(canvas: Canvas, sheet: Sheet, context: Context) -> None:
    """Lay out title, the mark of an example, and what the sheet is for."""
    lay_title(canvas, sheet, context)
    if sheet.role != BEHIND:
        canvas.put_formula(0, "faint", 'IF(example_n>0,say_do_not_use_txt," ")')
        canvas.shade(0, "example_n>0", "example")
        canvas.next_row()
    canvas.frozen_rows = canvas.row
    for text in sheet.intro:
        canvas.put_prose(text, context.lang)
    canvas.next_row()


def plan_widths(sheet: Sheet, context: Context) -> list[float]:
    """Return the widths of a sheet's columns; a grid's columns say theirs themselves."""
    quantities = context.spec.quantities
    usual = BEHIND_WIDTHS if sheet.role == BEHIND else WIDTHS
    widths = list(sheet.widths) or ([] if is_wide(sheet) else usual)
    for block in sheet.blocks if is_wide(sheet) else []:
        for name in block.rows if block.kind == "grid" else []:
            grid = quantities[name]
            if not isinstance(grid, Grid) or grid.beside:
                continue
            columns = [grid_columns(member, quantities) for member in list_group(grid, quantities)]
            own = [column.width or GRID_WIDTH for column in chain.from_iterable(columns)]
            for col, width in enumerate([FIRST_WIDTH, *own]):
                widths[col : col + 1] = [max([width, *widths[col : col + 1]])]
    return widths


def is_wide(sheet: Sheet) -> bool:
    """Tell whether a sheet's columns belong to its grids."""
    return sheet.blocks[0].kind == "grid"


def draw(planned: PlannedSheet, sheet: Sheet, context: Context) -> PlannedSheet:
    """Fill in the lines of the curves, now that every grid has its place."""
    blocks = [block for block in sheet.blocks if block.chart]

    def with_lines(picture: Picture, block: Block) -> Picture:
        return replace(picture, lines=picture.lines or find_lines(block, context))

    pictures = [with_lines(p, b) for p, b in zip(planned.pictures, blocks, strict=True)]
    return replace(planned, pictures=pictures)
