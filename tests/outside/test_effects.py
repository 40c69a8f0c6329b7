"""The effects of factors, recomputed by statsmodels: coefficients and errors over cells from the cells' own table, intervals from
the possessions on record or, where cells have possessions of their own, from what the table says of each cell.

The runs come from `tests/outside/run`, which has the program play `tests/outside/questions`.
"""

import csv
import os
import pathlib

import duckdb
import numpy
import pytest
import scipy.stats
import statsmodels.api
import statsmodels.stats.multitest

RESULTS = pathlib.Path(os.environ["ZONEPROBE_RESULTS"])
# Tables have six decimals; a coefficient is a sum of a few dozen of them, each by a weight far below one.
ROUNDED = 5e-6


def rows(result, name):
    with (RESULTS / result / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def own_name(row):
    """The variant's name without that of its cell."""
    return next(part for part in row["variant"].lstrip("'").split(" / ") if part in ("hold", "cross"))


def coded(table, factor, level):
    """The column of one side of an effect: a range from -1/2 to 1/2, or 1 where a factor has the level."""
    values = [own_name(row) if factor == "variant" else row[factor] for row in table]
    if isinstance(level, tuple):
        low, high = level
        return numpy.array([(float(value) - low) / (high - low) - 0.5 for value in values])
    return numpy.array([float(value == level) for value in values])


class Design:
    """A result with the models of its effects: main effects alone, and these with interactions."""

    def __init__(self, name, ranges):
        self.name = name
        self.table = rows(name, "comparison.csv")
        self.effects = rows(name, "effects.csv")
        self.cells = numpy.array([int(row["cell"]) for row in self.table])
        of_one = [row for row in self.effects if row["measure"] == self.effects[0]["measure"]]
        level = lambda factor, to: ranges.get(factor, to)
        self.sides, columns = [], []
        for row in of_one:
            sides = [(row["factor"], row["to"])]
            if row["effect"] == "interaction":
                sides.append((row["second_factor"], row["second_to"]))
            column = numpy.prod([coded(self.table, factor, level(factor, to)) for factor, to in sides], axis=0)
            self.sides.append(tuple(sides))
            columns.append(column)
        constant = numpy.ones(len(self.table))
        main = [column for sides, column in zip(self.sides, columns) if len(sides) == 1]
        self.main = numpy.column_stack([constant, *main])
        self.whole = numpy.column_stack([constant, *columns])

    def model(self, row):
        """The model that an effect is of, and its place among the columns."""
        sides = [(row["factor"], row["to"])]
        if row["effect"] == "interaction":
            sides.append((row["second_factor"], row["second_to"]))
        model = self.whole if row["effect"] == "interaction" else self.main
        return model, 1 + self.sides.index(tuple(sides))

    def figures(self, measure):
        return numpy.array([float(row[measure]) for row in self.table])


@pytest.fixture(scope="module")
def factors():
    return Design("factors", {})


@pytest.fixture(scope="module")
def latin():
    return Design("latin", {"zone.sink_back_m": (0.0, 1.5), "zone.sink_front_m": (0.0, 1.0)})


def check_coefficients(design):
    """Each change is a coefficient, each error over cells that of sums over cells; how many errors were compared."""
    compared = 0
    for row in design.effects:
        model, place = design.model(row)
        fit = statsmodels.api.OLS(design.figures(row["measure"]), model).fit(
            cov_type="cluster", cov_kwds={"groups": design.cells}
        )
        told = (design.name, row["factor"], row["to"], row["second_factor"], row["measure"])
        # Figures and changes of possessions may be in the tens.
        size = ROUNDED * max(1.0, numpy.abs(design.figures(row["measure"])).max())
        assert abs(fit.params[place] - float(row["change"])) < size, told
        has_enough = len(set(design.cells)) > model.shape[1]
        assert has_enough == (row["error_over_cells"] != ""), told
        if has_enough:
            assert abs(fit.bse[place] - float(row["error_over_cells"])) < size, told
            compared += 1
    return compared


def test_coefficients_and_errors_over_cells_are_those_of_least_squares_by_clusters(factors, latin):
    effects = {(row["effect"], row["factor"], row["to"], row["second_factor"], row["second_to"]) for row in factors.effects}
    assert sum(effect[0] == "main" for effect in effects) == 4
    assert sum(effect[0] == "interaction" for effect in effects) == 5
    # Six cells are too few for the errors of ten coefficients.
    assert check_coefficients(factors) >= 4 * 50
    assert len(latin.sides) == 5 + 1 + 2
    assert check_coefficients(latin) == len(latin.effects) >= 8 * 8


def check_interval(row, error, degrees, share=1e-9):
    """Interval and p of an effect, by Student's distribution."""
    change = float(row["change"])
    told = (row["factor"], row["to"], row["second_factor"], row["measure"])
    near = lambda key, want: abs(float(row[key]) - want) < ROUNDED * max(1.0, abs(want)) + share * abs(want)
    assert near("standard_error", error), (told, row["standard_error"], error)
    assert near("degrees_of_freedom", degrees), (told, row["degrees_of_freedom"], degrees)
    half = scipy.stats.t.ppf(0.975, degrees) * error
    assert near("change_low", change - half) and near("change_high", change + half), (told, half)
    if error > 0:
        # What p is of a change is told more finely than the change itself.
        slack = ROUNDED / error + share
        low, high = (2 * scipy.stats.t.sf(abs(change) / error + turn * slack, degrees) for turn in (1, -1))
        assert low - ROUNDED <= float(row["p_value"]) <= min(high, 2.0) + ROUNDED, told


def test_intervals_are_those_of_each_possessions_own_sum(factors, ours):
    database = duckdb.connect()
    variants = [row["variant"].lstrip("'") for row in factors.table]
    means = {column["key"]: column for column in ours["columns"] if not column["below"]}
    compared, ratios = 0, []
    for key, column in means.items():
        found = database.execute(
            f"SELECT variant, possession, {column['above']} FROM '{RESULTS}/factors/possessions.parquet'"
        ).fetchall()
        count = max(possession for _, possession, _ in found) + 1
        values = numpy.zeros((count, len(variants)))
        for variant, possession, value in found:
            values[possession, variants.index(variant)] = float(value) * column["scale"]
        apart = values.var(axis=0, ddof=1)
        for row in (row for row in factors.effects if row["measure"] == key):
            model, place = factors.model(row)
            weights = numpy.linalg.pinv(model)[place]
            own = values @ weights
            error = own.std(ddof=1) / numpy.sqrt(count)
            assert abs(own.mean() - float(row["change"])) < ROUNDED, (key, row["factor"])
            check_interval(row, error, count - 1)
            if row["variance_ratio"]:
                ratio = (weights**2 @ apart) / own.var(ddof=1)
                assert abs(float(row["variance_ratio"]) - ratio) < ROUNDED + 1e-6 * ratio, (key, row["factor"])
                ratios.append(ratio)
            compared += 1
    assert compared == 9 * len(means) and compared > 9 * 50
    assert min(ratios) < max(ratios)


def test_where_cells_have_their_own_possessions_variances_add_up_by_satterthwaite(latin):
    within = {(row["variant"], row["measure"]): float(row["standard_error"]) for row in rows("latin", "differences.csv")}
    z = scipy.stats.norm.ppf(0.975)
    count, cells = 40, sorted(set(latin.cells))
    compared = 0
    for row in latin.effects:
        measure = row["measure"]
        model, place = latin.model(row)
        weights = numpy.linalg.pinv(model)[place]
        parts = []
        for cell in cells:
            one, other = (numpy.flatnonzero(latin.cells == cell)).tolist()
            squares = []
            for v in (one, other):
                figure = latin.table[v]
                if measure.endswith("_rate"):
                    share = float(figure[measure])
                    squares.append(share * (1 - share) / (count - 1))
                else:
                    half = (float(figure[f"{measure}_high"]) - float(figure[f"{measure}_low"])) / 2
                    squares.append((half / z) ** 2)
            names = [latin.table[v]["variant"] for v in (one, other)]
            error = next(within[name, measure] for name in names if (name, measure) in within)
            both = (squares[0] + squares[1] - error**2) / 2
            a, b = weights[one], weights[other]
            parts.append(a * a * squares[0] + b * b * squares[1] + 2 * a * b * both)
        variance = sum(parts)
        degrees = (count - 1) * variance**2 / sum(part**2 for part in parts)
        # Worked out of rounded errors of some hundredths.
        check_interval(row, numpy.sqrt(variance), degrees, share=1e-3)
        compared += 1
    assert compared == len(latin.effects)


@pytest.mark.parametrize("name", ["factors", "latin"])
@pytest.mark.parametrize("column, method", [("p_holm", "holm"), ("p_bh", "fdr_bh")])
def test_corrected_p_are_those_of_statsmodels_over_all_effects(name, column, method):
    ranked = [row for row in rows(name, "effects.csv") if row["measure"] == "expected_net_points"]
    _, adjusted, _, _ = statsmodels.stats.multitest.multipletests([float(row["p_value"]) for row in ranked], method=method)
    for row, want in zip(ranked, adjusted):
        assert abs(float(row[column]) - want) < 1e-5, (row["factor"], row["to"])


def test_bootstrapped_intervals_are_those_that_scipy_draws():
    database = duckdb.connect()
    query = f"SELECT variant, expected_net_points FROM '{RESULTS}/factors/possessions.parquet' ORDER BY variant, possession"
    of_each = {}
    for variant, points in database.execute(query).fetchall():
        of_each.setdefault(variant, []).append(points)
    lines = rows("factors", "bootstrap.csv")
    assert len(lines) == 2 * len(of_each) - 1
    for row in lines:
        # Paired: a possession is drawn with all variants.
        own = numpy.array(of_each[row["variant"].lstrip("'")])
        if row["reference"]:
            own = own - numpy.array(of_each[row["reference"].lstrip("'")])
        drawn = scipy.stats.bootstrap(
            (own,), numpy.mean, n_resamples=9_999, method="BCa", rng=numpy.random.default_rng(1)
        ).confidence_interval
        assert abs(own.mean() - float(row["estimate"])) < ROUNDED
        width = drawn.high - drawn.low
        # Ends of two streams of draws differ by a fiftieth of the width or so; four times that is far from a wrong end.
        for got, want in (("bootstrap_low", drawn.low), ("bootstrap_high", drawn.high)):
            assert abs(float(row[got]) - want) < 0.08 * width, (row["variant"], row["reference"], got)
