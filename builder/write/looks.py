"""How cells look: one palette, every pair of colours readable.

The contrast is at least 4.5 to 1 for words, and 3 to 1 for what shows where to type and for tabs.
"""

from builder.plan.lettering import BOLD, FONT, POINTS, SIZES

INK, FAINT, PAPER = "#1B2A2F", "#4A5A60", "#FFFFFF"
BAR, TYPED, RESULT, LINK = "#24505C", "#FFF6D6", "#EAF2F3", "#0B4F8A"
EDGE, RULE = "#5A6B72", "#7B8A91"  # around what is typed; under rows
STATES: dict[str, dict[str, object]] = {
    "ok": {"font_color": "#14532D", "bg_color": "#DDF3E4"},
    "look": {"font_color": "#6B4300", "bg_color": "#FFE9B8"},
    "stop": {"font_color": "#7A1020", "bg_color": "#FBD9DC", "bold": True},
    "missing": {"font_color": "#3D3A6B", "bg_color": "#E4E3F5"},
    "none": {"font_color": FAINT, "bg_color": "#EFEFEF"},
}
SHADES: dict[str, dict[str, object]] = {
    **STATES,
    "example": {"font_color": "#3A2A6B", "bg_color": "#E4E0F2", "bold": True},
    "struck": {"font_color": "#6B6B6B", "italic": True, "font_strikeout": True},
    "faded": {"font_color": "#6A767B", "italic": True},  # what does not apply
}
TABS = {"start": BAR, "type": "#A67C00", "print": "#2F7A4B", "behind": "#77838A"}
SERIES = {
    "main": {"line": {"color": BAR, "width": 2.25}},
    "lower": {"line": {"color": "#8A4B00", "width": 1.5, "dash_type": "dash"}},
    "upper": {"line": {"color": "#7A1020", "width": 1.5, "dash_type": "long_dash"}},
    "open": {"marker": {"type": "circle", "size": 9, "fill": {"color": BAR}}},
    "dots": {"marker": {"type": "circle", "size": 5, "fill": {"color": BAR}}},
    "solid": {"marker": {"type": "square", "size": 9, "fill": {"color": "#8A4B00"}}},
}
BASE = {"font_name": FONT, "font_scheme": False, "font_color": INK, "valign": "vcenter"}
HEAD: dict[str, object] = {"bold": True, "font_color": PAPER, "bg_color": BAR}
NUMBER: dict[str, object] = {"align": "right"}
UNIT: dict[str, object] = {"indent": 1, "align": "left"}
BOX: dict[str, object] = {"border": 1, "border_color": RULE}
FRAME: dict[str, object] = {"bg_color": TYPED, "border": 1, "border_color": EDGE}
UNSEEN = ";;;"  # a code of the formulas; its word, in the reader's language, stands in the same row
DATE = "yyyy-mm-dd;;"  # no date for 0
RULED: dict[str, object] = {"bottom": 1, "bottom_color": RULE}
FRAMED: dict[str, object] = {"border": 1, "border_color": EDGE}
OPEN: dict[str, object] = {"locked": False, **FRAME}

LOOKS: dict[str, dict[str, object]] = {
    "title": {"font_color": BAR},
    "link": {"font_color": LINK, "underline": 1},
    "prose": {},
    "label": {},
    "plain": {},
    "word": {"align": "left"},
    "faint": {"font_color": FAINT},
    "faint_number": {"font_color": FAINT, **NUMBER},
    "faint_code": {"num_format": UNSEEN},
    "faint_wrapped": {"font_color": FAINT, "text_wrap": True},
    "wrapped": {"text_wrap": True},
    "small_wrapped": {"text_wrap": True, "valign": "top"},
    "used_code": {"num_format": UNSEEN},
    "code": {"align": "right"},
    "head": HEAD,
    "head_number": {**HEAD, **NUMBER},
    "head_unit": {**HEAD, **UNIT},
    "head_state": {**HEAD, "align": "left", "indent": 1},
    "typed": {**OPEN, **NUMBER},
    "typed_word": {**OPEN, "align": "left"},
    "typed_sample": FRAME,
    "typed_unit": {**OPEN, **UNIT},
    "typed_date": {**OPEN, "align": "left", "num_format": DATE},
    "date": {"num_format": DATE, **NUMBER},
    "result_date": {"bold": True, "bg_color": RESULT, "num_format": DATE, **NUMBER, **BOX},
    "headline": {"font_color": BAR},
    "sentence": {"text_wrap": True},
    "fault": {"text_wrap": True},
    "caption": {"bg_color": "#EEF4F6", "text_wrap": True},
    "answer": {"align": "left", "indent": 1},
    "answer_word": {"align": "left", "indent": 1, "text_wrap": True},
    "detail": {"align": "left", "indent": 1},
    "card_bearer": {},
    "safety_band": {"font_color": PAPER, "bg_color": "#6E0010"},
    "safety_line": {},
    "card_band": {"font_color": PAPER, "bg_color": BAR},
    "card_line": {},
    "card_number": {**NUMBER, **FRAMED},
    "card_word": {"align": "right", **FRAMED},
    "card_unit": UNIT,
    "strip_number": {**NUMBER, **FRAMED},
    "box": {"align": "left"},
    "unit": UNIT,
    "number": NUMBER,
    "limit": {"font_color": FAINT, **NUMBER},
    "limit_date": {"font_color": FAINT, "num_format": DATE, **NUMBER},
    "constant": NUMBER,
    "working": NUMBER,
    "working_flag": {"num_format": "#,##0.###;-#,##0.###;", **NUMBER},
    "working_word": {"align": "left", "indent": 1},
    "head_wrapped": {**HEAD, "text_wrap": True, "valign": "top"},
    "head_number_wrapped": {**HEAD, **NUMBER, "text_wrap": True, "valign": "top"},
    "result": {"bold": True, "bg_color": RESULT, **NUMBER, **BOX},
    "state": {"align": "left", "indent": 1},  # words that are longer run on to the right
}


def find_font(look: str) -> dict[str, object]:
    """Return the font of a look, in the size and weight by which rows were made high enough."""
    return {**BASE, "font_size": SIZES.get(look, POINTS), "bold": look in BOLD}


def number_format(digits: int | None) -> str:
    """Return the code that shows so many decimals; every program sets its own separators."""
    if digits is None:
        return "General"
    return "#,##0." + "0" * digits if digits else "#,##0"
