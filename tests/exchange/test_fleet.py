import pytest

from builder.collection.fleet import Reason, Standing, Urgency
from builder.collection.fleet_words import Wording
from builder.spec.load import find_specs, load_spec
from exchange.collected import DAY, Sample, Shelf, refusal, run

CAUSES = load_spec(find_specs()).causes
URGENCY = tuple(CAUSES)
CALLS = tuple(key for key, cause in CAUSES.items() if cause.urgent)
REASONS = Urgency(CAUSES)
LIMITS = {"flow_wash_pct": 88.0, "flow_stop_pct": 70.0}


def wash(day, **cells):
    return {"day_d": DAY + day, "event": "alkaline", "rank_n": 1.0, **cells}


def judge_events(*events, **values):
    return REASONS.judge(Standing({**LIMITS, **values}, events))


def tell(outlook):
    return [(reason.kind, round(reason.amount, 6)) for reason in outlook.reasons]


@pytest.mark.parametrize(
    ("events", "values", "told"),
    [
        ([wash(0, left_L=120.0)], {}, [("rinse", 120)]),
        ([wash(0, left_L=0.0)], {}, [("nothing", 0)]),
        ([wash(0, low_margin_pH=-0.2)], {}, [("floor", 0.2)]),
        ([wash(0, low_margin_pH=0.0)], {}, [("nothing", 0)]),
        ([run(0, low_margin_pH=-3.0)], {}, [("nothing", 0)]),
        ([run(0)], {"end_floor_ok": "stop", "floor_margin_pH": -0.4}, [("floor", 0.4)]),
        ([wash(0, top_margin_pH=-0.1)], {}, [("ceiling", 0.1)]),
        ([run(0, sugar_row_brix=0.3, sees_n=1.0)], {}, [("sugar", 0.3)]),
        ([run(0)], {"sugar_ok": "stop", "sugar_brix": 0.4}, [("sugar", 0.4)]),
        ([run(0)], {"sugar_ok": "look", "sugar_brix": 0.2}, [("nothing", 0)]),
        ([run(0, tested_pct=87.9)], {}, [("flow", 87.9)]),
        ([run(0, tested_pct=88.0)], {}, [("nothing", 0)]),
        ([run(0)], {"flow_pct": 60.0}, [("flow", 60)]),
        ([run(0)], {"tank_ok": "stop", "soak_ok": "look"}, [("stops", 0)]),
        ([run(0)], {"flow_ok": "stop"}, [("nothing", 0)]),
        ([run(0, left_L=9.0, breach_n=1.0), run(1, left_L=0.0)], {}, [("breach", 9)]),
        ([run(0, rank_n=2.0)], {}, [("unfinished", 0)]),
        ([], {}, [("silent", 0)]),
    ],
)
def test_each_fact_of_log_and_checks_gives_its_reason(events, values, told):
    assert tell(judge_events(*events, **values)) == told


def test_sugar_and_flow_are_judged_by_the_last_measurement():
    sugar = [run(0, sugar_row_brix=0.3, sees_n=1.0), run(1, sugar_row_brix=0.0, sees_n=0.0)]
    flow = [run(2, tested_pct=60.0), run(3, tested_pct=95.0), run(4)]
    outlook = judge_events(*sugar, *flow)
    assert (tell(outlook), outlook.figures["flow"]) == ([("nothing", 0)], 95.0)


def test_flow_in_the_log_comes_before_the_test_sheet():
    assert tell(judge_events(run(0, tested_pct=80.0), flow_pct=99.0)) == [("flow", 80)]


def test_flow_of_the_log_has_its_day_and_flow_of_the_test_sheet_has_none():
    days = [judge_events(run(3, tested_pct=80.0)), judge_events(run(3), flow_pct=80.0)]
    assert [outlook.reasons[0].day for outlook in days] == [DAY + 3, None]


def test_flow_under_the_stop_limit_names_that_limit():
    limits = [judge_events(run(0, tested_pct=flow)).reasons[0].limit for flow in (80.0, 69.0)]
    assert limits == [88, 70]


