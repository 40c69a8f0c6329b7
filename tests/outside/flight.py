"""A ball in the air: the projectile's formulas, and its path with drag by scipy's integrator."""

import math

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from conftest import reference

REFERENCE = reference("flight")
BALL = REFERENCE["ball"]
G = BALL["gravity_m_s2"]
# Deceleration a metre: 1/2 rho C_d A / m.
DRAG = 0.5 * BALL["air_kg_m3"] * BALL["drag_coefficient"] * BALL["section_m2"] / BALL["mass_kg"]


def path(speed, angle, length, drag=DRAG):
    """Time and height, from the release, at which the ball has gone a length along the floor."""

    def motion(_, s):
        v = math.hypot(s[2], s[3])
        return [s[2], s[3], -drag * v * s[2], -G - drag * v * s[3]]

    there = lambda _, s: s[0] - length
    there.terminal = True
    start = [0, 0, speed * math.cos(angle), speed * math.sin(angle)]
    flown = solve_ivp(motion, (0, 30), start, events=there, rtol=1e-9, atol=1e-10)
    return flown.t_events[0][0], flown.y_events[0][0][1]


def needed_speed(angle, length, rise):
    """Release speed that comes to a height at a length, without drag."""
    return math.sqrt(G * length**2 / (2 * math.cos(angle) ** 2 * (length * math.tan(angle) - rise)))


def needed_speed_with_drag(angle, length, rise):
    free = needed_speed(angle, length, rise)
    return brentq(lambda v: path(v, angle, length)[1] - rise, free, 2 * free, xtol=1e-9)


def shot_time(angle, length, rise, drag=DRAG):
    """Flight time of a shot released at an angle."""
    find = needed_speed_with_drag if drag else needed_speed
    return path(find(angle, length, rise), angle, length, drag)[0]


def pass_time(speed, length, rise=0.0, drag=DRAG):
    """Flight time of the flatter of the two paths at a release speed; None if it does not come so far."""
    height = lambda angle: path(speed, angle, length, drag)[1] - rise
    angles = np.radians(np.arange(-10, 50, 2.5))
    for low, high in zip(angles, angles[1:]):
        if height(high) >= 0:
            return path(speed, brentq(height, low, high, xtol=1e-9), length, drag)[0]
    return None
