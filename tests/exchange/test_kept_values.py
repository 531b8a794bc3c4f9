"""Values that an older log kept become lines in force, and none of them is lost silently."""

import pytest

from builder.renewal.kept import KeptValues, make_lines

WHOLE = {"line_rinse_L": 3800.0, "line_floor_pH": 11.4, "line_ceiling_pH": 12.4}
TODAY = {"first_rinse_owed_L": 2520.0}


class Listener:
    """Takes down what is told."""

    def __init__(self, spec):
        self.spec, self.told = spec, []

    def tell(self, fate, _place, name, text):
        self.told.append((fate, name, text))

    def drop(self, _place, name, text):
        self.tell("dropped", "", name, text)


@pytest.fixture
def lay(spec):
    """Return a function that makes lines of rows, each with its day, and what was told."""

    def call(rows, system="metric"):
        source = Listener(spec)
        places = {n: [(f"A{n}", f"row {n}")] for n in range(1, len(rows) + 1)}
        kept = KeptValues(
            source, spec.renaming, 40.0, dict(enumerate([r for _, r in rows], 1)), places
        )
        days = {n: day for n, (day, _) in enumerate(rows, 1)}
        return make_lines(kept, days, TODAY, system), source.told

    return call


def test_equal_values_make_one_line_and_others_the_next(lay):
    rows = [(46000.0, WHOLE), (46001.0, WHOLE), (46002.0, {**WHOLE, "line_rinse_L": 4000.0})]
    lines, told = lay(rows)
    assert [line["line_date"] for line in lines] == [46000, 46002]
    assert lines[0] == {"line_date": 46000, "line_first_L": 2520, **WHOLE}
    assert [text.split()[1] for _, _, text in told] == ["1", "1", "2"]


def test_hold_up_times_factor_is_the_rinse_where_none_was_kept(lay):
    row = {**WHOLE, "line_rinse_L": None, "line_holdup_L": 100.0, "line_factor_n": 41.0}
    assert lay([(46000.0, row)])[0][0]["line_rinse_L"] == 4100


@pytest.mark.parametrize("lack", ["line_rinse_L", "line_floor_pH", "line_ceiling_pH"])
def test_what_makes_no_line_is_told_row_by_row(lay, lack):
    row = {key: value for key, value in WHOLE.items() if key != lack}
    lines, told = lay([(46000.0, row)])
    assert (lines, [fate for fate, _, _ in told]) == ([], ["dropped"])


def test_a_row_without_a_later_day_makes_no_line(lay):
    other = {**WHOLE, "line_rinse_L": 4000.0}
    lines, told = lay([(46000.0, WHOLE), (46000.0, other), (None, other)])
    assert (len(lines), [fate for fate, _, _ in told]) == (1, ["moved", "dropped", "dropped"])


def test_a_line_stands_in_the_units_of_the_book(lay):
    # 1 US gal = 3.785411784 L
    line = lay([(46000.0, WHOLE)], "us")[0][0]
    assert line["line_rinse_L"] == pytest.approx(3800 / 3.785411784)


def test_there_are_never_more_lines_than_the_table_has(lay):
    rows = [(46000.0 + n, {**WHOLE, "line_rinse_L": 4000.0 + n}) for n in range(10)]
    lines, told = lay(rows)
    assert (len(lines), sum(fate == "dropped" for fate, _, _ in told)) == (8, 2)
