"""The film page plays the possession that the terminal tells, by hand and by keys, anywhere and for anyone.

What it has caught: marks of infinite size while the floor had no width yet; a table wider than its box.
"""

import json
import re

import pytest
from conftest import grave_faults, scrolls_sideways
from playwright.sync_api import expect

SCENARIO = "sunken-122"
LINE = re.compile(r"^ *(\d+\.\d) s  (.+)$", re.MULTILINE)


@pytest.fixture
def film(program):
    return program.film(SCENARIO, 1, 17)


def frame(page) -> int:
    return int(page.locator("#scrub").input_value())


def last(page) -> int:
    return int(page.locator("#scrub").get_attribute("max"))


def plays(page) -> bool:
    return page.locator("#play").get_attribute("aria-label") == "Pause"


def reel_of(page) -> dict:
    return json.loads(page.locator("#reel").text_content())


def lines_of(page) -> list[tuple[str, str]]:
    rows = page.locator("#trace button")
    return [
        (rows.nth(n).locator(".when").inner_text().removesuffix(" s"), rows.nth(n).locator(".what").inner_text())
        for n in range(rows.count())
    ]


def seek(page, to: int):
    page.locator("#scrub").evaluate(
        "(bar, to) => { bar.value = to; bar.dispatchEvent(new Event('input')); }", to
    )


@pytest.mark.parametrize("possession", [17, 3, 8])
def test_a_film_plays_to_its_end_and_tells_what_the_terminal_tells(program, visit, possession):
    built = program.film(SCENARIO, 1, possession)
    page = visit(built.folder / "film.html", still=False)
    page.select_option("#speed", "4")
    assert plays(page), "it plays by itself where nobody asked for less motion"
    expect(page.locator("#play")).to_have_attribute("aria-label", "Play", timeout=60_000)
    assert frame(page) == last(page)
    told = LINE.findall(built.told)
    assert len(told) >= 3 and lines_of(page) == told
    assert (built.folder / "trace.txt").read_text() == built.told
    current = page.locator("#trace [aria-current]")
    assert current.count() == 1 and current.locator(".what").inner_text() == told[-1][1]
    outcome = re.search(r"^Possession \d+: ([^;\n]+)", built.told, re.MULTILINE).group(1)
    assert told[-1][1].startswith(f"the end: {outcome}")
    assert page.locator("#outcome").inner_text().lower().startswith(outcome)
    seconds = float(re.search(r"seconds used +(\S+)", built.told).group(1))
    assert abs(last(page) * reel_of(page)["step_s"] - seconds) < 0.006
    heading = page.locator("h1").inner_text()
    assert f"possession {possession}, seed 1" in heading and "Sunken 1-2-2" in heading
    fingerprint = re.search(r"fingerprint ([0-9a-f]{16})", built.told).group(1)
    assert fingerprint in page.locator("footer").inner_text()


def test_speed_is_kept(film, visit):
    """Four times the speed takes about a quarter of the time: the film is not cut short."""
    page = visit(film.folder / "film.html")
    page.select_option("#speed", "4")
    spent = page.evaluate(
        """async () => {
            const start = performance.now();
            document.getElementById('play').click();
            const bar = document.getElementById('scrub');
            const frames = new Set();
            while (bar.value !== bar.max) {
                frames.add(bar.value);
                await new Promise(requestAnimationFrame);
            }
            return [(performance.now() - start) / 1000, frames.size];
        }"""
    )
    whole = last(page) * reel_of(page)["step_s"]
    assert whole / 4 * 0.95 <= spent[0], "faster than asked"
    assert spent[1] > 5, "it jumps to the end"


def test_it_waits_where_less_motion_is_asked_for(film, visit):
    page = visit(film.folder / "film.html")
    page.wait_for_timeout(300)
    assert not plays(page) and frame(page) == 0


def test_every_key_works(film, visit):
    page = visit(film.folder / "film.html")
    key = page.keyboard.press
    for pressed, wanted in [
        ("ArrowRight", 1),
        ("ArrowRight", 2),
        ("ArrowLeft", 1),
        ("Shift+ArrowRight", 21),
        ("Shift+ArrowLeft", 1),
        ("End", last(page)),
        ("ArrowRight", last(page)),
        ("Home", 0),
        ("ArrowLeft", 0),
    ]:
        key(pressed)
        assert frame(page) == wanted, pressed
    speed = page.locator("#speed")
    for pressed, wanted in [("+", "2"), ("+", "4"), ("+", "4"), ("-", "2"), ("-", "1"), ("-", "0.5"), ("-", "0.25"), ("-", "0.25")]:
        key(pressed)
        assert speed.input_value() == wanted, pressed
    key(" ")
    assert plays(page)
    key(" ")
    assert not plays(page)
    page.locator("#scrub").focus()
    key("End")
    assert frame(page) == last(page), "the keys are the same on the bar"
    page.locator("#keyed").uncheck()
    page.locator("h1").click()
    key("Home")
    assert frame(page) == last(page), "keys can be switched off"
    for name in ["Space", "←", "→", "Home", "End", "+", "−"]:
        assert page.locator("kbd", has_text=name).count() >= 1, f"{name} is not listed"


