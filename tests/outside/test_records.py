"""Records read back by pandas, Polars and DuckDB, and every rate of comparison.csv made of them once more.

The run comes from `tests/outside/run`, which has the program play it.
"""

import csv
import itertools
import os
import pathlib
import re
import runpy
import subprocess
import sys

import duckdb
import pandas
import polars
import pyarrow.dataset
import pyarrow.parquet
import pytest

RESULTS = pathlib.Path(os.environ["ZONEPROBE_RESULTS"])
RESULT = RESULTS / "records"
ROOT = pathlib.Path(__file__).parent.parent.parent
POSSESSIONS = RESULT / "possessions.parquet"
EVENTS = RESULT / "events.parquet"


def rows(name):
    with (RESULT / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.fixture(scope="module")
def database():
    database = duckdb.connect()
    for name in ("possessions", "events"):
        database.execute(f"CREATE VIEW {name} AS SELECT * FROM '{RESULT}/{name}.parquet'")
    return database


def figures(ours):
    """Each column of comparison.csv: what is summed, over what, and the size of one unit."""
    return {column["key"]: column for column in ours["columns"]}


def test_every_rate_of_the_table_is_made_of_the_records(ours, database):
    table = rows("comparison.csv")
    compared = 0
    for key, column in figures(ours).items():
        above, below, scale = column["above"], column["below"], column["scale"]
        over = f"sum({below})" if below else "count(*)"
        # Sums of whole numbers are exact; what is rounded is one product of them, as in the program.
        query = f"SELECT variant, sum({above}), {over} FROM possessions GROUP BY variant"
        found = {variant: (int(a or 0), int(b or 0)) for variant, a, b in database.execute(query).fetchall()}
        for row in table:
            a, b = found[row["variant"].lstrip("'")]
            want = "" if b == 0 else f"{a / b * scale:.6f}"
            assert row[key] == want.replace("-0.000000", "0.000000"), (row["variant"], key)
            compared += 1
    assert compared == len(table) * len(figures(ours)) > 200


def test_pandas_polars_and_duckdb_read_the_same(database):
    for path, name in ((POSSESSIONS, "possessions"), (EVENTS, "events")):
        one, other = pandas.read_parquet(path), polars.read_parquet(path)
        (count,) = database.execute(f"SELECT count(*) FROM {name}").fetchone()
        assert len(one) == len(other) == count > 0
        assert list(one.columns) == other.columns
        for column in other.columns:
            mine, its = one[column].tolist(), other[column].to_list()
            same = [a == b or (pandas.isna(a) and b is None) for a, b in zip(mine, its)]
            assert all(same), (name, column)
        names = [row[0] for row in database.execute(f"DESCRIBE {name}").fetchall()]
        assert names == other.columns
        order = "variant, possession" + (", nth" if name == "events" else "")
        places = [other.columns.index(part) for part in order.split(", ")]
        own = sorted(other.rows(), key=lambda row: [row[place] for place in places])
        assert database.execute(f"SELECT * FROM {name} ORDER BY {order}").fetchall() == own


def test_every_column_says_its_unit_and_meaning_and_the_file_what_it_is():
    for path in (POSSESSIONS, EVENTS):
        schema = pyarrow.parquet.read_schema(path)
        for field in schema:
            assert field.metadata[b"unit"] and field.metadata[b"meaning"].endswith(b"."), field
        told = pyarrow.parquet.read_metadata(path).metadata
        assert b"they do not predict a game" in told[b"note"]
        assert told[b"program"].startswith(b"zoneprobe ") and b"--records events" in told[b"command"]


def test_events_and_possessions_agree(database):
    query = """
      SELECT count(*) FROM possessions AS p JOIN (
        SELECT variant, possession, count(*) FILTER (event = 'pass') AS passes, count(*) FILTER (event = 'shot') AS shots
        FROM events GROUP BY ALL
      ) AS e USING (variant, possession)
      WHERE p.passes = e.passes AND p.shots = e.shots
    """
    assert database.execute(query).fetchone() == database.execute("SELECT count(*) FROM possessions").fetchone()


def queries():
    """The worked queries of the guide, by their headings."""
    guide = (ROOT / "experiments/GUIDE.md").read_text(encoding="utf-8")
    section = guide.split("### Worked queries")[1].split("\n## ")[0]
    return re.findall(r"^\*(.+?)\*.*?```sql\n(.*?)```", section, flags=re.MULTILINE | re.DOTALL)


@pytest.mark.parametrize(("name", "query"), queries())
def test_the_worked_queries_of_the_guide_run(name, query):
    database = duckdb.connect()
    found = database.execute(query.replace("monday/", f"{RESULT}/")).fetchall()
    (clocks,) = database.execute(f"SELECT count(shot_clock_s) FROM '{EVENTS}' WHERE event = 'shot'").fetchone()
    # Not every rule set has a shot clock.
    assert bool(found) == (clocks > 0 or "clock" not in name), name
    assert all(value is not None for row in found for value in row), (name, found[:3])


def test_the_guide_has_the_six_queries():
    assert len(queries()) == 6


def test_the_example_in_python_runs():
    example = ROOT / "experiments/examples/read_records.py"
    told = subprocess.run([sys.executable, example, RESULT], capture_output=True, text=True, check=True).stdout
    read = {}
    for line in told.splitlines():
        cells = [cell.strip() for cell in line.strip("│").split("┆")]
        if len(cells) == 4:
            read[cells[0]] = cells[1:]
    for row in rows("comparison.csv"):
        possessions, open_looks, net_points = read[row["variant"].lstrip("'")]
        assert abs(float(open_looks) - float(row["open_look_rate"])) < 2e-6, told
        assert abs(float(net_points) - float(row["expected_net_points"])) < 2e-6, told
        assert int(possessions) > 1


def plain(rows, columns):
    """Rows with their columns in the order of their names, in one order, what is none as None."""
    order = sorted(columns)
    places = [list(columns).index(name) for name in order]
    keys = [order.index(name) for name in ("variant", "possession")] + ([order.index("nth")] if "nth" in order else [])
    told = ([None if pandas.isna(row[place]) else row[place] for place in places] for row in rows)
    return order, sorted(told, key=lambda row: [row[key] for key in keys])


def by_duckdb(home, name):
    files = home / name / "**" / "*.parquet"
    read = f"read_parquet('{files}', hive_partitioning = true, hive_types_autocast = false)"
    found = duckdb.connect().execute(f"SELECT * FROM {read}")
    return found.fetchall(), [column[0] for column in found.description]


def by_pandas(home, name):
    text = pyarrow.dataset.partitioning(pyarrow.schema([("variant", pyarrow.string())]), flavor="hive")
    found = pandas.read_parquet(home / name, partitioning=text)
    return [tuple(column) for column in zip(*(found[name].tolist() for name in found.columns))], found.columns


def by_polars(home, name):
    example = runpy.run_path(str(ROOT / "experiments/examples/read_records.py"))
    found = example["table"](home, name).collect()
    return found.rows(), found.columns


@pytest.mark.parametrize("reader", [by_duckdb, by_pandas, by_polars])
@pytest.mark.parametrize("name", ["possessions", "events"])
def test_what_is_divided_by_variant_is_read_as_what_stands_in_one_file(reader, name):
    one = polars.read_parquet(RESULTS / "named" / f"{name}.parquet")
    assert set(one["variant"].unique()) == {"a b", "ü, sink_back_m = 0.6", "12", "2026-01-01", "x/y%z"}
    wanted = plain(one.rows(), one.columns)
    assert len(wanted[1]) == len(one) >= 200
    assert plain(*reader(RESULTS / "divided", name)) == wanted


def test_files_of_variants_say_their_units_and_what_they_are():
    files = sorted((RESULTS / "divided").glob("*/variant=*/part-0.parquet"))
    assert len(files) == 10
    for path in files:
        one = RESULTS / "named" / f"{path.parent.parent.name}.parquet"
        schema = pyarrow.parquet.read_schema(one)
        own = pyarrow.parquet.read_schema(path)
        assert own.names == [name for name in schema.names if name != "variant"]
        assert all(own.field(name).equals(schema.field(name), check_metadata=True) for name in own.names)
        told = pyarrow.parquet.read_metadata(path).metadata
        assert b"--records events --divide-records" in told[b"command"]


def told_alike(one, other):
    """The same text, or numbers that differ in the last digits shown: threads add a mean's terms in any order."""
    both = [re.fullmatch(r"\d+\.\d+", text) for text in (one, other)]
    return float(one) == pytest.approx(float(other), abs=2e-6) if all(both) else one == other


def test_the_example_in_python_reads_what_is_divided():
    example = ROOT / "experiments/examples/read_records.py"
    of = lambda result: subprocess.run(
        [sys.executable, example, RESULTS / result], capture_output=True, text=True, check=True
    ).stdout
    # A name that a folder has is a text, in a file it is one of a list; and rows that are alike may change places.
    lines = lambda result: sorted(of(result).replace("│ cat ", "│ str ").splitlines())
    for pair in zip(lines("divided"), lines("named"), strict=True):
        cells = [[cell.strip() for cell in line.strip("│").split("┆")] for line in pair]
        assert all(itertools.starmap(told_alike, zip(*cells, strict=True))), pair
    assert "2026-01-01" in of("divided")
