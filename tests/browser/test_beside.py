"""Two films of one possession stand on one clock, and the page says where they part.

What it has caught: nothing yet.
"""

import re

import pytest
from conftest import grave_faults, play_out, scrolls_sideways
from test_film import frame, last, plays, seek, told_by

PARTS = re.compile(r"The two part at (\d+\.\d) s")


@pytest.fixture
def beside(program):
    arguments = ["--seed", "1", "--possession", "17", "--variant", "seam-cross", "--beside", "hold-wing"]
    return program.build("film", "routes-against-sink", *arguments)


def places(page, nth: int) -> list[str]:
    return page.evaluate(
        "(nth) => [...document.querySelectorAll(`#floor-${nth} .mark`)].map((mark) => mark.getAttribute('transform'))", nth
    )


def test_both_are_one_until_they_part(beside, visit):
    page = visit(beside.folder / "film.html")
    parting = page.locator("#parting button").first
    said = float(PARTS.search(parting.inner_text()).group(1))
    told = re.sub(r"\s+", " ", beside.told)
    for sentence in page.locator("#parting li").all_inner_texts():
        assert sentence in told, "the terminal says the same"
    assert places(page, 0) == places(page, 1), "they start as one"
    parting.click()
    at = frame(page)
    assert abs(at * 0.05 - said) < 0.051
    assert places(page, 0) != places(page, 1)
    seek(page, last(page))
    assert places(page, 0) != places(page, 1)


def test_one_clock_plays_both_to_their_ends(beside, visit):
    page = visit(beside.folder / "film.html", still=False, clocked=True)
    page.locator("#frozen").uncheck()
    page.select_option("#speed", "4")
    assert plays(page)
    play_out(page.locator("#play"))
    assert frame(page) == last(page)
    for nth in [0, 1]:
        assert "the end: " in page.locator(f"#here-{nth}").inner_text()


def test_each_tells_what_the_terminal_tells(beside, visit):
    page = visit(beside.folder / "film.html")
    page.select_option("#tier", "thoughts")
    both, *alone = re.split(r"\nBoth, until they part:\n|\nWith [\w-]+:\n", beside.told)[1:]
    for nth, own in enumerate(alone):
        rows = page.locator(f"#trace-{nth} button")
        shown = [
            (when.removesuffix(" s"), what)
            for when, what in zip(rows.locator(".when").all_inner_texts(), rows.locator(".what").all_inner_texts())
        ]
        assert shown == told_by(both) + told_by(own)


def test_keys_events_and_links_work_for_both(beside, visit):
    page = visit(beside.folder / "film.html")
    page.keyboard.press("End")
    assert frame(page) == 0, "keys are the page's own until the floors have the focus"
    page.locator("#floor-1").click(position={"x": 5, "y": 5})
    page.keyboard.press("End")
    assert frame(page) == last(page)
    page.keyboard.press("Home")
    page.keyboard.press("ArrowDown")
    after = frame(page)
    assert after > 0
    page.keyboard.press("ArrowUp")
    assert frame(page) < after
    page.goto((beside.folder / "film.html").as_uri() + "#t=2")
    page.reload()
    assert frame(page) == 40
    page.locator("#trace-1 button:visible").last.click()
    # Its last event: the other film may be the longer one.
    assert 40 < frame(page) <= last(page)


@pytest.mark.parametrize("width", [390, 700, 1024, 1440])
def test_nothing_scrolls_sideways(beside, visit, width):
    page = visit(beside.folder / "film.html", width=width)
    for at in [0, last(page) // 2, last(page)]:
        seek(page, at)
        assert not scrolls_sideways(page)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1440])
def test_axe_finds_nothing_grave(beside, visit, scheme, width):
    page = visit(beside.folder / "film.html", width=width, scheme=scheme)
    seek(page, last(page) // 2)
    assert grave_faults(page) == []


def test_a_variant_does_not_stand_beside_itself(program, tmp_path):
    asked = ["film", "routes-against-sink", "--possession", "1", "--variant", "seam-cross", "--out", str(tmp_path / "film")]
    for other, problem in [("seam-cross", "beside itself"), ("seam-crosss", "no variant is called")]:
        done = program.run(*asked, "--beside", other)
        assert done.returncode == 2 and problem in done.stderr
        assert not (tmp_path / "film").exists()
