"""Rows of a made-up season against a table that works them out by columns."""

import iapws
import numpy as np
import pandas as pd
import pytest

from builder.reference.season import entry_row_n

from . import season

ROWS = season.make_season()
WORKED = season.work_out(ROWS)
# the same season as a table, for sums by another route
TABLE = pd.DataFrame(ROWS)
NUMBERS = TABLE.drop(
    columns=["event", "product", "water_kind", "who", "letter", "initials", "note"]
)
T = NUMBERS.astype(float)
EVENT = TABLE["event"]
WASH = EVENT.isin(["alkaline", "acid"])
OWING = WASH | EVENT.eq("first")


def column(name: str) -> pd.Series:
    return pd.Series(WORKED[name], dtype=float)


def assert_same(name: str, expected: pd.Series) -> None:
    pd.testing.assert_series_equal(column(name), expected.astype(float), check_names=False)


def test_flows_of_the_sample_season_agree_with_a_table() -> None:
    drive = T[["feed_bar", "out_bar"]].mean(axis=1, skipna=False) - T["back_bar"].fillna(0)
    kelvin = (T["water_degC"] + 273.15) / 300
    mu = sum(
        a * kelvin**b
        for a, b in zip((280.68, 511.45, 61.131, 0.45903), (-1.9, -7.7, -19.6, -40), strict=True)
    )
    cold, warm = (iapws._iapws._Liquid(t + 273.15, 0.1)["mu"] * 1e6 for t in (9.0, 25.0))
    assert_same("drive_bar", drive)
    assert_same("tcf_n", warm / mu)
    assert_same("flow_pct", T["flow_Lph"] / 15 * (mu / cold) * 16.2 / drive)


def test_rinses_of_the_sample_season_agree_with_a_table() -> None:
    product = T["day_holdup_L"].fillna(109) * T["day_factor_n"].fillna(40)
    of_day = WASH & T[["day_holdup_L", "day_factor_n"]].notna().any(axis=1)
    today = pd.Series(np.where(EVENT.eq("first"), 2900.0, 4360.0)).where(~of_day, product)
    owed = T["day_owed_L"].fillna(today).where(OWING)
    done = T["rinse_L"].fillna(T["rinse_Lpmin"] * T["rinse_min"])
    assert_same("owed_L", owed)
    assert_same("done_L", done)
    assert_same("short_L", (owed - done).clip(lower=0))
    fixed = T["day_owed_L"].notna() | (
        WASH & T[["day_holdup_L", "day_factor_n"]].notna().all(axis=1)
    )
    limits = T[["day_floor_pH", "day_ceiling_pH"]].notna().all(axis=1)
    leans = (OWING & ~fixed) | (EVENT.eq("alkaline") & ~limits)
    assert_same("today_n", leans.astype(float).where(EVENT.notna()))
    assert_same("entry_n", OWING.cumsum())


def test_ranks_of_the_sample_season_agree_with_a_table() -> None:
    begun = TABLE[["day_d", "event", "hours_h", "sap_L", "flow_Lph", "rinse_L", "rinse_min"]]
    alkaline = EVENT.eq("alkaline")
    lacking = (
        TABLE["day_d"].isna().astype(int)
        + EVENT.isna()
        + (OWING & column("done_L").isna())
        + (alkaline & T["begin_pH"].isna())
        + (alkaline & T["finish_pH"].isna())
    ).where(begun.notna().any(axis=1), 0)
    bad = (
        (column("short_L") > 0).astype(int)
        + (alkaline & (T["begin_pH"] > T["day_ceiling_pH"].fillna(11.5)))
        + (alkaline & (T["finish_pH"] < T["day_floor_pH"].fillna(10.5)))
    )
    watch = T["permeate_brix"] > 0.1
    rank = np.select([lacking > 0, bad > 0, watch], [4.0, 3.0, 2.0], 1.0)
    assert_same("lacking_n", lacking)
    assert_same("bad_n", bad)
    assert_same("watch_n", watch)
    assert_same("rank_n", pd.Series(rank).where(begun.notna().any(axis=1)))


def test_the_record_of_the_sample_season_lists_its_sixteen_rinses_in_order() -> None:
    places = [entry_row_n(float(k), WORKED["owing_n"]) for k in range(1, 17)]
    assert places == [place + 1 for place in np.flatnonzero(OWING)]
    with pytest.raises(ValueError, match="more than the rinses owed"):
        entry_row_n(17.0, WORKED["owing_n"])
