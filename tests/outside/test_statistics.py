"""Intervals and p-values: statsmodels, scipy and plain numpy give the same."""

import numpy as np
import pytest
from scipy import special, stats
from scipy.stats import qmc
from statsmodels.stats.contingency_tables import mcnemar
from statsmodels.stats.multitest import multipletests
from statsmodels.stats.power import normal_sample_size_one_tail
from statsmodels.stats.proportion import (
    confint_proportions_2indep,
    proportion_confint,
    samplesize_proportions_2indep_onetail,
)

from conftest import reference

Z = stats.norm.ppf(0.975)
close = dict(rtol=1e-10, atol=1e-12)


def wilson(successes, trials, confidence):
    return proportion_confint(successes, trials, alpha=1 - confidence, method="wilson")


def newcombe(a, n, b, m, confidence):
    return confint_proportions_2indep(a, n, b, m, method="newcomb", compare="diff", alpha=1 - confidence)


def test_quantile_and_cdf(ours):
    for p, x in ours["statistics"]["quantile"]:
        # scipy's cephes is right to about 1 part in 10^15 of x, and loses a digit next to 0.
        assert x == pytest.approx(special.ndtri(p), rel=1e-13, abs=1e-15)
    for x, below, two_sided in ours["statistics"]["cdf"]:
        assert below == pytest.approx(stats.norm.cdf(x), rel=1e-12)
        assert two_sided == pytest.approx(2 * stats.norm.sf(abs(x)), rel=1e-12)


def test_wilson(ours):
    for successes, trials, confidence, (rate, low, high) in ours["statistics"]["wilson"]:
        assert rate == successes / trials
        np.testing.assert_allclose((low, high), wilson(successes, trials, confidence), **close)


def test_newcombe(ours):
    for a, n, b, m, confidence, (difference, low, high) in ours["statistics"]["newcombe"]:
        assert difference == pytest.approx(a / n - b / m, abs=1e-15)
        np.testing.assert_allclose((low, high), newcombe(a, n, b, m, confidence), **close)


def test_holm_and_benjamini_hochberg(ours):
    families = ours["statistics"]["families"]
    for family in families:
        for own, theirs in (("holm", "holm"), ("benjamini_hochberg", "fdr_bh")):
            adjusted = multipletests(family["raw"], method=theirs)[1]
            np.testing.assert_allclose(family[own], adjusted, rtol=1e-14)
        control = stats.false_discovery_control(family["raw"])
        np.testing.assert_allclose(family["benjamini_hochberg"], control, rtol=1e-14)
    assert families[0]["raw"] == [0.01, 0.02, 0.03, 0.04, 0.05]
    np.testing.assert_allclose(families[0]["holm"], [0.05, 0.08, 0.09, 0.09, 0.09], rtol=1e-14)
    np.testing.assert_allclose(families[0]["benjamini_hochberg"], [0.05] * 5, rtol=1e-14)


def test_bootstrap(ours):
    """scipy's documented example (the standard deviation of 100 values of norm(2, 4), 90 %), and two means.

    By the figures that ours has drawn, scipy's BCa interval has the same ends; by its own draws it has them within what
    9,999 draws leave open.
    """
    kinds = {"std": np.std, "mean": np.mean}
    for row in ours["statistics"]["bootstraps"]:
        data, statistic, confidence = (np.array(row["data"]),), kinds[row["statistic"]], row["confidence"]
        estimate, low, high = row["ends"]
        assert estimate == pytest.approx(statistic(data[0]), rel=1e-12)
        own = stats.bootstrap(data, statistic, confidence_level=confidence, method="BCa", rng=np.random.default_rng(1))
        for got, want in zip((low, high), own.confidence_interval):
            assert got == pytest.approx(want, abs=0.05 * (high - low))
        drawn = np.array(row["drawn"])
        assert len(drawn) == 9_999 and drawn.std(ddof=1) == pytest.approx(own.standard_error, rel=0.05)
        own.bootstrap_distribution = drawn
        same = stats.bootstrap(data, statistic, confidence_level=confidence, method="BCa", n_resamples=0, bootstrap_result=own)
        np.testing.assert_allclose((low, high), same.confidence_interval, rtol=1e-9)


def test_sobol_points(ours):
    for points in ours["statistics"]["sobol"]:
        points = np.array(points)
        theirs = qmc.Sobol(points.shape[1], scramble=False).random(len(points))
        np.testing.assert_array_equal(points, theirs)


