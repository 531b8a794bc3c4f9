"""French words are judged by the habits of Québec."""

import pytest

from builder.spec.french import lint_french

HARD = "\u00a0"
FINE = (
    "Le pH baisse d’environ 0,03 par degré; est-ce trop? Non!",
    f"Part du volume mort{HARD}: 8{HARD}%, à 14:30",
    f"Le mot «{HARD}perméat{HARD}» est à éviter",
    f"De 2 gal US à 3{HARD}gal imp., gallon américain ou gallon impérial",
    "ASME B36.10M, JCGM 100:2008, phreeqc.dat, tube de 4 po sur 40 po",
    "Organisme de certification, opération, filtration, entendre, drain, moulin",
    "(%)",
    "%",
)
BAD = (
    ("Part : mort", "colon"),
    ("Part: mort", "colon"),
    ("Part :", "colon"),
    ("8 %", "%"),
    ("8%", "%"),
    (f"« gros{HARD}»", "after"),
    (f"«{HARD}gros »", "before"),
    ("Quoi ?", "no space"),
    (f"Quoi{HARD}!", "no space"),
    ("l'eau", "apostrophe"),
    ('le "gros" tuyau', "quotation"),
    ("environ 0.03", "comma"),
    ("20 gal", "gal US"),
    ("20 gallons", "américain"),
    ("300 psi", "lb/po²"),
    ("Perméat", "filtrat"),
    ("agent préservatif", "agent de conservation"),
    ("étalonner, calibrage", "étalonner"),
    ("Drainez le réservoir", "vidanger"),
    ("règle organique", "biologique"),
    ("test à l’eau", "essai"),
    ("contrôler le débit", "régler"),
)


@pytest.mark.parametrize("words", FINE)
def test_good_french_passes(words: str) -> None:
    assert list(lint_french(words)) == []


@pytest.mark.parametrize(("words", "why"), BAD)
def test_bad_french_is_told_why(words: str, why: str) -> None:
    assert any(why in reason for _, reason in lint_french(words))


def test_finding_shows_the_words_around_the_spot() -> None:
    spots = [spot for spot, _ in lint_french("Mesurer le débit du perméat avant de rincer")]
    assert spots == ["le débit du perméat avant de ri"]
