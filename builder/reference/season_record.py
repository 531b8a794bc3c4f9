"""Printed record of the rinses that were owed."""

from builder.reference.ranges import require_all, require_columns
from builder.reference.season_log_rinse import short_L

ENOUGH, SHORT, NOT_GIVEN = 1.0, 2.0, 3.0  # states of a rinse (definition of this project)


def entry_row_n(
    row_n: float, log_entry_n_list: list[float | None], log_owing_n_list: list[float | None]
) -> float:
    """Return the log's row of one rinse that was owed.

    Position, from 1, of the owing row that bears the running number, undefined without one.

    Parameters
    ----------
    row_n : float
        Row of the printed record [n], 1 to 1000.
    log_entry_n_list : list of float or None
        Running number of the row's rinse, by row [n], 0 to 1e+06.
    log_owing_n_list : list of float or None
        1 where a rinse is owed, by row [n], 0 to 1.

    Returns
    -------
    float
        Position [n].

    Raises
    ------
    ValueError
        A value lies outside its range, or fewer rinses are owed.

    References
    ----------
    Definition of this project.
    """
    require_all(row_n=row_n)
    require_columns(log_entry_n_list=log_entry_n_list, log_owing_n_list=log_owing_n_list)
    rows = enumerate(zip(log_entry_n_list, log_owing_n_list, strict=True), start=1)
    places = {entry: place for place, (entry, owing) in rows if owing}
    if row_n not in places:
        raise ValueError(f"row_n = {row_n} n is more than the rinses owed")
    return float(places[row_n])


def record_rinse_n(
    entry_row_n: float, log_owed_L_list: list[float | None], log_done_L_list: list[float | None]
) -> float:
    """Return the state of the rinse in one line of the record.

    2 where more than 1e-9 of what is owed is missing, 3 where done is blank, else 1.

    Parameters
    ----------
    entry_row_n : float
        Row of the log that the line shows [n], 1 to 1000.
    log_owed_L_list : list of float or None
        Rinse water owed, by row [L], -1e+15 to 1e+15.
    log_done_L_list : list of float or None
        Rinse water used, by row [L], -1e+15 to 1e+15.

    Returns
    -------
    float
        State [n].

    Raises
    ------
    ValueError
        A value lies outside its range, or the row bears no volume owed.

    References
    ----------
    Definition of this project.
    """
    require_all(entry_row_n=entry_row_n)
    require_columns(log_owed_L_list=log_owed_L_list, log_done_L_list=log_done_L_list)
    rows = enumerate(zip(log_owed_L_list, log_done_L_list, strict=True), start=1)
    volumes = {float(place): pair for place, pair in rows}
    owed_L, done_L = volumes.get(float(entry_row_n), (None, None))
    if owed_L is None:
        raise ValueError(f"entry_row_n = {entry_row_n} n is no row with a volume owed")
    if done_L is None:
        return NOT_GIVEN
    return SHORT if short_L(owed_L, done_L) else ENOUGH
