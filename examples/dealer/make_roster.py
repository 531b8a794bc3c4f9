"""Writes roster.csv, forty machines of a dealer that does not exist; every name is made up.

Run `python examples/dealer/make_roster.py > examples/dealer/roster.csv`; it gives the same file
each time.
"""

import csv
import random
import sys
from collections.abc import Iterator

COUNT = 40
SEED = 1846
HEADINGS = [
    "producer",
    "site",
    "machine",
    "language",
    "units",
    "mail",
    "vessels_n",
    "elements_per_vessel_n",
    "vessel_bore_mm [in]",
    "vessel_length_mm",
    "element_diameter_mm",
    "element_length_mm",
    "element_area_m2",
    "core_tube_outer_mm",
    "core_tube_inner_mm",
    "pipe_1_bore_mm",
    "pipe_1_length_m",
    "filter_housings_L",
    "rated_flow_Lph",
    "wash_tank_L",
    "rinse_rule",
]
FIRST = {
    "en": ["Lantern", "Otter", "Fern", "Candle", "Thistle", "Kettle", "Moss", "Wren"],
    "fr": ["Lanterne", "Loutre", "Fougère", "Chandelle", "Épinette", "Bouilloire", "Mésange"],
}
SECOND = {
    "en": ["Drift", "Hollow", "Ladder", "Slope", "Whistle", "Corner"],
    "fr": ["aux-Ombres", "du-Détour", "à-l’Échelle", "des-Brumes", "au-Sifflet", "sous-l’Œil"],
}
PRODUCER = {"en": "{} sugar house", "fr": "Érablière {}"}
SITE = {"en": "Lot {}", "fr": "Rang {}"}
MACHINE = {"en": "Concentrator {}", "fr": "Concentrateur {}"}
# Vessels and elements in each: one to eight elements.
SHAPES = [(1, 1), (2, 1), (3, 1), (4, 1), (2, 2), (1, 4), (6, 1), (2, 4), (8, 1), (7, 1), (5, 1)]


def list_rows() -> Iterator[list[str]]:
    """Yield the rows of the roster."""
    lot = random.Random(SEED)  # noqa: S311 - an example, no secret
    names = {lang: draw_names(lang, lot) for lang in ("en", "fr")}
    for number in range(1, COUNT + 1):
        lang = lot.choice(["fr", "fr", "en"])
        units = lot.choice(["metric", "us"] if lang == "fr" else ["us", "us", "metric", "imperial"])
        about = [
            PRODUCER[lang].format(names[lang].pop()),
            SITE[lang].format(lot.randint(1, 29)),
            MACHINE[lang].format(number),
            lang,
            units,
            f"sugar{number:02d}@example.org",
        ]
        yield about + draw_machine(lot, units)


def draw_names(lang: str, lot: random.Random) -> list[str]:
    """Return every name of a language in a drawn order."""
    join = " " if lang == "en" else "-"
    names = [f"{first}{join}{second}" for first in FIRST[lang] for second in SECOND[lang]]
    lot.shuffle(names)
    return names


def draw_machine(lot: random.Random, units: str) -> list[str]:
    """Return the dimensions of a machine: some in millimetres, some in inches, some unknown."""
    vessels, elements = lot.choice(SHAPES)
    large = vessels * elements > 1 or lot.random() < 0.5
    inches = 8 if large else 4
    length = 1016 * elements + lot.randint(110, 190)
    area = lot.randint(340, 400) if large else lot.randint(78, 90)
    flow = vessels * elements * (1100 if large else 280)
    return [
        str(vessels),
        str(elements),
        lot.choice([f"{inches}", f"{inches * 25.4 + lot.randint(0, 3):.1f} mm"]),
        lot.choice([str(length), f"{length / 25.4:.1f} in"]),
        f"{inches * 25 - lot.randint(0, 2)}",
        lot.choice(["1016", "40 in"]),
        f"{area / 10.764:.1f}" if units == "metric" else f"{area} ft2",
        "29" if large else "19",
        "0.6 in" if units == "us" and not large else ("23" if large else "15"),
        lot.choice(["41", "1.5 in", "52.5"]),
        lot.choice(["4.2", "12 ft", "300 cm", ""]),
        lot.choice(["6.5", "2 gal_us", "0", ""]),
        str(flow) if units == "metric" else f"{round(flow / 3.785412, -1):.0f} gal_us/h",
        f"{vessels * elements * 60}" if units == "metric" else f"{vessels * elements * 16} gal_us",
        lot.choice(["", "elements", "holdup", "larger"]),
    ]


def main() -> None:
    """Write the roster to the standard output."""
    writer = csv.writer(sys.stdout, lineterminator="\n")
    writer.writerow(HEADINGS)
    writer.writerows(list_rows())


if __name__ == "__main__":
    sys.stdout.reconfigure(encoding="utf-8", newline="")
    main()