def test_possessions_for_two_shares(ours):
    for a, b, confidence, power, needed in ours["statistics"]["sizes"]["shares"]:
        theirs = samplesize_proportions_2indep_onetail(a - b, b, power, alpha=1 - confidence, alternative="two-sided")
        assert needed == pytest.approx(theirs, rel=1e-11)
        if (a, b, confidence, power) == (0.50, 0.55, 0.95, 0.8):
            assert round(needed, 1) == 1564.7


def test_possessions_needed(ours):
    for difference, deviation, confidence, power, needed in ours["statistics"]["sizes"]["paired"]:
        theirs = normal_sample_size_one_tail(difference, power, (1 - confidence) / 2, std_null=deviation)
        assert needed == max(2, np.ceil(theirs))


def tables(ours):
    for table in ours["statistics"]["tables"]:
        rows = np.array(table["rows"], float).reshape(len(table["rows"]), table["variants"], 3)
        yield table, {"rate": rows[:, :, 0], "mean": rows[:, :, 2], "above": rows[:, :, 1], "below": rows[:, :, 2]}


def test_means_and_paired_differences_are_scipys(ours):
    for table, data in tables(ours):
        n = len(data["rate"])
        for name in ("rate", "mean"):
            x, figure = data[name], table["figures"][name]
            for variant, ends in enumerate(figure["intervals"]):
                low, high = stats.norm.interval(0.95, x[:, variant].mean(), stats.sem(x[:, variant]))
                np.testing.assert_allclose(ends, (x[:, variant].mean(), low, high), **close)
            for row in figure["differences"]:
                v, w = row["pair"]
                test = stats.ttest_rel(x[:, v], x[:, w])
                error = (x[:, v] - x[:, w]).mean() / test.statistic
                assert row["error"] == pytest.approx(error, rel=1e-10)
                np.testing.assert_allclose(row["ends"][1:], stats.norm.interval(0.95, row["ends"][0], error), **close)
                assert row["p"] == pytest.approx(2 * stats.norm.sf(abs(test.statistic)), rel=1e-9)
                # Student's interval is wider by the ratio of the two quantiles and by nothing else.
                student, normal = np.diff(test.confidence_interval(0.95))[0], np.diff(row["ends"][1:])[0]
                assert student / normal == pytest.approx(stats.t.ppf(0.975, n - 1) / Z, rel=1e-9)
                assert n < 1000 or student / normal < 1.002


def test_paired_rates_agree_with_mcnemar(ours):
    for table, data in tables(ours):
        x, n = data["rate"], len(data["rate"])
        for row in table["figures"]["rate"]["differences"]:
            v, w = row["pair"]
            counts = [[np.sum((x[:, v] == i) & (x[:, w] == j)) for j in (1, 0)] for i in (1, 0)]
            (_, only_v), (only_w, _) = counts
            assert row["ends"][0] == pytest.approx((only_v - only_w) / n, abs=1e-15)
            # McNemar takes the variance as it is if nothing differs, ours as it is: 1/z^2 differs by 1/n.
            chi2 = mcnemar(counts, exact=False, correction=False).statistic
            ours_z2 = (row["ends"][0] / row["error"]) ** 2
            assert (n - 1) / n / ours_z2 == pytest.approx(1 / chi2 - 1 / n, rel=1e-9)


def test_what_pairing_saves_is_the_ratio_of_two_variances(ours):
    for table, data in tables(ours):
        parts = [linear(data["above"][:, v], data["below"][:, v])[1] for v in range(table["variants"])]
        for name, x in (("rate", data["rate"]), ("mean", data["mean"]), ("ratio", np.stack(parts, axis=1))):
            for row in table["figures"][name]["differences"]:
                v, w = row["pair"]
                apart = x[:, v].var(ddof=1) + x[:, w].var(ddof=1)
                assert row["variance_ratio"] == pytest.approx(apart / (x[:, v] - x[:, w]).var(ddof=1), rel=1e-9)


def linear(x, y):
    """The ratio of totals and its linear part in each possession (delta method)."""
    ratio = x.sum() / y.sum()
    return ratio, (x - ratio * y) / y.mean()


