"""The film page plays the possession that the terminal tells, by hand and by keys, anywhere and for anyone.

What it has caught: marks of infinite size while the floor had no width yet; a table wider than its box.
"""

import json
import re

import pytest
from conftest import grave_faults, length, play_out, scrolls_sideways
from playwright.sync_api import expect

SCENARIO = "sunken-122"
# A possession of it with a shot, a rebound by the attack or the zone, and a route that was run.
WITH_ALL = 13
LINE = re.compile(r"^ *(\d+\.\d) s  +(.+(?:\n {11,}.+)*)$", re.MULTILINE)


def told_by(text: str) -> list[tuple[str, str]]:
    """The lines of a trace as the terminal has them, each as one line again."""
    return [(when, re.sub(r"\s+", " ", what)) for when, what in LINE.findall(text)]


@pytest.fixture
def film(program):
    return program.film(SCENARIO, 1, WITH_ALL)


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


@pytest.mark.parametrize("possession", [WITH_ALL, 3, 8])
def test_a_film_plays_to_its_end_and_tells_what_the_terminal_tells(program, visit, possession):
    built = program.film(SCENARIO, 1, possession)
    page = visit(built.folder / "film.html", still=False, clocked=True)
    page.select_option("#speed", "4")
    assert plays(page), "it plays by itself where nobody asked for less motion"
    play_out(page.locator("#play"))
    assert frame(page) == last(page)
    told = told_by(built.told)
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


def test_every_key_works_while_the_floor_has_the_focus(film, visit):
    page = visit(film.folder / "film.html")
    key = page.keyboard.press
    key("End")
    key(" ")
    assert frame(page) == 0 and not plays(page), "without the focus the keys are the page's own"
    page.locator("#floor").click(position={"x": 5, "y": 5})
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
    assert frame(page) == last(page), "the bar has keys of its own"
    page.locator("#stage").focus()
    key("Home")
    assert frame(page) == 0, "the floor is reached without a mouse, too"
    page.locator("#trailed").focus()
    key(" ")
    assert not page.locator("#trailed").is_checked() and not plays(page)
    for name in ["Space", "←", "→", "↑", "↓", "Home", "End", "+", "−"]:
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
    assert not page.locator("#floor .trails").is_visible()


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


def test_events_are_stepped_through_by_key_and_by_button(film, visit):
    page = visit(film.folder / "film.html")
    page.select_option("#tier", "ball")
    frames = page.evaluate(
        "JSON.parse(document.getElementById('reel').textContent).told.filter("
        "(_, n) => document.querySelectorAll('#trace button')[n].dataset.tier === 'ball')"
    )
    page.locator("#stage").focus()
    seen = [0]
    while frame(page) < last(page):
        page.keyboard.press("ArrowDown")
        seen.append(frame(page))
    assert seen == sorted(set(frames) | {0}), "each event of the ball once, and no other"
    page.click("#earlier")
    assert frame(page) == seen[-2]
    page.click("#later")
    page.keyboard.press("ArrowUp")
    assert frame(page) == seen[-1], "a button's keys are its own"


def test_tiers_tell_more_and_more(film, visit):
    page = visit(film.folder / "film.html")
    shown = {}
    for tier in ["ball", "moves", "thoughts"]:
        page.select_option("#tier", tier)
        shown[tier] = page.locator("#trace li:visible").all_inner_texts()
    assert 0 < len(shown["ball"]) < len(shown["moves"]) < len(shown["thoughts"])
    assert set(shown["ball"]) < set(shown["moves"]) < set(shown["thoughts"])
    assert not any("thinks" in line for line in shown["moves"]) and any("thinks" in line for line in shown["thoughts"])
    assert not any("picks up" in line for line in shown["ball"])


def test_a_link_leads_to_a_moment(film, visit):
    page = visit(film.folder / "film.html")
    seek(page, 40)
    address = page.locator("#moment").get_attribute("href")
    assert address == "#t=2.00"
    page.goto((film.folder / "film.html").as_uri() + "#t=4.4")
    page.reload()
    assert frame(page) == 88 and not plays(page)
    page.evaluate("location.hash = '#t=1'")
    expect(page.locator("#clock")).to_contain_text("1.00 /")
    page.evaluate("location.hash = '#t=99999'")
    expect(page.locator("#scrub")).to_have_value(str(last(page)))


def test_the_shot_is_stopped_at_with_room_chance_and_lanes(film, visit):
    page = visit(film.folder / "film.html")
    reel = reel_of(page)
    shot = reel["shots"][0]
    page.click("#to-shot")
    assert frame(page) == shot["frame"]
    words = page.locator("#floor .notes text").all_text_contents()
    assert length(shot["space"], reel["units"], room=True) in words and f"{shot['chance']} % to go in" in words
    lanes = "[...document.querySelectorAll('#floor .ways path')].filter((way) => way.checkVisibility()).length"
    assert page.evaluate(lanes) == 4
    seek(page, 0)
    assert page.locator("#floor .notes *").count() == 0


