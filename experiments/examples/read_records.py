"""Reads the records of a result: python read_records.py RESULT_DIR

The result comes from `zoneprobe compare ... --records events --out RESULT_DIR`. Needs polars (pip install polars).
A run of many possessions has a folder a variant; both forms are read alike.
"""

import pathlib
import sys

import polars as pl


def table(result, name):
    """The rows of a table, whichever way it is divided into files."""
    one = pathlib.Path(result, f"{name}.parquet")
    if one.exists():
        return pl.scan_parquet(one)
    files = pathlib.Path(result, name, "**/*.parquet")
    # A variant called 12 is no number.
    return pl.scan_parquet(files, hive_partitioning=True, hive_schema={"variant": pl.String})


def main(result):
    possessions, events = table(result, "possessions"), table(result, "events")
    looks = possessions.group_by("variant").agg(
        pl.len().alias("possessions"),
        pl.col("open_look").mean().alias("open looks"),
        pl.col("expected_net_points").mean().alias("net points"),
    )
    print(looks.sort("open looks", descending=True).collect())
    shots = events.filter(pl.col("event") == "shot").group_by("place").agg(
        pl.len().alias("shots"), pl.col("nearest_m").median().alias("space, m")
    )
    print(shots.sort("shots", descending=True).collect())


if __name__ == "__main__":
    main(sys.argv[1])
