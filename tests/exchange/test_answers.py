import pytest

from builder.exchange.answers import Reader, list_answers, list_rest, pick_system, write_topics
from builder.exchange.demo import read_demo
from builder.exchange.machine import Machine, Typed
from builder.exchange.results import work_out
from builder.spec.records import Check, Result


@pytest.fixture
def show(spec):
    """Return a function that gives the lines of some topics of the demo machine, by name."""

    def write(topics, lang="en", units="metric", machine=None):
        found = work_out(machine or read_demo(spec), spec)
        text = write_topics(topics, found, spec, Reader(lang, units))
        return {line.split()[-1]: " ".join(line.split()[:-1]) for line in text.splitlines() if line}

    return write


def test_answers_are_those_of_the_first_sheet_in_its_order(spec):
    topics = list_answers(spec, "fr")
    assert "1. Volume mort" in [topic.heading for topic in topics]
    kinds = ("headline", "figures", "details")
    blocks = [block for block in spec.sheets[0].blocks if block.kind in kinds]
    shown = [block.rows or [step.show for step in block.steps] for block in blocks]
    assert [topic.names for topic in topics] == shown


def test_answers_and_the_rest_are_all_results_and_checks_once(spec):
    shown = [
        n for topic in (*list_answers(spec, "en"), *list_rest(spec, "en")) for n in topic.names
    ]
    wanted = {n for n, q in spec.quantities.items() if isinstance(q, Result | Check)}
    assert len(shown) == len(set(shown))
    assert wanted <= set(shown)


def test_a_line_has_label_value_unit_and_verdict(show, spec):
    lines = show(list_answers(spec, "en"))
    assert lines["wash_start_pH"].startswith("Fresh wash: pH at wash temperature 1")
    assert lines["wash_start_pH"].endswith(" pH ok")
    assert lines["topup_shown_kg"] == "Cleaner to add to restore the wash - not measured"


def test_french_lines_have_a_comma_and_french_words(show, spec):
    lines, rule = show(list_answers(spec, "fr"), lang="fr"), spec.quantities["rinse_rule"]
    assert lines["holdup_adopted_u_L"].startswith("Incertitude type du volume mort ")
    assert "," in lines["wash_start_pH"].split("chaud ")[1]
    assert lines["wash_start_pH"].endswith("pH correct")
    assert lines["rinse_rule"] == f"{rule.label.pick('fr')} {rule.options['larger'].pick('fr')}"


@pytest.mark.parametrize(("units", "shown"), [("metric", "78.66 L"), ("us", "20.78 US gal")])
def test_values_stand_in_the_units_of_the_reader(show, spec, units, shown):
    machine = Machine(
        given={
            "vessels_n": Typed(2, "", "n"),
            "vessel_bore_mm": Typed(206, "", "mm"),
            "vessel_length_mm": Typed(1180, "", "mm"),
        }
    )
    # 2 * pi/4 * 206**2 * 1180 / 1e6 = 78.656 L; a US gallon is 3.785411784 L
    lines = show(list_rest(spec, "en"), units=units, machine=machine)
    assert shown in lines["vessels_water_L"]


@pytest.mark.parametrize(
    ("units", "system"),
    [
        ([], "metric"),
        (["in", "gal_us", "gal_us"], "us"),
        (["in", "gal_imp", "L"], "imperial"),
        (["in", "L", "L"], "metric"),
        (["in", "L"], "metric"),
    ],
)
def test_the_system_of_units_is_that_of_most_values(spec, units, system):
    names = {"in": ["vessel_bore_mm"]}
    volumes = iter(["vessel_ends_L", "pumps_L", "other_holdup_L"])
    given = {
        names[unit][0] if unit in names else next(volumes): Typed(8, "", unit) for unit in units
    }
    assert pick_system(Machine(given=given), spec) == system


def test_stated_units_of_the_reader_go_first(spec):
    given = {"reader_units": Typed(None, "imperial", ""), "pumps_L": Typed(8, "", "gal_us")}
    assert pick_system(Machine(given=given), spec) == "imperial"


def test_a_long_sentence_moves_its_own_line_only(spec):
    text = write_topics(
        list_answers(spec, "en"), work_out(read_demo(spec), spec), spec, Reader("en", "metric")
    )
    longest = {line.split()[-1]: len(line) for line in text.splitlines() if line}
    assert longest["next_wash_unit_n"] > 120
    assert longest["holdup_adopted_L"] < 115
