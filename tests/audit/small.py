"""A spec of one pipe, and its workbook in both languages."""

import io
import tempfile
from fractions import Fraction
from pathlib import Path

import ironcalc
import openpyxl
import xlsxwriter

from builder import __version__
from builder.spec.editions import digest_words
from builder.spec.records import (
    Check,
    Choice,
    Constant,
    Edition,
    Input,
    Language,
    Limits,
    Place,
    Quantity,
    Result,
    Text,
    Unit,
)
from builder.spec.specification import Spec

PLACE = Place("specs/topics/pipe.toml", 1)
WORDS = {
    "en": {"ok": "ok", "look": "look", "stop": "stop", "missing": "to fill in", "none": "not done"},
    "fr": {"ok": "bon", "look": "voir", "stop": "non", "missing": "à remplir", "none": "aucun"},
}
SIGNS = {"en": ".", "fr": ","}
RULES = {"en": ("by volume", "by element"), "fr": ("par volume", "par élément")}
LENGTHS = {"en": ("mm", "in"), "fr": ("mm", "po")}
SHEETS = ("Pipe run", "Lists")
Typed = dict[str, float | str | bool | None]


def text(words: str, french: str = "") -> Text:
    return Text({"en": words, "fr": french or words})


def unit(key: str, dimension: str, factor: str = "1", french: str = "") -> Unit:
    symbol = text(key, french)
    exact = Fraction(factor)
    return Unit(key, dimension, exact, Fraction(0), key, key, symbol, {"metric": key}, PLACE)


def number(name: str, unit: str, high: float, *, optional: bool = False) -> Input:
    return Input(
        name=name,
        place=PLACE,
        label=text(name),
        unit=unit,
        limits=Limits(0, high),
        optional=optional,
        whole=name == "rinse_volumes_n",
    )


def quantities() -> list[Quantity]:
    return [
        number("pipe_bore_mm", "mm", 1000),
        number("pipe_length_m", "m", 100),
        number("rinse_volumes_n", "n", 90),
        number("end_pH", "n", 14, optional=True),
        Choice(
            name="rinse_rule",
            place=PLACE,
            label=text("Rule"),
            usual="holdup",
            options={
                code: text(RULES["en"][at], RULES["fr"][at])
                for at, code in enumerate(("holdup", "elements"))
            },
        ),
        Constant(
            name="mm2m_per_L",
            place=PLACE,
            label=text("Factor"),
            unit="n",
            value=1000,
            reference="holdup.MM_PER_M",
        ),
        Result(
            name="pipe_L",
            place=PLACE,
            label=text("Water"),
            unit="n",
            formula="PI()/4*pipe_bore_mm^2*pipe_length_m/mm2m_per_L",
            reference="holdup.full_pipe_L",
        ),
        Check(
            name="rinse_ok",
            place=PLACE,
            label=text("Rinse"),
            formula="rinse_volumes_n>=10",
            level="look",
            reference="rinse.rinse_ok",
        ),
    ]


def small_spec() -> Spec:
    units = [
        unit("mm", "length", "1/1000"),
        unit("in", "length", "0.0254", "po"),
        unit("m", "long"),
        unit("n", "number"),
    ]
    return Spec(
        languages={
            code: Language(code, code, code, "letter", sign, PLACE) for code, sign in SIGNS.items()
        },
        quantities={quantity.name: quantity for quantity in quantities()},
        sheets=[],
        units={item.key: item for item in units},
        sources={},
        words={},
        tables={},
        digest="0123456789ab",
        editions=[
            Edition(version, "0123456789ab", text("More."), PLACE)
            for version in (__version__, "0.0.7", "0.0.6")
        ],
    )


def used(row: int, high: float) -> str:
    return f'=IF(COUNT(E{row})<1,"",IF(OR(E{row}<0,E{row}>{high}),"",E{row}))'


def plain(row: int) -> str:
    return f'=IF(COUNT(B{row})<1,"",B{row}*1)'


