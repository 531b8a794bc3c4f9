"""Totals of the season log."""

from fractions import Fraction

from builder.reference.ranges import require_columns


def log_entries_n(log_begun_n_list: list[float | None]) -> float:
    """Return the rows that are begun.

    Rows whose flag is 1.

    Parameters
    ----------
    log_begun_n_list : list of float or None
        1 where the row is begun, by row [n], 0 to 1.

    Returns
    -------
    float
        Rows [n].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_columns(log_begun_n_list=log_begun_n_list)
    return float(log_begun_n_list.count(1))


def _as_number(entry: object) -> float | None:
    """Return an entry that is a number; anything else is as if not typed."""
    return entry if isinstance(entry, int | float) and not isinstance(entry, bool) else None


def _require_total(**columns: list[float | None]) -> float:
    """Return the total of the one column given by its name.

    Exact in fractions, row by row; it begins with the first number, so zeros that were typed have
    a total and a column without a number has none.
    """
    (name, column), *_ = columns.items()
    entries = [_as_number(entry) for entry in column]
    require_columns(**{name: entries})
    total: Fraction | None = None
    for entry in entries:
        if entry is not None:
            total = Fraction(entry) + (total or 0)
    if total is None:
        raise ValueError(f"{name} holds no number to total")
    return float(total)


def season_hours_h(log_hours_h_list: list[float | None]) -> float:
    """Return the hours run in the season.

    Sum over the rows that hold a number, undefined where none does.

    Parameters
    ----------
    log_hours_h_list : list of float or None
        Hours run, by row [h], -10000 to 10000.

    Returns
    -------
    float
        Time [h].

    Raises
    ------
    ValueError
        A value lies outside its range, or no row holds a number.

    References
    ----------
    Definition of this project.
    """
    return _require_total(log_hours_h_list=log_hours_h_list)


def season_sap_L(log_sap_L_list: list[float | None]) -> float:
    """Return the sap treated in the season.

    Sum over the rows that hold a number, undefined where none does.

    Parameters
    ----------
    log_sap_L_list : list of float or None
        Sap treated, by row [L], -1e+09 to 1e+09.

    Returns
    -------
    float
        Volume [L].

    Raises
    ------
    ValueError
        A value lies outside its range, or no row holds a number.

    References
    ----------
    Definition of this project.
    """
    return _require_total(log_sap_L_list=log_sap_L_list)


def season_cleaner_kg(log_product_kg_list: list[float | None]) -> float:
    """Return the cleaners used in the season.

    Sum over the rows that hold a number, undefined where none does.

    Parameters
    ----------
    log_product_kg_list : list of float or None
        Cleaner used, by row [kg], -1e+06 to 1e+06.

    Returns
    -------
    float
        Mass [kg].

    Raises
    ------
    ValueError
        A value lies outside its range, or no row holds a number.

    References
    ----------
    Definition of this project.
    """
    return _require_total(log_product_kg_list=log_product_kg_list)


def season_rinse_L(log_done_L_list: list[float | None]) -> float:
    """Return the water used for rinses in the season.

    Sum over the rows that hold a number, undefined where none does.

    Parameters
    ----------
    log_done_L_list : list of float or None
        Rinse water used, by row [L], -1e+15 to 1e+15.

    Returns
    -------
    float
        Volume [L].

    Raises
    ------
    ValueError
        A value lies outside its range, or no row holds a number.

    References
    ----------
    Definition of this project.
    """
    return _require_total(log_done_L_list=log_done_L_list)
