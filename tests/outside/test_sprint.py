"""Sprints: the stepped kernel is the closed form, and the closed form runs the published times."""

import numpy as np
import pytest
from scipy.optimize import brentq

from conftest import reference

COMMITTED = reference("sprint")


def metres(v_max, tau, t):
    """Furusawa, Hill and Parkinson 1927."""
    return v_max * (t - tau * (1 - np.exp(-t / tau)))


def seconds(v_max, tau, distance):
    return brentq(lambda t: metres(v_max, tau, t) - distance, 0, 60, xtol=1e-12)


def test_the_kernel_is_the_closed_form_at_every_step(ours):
    steps = set()
    for sprint in ours["motion"]["sprints"]:
        got = np.array(sprint["metres"])
        t = sprint["step_s"] * np.arange(1, len(got) + 1)
        off = np.abs(got - metres(sprint["v_max_m_s"], sprint["tau_s"], t)).max()
        assert off < 1e-4, f"{off} m off at a step of {sprint['step_s']} s, {sprint['v_max_m_s']} m/s"
        steps.add(round(sprint["step_s"], 4))
    assert steps == {0.0125, 0.025, 0.05, 0.1}


def stepped(ours, v_max, tau, distance, step=0.05):
    """When the stepped sprint crosses a distance, straight between two steps (under a millisecond off)."""
    of = lambda s: (round(s["v_max_m_s"], 4), round(s["tau_s"], 4), round(s["step_s"], 4))
    sprint = next(s for s in ours["motion"]["sprints"] if of(s) == (v_max, tau, step))
    got = np.concatenate([[0.0], sprint["metres"]])
    return np.interp(distance, got, step * np.arange(len(got)))


@pytest.mark.parametrize("split", COMMITTED["splits"]["times"], ids=lambda s: f"{s['m']} m")
def test_national_team_splits(ours, split):
    v_max, tau = COMMITTED["splits"]["v_max_m_s"], COMMITTED["splits"]["tau_s"]
    assert seconds(v_max, tau, split["m"]) == pytest.approx(split["s"], abs=COMMITTED["splits"]["within_s"])
    assert stepped(ours, v_max, tau, split["m"]) == pytest.approx(split["s"], abs=COMMITTED["splits"]["within_s"])


@pytest.mark.parametrize("runner", COMMITTED["short"]["runner"], ids=lambda r: f"{r['v_max_m_s']} m/s")
def test_short_distances(ours, runner):
    v_max, tau = runner["v_max_m_s"], runner["tau_s"]
    arrivals = {(round(v, 4), round(t, 4), m): s for v, t, m, s in ours["motion"]["arrivals"]}
    for m, printed in enumerate(runner["seconds"], 1):
        exact = seconds(v_max, tau, m)
        # Printed to 0.01 s.
        assert exact == pytest.approx(printed, abs=0.0051)
        assert stepped(ours, v_max, tau, m) == pytest.approx(exact, abs=0.003)
        # The table of arrival interpolates between its nodes.
        assert arrivals[v_max, tau, m] == pytest.approx(exact, abs=0.01)


@pytest.mark.parametrize("group", COMMITTED["three_quarter_court"]["group"], ids=lambda g: g["who"])
def test_three_quarter_court(group):
    court = COMMITTED["three_quarter_court"]
    model = seconds(group["v_max_m_s"], court["tau_s"], court["m"]) - court["start_s"]
    assert model == pytest.approx(group["s"], abs=court["within_s"])