def test_what_is_left_to_rinse_is_that_of_the_last_row_and_washes_of_the_whole_log_count():
    rows = [wash(n, left_L=short, low_margin_pH=-n / 10) for n, short in ((1, 50.0), (2, 30.0))]
    outlook = judge_events(*rows)
    rinse, floor = outlook.reasons
    assert (rinse.amount, rinse.day, rinse.count) == (30, DAY + 2, 1)
    assert (floor.amount, floor.count) == (0.2, 2)
    assert (outlook.figures["rinse"], outlook.figures["floor"], outlook.last_day) == (
        30,
        -0.2,
        DAY + 2,
    )


def test_margin_of_the_last_wash_is_shown_when_none_was_under_the_floor():
    outlook = judge_events(wash(0, low_margin_pH=0.5), wash(1, low_margin_pH=0.3), run(2))
    assert outlook.figures["floor"] == 0.3


def test_a_machine_without_entries_is_never_called_fine():
    assert [r.kind for r in judge_events(tank_ok="stop").reasons] == ["stops", "silent"]


def test_reasons_stand_in_the_order_of_urgency_and_then_of_size():
    shuffled = [Reason(kind) for kind in reversed(URGENCY)]
    assert [reason.kind for reason in REASONS.sort(shuffled)] == list(URGENCY)
    sizes = REASONS.sort([Reason("rinse", 5.0), Reason("rinse", 50.0)])
    flows = REASONS.sort([Reason("flow", 80.0), Reason("flow", 60.0)])
    assert [r.amount for r in (*sizes, *flows)] == [50, 5, 60, 80]


def test_machines_are_called_in_the_order_of_their_strongest_reason(tmp_path, spec):
    shelf = Shelf(tmp_path, spec)
    error = refusal(str(tmp_path / "a.xlsx"))
    samples = [
        Sample(error=error),
        Sample(title="flow", rows=[run(0, tested_pct=80.0)], given=LIMITS),
        Sample(title="lower", rows=[run(0, tested_pct=75.0)], given=LIMITS),
        Sample(title="fine", rows=[run(0)]),
        Sample(title="silent"),
        Sample(title="both", rows=[wash(0, left_L=9.0, low_margin_pH=-1.0)]),
        Sample(title="more", rows=[wash(0, left_L=90.0)]),
    ]
    for letter, sample in zip("abcdefg", samples, strict=True):
        shelf.put(f"{letter}.xlsx", sample)
    called = [call.machine for call in shelf.read_calls()]
    assert called == ["more", "both", "lower", "flow", "", "silent", "fine"]


@pytest.mark.parametrize(
    ("lang", "reason", "told"),
    [
        (
            "en",
            Reason("rinse", 1297.4, day=DAY, count=2),
            "Still 1297\u00a0L to rinse, 2026-03-01 (2 times in the log)",
        ),
        ("fr", Reason("floor", 0.25), "Lavage fini à 0,25\u00a0pH sous le minimum, sans date"),
        (
            "fr",
            Reason("flow", 79.94, limit=88.0, day=DAY),
            "Débit corrigé à 79,9\u00a0% de la référence, limite de 88,0\u00a0%, 2026-03-01",
        ),
        ("en", Reason("altered", count=3), "Book altered, faults found: 3"),
        (
            "en",
            Reason("stops", names=("rinse_ok", "tank_ok", "core_ok", "soak_ok")),
            "Checks that say stop: {}, {}, {} and 1 more",
        ),
    ],
)
def test_reasons_are_told_in_the_readers_language(spec, lang, reason, told):
    labels = [spec.quantities[name].label.pick("en") for name in reason.names]
    assert Wording(spec, lang).tell_all([reason]) == told.format(*labels)


def test_several_reasons_are_one_text(spec):
    told = Wording(spec, "en").tell_all([Reason("unreadable"), Reason("silent")])
    assert told.startswith("Book cannot be read; no entry in the log")


def test_calls_are_the_first_of_all_reasons():
    assert URGENCY[: len(CALLS)] == CALLS
    order = ("breach", "rinse", "ceiling", "sugar", "flow", "floor", "altered", "unreadable")
    assert tuple(call for call in CALLS if call in order) == order
    assert CALLS[-1] == "stops"