FORMULAS = {
    "D2": used(2, 1000),
    "E2": '=IF(COUNT(B2)<1,"",IFERROR(B2*INDEX(Lists!B7:B8,MATCH(C2,Lists!A7:A8,0)),""))',
    "D3": used(3, 100),
    "E3": plain(3),
    "D4": used(4, 90),
    "E4": '=IF(COUNT(B4)<1,"",IF(B4=INT(B4),B4,""))',
    "D5": used(5, 14),
    "E5": plain(5),
    "D6": '=IF(OR(B6="",B6=Lists!A10),"holdup",IF(B6=Lists!A11,"elements",""))',
    "D8": '=IF(COUNT(D2,D3)<2,"",PI()/4*pipe_bore_mm^2*pipe_length_m/mm2m_per_L)',
    "D9": "=IF(COUNT(D4)<1,word_missing_txt,IF(D4>=10,word_ok_txt,word_look_txt))",
    "D10": "=1.008E-14*IF(TRUE,1,0)",
}
NAMES = {
    "pipe_bore_mm": "'Pipe run'!$D$2",
    "pipe_bore_mm_typed": "'Pipe run'!$B$2",
    "pipe_bore_mm_typed_unit": "'Pipe run'!$C$2",
    "pipe_length_m": "'Pipe run'!$D$3",
    "pipe_length_m_typed": "'Pipe run'!$B$3",
    "rinse_volumes_n": "'Pipe run'!$D$4",
    "rinse_volumes_n_typed": "'Pipe run'!$B$4",
    "end_pH": "'Pipe run'!$D$5",
    "end_pH_typed": "'Pipe run'!$B$5",
    "rinse_rule": "'Pipe run'!$D$6",
    "rinse_rule_typed": "'Pipe run'!$B$6",
    "mm2m_per_L": "'Pipe run'!$D$7",
    "pipe_L": "'Pipe run'!$D$8",
    "rinse_ok": "'Pipe run'!$D$9",
    **{f"word_{word}_txt": f"Lists!$A${row}" for row, word in enumerate(WORDS["en"], start=1)},
}


def typed_cells(lang: str) -> Typed:
    return {"B2": 2, "C2": LENGTHS[lang][1], "B3": 10, "B4": 12, "B5": None, "B6": RULES[lang][0]}


def build_small(lang: str, units: str, typed: Typed | None = None) -> bytes:
    first = write_small(lang, units, typed or {}, {})
    return write_small(lang, units, typed or {}, work_out(first))


def work_out(data: bytes) -> dict[str, object]:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "small.xlsx"
        path.write_bytes(data)
        model = ironcalc.load_from_xlsx(str(path))
    model.evaluate()
    places = {cell: openpyxl.utils.cell.coordinate_to_tuple(cell) for cell in FORMULAS}
    return {cell: model.get_cell_value(0, *place) for cell, place in places.items()}


def write_small(lang: str, units: str, typed: Typed, values: dict[str, object]) -> bytes:
    target = io.BytesIO()
    book = xlsxwriter.Workbook(target, {"in_memory": True})
    spec = small_spec()
    facts = {"version": __version__, "specs": spec.digest, "words": digest_words(spec, lang)}
    for key, value in {**facts, "language": lang, "units": units}.items():
        book.set_custom_property(key, value, "text")
    run, lists = (book.add_worksheet(title) for title in SHEETS)
    run.protect()
    lists.protect()
    unlocked = book.add_format({"locked": False})
    run.write("A1", "Pipe")
    run.write("D7", 1000)
    for cell, value in {**typed_cells(lang), **typed}.items():
        run.write(cell, value, unlocked)
    for cell, formula in FORMULAS.items():
        run.write_formula(cell, formula, None, values.get(cell, ""))
    for row, word in enumerate([*WORDS[lang].values(), "", *LENGTHS[lang], "", *RULES[lang]]):
        lists.write(row, 0, word)
    lists.write("B7", 1)
    lists.write("B8", 25.4)
    run.data_validation("C2", {"validate": "list", "source": "=Lists!$A$7:$A$8"})
    bold = book.add_format({"bold": True})
    run.conditional_format(
        "D9", {"type": "cell", "criteria": "==", "value": '"ok"', "format": bold}
    )
    for name, target_cell in NAMES.items():
        book.define_name(name, f"={target_cell}")
    book.close()
    return target.getvalue()