def test_ratios_agree_with_the_delta_method_and_the_jackknife(ours):
    for table, data in tables(ours):
        n, figure = len(data["above"]), table["figures"]["ratio"]
        parts = [linear(data["above"][:, v], data["below"][:, v]) for v in range(table["variants"])]
        for variant, (ratio, part) in enumerate(parts):
            error = stats.sem(part)
            ends = ratio, ratio - Z * error, ratio + Z * error
            np.testing.assert_allclose(figure["intervals"][variant], ends, **close)
            # Leaving out one possession at a time shares no formula with the delta method.
            x, y = data["above"][:, variant], data["below"][:, variant]
            left = (x.sum() - x) / (y.sum() - y)
            jackknife = np.sqrt((n - 1) / n * ((left - left.mean()) ** 2).sum())
            assert error == pytest.approx(jackknife, rel=3 / n)
            # A share: Wilson with the number of trials that gives this error.
            trials = ratio * (1 - ratio) / error**2
            np.testing.assert_allclose(table["shares"][variant][1:], wilson(ratio * trials, trials, 0.95), **close)
        for row in figure["differences"]:
            (a, part_a), (b, part_b) = (parts[v] for v in row["pair"])
            error = stats.sem(part_a - part_b)
            np.testing.assert_allclose(row["ends"], (a - b, a - b - Z * error, a - b + Z * error), **close)


def largest(contrasts, draws=200_000, seed=5):
    """The largest |z| of a family under its correlation, by numpy's own normal sampler."""
    correlation = np.corrcoef(contrasts.T)
    values, vectors = np.linalg.eigh(np.atleast_2d(correlation))
    root = vectors * np.sqrt(np.clip(values, 0, None))
    return np.sort(np.abs(np.random.default_rng(seed).standard_normal((draws, len(root))) @ root.T).max(axis=1))


def families(ours):
    for table, data in tables(ours):
        variants = table["variants"]
        ratio = np.stack([linear(data["above"][:, v], data["below"][:, v])[1] for v in range(variants)], axis=1)
        for name, x in (("rate", data["rate"]), ("mean", data["mean"]), ("ratio", ratio)):
            figure = table["figures"][name]
            pairs = [(v, w) for v in range(variants) for w in range(v)]
            for family, which in (("baseline", [(v, 0) for v in range(1, variants)]), ("leader", pairs)):
                yield figure, figure[family], np.stack([x[:, v] - x[:, w] for v, w in which], axis=1)


def test_simultaneous_critical_values_agree_with_a_simulation(ours):
    """Ours is the 95 % quantile of 20,000 draws, numpy's of 200,000: four standard errors of both together."""
    for _, family, contrasts in families(ours):
        z = largest(contrasts)
        place = 0.95 * len(z)
        density = 0.02 / (z[int(place + 0.01 * len(z))] - z[int(place - 0.01 * len(z))])
        error = np.sqrt(0.95 * 0.05 * (1 / 20_000 + 1 / len(z))) / density
        assert error < 0.02
        assert family["critical"] == pytest.approx(z[int(place)], abs=4 * error)
        assert Z <= family["critical"] <= stats.norm.ppf(0.5 + 0.5 * 0.95 ** (1 / contrasts.shape[1]))


def test_simultaneous_critical_values_hold_95_percent_by_integration(ours):
    """Against the baseline the contrasts have a density: scipy integrates it over the box of the intervals."""
    for _, family, contrasts in families(ours):
        if contrasts.shape[1] > 6 or np.linalg.matrix_rank(contrasts) < contrasts.shape[1]:
            continue
        box = np.full(contrasts.shape[1], family["critical"])
        normal = stats.multivariate_normal(cov=np.corrcoef(contrasts.T), maxpts=2_000_000, abseps=1e-5, seed=1)
        # 20,000 draws: a chance of 95 % is known to 0.0015; four of these.
        assert normal.cdf(box, lower_limit=-box) == pytest.approx(0.95, abs=0.0062)


def test_adjusted_p_values_are_the_tail_of_the_same_simulation(ours):
    for figure, family, contrasts in families(ours):
        z = largest(contrasts)
        for variant, adjusted in family["adjusted"]:
            pair = sorted((variant, family["reference"]), reverse=True)
            row = next(row for row in figure["differences"] if row["pair"] == pair)
            tail = np.mean(z >= abs(row["ends"][0]) / row["error"])
            assert adjusted == pytest.approx(tail, abs=4 * np.sqrt(tail * (1 - tail) / 20_000) + 2e-4)


