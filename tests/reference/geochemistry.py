"""The published geochemical code, with the chelant that its database lacks."""

from phreeqc import Phreeqc  # type: ignore[import-untyped]

# EDTA is not in phreeqc.dat; values of minteq.v4.dat (NIST46), read
EDTA = """SOLUTION_MASTER_SPECIES
 Edta Edta-4 0.0 288.2 288.2
SOLUTION_SPECIES
 Edta-4 = Edta-4
 log_k 0
 Edta-4 + H+ = HEdta-3
 log_k 10.948
 delta_h -23.430 kJ
 Edta-4 + 2 H+ = H2Edta-2
 log_k 17.221
 delta_h -41.003 kJ
"""
PAIRS = """ Edta-4 + Na+ = NaEdta-3
 log_k 2.7
 delta_h -5.8576 kJ
 Edta-4 + K+ = KEdta-3
 log_k 1.7
"""
OUTPUT = "SELECTED_OUTPUT\n -reset false\n -pH true\n -ionic_strength true\n"
Totals = dict[str, float]  # mol for each kg of water, by element as the code names it


def open_code(*, pairs: str = PAIRS) -> Phreeqc:
    """Return the code with the database that ships with it and the chelant."""
    engine = Phreeqc()
    engine.LoadBuiltInDatabase("phreeqc.dat")
    assert engine.RunString(f"{EDTA}{pairs}{OUTPUT}END\n") == 0
    return engine


def ask_code(engine: Phreeqc, temp: float, totals: Totals) -> tuple[float, float]:
    """Return pH and ionic strength of a solution whose charge decides its pH."""
    return run(engine, f"SOLUTION 1\n pH 11 charge\n{list_totals(temp, totals)}END\n")


def cool(engine: Phreeqc, temp: float, totals: Totals, pH: float, reading: float) -> float:
    """Return the pH at another temperature of a solution that acid has brought to a pH."""
    spent = f"SOLUTION 1\n pH {pH!r}\n{list_totals(temp, totals)} Cl 0.001 charge\n"
    return run(engine, f"{spent}REACTION_TEMPERATURE 1\n {reading!r}\nEND\n")[0]


def list_totals(temp: float, totals: Totals) -> str:
    """Return the lines of a solution, without what it has none of."""
    lines = [f" {name} {amount!r}\n" for name, amount in totals.items() if amount]
    return f" temp {temp!r}\n units mol/kgw\n{''.join(lines)}"


def run(engine: Phreeqc, text: str) -> tuple[float, float]:
    """Return pH and ionic strength of the last state of a text."""
    assert engine.RunString(text) == 0, engine.GetErrorString()
    last = engine.GetSelectedOutputRowCount() - 1
    return tuple(float(engine.GetSelectedOutputValue(last, column)) for column in (0, 1))