def test_every_button_works(film, visit):
    page = visit(film.folder / "film.html")
    page.click("#forward")
    assert frame(page) == 1
    page.click("#back")
    assert frame(page) == 0
    page.click("#end")
    assert frame(page) == last(page)
    page.click("#play")
    assert plays(page), "played again from the start"
    page.click("#play")
    assert not plays(page) and frame(page) < last(page)
    page.click("#start")
    assert frame(page) == 0
    page.locator("#trailed").uncheck()
    assert not page.locator("#trails").is_visible()


def test_a_line_leads_to_its_moment(film, visit):
    page = visit(film.folder / "film.html")
    reel = reel_of(page)
    rows = page.locator("#trace button")
    for n in [rows.count() // 2, 0, rows.count() - 1]:
        rows.nth(n).click()
        assert frame(page) == reel["told"][n]
    assert page.locator("#now").get_attribute("aria-live") == "polite"
    page.click("#play")
    assert page.locator("#now").get_attribute("aria-live") == "off", "no line is read out while it plays"


def test_readings_are_the_reels_numbers(film, visit):
    page = visit(film.folder / "film.html")
    reel = reel_of(page)

    def track(steps):
        total = 0
        return [total := total + step for step in steps]

    def run(runs, at):
        return [value for first, value in runs if first <= at][-1]

    space = track(reel["look"]["space"])
    for at in range(0, reel["frames"], 9):
        seek(page, at)
        shown = page.locator("#look-m").inner_text()
        assert shown == ("–" if space[at] < 0 else f"{space[at] / 100:.2f} m")
        late = run(reel["stress"]["late"], at)
        assert page.locator("#late-s").inner_text() == ("–" if late < 0 else f"{late / 100:.2f} s")
        holder = run(reel["holder"], at)
        words = page.locator("#ball-words").inner_text()
        assert holder < 0 or words == f"{reel['players'][holder]['name']} has it"
        # Shown by style: a lane straight up or across has no box, and a locator would call it hidden.
        drawn = page.evaluate(
            "[...document.querySelectorAll('#ways path')].filter((way) => way.checkVisibility()).length"
        )
        assert drawn == (4 if 0 <= holder < 5 else 0), f"{drawn} passing lanes in frame {at}"


def test_a_chosen_players_beliefs_are_drawn(film, visit):
    page = visit(film.folder / "film.html")
    assert page.locator("#view *").count() == 0
    page.select_option("#who", label="right wing")
    seek(page, 40)
    assert page.locator("#view .ghost").count() == 10, "nine others and the ball"
    assert page.locator("#view .tie").count() == 10
    assert page.locator("#view .sight").count() == 1 and page.locator("#view .field").count() == 1
    assert page.locator("#ages li").count() == 9
    page.locator("#marks .mark").nth(2).click()
    assert page.locator("#who").input_value() == "2", "a click chooses, too"
    page.locator("#marks .mark").nth(2).click()
    assert page.locator("#view *").count() == 0, "and again lets go"


@pytest.mark.parametrize("width", [320, 390, 600, 745, 830, 1024, 1190, 1280, 1440, 1920])
def test_nothing_scrolls_sideways(film, visit, width):
    page = visit(film.folder / "film.html", width=width)
    page.select_option("#who", "6")
    for at in [0, last(page) // 2, last(page)]:
        seek(page, at)
        assert not scrolls_sideways(page)
        inside = page.evaluate(
            """() => [...document.querySelectorAll('.reading, .told')].filter((box) => box.scrollWidth > box.clientWidth).length"""
        )
        assert inside == 0, "something is wider than its box"


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1440])
def test_axe_finds_nothing_grave(film, visit, scheme, width):
    page = visit(film.folder / "film.html", width=width, scheme=scheme)
    page.select_option("#who", "6")
    seek(page, last(page) // 2)
    assert grave_faults(page) == []


def test_pages_are_small(program):
    sizes = {}
    for possession in range(20):
        folder = program.film(SCENARIO, 5, possession).folder
        sizes[possession] = (folder / "film.html").stat().st_size
    assert max(sizes.values()) < 500_000, sizes


def test_a_page_does_not_tell_where_its_files_lay(program, tmp_path):
    """It is made to be passed on."""
    mine = tmp_path / "mine.toml"
    mine.write_text(f'scenario = "{SCENARIO}"\nquestion = "Ours?"\nvariant = [{{ name = "ours", set = {{}} }}]\n')
    done = program.run("film", str(mine), "--possession", "1", "--out", str(tmp_path / "film"))
    assert done.returncode == 0, done.stderr
    html = (tmp_path / "film" / "film.html").read_text()
    assert "zoneprobe film ./mine.toml" in html and str(tmp_path) not in html


def test_a_full_folder_is_refused(program, tmp_path):
    (tmp_path / "mine.txt").write_text("mine")
    done = program.run("film", SCENARIO, "--possession", "1", "--out", str(tmp_path))
    assert done.returncode == 2 and "not an empty folder" in done.stderr
    assert [entry.name for entry in tmp_path.iterdir()] == ["mine.txt"]
