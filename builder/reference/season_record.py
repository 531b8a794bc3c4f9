"""Printed record of the rinses that were owed."""

from builder.reference.ranges import require_all, require_columns


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
