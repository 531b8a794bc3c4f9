"""Files that break one rule of the lint each: the built book with one thing in its XML changed."""

from dataclasses import dataclass

from proof.lint_edits import (
    CHART,
    DRAWING,
    FIRST_CELL,
    SHEET,
    STRINGS,
    STYLES,
    WORKBOOK,
    Change,
    add,
    change_third,
    edit,
    formula,
    lock_typed,
    name,
    speak_french,
    stamp_later,
    swell,
    title,
    unlock,
)


@dataclass(frozen=True, slots=True)
class Break:
    """One way to break one rule."""

    rule: str
    what: str
    change: Change


FORMULA = "<f[^>]*?(?:/>|>[^<]*</f>)"  # its own, or one that it shares
ROW = '<row r="{0}"><c r="{1}{0}"/></row></sheetData>'
LOG = r"xl/worksheets/sheet13\.xml"
LINK = '<Relationship Id="rId9" Type="x" Target="https://example.org" TargetMode="External"/>'
BREAKS = (
    Break("functions_are_portable", "new function", formula("_xlfn.XLOOKUP(1,B2,B2)")),
    Break("nothing_is_volatile", "today", formula("TODAY()")),
    Break(
        "formulas_are_no_arrays",
        "array",
        edit(SHEET, "<f>reader_units", '<f t="array" ref="E11">reader_units'),
    ),
    Break("formulas_are_no_arrays", "array constant", formula("SUM({1,2})")),
    Break("formulas_stay_in_the_file", "other file", formula("[1]Other!A1")),
    Break("formulas_stay_in_the_file", "table", formula("SUM(sales[sap])")),
    Break("references_lead_to_cells", "lost name", formula("vessel_bores_mm")),
    Break("references_lead_to_cells", "lost sheet", formula("Nowhere!A1")),
    Break("references_have_ends", "whole column", formula("SUM(A:A)")),
    Break("references_have_ends", "whole row", formula("SUM(3:3)")),
    Break("references_are_single", "intersection", formula("SUM(A1:B2 B1:B3)")),
    Break("references_are_single", "union", formula("SUM((A1,B2))")),
    Break("numbers_are_readable", "exponent", formula("1E5")),
    Break("criteria_are_whole_numbers", "decimal point", formula('COUNTIF(B2,">1.5")')),
    Break("signs_stand_alone", "double minus", formula("--B2")),
    Break("columns_repeat_one_formula", "other formula", change_third(FORMULA, "<f>0+1</f>")),
    Break("columns_repeat_one_formula", "number", change_third(FORMULA + "<v>[^<]*", "<v>0")),
    Break(
        "formulas_have_values",
        "no value",
        edit(SHEET, "(reader_units_state_txt</f>)<v>usual</v>", r"\1"),
    ),
    Break("formulas_have_values", "no number", edit(".*sheet.*", "</f><v></v>", "</f><v>None</v>")),
    Break("values_are_no_errors", "error", edit(SHEET, "</f><v>usual</v>", "</f><v>#REF!</v>")),
    Break("names_follow_the_pattern", "accent", name("été_n", "'Machine'!$A$1")),
    Break("names_are_no_addresses", "cell", name("dn50", "'Machine'!$A$1")),
    Break("names_are_no_addresses", "row and column", name("r1c1", "'Machine'!$A$1")),
    Break("names_differ_in_more_than_case", "case", name("vessels_N", "'Machine'!$A$1")),
    Break(
        "names_belong_to_the_book", "one sheet", name("one_n", "Machine!$A$1", ' localSheetId="1"')
    ),
    Break("names_lead_to_cells", "constant", name("one_n", "3.14")),
    Break("names_lead_to_cells", "formula", name("one_n", "OFFSET(Machine!$A$1,1,0)")),
    Break("names_lead_to_cells", "relative", name("one_n", "Machine!A1")),
    Break("names_lead_to_cells", "lost sheet", name("one_n", "Nowhere!$A$1")),
    Break("names_lead_to_one_column", "two columns", name("one_n", "Machine!$A$1:$B$2")),
    Break("names_are_shown", "hidden", name("one_n", "Machine!$A$1", ' hidden="1"')),
    Break("names_of_typed_cells_lead_to_unlocked_cells", "locked", lock_typed),
    Break("titles_of_sheets_fit", "long", title("x" * 32)),
    Break("titles_of_sheets_fit", "sign", title("100%")),
    Break("titles_of_sheets_fit", "reserved", title("History")),
    Break("texts_of_cells_fit", "long", edit(STRINGS, "(<si><t[^>]*>)", r"\1" + "x" * 32768)),
    Break("texts_of_cells_fit", "bell", edit(STRINGS, "(<si><t[^>]*>)", r"\1_x0007_")),
    Break("styles_are_few", "formats", edit(STYLES, "</cellXfs>", "<xf/>" * 256 + "</cellXfs>")),
    Break("styles_are_few", "fonts", edit(STYLES, "</fonts>", "<font/>" * 32 + "</fonts>")),
    Break("conditional_formats_are_few", "many", edit(SHEET, "(<cfRule.*?</cfRule>)", r"\1" * 81)),
    Break("sheets_are_small", "row", edit(SHEET, "</sheetData>", ROW.format(2001, "A"))),
    Break("sheets_are_small", "column", edit(SHEET, "</sheetData>", ROW.format(1999, "ZZ"))),
    Break("the_file_is_small", "large", swell),
    Break("parts_are_known", "macro", add("xl/vbaProject.bin")),
    Break("parts_are_known", "comment", add("xl/comments1.xml")),
    Break("parts_are_known", "query", add("xl/connections.xml")),
    Break(
        "nothing_is_a_program",
        "type",
        edit(
            r"\[Cont.*",
            "openxmlformats-officedocument.spreadsheetml.sheet.main",
            "ms-excel.sheet.macroEnabled.main",
        ),
    ),
    Break(
        "nothing_leads_out_of_the_file",
        "link",
        edit("xl/worksheets/_rels/.*", "</Relationships>", f"{LINK}</Relationships>"),
    ),
    Break("sheets_are_shown", "hidden", edit(WORKBOOK, "<sheet ", '<sheet state="hidden" ')),
    Break(
        "sheets_are_shown", "very hidden", edit(WORKBOOK, "<sheet ", '<sheet state="veryHidden" ')
    ),
    Break("rows_and_columns_are_shown", "column", edit(SHEET, "<col ", '<col hidden="1" ')),
    Break("rows_and_columns_are_shown", "row", edit(SHEET, "<row ", '<row hidden="true" ')),
    Break(
        "cells_are_not_merged",
        "merged",
        edit(
            SHEET, "</sheetData>", '</sheetData><mergeCells><mergeCell ref="A1:B1"/></mergeCells>'
        ),
    ),
    Break("sheets_are_protected", "open", edit(SHEET, "<sheetProtection[^>]*>", "")),
    Break(
        "sheets_are_protected",
        "password",
        edit(SHEET, "<sheetProtection", '<sheetProtection password="CC1A"'),
    ),
    Break("unlocked_cells_are_for_typing", "formula", unlock('<c r="E11" s=')),
    Break("unlocked_cells_are_for_typing", "title", unlock('<c r="A1" s=')),
    Break("rows_and_columns_are_locked", "column", unlock("<col [^>]*style=")),
    Break("calculation_is_plain", "stale", edit(WORKBOOK, "<calcPr[^>]*>", "")),
    Break(
        "calculation_is_plain", "by hand", edit(WORKBOOK, "<calcPr", '<calcPr calcMode="manual"')
    ),
    Break("calculation_is_plain", "repeated", edit(WORKBOOK, "<calcPr", '<calcPr iterate="1"')),
    Break(
        "calculation_is_plain", "1904", edit(WORKBOOK, "<workbookPr", '<workbookPr date1904="1"')
    ),
    Break(
        "conditional_formats_compare_words", "bar", edit(SHEET, 'type="cellIs"', 'type="dataBar"')
    ),
    Break(
        "the_file_follows_the_standard",
        "attribute",
        edit(SHEET, "<sheetFormatPr", '<sheetFormatPr odd="1"'),
    ),
    Break(
        "the_book_tells_its_language", "units", edit("docProps/custom.xml", ">metric<", ">cubits<")
    ),
    Break("the_book_tells_its_language", "language", edit("docProps/custom.xml", ">en<", "><")),
    Break("sheets_speak_one_language", "other language", speak_french),
    Break("sheets_begin_with_their_title", "no title", edit(SHEET, FIRST_CELL, r'<c r="A1"\1/>')),
    Break("headings_are_frozen", "no pane", edit(SHEET, "<pane [^>]*>", "")),
    Break("sheets_fit_their_paper", "paper", edit(SHEET, 'paperSize="1"', 'paperSize="9"')),
    Break("sheets_fit_their_paper", "scale", edit(LOG, ' fitToPage="1"', "")),
    Break(
        "sheets_fit_their_paper", "width", edit(SHEET, "<pageSetup ", '<pageSetup fitToWidth="0" ')
    ),
    Break(
        "prints_repeat_their_heads",
        "area",
        edit(WORKBOOK, '<definedName name="_xlnm.Print_A[^/]*/definedName>', ""),
    ),
    Break(
        "prints_repeat_their_heads",
        "titles",
        edit(WORKBOOK, '<definedName name="_xlnm.Print_T[^/]*/definedName>', ""),
    ),
    Break("pages_are_numbered", "no number", edit(SHEET, "&amp;P", "")),
    Break(
        "nobody_is_named",
        "author",
        edit("docProps/core.xml", "creator>rinsebook", "creator>Jane Roe"),
    ),
    Break("nobody_is_named", "company", edit("docProps/app.xml", "<Company></", "<Company>Roe</")),
    Break(
        "dates_are_fixed",
        "created",
        edit("docProps/core.xml", "2026-01-01T00:00:00Z", "2026-03-04T05:06:07Z"),
    ),
    Break("dates_are_fixed", "zip", stamp_later),
    Break("no_computer_is_named", "folder", edit(STRINGS, "(<si><t[^>]*>)", r"\1/home/jane/")),
    Break("no_computer_is_named", "zone", edit(STRINGS, "(<si><t[^>]*>)", r"\1America/Toronto")),
    Break("texts_stand_out", "pale text", edit(STYLES, "FF4A5A60", "FFAAAAAA")),
    Break("texts_stand_out", "dark ground", edit(STYLES, "FFFFF6D6", "FF444400")),
    Break("texts_stand_out", "pale state", edit(STYLES, "FF14532D", "FF99CC99")),
    Break("texts_stand_out", "dark state", edit(STYLES, "FFFBD9DC", "FFBB5566")),
    Break("lines_of_charts_stand_out", "pale line", edit(CHART, "24505C", "FFE9B8")),
    Break("charts_have_words", "no words", edit(DRAWING, 'descr="[^"]*"', 'descr=""')),
    Break(
        "charts_have_titles", "no words", edit(CHART, "(<c:chart><c:title>.*?<a:t>)[^<]*", r"\1")
    ),
    Break(
        "charts_have_titles", "no title", edit(CHART, "(<c:chart>)<c:title>.*?</c:title>", r"\1")
    ),
    Break("axes_have_titles", "no title", edit(CHART, "(<c:valAx>.*?<a:t>)[^<]*", r"\1")),
    Break(
        "lines_of_charts_have_names", "no name", edit(CHART, "<c:tx><c:v>[^<]*</c:v></c:tx>", "")
    ),
    Break("lines_of_charts_have_names", "no legend", edit(CHART, "<c:legend>.*</c:legend>", "")),
    Break("number_formats_are_of_no_country", "date", edit(STYLES, "yyyy-mm-dd;;", "m/d/yyyy")),
    Break(
        "number_formats_are_of_no_country",
        "money",
        edit(STYLES, 'formatCode="#,##0.0"', 'formatCode="[$$-409]0.0"'),
    ),
)
