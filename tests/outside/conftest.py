"""What the checks share: the program's own values, and the committed reference values."""

import json
import os
import pathlib
import tomllib

import pytest

REFERENCE = pathlib.Path(__file__).parent.parent / "reference"
LEVELS = sorted(path.stem for path in (REFERENCE.parent.parent / "scenarios/data/levels").glob("*.toml"))


def reference(name):
    """A committed file of reference values; the Rust tests read the same one."""
    return tomllib.loads((REFERENCE / f"{name}.toml").read_text(encoding="utf-8"))


@pytest.fixture(scope="session")
def ours():
    """What the program computes, as `tests/outside/values` printed it."""
    return json.loads(pathlib.Path(os.environ["ZONEPROBE_VALUES"]).read_text(encoding="utf-8"))
