"""The proof goes red when a rate falls below its threshold, or a fault is found."""

from proof.figures import Rate, Section, write_page


def make(*rates, faults=()):
    return Section("Made up", "It holds.", "the rest.", list(rates), faults=list(faults))


def test_a_rate_below_its_threshold_is_a_fault():
    section = make(Rate("mutants named", 98, 100, 0.985))
    assert list(section.list_faults()) == ["Made up: mutants named: 98 of 100 is too few"]


def test_a_rate_at_its_threshold_is_none():
    assert list(make(Rate("mutants named", 197, 200, 0.985)).list_faults()) == []


def test_nothing_tried_is_too_few():
    assert list(make(Rate("cases", 0, 0)).list_faults())


def test_a_fault_counts_whatever_the_rates_say():
    assert list(make(Rate("cases", 1, 1), faults=["broke"]).list_faults()) == ["Made up: broke"]


def test_the_page_tells_versions_claim_and_blind_spot():
    page = write_page([make(Rate("cases", 1, 1))], {"engine": "1.2"})
    assert "engine 1.2" in page
    assert "It cannot see: the rest." in page
    assert "| cases | 1 of 1 | 100% at least |" in page