def test_committed_values_are_those_of_the_libraries():
    committed = reference("statistics")
    for row in committed["wilson"]:
        got = wilson(row["successes"], row["trials"], row["confidence"])
        np.testing.assert_allclose(got, (row["low"], row["high"]), atol=5e-13)
    for row in committed["newcombe"]:
        got = newcombe(*row["first"], *row["second"], row["confidence"])
        np.testing.assert_allclose(got, (row["low"], row["high"]), atol=5e-13)
    for row in committed["holm"]:
        np.testing.assert_allclose(multipletests(row["raw"], method="holm")[1], row["adjusted"], atol=1e-15)
    for row in committed["benjamini_hochberg"]:
        np.testing.assert_allclose(multipletests(row["raw"], method="fdr_bh")[1], row["adjusted"], atol=1e-15)
        np.testing.assert_allclose(stats.false_discovery_control(row["raw"]), row["adjusted"], atol=1e-15)
    for row in committed["sizes"]:
        a, b = row["shares"]
        got = samplesize_proportions_2indep_onetail(b - a, a, row["power"], alpha=1 - row["confidence"], alternative="two-sided")
        assert got == pytest.approx(row["possessions"], abs=5e-5)
    for row in committed["sobol"]:
        np.testing.assert_array_equal(qmc.Sobol(len(row["point"]), scramble=False).random(row["nth"] + 1)[-1], row["point"])
    for row in committed["normal"]:
        np.testing.assert_allclose(special.ndtri(row["p"]), row["x"], rtol=1e-14, atol=1e-15)
    sample = committed["sample"]
    rows = np.array(sample["rows"], float)
    test = stats.ttest_rel(rows[:, 2], rows[:, 0])
    assert test.confidence_interval(0.95).low == pytest.approx(sample["student_low"], abs=1e-12)
    difference = (rows[:, 2] - rows[:, 0]).mean()
    got = difference, difference / test.statistic, 2 * stats.norm.sf(abs(test.statistic))
    np.testing.assert_allclose(got, [sample[k] for k in ("difference", "error", "p")], rtol=1e-11)
    ratio, part = linear(rows[:, 0], rows[:, 1])
    np.testing.assert_allclose((ratio, stats.sem(part)), (sample["ratio"], sample["ratio_error"]), rtol=1e-11)


def test_beta(ours):
    for x, a, b, below, low in ours["statistics"]["beta"]:
        assert below == pytest.approx(stats.beta.cdf(x, a, b), rel=1e-9, abs=1e-13)
        assert low == pytest.approx(stats.beta.ppf(0.025, a, b), rel=1e-9, abs=1e-14)


def test_shares_after_a_count(ours):
    """Counts drawn toward a level: a beta distribution before and after, as scipy has it."""
    for made, attempted, share, attempts, (mean, low, high) in ours["statistics"]["counted"]:
        after = stats.beta(made + attempts * share, attempted - made + attempts * (1 - share))
        np.testing.assert_allclose((mean, low, high), (after.mean(), *after.interval(0.95)), **close)


def test_players_play_with_their_share_after_a_count(ours):
    """What a loaded roster plays with, in single precision: the mean of scipy's beta distribution after the count."""
    rows = ours["statistics"]["played"]
    assert len(rows) == 7
    for made, attempted, share, attempts, played in rows:
        after = stats.beta(made + attempts * share, attempted - made + attempts * (1 - share))
        assert played == pytest.approx(after.mean(), rel=1e-6)


def test_counts_after_a_count(ours):
    """What a chart is held against: a beta-binomial count, as scipy has it; half a success and half a failure beforehand."""
    for trials, made, of, mean, (low, high), p in ours["statistics"]["predicted"]:
        after = stats.betabinom(trials, made + 0.5, of - made + 0.5)
        chances = after.pmf(np.arange(trials + 1))
        assert mean == pytest.approx(after.mean(), rel=1e-8)
        # The fewest on either side that leave out no more than 2.5 %.
        below, above = np.cumsum(chances), np.cumsum(chances[::-1])
        assert (low, high) == (np.sum(below <= 0.025), trials - np.sum(above <= 0.025))
        wanted = [chances[chances <= chances[seen] * (1 + 1e-7)].sum() for seen in range(0, trials + 1, 10)]
        np.testing.assert_allclose(p, wanted, rtol=1e-6, atol=1e-12)
