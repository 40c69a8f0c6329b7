"""Random streams: numpy's PCG64 gives the same words, and the numbers made of them are the textbook's."""

import numpy as np
import pytest
from scipy.special import ndtri

import pcg
from conftest import reference

HALF_CELL = np.float32(0.5 / 2**24)


def test_every_keyed_draw_is_the_first_word_of_numpys_pcg64(ours):
    rows = ours["streams"]["raw"]
    assert len(rows) >= 5000
    wrong = [row for row in rows if int(pcg.of_key(*row[:6]).random_raw()) != row[6]]
    assert not wrong, f"{len(wrong)} of {len(rows)} differ, the first is {wrong[0]}"


def drawn(numbers, kind):
    """Our values of a kind, with the uniforms that numpy's words give for the same keys, in single precision."""
    part = numbers[kind]
    option = (lambda event: event % 9) if kind == "gumbel" else (lambda event: 0)
    key = (numbers["seed"], numbers["possession"], numbers["role"], part["purpose"])
    words = [int(pcg.of_key(*key, n, option(n)).random_raw()) for n in range(len(part["values"]))]
    return np.array(part["values"]), np.array([w >> 40 for w in words], np.float32) / np.float32(2**24)


def test_uniforms_are_the_top_24_bits(ours):
    for numbers in ours["streams"]["numbers"]:
        got, uniform = drawn(numbers, "uniform")
        np.testing.assert_array_equal(got, uniform.astype(float))


def test_normals_are_quantiles_of_the_uniforms(ours):
    """To single precision, but for the outer middle: there sums of large terms cancel, and of all 2^24 cells the
    worst, near 1.95, is 3.8e-4 off, which a draw of chance does not feel."""
    for numbers in ours["streams"]["numbers"]:
        got, uniform = drawn(numbers, "normal")
        exact = ndtri((uniform + HALF_CELL).astype(float))
        off, size = np.abs(got - exact), np.abs(exact)
        # The approximation's tail begins at 1.9728.
        assert np.all(off[size < 1] < 3e-6)
        assert np.all(off[size < 1.9735] < 3.8e-4)
        assert np.all(off[size > 1.9735] < 2e-6 * size[size > 1.9735])


def test_gumbels_are_inverted_from_the_uniforms(ours):
    for numbers in ours["streams"]["numbers"]:
        got, uniform = drawn(numbers, "gumbel")
        # Near 1 the inner logarithm holds few digits of 1 - u: an error of one rounding of u, seen through both.
        p = (uniform + HALF_CELL).astype(float)
        slack = 4e-7 * (1 + 1 / np.abs(np.log(p)))
        assert np.all(np.abs(got + np.log(-np.log(p))) < slack)


def test_the_monte_carlo_generator_is_pcg64_over_many_draws(ours):
    for generator in ours["streams"]["generators"]:
        words = pcg.of_seed(generator["seed"]).random_raw(len(generator["uniform"]))
        uniform = ((words >> np.uint64(12)).astype(float) + 0.5) / 2.0**52
        np.testing.assert_array_equal(generator["uniform"], uniform)
        np.testing.assert_allclose(generator["normal"], ndtri(uniform), rtol=1e-14, atol=1e-15)


def test_committed_words_are_numpys():
    committed = reference("streams")
    for draw in committed["draw"]:
        key = [int(draw[k], 16) for k in ("seed", "possession")]
        key += [draw[k] for k in ("role", "purpose", "ordinal", "option")]
        word = int(pcg.of_key(*key).random_raw())
        assert word == int(draw["bits"], 16), draw
        p = (word >> 40) / 2**24
        assert p == draw["uniform"]
        assert ndtri(p + 0.5 / 2**24) == pytest.approx(draw["normal"], abs=1e-9)
        assert -np.log(-np.log(p + 0.5 / 2**24)) == pytest.approx(draw["gumbel"], abs=1e-9)
    for generator in committed["generator"]:
        words = pcg.of_seed(int(generator["seed"], 16)).random_raw(len(generator["words"]))
        assert [int(word) for word in words] == [int(word, 16) for word in generator["words"]]
