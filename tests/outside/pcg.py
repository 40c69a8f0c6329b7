"""The key hash written out again, and numpy's PCG64 set to a given state.

Nothing here is taken from the Rust code but its description: SplitMix64 over the key, four words of it as the
seed, state and increment as the PCG paper's 128-bit generator takes them.
"""

import numpy as np

WORD = 2**64
GOLDEN = 0x9E3779B97F4A7C15
# Multiplier of the 128-bit generator. Source: M. E. O'Neill, PCG, HMC-CS-2014-0905.
MULTIPLIER = 0x2360ED051FC65DA44385DF649FCCF645


def mix(z):
    """The output function of SplitMix64. Source: Steele, Lea and Flood, OOPSLA 2014."""
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9 % WORD
    z = (z ^ (z >> 27)) * 0x94D049BB133111EB % WORD
    return z ^ (z >> 31)


def hashed(seed, possession, role, purpose, ordinal, option):
    """Four 64-bit words of a key."""
    stem = mix(mix((seed + GOLDEN) % WORD) ^ (possession * GOLDEN % WORD))
    state = mix(stem ^ (role | purpose << 8 | ordinal << 16 | option << 32))
    words = []
    for _ in range(4):
        state = (state + GOLDEN) % WORD
        words.append(mix(state))
    return words


def started(state, increment):
    """numpy's PCG64 from an initial state and an odd increment: the state is added and stepped once."""
    generator = np.random.PCG64()
    first = ((state + increment) * MULTIPLIER + increment) % 2**128
    generator.state = {
        "bit_generator": "PCG64",
        "state": {"state": first, "inc": increment},
        "has_uint32": 0,
        "uinteger": 0,
    }
    return generator


def of_key(*key):
    """The generator of a key: low word first; the increment is made odd."""
    a, b, c, d = hashed(*key)
    return started(a | b << 64, c | d << 64 | 1)


def of_seed(seed):
    """The generator of the Monte Carlo figures: a state and a stream number."""
    return started(seed, 0x5A6F6E6570726F62 << 1 | 1)