def test_playing_stops_at_the_shot_for_a_moment(film, visit):
    page = visit(film.folder / "film.html")
    shot = reel_of(page)["shots"][0]["frame"]
    seek(page, shot - 6)
    page.click("#play")
    page.wait_for_timeout(1100)
    assert frame(page) == shot and plays(page)
    page.wait_for_function("(at) => Number(document.getElementById('scrub').value) > at", arg=shot)


def test_who_guards_whom_and_what_is_believed_are_drawn_on_demand(film, visit):
    page = visit(film.folder / "film.html")
    reel = reel_of(page)
    seek(page, 20)
    assert page.locator("#floor .guards *, #floor .believed *").count() == 0
    page.locator("#guarded").check()
    page.locator("#believed").check()
    assert page.locator("#floor .guards path").count() == sum(
        [value for first, value in runs if first <= 20][-1] >= 0 for runs in reel["guards"]
    )
    assert page.locator("#floor .guards .on-ball").count() == 1
    believed = [[value for first, value in lane["chance"] if first <= 20][-1] for lane in reel["lanes"]]
    assert page.locator("#floor .believed text").all_text_contents() == [f"{chance} %" for chance in believed if chance >= 0]


def test_the_route_is_drawn_beside_the_way_that_was_run(film, visit):
    page = visit(film.folder / "film.html")
    route = reel_of(page)["drawn"][0]
    seek(page, route["first"] - 1)
    assert page.locator("#floor .route *").count() == 0
    seek(page, route["last"])
    assert page.locator("#floor .route-drawn").count() == page.locator("#floor .route-run").count() == 1
    assert page.locator("#floor .route-place").count() == len(route["places"]) - 1


def test_the_used_part_is_shown_and_the_whole_on_demand(program, visit):
    page = visit(program.film(SCENARIO, 1, 3).folder / "film.html")
    reel = reel_of(page)
    box = lambda: [int(part) for part in page.locator("#floor").get_attribute("viewBox").split()]
    assert box() == reel["used_cm"] and box()[3] < reel["frame_cm"][3]
    page.locator("#zoomed").uncheck()
    assert box() == reel["frame_cm"]


def test_a_rebounder_and_a_new_start_are_seen(program, visit):
    page = visit(program.film(SCENARIO, 1, WITH_ALL).folder / "film.html")
    first, by = reel_of(page)["rebounds"][-1]
    seek(page, first)
    assert page.locator("#floor .mark.rebounder").count() == 1
    assert "rebounder" in page.locator("#floor .marks .mark").nth(by).get_attribute("class")
    # The first possession in which play starts again.
    films = (program.film(SCENARIO, 1, possession).folder / "film.html" for possession in range(40))
    page = visit(next(film for film in films if not re.search(r'"restarts":\[\]', film.read_text())))
    seek(page, reel_of(page)["restarts"][0])
    assert "play starts again" in page.locator("#floor .notes text").all_text_contents()
    assert any("starts again with the ball" in what for _, what in lines_of(page))


def test_the_shot_clock_is_shown(film, visit):
    page = visit(film.folder / "film.html")
    total = 0
    left = [total := total + step for step in reel_of(page)["shot_clock"]]
    for at in [0, 60, last(page)]:
        seek(page, at)
        told = f"{left[at] / 10:.1f} s on the shot clock, {left[0] / 10:.1f} when this began"
        assert page.locator("#shot-clock").inner_text() == told
    assert left[0] > left[60]


WORDS_OVER_NUMBERS = """() => {
    const box = (mark) => mark.getBoundingClientRect();
    const over = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
    const numbers = [...document.querySelectorAll('#floor .mark text')].map(box);
    const words = [...document.querySelectorAll('#floor .words')];
    return words.filter((text) => numbers.some((number) => over(box(text), number))).map((text) => text.textContent);
}"""


@pytest.mark.parametrize("width", [390, 1440])
def test_no_words_lie_over_a_number(program, visit, width):
    for possession in [WITH_ALL, 3, 4]:
        page = visit(program.film(SCENARIO, 1, possession).folder / "film.html", width=width)
        page.locator("#believed").check()
        page.locator("#guarded").check()
        reel = reel_of(page)
        spoken = [shot["frame"] for shot in reel["shots"]] + [first for first, _ in reel["rebounds"]]
        for at in [*range(0, last(page), 12), *spoken, *reel["restarts"]]:
            seek(page, at)
            assert page.evaluate(WORDS_OVER_NUMBERS) == [], f"possession {possession}, frame {at}"


def contrast(one: str, other: str) -> float:
    """The contrast of two colours as a browser writes them, by the WCAG's formula."""

    def luminance(colour):
        parts = [int(part) / 255 for part in re.findall(r"\d+", colour)[:3]]
        linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    low, high = sorted([luminance(one), luminance(other)])
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_floors_lines_stand_out(film, visit, scheme):
    page = visit(film.folder / "film.html", scheme=scheme)
    colour = lambda name, part: page.locator(f"#floor .lines .{name}").first.evaluate(
        f"(line) => getComputedStyle(line).{part}"
    )
    for ground in ["bounds", "lane"]:
        assert contrast(colour("three", "stroke"), colour(ground, "fill")) >= 3.0, ground


