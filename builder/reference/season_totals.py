"""Totals of the season log."""

import math

from builder.reference.ranges import require_all, require_columns


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


def _sum_typed(**columns: list[float | None]) -> float:
    """Return the sum of one column, given by its name; refuse one in which nothing was typed."""
    (name, column), *_ = columns.items()
    typed = [value for value in column if value is not None]
    if not typed:
        raise ValueError(f"{name} holds no value")
    return math.fsum(typed)


def season_hours_h(log_entries_n: float, log_hours_h_list: list[float | None]) -> float:
    """Return the hours run in the season.

    Sum of the column, undefined where nothing was typed in it.

    Parameters
    ----------
    log_entries_n : float
        Rows begun [n], 1 to 1e+06.
    log_hours_h_list : list of float or None
        Hours run, by row [h], -10000 to 10000.

    Returns
    -------
    float
        Time [h].

    Raises
    ------
    ValueError
        A value lies outside its range, or nothing was typed.

    References
    ----------
    Definition of this project.
    """
    require_all(log_entries_n=log_entries_n)
    require_columns(log_hours_h_list=log_hours_h_list)
    return _sum_typed(log_hours_h_list=log_hours_h_list)


def season_sap_L(log_entries_n: float, log_sap_L_list: list[float | None]) -> float:
    """Return the sap treated in the season.

    Sum of the column, undefined where nothing was typed in it.

    Parameters
    ----------
    log_entries_n : float
        Rows begun [n], 1 to 1e+06.
    log_sap_L_list : list of float or None
        Sap treated, by row [L], -1e+09 to 1e+09.

    Returns
    -------
    float
        Volume [L].

    Raises
    ------
    ValueError
        A value lies outside its range, or nothing was typed.

    References
    ----------
    Definition of this project.
    """
    require_all(log_entries_n=log_entries_n)
    require_columns(log_sap_L_list=log_sap_L_list)
    return _sum_typed(log_sap_L_list=log_sap_L_list)


def season_cleaner_kg(log_entries_n: float, log_product_kg_list: list[float | None]) -> float:
    """Return the cleaners used in the season.

    Sum over all products, undefined where no mass was typed.

    Parameters
    ----------
    log_entries_n : float
        Rows begun [n], 1 to 1e+06.
    log_product_kg_list : list of float or None
        Cleaner used, by row [kg], -1e+06 to 1e+06.

    Returns
    -------
    float
        Mass [kg].

    Raises
    ------
    ValueError
        A value lies outside its range, or nothing was typed.

    References
    ----------
    Definition of this project.
    """
    require_all(log_entries_n=log_entries_n)
    require_columns(log_product_kg_list=log_product_kg_list)
    return _sum_typed(log_product_kg_list=log_product_kg_list)


def season_rinse_L(log_entries_n: float, log_done_L_list: list[float | None]) -> float:
    """Return the water used for rinses in the season.

    Sum of the column, undefined for an empty log.

    Parameters
    ----------
    log_entries_n : float
        Rows begun [n], 1 to 1e+06.
    log_done_L_list : list of float or None
        Rinse water used, by row [L], -1e+15 to 1e+15.

    Returns
    -------
    float
        Volume [L].

    Raises
    ------
    ValueError
        A value lies outside its range, or the log is empty.

    References
    ----------
    Definition of this project.
    """
    require_all(log_entries_n=log_entries_n)
    require_columns(log_done_L_list=log_done_L_list)
    return math.fsum(value for value in log_done_L_list if value is not None)
