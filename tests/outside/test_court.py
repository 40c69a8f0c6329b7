"""Court geometry: every rule set is the rule book's, and the books' figures fit together."""

import math

import pytest

from conftest import reference

BOOKS = reference("court")
# The data files are written to the millimetre.
ROUNDING_M = 0.00051

rule_sets = pytest.mark.parametrize("name", BOOKS)


def figures(name):
    return BOOKS[name]["figures"]


def metres(name):
    return {key: figure["m"] for key, figure in figures(name).items() if "m" in figure}


def straight_slack(m):
    """A millimetre of radius or corner moves the end of the straight part by as much as their share of it."""
    straight = m["three_straight"] - m["basket_from_baseline"]
    return 2 * ROUNDING_M * (1 + m["three_radius"] / straight) if straight else 2 * ROUNDING_M


def test_every_bundled_rule_set_has_its_book(ours):
    assert sorted(ours["court"]) == sorted(BOOKS)
    statuses = {figure["status"] for name in BOOKS for figure in figures(name).values()}
    assert statuses == {"read", "secondary", "derived", "memory"}


@rule_sets
def test_metres_are_the_feet_and_inches(name):
    for key, figure in figures(name).items():
        if "ft" in figure:
            feet, inches = figure["ft"]
            assert figure["m"] == pytest.approx((12 * feet + inches) * 0.0254, abs=ROUNDING_M), key


@rule_sets
def test_the_books_figures_fit_together(name):
    m, near = metres(name), lambda x: pytest.approx(x, abs=2 * ROUNDING_M)
    rim = m["rim_inner_diameter"] / 2
    assert m["basket_from_baseline"] == near(m["backboard_from_baseline"] + m["rim_gap_to_backboard"] + rim)
    assert m["free_throw_from_basket"] == near(m["free_throw_from_baseline"] - m["basket_from_baseline"])
    assert m["free_throw_from_backboard"] == near(m["free_throw_from_baseline"] - m["backboard_from_baseline"])
    assert m["three_corner"] == near(m["court_width"] / 2 - m["three_corner_from_sideline"])
    straight = math.sqrt(m["three_radius"] ** 2 - m["three_corner"] ** 2)
    assert m["three_straight"] == pytest.approx(m["basket_from_baseline"] + straight, abs=straight_slack(m))


@rule_sets
def test_the_floor_as_loaded_is_the_books(ours, name):
    m, court = metres(name), ours["court"][name]
    loaded = {
        "court_length": 2 * (court["midcourt_y_m"] - court["baseline_y_m"]),
        "court_width": 2 * court["half_width_m"],
        "lane_width": 2 * court["lane_half_m"],
        "free_throw_from_basket": court["free_throw_y_m"],
        "free_throw_from_baseline": court["free_throw_y_m"] - court["baseline_y_m"],
        "basket_from_baseline": -court["baseline_y_m"],
        "three_radius": court["three_radius_m"],
        "three_corner": court["three_corner_x_m"],
        "three_corner_from_sideline": court["half_width_m"] - court["three_corner_x_m"],
        "three_straight": court["straight_end_y_m"] - court["baseline_y_m"],
    }
    for key, got in loaded.items():
        slack = straight_slack(m) if key == "three_straight" else ROUNDING_M
        assert got == pytest.approx(m[key], abs=slack), key


@rule_sets
def test_the_clocks_as_loaded_are_the_books(ours, name):
    book, court = figures(name), ours["court"][name]
    seconds = lambda key: book[key]["s"] if key in book else None
    for key in ("shot_clock", "shot_clock_rebound", "three_seconds", "closely_guarded"):
        assert court[f"{key}_s"] == seconds(key), key
    if "closely_guarded_within" in book:
        assert court["closely_guarded_m"] == pytest.approx(book["closely_guarded_within"]["m"], abs=ROUNDING_M)
