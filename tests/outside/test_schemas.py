"""The JSON Schemas: valid by their own standard, kept by every bundled file and example, broken by broken files."""

import json
import pathlib
import tomllib

import jsonschema
import pytest

SCENARIOS = pathlib.Path(__file__).parent.parent.parent / "scenarios"
SCHEMAS = {path.name.split(".")[0]: path for path in sorted((SCENARIOS / "schemas").iterdir())}
# The folder of a bundled file says what kind it is.
KINDS = {
    "scenarios": "scenario",
    "experiments": "experiment",
    "zones": "zone",
    "attacks": "attack",
    "routes": "route",
    "plans": "plan",
    "levels": "level",
    "rules": "rules",
    "posts": "option",
    "guards": "option",
    "worth": "worth",
}
EXAMPLES = {
    "seam-drop": "route",
    "elbow-step": "option",
    "high-and-low": "attack",
    "pinched-122": "zone",
    "our-night": "scenario",
    "our-question": "experiment",
}
SCENARIO = """name = "small"
rules = "us-high-school"
level = { attack = "high-school", defence = "high-school" }
attack = { use = "rover" }
"""
ROUTE = "[[program]]\n[[program.step]]\n"
WORTH = (SCENARIOS / "data" / "worth" / "pro-worth.toml").read_text(encoding="utf-8")
RULES = (SCENARIOS / "data" / "rules" / "us-high-school.toml").read_text(encoding="utf-8")
BROKEN = [
    ("scenario", SCENARIO + "[zone]\nuse = '1-2-2'\nsnik_back_m = 1.0\n"),
    ("scenario", SCENARIO + "[zone]\nuse = '1-2-2'\nsink_back_m = 4.0\n"),
    ("scenario", SCENARIO + "[zone]\nuse = '1-2-2'\nsink_back_ft = 6.0\n"),
    ("scenario", SCENARIO + "[zone]\nuse = '1-2-2'\nsink_back_m = 1.0\nsink_back_ft = 3.0\n"),
    ("scenario", SCENARIO + "zone = { use = '1-2-2' }\nlimits.frozen_zone = 1\n"),
    ("scenario", "name = 'x'\n"),
    ("experiment", "scenario = 'sunken-122'\npossessions = 0\n"),
    ("experiment", "scenario = 'sunken-122'\n[[variant]]\nset = {}\n"),
    ("route", ROUTE + "to = { floor = [1.0, 2.0], seal = true }\n"),
    ("route", ROUTE + "to = { by_post = 'near' }\n"),
    ("route", ROUTE + "to = { home = true }\npace = 'run'\n"),
    ("route", ROUTE + "to = { seal = false }\n"),
    ("route", ROUTE + "to = { seam = ['near wing'] }\n"),
    ("route", ROUTE + "to = { home = true }\n[[program.when]]\nback_out = false\n"),
    ("route", ROUTE + "to = { home = true }\n[[program.when]]\nstands = { home = true }\nwithin_m = 0.05\n"),
    ("worth", WORTH.replace("miss = [", "miss = [0.1, ", 1)),
    ("worth", WORTH.replace("little = [\n", "little = [[],\n", 1)),
    ("rules", RULES.replace("no_charge_radius_m", "no_charge_radius_cm", 1)),
    ("zone", "[positions]\nfront = [1]\n"),
    ("level", "[body]\nmass_kg = 80.0\n"),
    ("rules", "[floor]\nlane_width_m = 12\n"),
]


def faults(kind, text):
    schema = json.loads(SCHEMAS[kind].read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    return [error.message for error in jsonschema.Draft202012Validator(schema).iter_errors(tomllib.loads(text))]


def test_every_kind_of_file_has_its_schema():
    assert sorted(SCHEMAS) == sorted(set(KINDS.values()))


@pytest.mark.parametrize("path", sorted((SCENARIOS / "data").rglob("*.toml")), ids=lambda path: path.stem)
def test_a_bundled_file_holds_to_its_schema(path):
    assert faults(KINDS[path.parent.name], path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("path", sorted((SCENARIOS / "examples").glob("*.toml")), ids=lambda path: path.stem)
def test_an_example_holds_to_its_schema(path):
    assert faults(EXAMPLES[path.stem], path.read_text(encoding="utf-8")) == []


def test_what_the_broken_files_are_made_from_is_sound():
    assert faults("scenario", SCENARIO + "zone = { use = '1-2-2' }\n") == []
    assert faults("route", ROUTE + "to = { home = true }\n[[program.when]]\nback_out = true\n") == []


@pytest.mark.parametrize("left_out", ["anchors", "on_ball"])
def test_a_zone_has_places_and_on_ball_defenders_or_men_to_mark_and_not_both(left_out):
    zones = SCENARIOS / "data" / "zones"
    placed, marked = [(zones / f"{name}.toml").read_text(encoding="utf-8") for name in ("1-2-2", "man-to-man")]
    row = next(line for line in placed.splitlines() if line.startswith(f"{left_out} = "))
    without = placed.replace(f"{row}\n", "", 1)
    marks = marked[marked.index("[marks]") : marked.index("[positions]")]
    without_marks = marked.replace(marks, "")
    assert faults("zone", placed) == faults("zone", marked) == []
    assert faults("zone", without) and faults("zone", without_marks) and faults("zone", placed + marks)
    assert faults("zone", marked.replace("[rows.top]\n", f"[rows.top]\n{row}\n", 1))


@pytest.mark.parametrize(("kind", "text"), BROKEN)
def test_a_broken_file_does_not_hold_to_its_schema(kind, text):
    assert faults(kind, text)
