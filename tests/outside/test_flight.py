"""Shots and passes in the air: the printed rows, and the engine's times against paths without and with drag.

The engine's fixed step is 0.05 s: nobody acts between two steps, so a flight time that is off by less cannot be
seen, and that is the tolerance against drag. Against its own law a time must hold to 0.001 s.
"""

import math

import pytest

from conftest import LEVELS, reference
from flight import BALL, G, needed_speed, needed_speed_with_drag, pass_time, path, shot_time

REFERENCE = reference("flight")
STEP = REFERENCE["tolerance"]["step_s"]
SHOT = REFERENCE["engine_shot"]

rows = pytest.mark.parametrize("row", REFERENCE["shots"]["row"], ids=lambda row: row["what"])
thrown = pytest.mark.parametrize("thrown", REFERENCE["thrown"], ids=lambda t: f"{t['level']} {t['kind']}")


@rows
def test_printed_rows_are_the_projectile(row):
    rise, length = BALL["rim_m"] - row["release_m"], row["m"]
    angle = math.radians(45) + 0.5 * math.atan(rise / length)
    speed = math.sqrt(G * (rise + math.hypot(rise, length)))
    assert speed == pytest.approx(needed_speed(angle, length, rise), rel=1e-12)
    # No other angle needs less.
    assert all(needed_speed(angle + off, length, rise) > speed for off in (-0.01, 0.01))
    time = length / (speed * math.cos(angle))
    entry = math.atan2(G * time - speed * math.sin(angle), speed * math.cos(angle))
    assert entry == pytest.approx(math.pi / 2 - angle, rel=1e-12)
    assert path(speed, angle, length, drag=0) == pytest.approx((time, rise), rel=1e-7)
    apex = row["release_m"] + (speed * math.sin(angle)) ** 2 / (2 * G)
    assert speed == pytest.approx(row["v_min"], abs=0.00051)
    assert math.degrees(angle) == pytest.approx(row["angle"], abs=0.0051)
    assert math.degrees(entry) == pytest.approx(row["entry"], abs=0.0051)
    assert time == pytest.approx(row["flight_s"], abs=0.00051)
    assert apex == pytest.approx(row["apex_m"], abs=0.0051)
    for degrees in (52, 55):
        assert needed_speed(math.radians(degrees), length, rise) == pytest.approx(row[f"v{degrees}"], abs=0.00051)
    assert needed_speed_with_drag(angle, length, rise) / speed - 1 == pytest.approx(row["drag"], abs=0.00051)


def our_shots(ours):
    return dict(ours["flight"]["shot"])


def test_the_engines_shot_is_its_stated_arc(ours):
    angle = math.radians(SHOT["angle"])
    for metres, seconds in our_shots(ours).items():
        if metres < 1.5:
            assert seconds == pytest.approx(SHOT["shortest_s"], abs=1e-6)
        else:
            free = shot_time(angle, metres, SHOT["rise_m"], drag=0)
            assert seconds == pytest.approx(free, abs=REFERENCE["tolerance"]["law_s"]), f"from {metres} m"


def test_the_engines_shot_is_within_a_step_of_the_path_with_drag(ours):
    shots, angle = our_shots(ours), math.radians(SHOT["angle"])
    for time in SHOT["times"]:
        assert shot_time(angle, time["m"], SHOT["rise_m"], drag=0) == pytest.approx(time["free_s"], abs=6e-5)
        assert shot_time(angle, time["m"], SHOT["rise_m"]) == pytest.approx(time["drag_s"], abs=6e-5)
        short = time["drag_s"] - shots[time["m"]]
        assert (abs(short) > STEP) == time["off"], f"{short:.3f} s short from {time['m']} m"


def between(ours, metres):
    """Our time at any distance; the printed distances are a quarter of a metre apart."""
    shots = our_shots(ours)
    low = math.floor(metres * 4) / 4
    return shots[low] + (shots[low + 0.25] - shots[low]) * (metres - low) * 4


@rows
def test_the_engines_shot_is_within_a_step_of_measured_arcs(ours, row):
    """At the angles measured near and far, with drag, from the row's own release height."""
    rise = BALL["rim_m"] - row["release_m"]
    measured = REFERENCE["measured"]
    group = measured["near"] if row["m"] <= measured["near"]["to_m"] else measured["far"]
    low, high = (shot_time(math.radians(group[end]), row["m"], rise) for end in ("low", "high"))
    assert low - STEP <= between(ours, row["m"]) <= high + STEP, f"measured {low:.3f} to {high:.3f} s"


def our_pass(ours, level, kind):
    return next(p for p in ours["flight"]["passes"] if (p["level"], p["kind"]) == (level, kind))


def short_of_drag(metres, seconds, speed, rise):
    """How much less the engine takes than the path with drag; without end if no ball comes so far."""
    flown = pass_time(speed, metres, rise)
    return math.inf if flown is None else flown - seconds


def test_committed_passes_are_the_paths():
    for cell in REFERENCE["passes"]["cell"]:
        for key, drag in (("free_s", {"drag": 0}), ("drag_s", {})):
            flown = pass_time(cell["speed"], cell["m"], **drag)
            assert (flown is None) == (key not in cell), cell
            assert flown is None or flown == pytest.approx(cell[key], abs=6e-5), cell


def chosen(found, lengths_m):
    """The lengths at which a passer may choose a pass, and its times."""
    low, high = lengths_m
    return [(m, s) for m, s in found["times"] if low <= m <= min(high, found["reach_m"])]


LENGTHS = {t["kind"]: t["lengths_m"] for t in REFERENCE["thrown"]}


@pytest.mark.parametrize("kind", LENGTHS)
@pytest.mark.parametrize("level", LEVELS)
def test_a_pass_is_good_over_every_length_at_which_it_is_chosen(ours, level, kind):
    found = our_pass(ours, level, kind)
    rise = found["catch_height_m"] - found["release_height_m"]
    times = chosen(found, LENGTHS[kind])
    assert len(times) > 15
    # Every half metre, and the longest, where the path is steepest.
    for metres, seconds in times[::2] + times[-1:]:
        short = short_of_drag(metres, seconds, found["speed_m_s"], rise)
        assert abs(short) <= STEP, f"{short:.3f} s too quick at {metres} m"


@thrown
def test_a_pass_is_thrown_as_far_as_stated(ours, thrown):
    assert our_pass(ours, thrown["level"], thrown["kind"])["reach_m"] == thrown["reach_m"]


def test_speeds_of_passes_lie_in_their_bands(ours):
    for entry in REFERENCE["thrown"] + REFERENCE["mean_speed"]:
        low, high = entry["band_m_s"]
        assert low <= our_pass(ours, entry["level"], entry["kind"])["speed_m_s"] <= high, entry


def test_a_bounce_and_a_lob_take_their_length_at_their_mean_speed(ours):
    mean = [p for p in ours["flight"]["passes"] if p["kind"] in ("bounce", "lob")]
    assert len(mean) == 2 * len(LEVELS)
    for entry in mean:
        for metres, seconds in entry["times"]:
            assert seconds == pytest.approx(metres / entry["speed_m_s"], rel=1e-6)