@pytest.mark.parametrize("width", [390, 900, 1440])
def test_nothing_moves_while_it_plays(program, visit, width):
    """Every box keeps its height from the first frame to the last, and the columns of a wide page end together."""
    for possession in [WITH_ALL, 3, 8]:
        page = visit(program.film(SCENARIO, 1, possession).folder / "film.html", width=width)
        heights = page.evaluate(
            """() => {
                const bar = document.getElementById('scrub');
                const seen = {};
                for (let frame = 0; frame <= Number(bar.max); frame += 1) {
                    bar.value = frame;
                    bar.dispatchEvent(new Event('input'));
                    document.querySelectorAll('.reading, .told, .now, .strip').forEach((box, nth) => {
                        const height = Math.round(box.getBoundingClientRect().height);
                        (seen[`${nth} ${box.className}`] ??= new Set()).add(height);
                    });
                }
                return Object.entries(seen).map(([box, all]) => [box, [...all]]);
            }"""
        )
        assert len(heights) == 9
        assert [one for one in heights if len(one[1]) > 1] == [], f"possession {possession}"
    if width == 1440:
        ends = page.eval_on_selector_all(".readings, .told", "(all) => all.map((one) => one.getBoundingClientRect().bottom)")
        assert abs(ends[0] - ends[1]) <= 1, ends


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
        assert shown == ("–" if space[at] < 0 else length(space[at], reel["units"], room=True, digits=2))
        late = run(reel["stress"]["late"], at)
        assert page.locator("#late-s").inner_text() == ("–" if late < 0 else f"{late / 100:.2f} s")
        holder = run(reel["holder"], at)
        words = page.locator("#ball-words").inner_text()
        assert holder < 0 or words == f"{reel['players'][holder]['name']} has it"
        # Shown by style: a lane straight up or across has no box, and a locator would call it hidden.
        drawn = page.evaluate(
            "[...document.querySelectorAll('#floor .ways path')].filter((way) => way.checkVisibility()).length"
        )
        assert drawn == (4 if 0 <= holder < 5 else 0), f"{drawn} passing lanes in frame {at}"


@pytest.mark.parametrize(("asked", "units", "limits"), [((), "ft", ["4 ft", "6 ft"]), (("--units", "m"), "m", ["1.22 m", "1.83 m"])])
def test_lengths_are_told_in_feet_where_the_rules_are_and_else_as_asked(program, visit, asked, units, limits):
    built = program.film(SCENARIO, 1, WITH_ALL, *asked)
    page = visit(built.folder / "film.html")
    assert reel_of(page)["units"] == units
    assert [page.locator(f"#{mark} i").inner_text() for mark in ("open-mark", "wide-mark")] == limits
    other = re.compile(r"\d\sm\b" if units == "ft" else r"\d\sft\b")
    for at in range(0, last(page), 17):
        seek(page, at)
        assert not other.search(page.locator("main").inner_text()), at
    assert not other.search(built.told)


def test_a_chosen_players_beliefs_are_drawn(film, visit):
    page = visit(film.folder / "film.html")
    assert page.locator("#floor .view *").count() == 0
    page.select_option("#who", label="right wing")
    seek(page, 40)
    assert page.locator("#floor .view .ghost").count() == 10, "nine others and the ball"
    assert page.locator("#floor .view .tie").count() == 10
    assert page.locator("#floor .view .sight").count() == 1 and page.locator("#floor .view .field").count() == 1
    assert page.locator("#ages li").count() == 9
    page.locator("#floor .marks .mark").nth(2).click()
    assert page.locator("#who").input_value() == "2", "a click chooses, too"
    page.locator("#floor .marks .mark").nth(2).click()
    assert page.locator("#floor .view *").count() == 0, "and again lets go"


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


def test_the_legend_names_what_is_drawn_and_nothing_else(film, visit):
    page = visit(film.folder / "film.html")
    entries = lambda of: page.locator(f".legend [data-of='{of}']")
    for tick in ["trailed", "routed", "laned", "believed", "guarded"]:
        assert entries(tick).count() > 0, tick
        for shown in (True, False, True):
            page.locator(f"#{tick}").set_checked(shown)
            assert [entry.is_visible() for entry in entries(tick).all()] == [shown] * entries(tick).count(), tick
    assert not any(entry.is_visible() for entry in entries("who").all()), "nobody is chosen yet"
    page.select_option("#who", label="rover")
    assert all(entry.is_visible() for entry in entries("who").all())
    # Every kind of line that the page draws on the floor has a sample.
    css = page.locator("style").first.text_content()
    drawn = ["way", "believed-way", "guard", "route-drawn", "route-run", "space", "air-end", "sight", "field", "tie", "ghost"]
    for kind in drawn + ["trail.run", "trail.follow", "trail.pass", "trail.shot", "trail.dribble", "trail.braced"]:
        assert f".{kind}" in css or kind == "trail.run", kind
        assert page.locator(f".legend .{kind}").count() > 0, kind
