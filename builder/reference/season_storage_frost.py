"""Frost and warmth of the store."""

from builder.reference.ranges import require_all
from builder.reference.verdicts_entries import Verdict, _compared


def frost_gap_degC(storage_temp_degC: float, storage_coldest_degC: float) -> float:
    """Return how far the store stays above its coldest.

    Temperature less coldest, negative where it is colder.

    Parameters
    ----------
    storage_temp_degC : float
        Temperature of the store [degC], -60 to 60.
    storage_coldest_degC : float
        Lowest temperature of the store [degC], -60 to 60.

    Returns
    -------
    float
        Difference [degC].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(storage_temp_degC=storage_temp_degC, storage_coldest_degC=storage_coldest_degC)
    return float(storage_temp_degC - storage_coldest_degC)


def frost_ok(
    storage_temp_degC: float, storage_coldest_degC: float, storage_warmest_degC: float
) -> Verdict:
    """Return whether the store is free of frost and not too warm.

    Stop below the coldest, look above the warmest, else ok, at 15 digits.

    Parameters
    ----------
    storage_temp_degC : float
        Temperature of the store [degC], -60 to 60.
    storage_coldest_degC : float
        Lowest temperature of the store [degC], -60 to 60.
    storage_warmest_degC : float
        Highest temperature of the store [degC], -60 to 60.

    Returns
    -------
    str
        Verdict [ok].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Generic texts on elements in store: never freeze, up to 35 degC (second hand).
    """
    require_all(
        storage_temp_degC=storage_temp_degC,
        storage_coldest_degC=storage_coldest_degC,
        storage_warmest_degC=storage_warmest_degC,
    )
    if _compared(storage_temp_degC) < _compared(storage_coldest_degC):
        return "stop"
    warm = _compared(storage_temp_degC) > _compared(storage_warmest_degC)
    return "look" if warm else "ok"
