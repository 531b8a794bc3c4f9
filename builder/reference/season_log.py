"""One row of the season log: everything worked out from its typed columns."""

from builder.reference.ranges import require_all, require_given
from builder.reference.season_log_event import alkaline_n, entry_n, event_n, owing_n
from builder.reference.season_log_flow import drive_bar, flow_pct, tcf_n
from builder.reference.season_log_rinse import done_L, owed_L, short_L, today_n
from builder.reference.season_log_row import bad_n, begun_n, lacking_n, rank_n, watch_n

__all__ = [
    "alkaline_n",
    "bad_n",
    "begun_n",
    "done_L",
    "drive_bar",
    "entry_n",
    "event_n",
    "flow_pct",
    "lacking_n",
    "low_margin_pH",
    "owed_L",
    "owing_n",
    "rank_n",
    "short_L",
    "tcf_n",
    "today_n",
    "top_margin_pH",
    "watch_n",
]


def top_margin_pH(
    begin_pH: float, ceiling_pH: float, alkaline_n: float, day_ceiling_pH: float | None = None
) -> float:
    """Return how far the start of the wash stays below the ceiling.

    The day's ceiling, or today's, less the reading; undefined but for an alkaline wash.

    Parameters
    ----------
    begin_pH : float
        Reading at the start of the wash [pH], -100 to 100.
    ceiling_pH : float
        Highest pH that the membrane may see, today's [pH], 0 to 14.
    alkaline_n : float
        1 for an alkaline wash [n], 0 to 1.
    day_ceiling_pH : float, optional
        Ceiling that held on the day [pH], -100 to 100.

    Returns
    -------
    float
        Margin [pH].

    Raises
    ------
    ValueError
        A value lies outside its range, or the row is no alkaline wash.

    References
    ----------
    Definition of this project.
    """
    require_all(begin_pH=begin_pH, ceiling_pH=ceiling_pH, alkaline_n=alkaline_n)
    require_given(day_ceiling_pH=day_ceiling_pH)
    if not alkaline_n:
        raise ValueError(f"alkaline_n = {alkaline_n} n: no alkaline wash, top_margin_pH undefined")
    return (ceiling_pH if day_ceiling_pH is None else day_ceiling_pH) - begin_pH


def low_margin_pH(
    finish_pH: float, floor_pH: float, alkaline_n: float, day_floor_pH: float | None = None
) -> float:
    """Return how far the end of the wash stays above the floor.

    The reading less the day's floor, or today's; undefined but for an alkaline wash.

    Parameters
    ----------
    finish_pH : float
        Reading at the end of the wash [pH], -100 to 100.
    floor_pH : float
        Lowest pH at the end of a wash, today's [pH], 0 to 14.
    alkaline_n : float
        1 for an alkaline wash [n], 0 to 1.
    day_floor_pH : float, optional
        Floor that held on the day [pH], -100 to 100.

    Returns
    -------
    float
        Margin [pH].

    Raises
    ------
    ValueError
        A value lies outside its range, or the row is no alkaline wash.

    References
    ----------
    Definition of this project.
    """
    require_all(finish_pH=finish_pH, floor_pH=floor_pH, alkaline_n=alkaline_n)
    require_given(day_floor_pH=day_floor_pH)
    if not alkaline_n:
        raise ValueError(f"alkaline_n = {alkaline_n} n: no alkaline wash, low_margin_pH undefined")
    return finish_pH - (floor_pH if day_floor_pH is None else day_floor_pH)
