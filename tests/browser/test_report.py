"""The report shows the numbers of its files, plays its films, and can be read on any screen and on paper.

What it has caught: long names printed over figures; numbers of passes over players; a still whose rover stood on
the other side than the page said.
"""

import csv
import json
import re
import shutil
from collections import defaultdict

import pytest
from conftest import grave_faults, length, play_out, scrolls_sideways
from playwright.sync_api import expect

CROSSED = """
question = "Which route, under which help rule and at which sink?"
scenario = "sunken-122"
rank_by = "good_shot_rate"
baseline = "hold-wing"
variant = [
  { name = "hold-wing", set = { "attack.rover.route" = "hold-wing" } },
  { name = "seam-cross", set = { "attack.rover.route" = "seam-cross" } },
]
[factors]
"zone.post_help_rule" = ["near-wing-drops", "far-back-crosses"]
"zone.sink_back_m" = [0.6, 1.2]
"""


@pytest.fixture(scope="session")
def small(program):
    """The bundled question, briefly."""
    return program.build("compare", "--possessions", "256").folder


@pytest.fixture(scope="session")
def crossed(program, tmp_path_factory):
    """Crossed factors: long names."""
    file = tmp_path_factory.mktemp("crossed") / "crossed.toml"
    file.write_text(CROSSED)
    return program.build("compare", str(file), "--possessions", "128").folder


def rows(folder, name):
    with open(folder / name, newline="") as file:
        return list(csv.DictReader(file))


def drawn(page, selector, *names):
    """Attributes of every element that a selector finds, as texts."""
    return page.eval_on_selector_all(
        selector,
        "(all, names) => all.map((one) => Object.fromEntries(names.map((name) => [name, one.getAttribute(name)])))",
        list(names),
    )


def by_variant(folder):
    return {row["variant"]: row for row in rows(folder, "comparison.csv")}


def rounds_to(text, value):
    """Whether a text shows a number, rounded to the digits that it has."""
    text = text.replace("\u2212", "-").replace("+", "")
    digits = len(text.partition(".")[2])
    return abs(float(text) - float(value)) <= 0.5 * 10**-digits + 1e-6


def rank_columns():
    return {"small": "good_look_rate", "crossed": "good_shot_rate"}


@pytest.mark.parametrize("which", ["small", "crossed"])
def test_the_ranking_shows_the_file(which, request, read):
    folder = request.getfixturevalue(which)
    page = read(folder / "report.html")
    column, file = rank_columns()[which], by_variant(folder)
    bars = drawn(page, "#ranking [data-variant]", "data-variant", "data-estimate", "data-low", "data-high")
    assert [bar["data-variant"] for bar in bars] == sorted(file, key=lambda name: int(file[name]["rank"]))
    texts = page.locator("#ranking [data-variant] .end").all_text_contents()
    for bar, text in zip(bars, texts, strict=True):
        row = file[bar["data-variant"]]
        wanted = [row[column + end] for end in ("", "_low", "_high")]
        assert [bar["data-estimate"], bar["data-low"], bar["data-high"]] == wanted
        shown = re.fullmatch(r"(\S+) \((\S+) to (\S+)\)", text).groups()
        assert all(rounds_to(a, 20 * float(b)) for a, b in zip(shown, wanted)), (text, wanted)
    # Bars are as long as their intervals: one factor from numbers to places for all.
    lines = drawn(page, "#ranking .bar", "x1", "x2")
    pairs = [(float(b["data-low"]), float(l["x1"])) for b, l in zip(bars, lines, strict=True)]
    pairs += [(float(b["data-high"]), float(l["x2"])) for b, l in zip(bars, lines)]
    (a, x), (b, y) = min(pairs), max(pairs)
    assert all(abs(x + (v - a) / (b - a) * (y - x) - at) < 0.2 for v, at in pairs)


def test_the_ranking_table_shows_the_file(small, read):
    page = read(small / "report.html")
    file = by_variant(small)
    for line in page.locator("#ranking-table tbody tr").all():
        # Beside the name stands what the route is, in words and as a small picture.
        words = line.locator("th").inner_text().split("\n")
        row = file[next(word for word in words if word in file)]
        assert line.locator("td").first.inner_text() == row["rank"]
        for cell in line.locator("[data-measure]").all():
            measure = cell.get_attribute("data-measure")
            estimate, low, high = re.fullmatch(r"(\S+)\n(\S+) to (\S+)", cell.inner_text()).groups()
            for text, end in ((estimate, ""), (low, "_low"), (high, "_high")):
                assert rounds_to(text, 20 * float(row[measure + end])), (measure, text)


@pytest.mark.parametrize("which", ["small", "crossed"])
def test_the_trade_off_shows_the_file(which, request, read):
    folder = request.getfixturevalue(which)
    page = read(folder / "report.html")
    file = by_variant(folder)
    names = [f"data-{axis}{end}" for axis in "xy" for end in ("", "-low", "-high")]
    points = drawn(page, "#trade [data-variant]", "data-variant", *names)
    assert {point["data-variant"] for point in points} == set(file)
    for point in points:
        row = file[point["data-variant"]]
        wanted = [row[c + e] for c in ("break_exposure", "expected_net_points") for e in ("", "_low", "_high")]
        assert [point[name] for name in names] == wanted


def test_floor_counts_are_the_files(small, read):
    page = read(small / "report.html")
    counts = {
        (row["variant"], row["measure"], float(row["x_m"]), float(row["y_m"])): row["count"]
        for row in rows(small, "places.csv")
    }
    order = [row["variant"] for row in rows(small, "comparison.csv")]
    seen = defaultdict(int)
    for measure in ("open_look", "good_look", "paint_touch", "turnover"):
        for nth, variant in enumerate(order, 1):
            cells = drawn(page, f"#{measure.replace('_', '-')}-{nth} [data-count]", "data-x", "data-y", "data-count")
            assert cells, f"{measure} of {variant} is drawn, folded away or not"
            for cell in cells:
                key = (variant, measure, float(cell["data-x"]), float(cell["data-y"]))
                assert counts[key] == cell["data-count"], key
                seen[measure] += 1
    assert all(seen[measure] > 50 for measure in seen)


def test_breakdowns_and_defenders_are_the_files(small, read):
    page = read(small / "report.html")
    order = [row["variant"] for row in rows(small, "comparison.csv")]
    breakdowns = {(row["variant"], float(row["x_m"]), float(row["y_m"])): row for row in rows(small, "breakdowns.csv")}
    steps = defaultdict(lambda: [0, 0])
    for row in rows(small, "places.csv"):
        key = (row["variant"], float(row["x_m"]), float(row["y_m"]))
        if row["measure"] == "back_line_steps":
            steps[key][0] = int(row["count"])
        if row["measure"] == "back_line_lateness_us":
            steps[key][1] = int(row["count"])
    cells = 0
    for nth, variant in enumerate(order, 1):
        for cell in drawn(page, f"[id='lateness-{nth}'] [data-mean]", "data-x", "data-y", "data-mean"):
            key = (variant, float(cell["data-x"]), float(cell["data-y"]))
            assert breakdowns[key]["mean_lateness_s"] == cell["data-mean"], key
            assert abs(steps[key][1] / 1e6 / steps[key][0] - float(cell["data-mean"])) < 1e-6
            cells += 1
    assert cells > 50
    means = {(row["variant"], row["defender"]): row for row in rows(small, "defenders.csv")}
    for nth, variant in enumerate(order, 1):
        marks = drawn(page, f"#defenders-{nth} [data-defender]", "data-defender", "data-x", "data-y")
        assert len(marks) == 5
        for mark in marks:
            row = means[variant, mark["data-defender"]]
            assert (mark["data-x"], mark["data-y"]) == (row["mean_x_m"], row["mean_y_m"])
        gap = length(100 * float(row["line_gap_m"]), "ft")
        caption = page.locator(f"figure:has(#defenders-{nth}) figcaption").text_content()
        assert caption.endswith(f": {gap}."), (caption, row["line_gap_m"])


def test_regions_are_the_files(small, read):
    """Every region's count, share and worth; how often somebody is free; where the zone stands by the ball's place."""
    page = read(small / "report.html")
    order = [row["variant"] for row in rows(small, "comparison.csv")]
    file = {(row["variant"], row["measure"], row["region"]): row for row in rows(small, "regions.csv")}
    regions = {key[2] for key in file}
    assert len(regions) == 10
    told = 0
    possessions = int(rows(small, "comparison.csv")[0]["possessions"])
    for measure in ("shots", "open_look", "good_look", "paint_touch", "turnover"):
        sums = {v: sum(int(file[v, measure, region]["count"]) for region in regions) for v in order}
        for nth, variant in enumerate(order, 1):
            parts = page.eval_on_selector_all(
                f"[id='{measure.replace('_', '-')}-regions-{nth}'] [data-region]",
                """(all) => all.map((one) => {
                    const words = [...one.querySelectorAll('text')].map((text) => text.textContent);
                    return [one.dataset.region, one.dataset.count, words];
                })""",
            )
            assert len(parts) == len(regions)
            for region, count, words in parts:
                row = file[variant, measure, region]
                assert count == row["count"]
                assert sums[variant] == 0 or abs(int(row["count"]) / sums[variant] - float(row["share"])) < 1e-6
                if words:
                    assert rounds_to(words[0], 20 * int(row["count"]) / possessions)
                    told += 1
                if words[1:]:
                    assert int(row["count"]) >= 30 and rounds_to(words[1], row["worth_points"])
    assert told > 100
    free = {(row["variant"], row["ball_region"]): row for row in rows(small, "free.csv")}
    stands = {(row["variant"], row["ball_region"], row["defender"]): row for row in rows(small, "stands.csv")}
    for nth, variant in enumerate(order, 1):
        for part in drawn(page, f"#free-{nth} [data-region]", "data-region", "data-free"):
            assert free[variant, part["data-region"]]["free_share"] == part["data-free"]
    marks = 0
    for nth, variant in enumerate(order, 1):
        for region in regions:
            for mark in drawn(page, f"#stand-{nth}-{region} [data-defender]", "data-defender", "data-x", "data-y"):
                row = stands[variant, region, mark["data-defender"]]
                assert (mark["data-x"], mark["data-y"]) == (row["mean_x_m"], row["mean_y_m"])
                marks += 1
    assert marks >= 5 * 4


def test_sheet_and_report_share_one_scale(small):
    """What the sheet maps, of what ranks, has the same shades for the same variant in both."""
    shades = lambda name: re.findall(r'class="(h\d) area"', (small / "pictures" / name).read_text())
    main = re.search(r'class="head"[^>]*>([^<]*)<', (small / "pictures" / "sheet-looks.svg").read_text()).group(1)
    order = [row["variant"] for row in rows(small, "comparison.csv")]
    assert json.loads((small / "manifest.json").read_text())["rank_by"] == "good_look_rate"
    own = shades(f"good-look-regions-{order.index(main) + 1}.svg")
    assert own and own == shades("sheet-looks.svg")


def test_ways_are_the_files(small, read):
    page = read(small / "report.html")
    usual = [row for row in rows(small, "ways.csv") if row["run"] == "1"]
    paths = {(row["variant"], row["time_s"], row["x_m"], row["y_m"]) for row in usual}
    begun = {(row["variant"], row["kind"]): row["started"] for row in rows(small, "runs.csv")}
    order = [row["variant"] for row in rows(small, "comparison.csv")]
    ticks = 0
    for nth, variant in enumerate(order, 1):
        for tick in drawn(page, f"[id^='route-{nth}-'] [data-time]", "data-time", "data-x", "data-y"):
            assert (variant, f"{float(tick['data-time']):.2f}", tick["data-x"], tick["data-y"]) in paths
            ticks += 1
        # As many possessions as the files say, of a route that has no parts.
        pictures = page.locator(f"[id^='route-{nth}-'] .sub").all_text_contents()
        if len(pictures) == 1:
            begun_in = re.fullmatch(r"begun in ([\d.]+) of 20 possessions", pictures[0])
            assert rounds_to(begun_in.group(1), 20 * int(begun[variant, "route"]) / 256)
    assert ticks > 10


def test_one_key_stands_over_pictures_whose_signs_mean_the_same(small, read):
    page = read(small / "report.html")
    # What the places are called stands alone.
    for rows_of in page.locator("#where .floors:not(:has(#places))").all():
        assert rows_of.locator("figure").count() > 1
        # A legend has the scale's limits in the middle under its shades.
        assert rows_of.locator("svg .edge").count() == 0, "each picture has a key of its own"
        key = rows_of.locator("xpath=preceding-sibling::*[1]")
        assert key.get_attribute("class") == "key" and key.locator(".edge").count() == 5
    assert page.locator("#films > .key").count() == 1


def test_passes_are_the_files(small, read):
    page = read(small / "report.html")
    pairs = {(row["variant"], row["from"], row["to"]): row for row in rows(small, "pass_pairs.csv")}
    sums = defaultdict(int)
    for row in rows(small, "passes.csv"):
        sums[row["variant"], row["from"], row["to"]] += int(row["thrown"])
    assert {key: int(row["thrown"]) for key, row in pairs.items()} == dict(sums)
    for nth, variant in enumerate([row["variant"] for row in rows(small, "comparison.csv")], 1):
        arrows = drawn(page, f"#passes-{nth} [data-from]", "data-from", "data-to", "data-thrown")
        assert len(arrows) == 3
        for arrow in arrows:
            assert pairs[variant, arrow["data-from"], arrow["data-to"]]["thrown"] == arrow["data-thrown"]
        numbers = page.locator(f"#passes-{nth} .plate + text").all_text_contents()
        most = sorted((float(r["per_100_possessions"]) / 5 for k, r in pairs.items() if k[0] == variant), reverse=True)
        assert len(numbers) == 3 and all(rounds_to(text, value) for text, value in zip(numbers, most))
        cells = page.locator(f"table[data-variant='{variant}'] td[data-from]")
        assert cells.count() == sum(1 for key in pairs if key[0] == variant)
        told = "(all) => all.map((one) => [one.dataset.from, one.dataset.to, one.innerText])"
        for giver, taker, words in cells.evaluate_all(told):
            row = pairs[variant, giver, taker]
            often, shares = words.split("\n")
            assert rounds_to(often, float(row["per_100_possessions"]) / 5)
            wanted = [100 * float(row["caught_share"]), 100 * float(row["taken_by_defender_share"])]
            assert all(rounds_to(text, value) for text, value in zip(shares.split(", "), wanted, strict=True)), shares


def test_answers_are_the_file_and_claim_no_more_than_the_test(small, read):
    page = read(small / "report.html")
    file = {(row["variant"], row["post_help_rule"], row["measure"]): row for row in rows(small, "answers.csv")}
    measures = ["good_look_rate", "expected_net_points"]
    kinds = ["difference", "advantage", "interaction"]
    for table, measure in zip(["#answers-table", "#answers-table-expected_net_points"], measures):
        lines = page.locator(f"{table} tbody tr")
        assert lines.count() == sum(1 for key in file if key[2] == measure)
        heads = page.locator(f"{table} thead th").all_text_contents()
        assert len(set(heads)) == len(heads), "no column stands there twice"
        for line in lines.all():
            rule = line.locator("td").first.inner_text().removesuffix(" (usual)")
            row = file[line.locator("th").inner_text(), rule, measure]
            value = line.locator(f"[data-measure={measure}]")
            assert [value.get_attribute(f"data-{name}") for name in ("estimate", "low", "high")] == [
                row["value"],
                row["value_low"],
                row["value_high"],
            ]
            for kind in kinds:
                cell = line.locator(f"[data-kind={kind}]")
                assert cell.count() == (1 if row[kind] else 0), (kind, row)
                if not row[kind]:
                    continue
                assert cell.get_attribute("data-estimate") == row[kind]
                shown = re.findall(r"[+\u2212]?\d+\.\d+", cell.inner_text())
                wanted = [row[kind], row[f"{kind}_together_low"], row[f"{kind}_together_high"]]
                assert all(rounds_to(text, 20 * float(v)) for text, v in zip(shown, wanted, strict=True)), (shown, wanted)
                apart = (float(wanted[1]) > 0 or float(wanted[2]) < 0) and float(row[f"{kind}_p_holm"]) < 0.05
                assert ("no difference seen" in cell.inner_text()) == (not apart)
    for item in page.locator("#answers ul > li").all():
        rule, text = item.get_attribute("data-rule"), item.inner_text()
        for variant in {key[0] for key in file}:
            said = any(file[variant, rule, measure][word] for measure in measures for word in ("verdict", "stands"))
            assert (f" {variant} " in text) == said, (variant, text)


@pytest.mark.parametrize("which", ["small", "crossed"])
def test_no_words_lie_over_others_in_a_picture(which, request, read):
    """Words, plates and players: none over another, none out of its picture."""
    page = read(request.getfixturevalue(which) / "report.html")
    faults = page.evaluate(
        """() => [...document.querySelectorAll('svg.pic')].flatMap((picture) => {
            const frame = picture.getBoundingClientRect();
            const boxes = [...picture.querySelectorAll('text')]
                .filter((text) => !text.matches('.sign') && !picture.id.startsWith('still'))
                .map((text) => ({ text: text.textContent, box: text.getBoundingClientRect() }));
            const bad = [];
            boxes.forEach(({ text, box }, n) => {
                if (box.left < frame.left - 1 || box.right > frame.right + 1 || box.bottom > frame.bottom + 1)
                    bad.push(`${picture.id}: '${text}' leaves the picture`);
                for (const other of boxes.slice(n + 1)) {
                    const across = Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left);
                    const down = Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top);
                    // Line boxes are taller than letters: a fifth may be shared.
                    if (across > 1 && down > 0.25 * Math.min(box.height, other.box.height))
                        bad.push(`${picture.id}: '${text}' and '${other.text}'`);
                }
            });
            return bad;
        })"""
    )
    # Words of marks may meet where players do: defenders stand where they stand.
    faults = [fault for fault in faults if not fault.startswith("defenders") or "leaves" in fault]
    assert faults == []


def test_the_page_says_what_is_drawn(small, crossed, visit):
    page = visit(small / "report.html")
    words = page.locator("#where").inner_text()
    order = sorted(by_variant(small).values(), key=lambda row: int(row["rank"]))
    for row in order[:3]:
        assert row["variant"] in words.split("The others")[0]
    for row in order[4:]:
        assert row["variant"] in words.split("The others")[1]
    for folder in (small, crossed):
        page = visit(folder / "report.html")
        ids = set(page.eval_on_selector_all("figure > svg.pic", "(all) => all.map((one) => one.id)"))
        # The coach's sheet has pictures of its own; the small ones stand beside names.
        found = (path.stem for path in (folder / "pictures").glob("*.svg"))
        files = {name for name in found if not name.startswith(("sheet-", "play-"))}
        assert files <= ids and len(files) > 50


@pytest.mark.parametrize("which", ["small", "crossed"])
@pytest.mark.parametrize("width", [360, 390, 700, 1024, 1440])
def test_nothing_scrolls_sideways(which, request, visit, width):
    page = visit(request.getfixturevalue(which) / "report.html", width=width)
    assert not scrolls_sideways(page)
    page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
    assert not scrolls_sideways(page)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1440])
def test_axe_finds_nothing_grave(small, visit, scheme, width):
    page = visit(small / "report.html", width=width, scheme=scheme)
    page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
    assert grave_faults(page) == []


def test_on_a_phone_the_ranking_is_cards_that_need_no_scrolling(small, visit):
    page = visit(small / "report.html", width=390)
    table = page.locator("#ranking-table")
    assert not table.evaluate("(one) => one.parentElement.scrollWidth > one.parentElement.clientWidth")
    file = by_variant(small)
    assert table.get_by_role("row").count() == len(file) + 1, "it is still a table to who hears it"
    # A short list first; the other figures come when asked for.
    cells = table.locator("tbody tr").first.locator("th, td")
    shown = sum(cell.is_visible() for cell in cells.all())
    assert 0 < shown < cells.count()
    page.get_by_label("All figures of each").check()
    for card in table.locator("tbody tr").all():
        box = card.bounding_box()
        for cell in card.locator("th, td").all():
            own = cell.bounding_box()
            assert box["x"] <= own["x"] and own["x"] + own["width"] <= box["x"] + box["width"] + 1
        labels = card.locator("td").evaluate_all("(all) => all.map((one) => getComputedStyle(one, '::before').content)")
        heads = page.locator("#ranking-table thead th").all_text_contents()
        assert [label.strip('"') for label in labels] == [head for nth, head in enumerate(heads) if nth != 1]


def test_each_cross_of_the_trade_off_has_a_number_of_its_own(small, read):
    """Numbers lie over no point and over no other number, and each is tied to its point by a line."""
    page = read(small / "report.html")
    found = page.evaluate(
        """() => {
            const picture = document.getElementById('trade');
            const box = (one) => one.getBoundingClientRect();
            const dots = [...picture.querySelectorAll('.dot')];
            const over = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
            const faults = [];
            const numbers = dots.map((dot) => dot.nextElementSibling);
            // Letters are lower than their lines.
            const inked = (text) => {
                const { left, right, top, bottom, height } = box(text);
                return { left, right, top: top + height / 4, bottom: bottom - height / 4 };
            };
            numbers.forEach((number, nth) => {
                const own = inked(number);
                if (dots.some((dot) => over(own, box(dot)))) faults.push(`${number.textContent} over a point`);
                if (numbers.slice(0, nth).some((other) => over(own, inked(other)))) faults.push(`${number.textContent} over another`);
                const line = dots[nth].previousElementSibling;
                const at = ['x1', 'y1'].map((key) => Number(line.getAttribute(key)));
                const point = [dots[nth].cx.baseVal.value, dots[nth].cy.baseVal.value];
                if (Math.hypot(at[0] - point[0], at[1] - point[1]) > 0.2) faults.push('a line to elsewhere');
            });
            return { faults, numbers: numbers.map((one) => one.textContent) };
        }"""
    )
    assert found["faults"] == []
    assert sorted(found["numbers"]) == sorted(row["rank"] for row in rows(small, "comparison.csv"))


def test_captions_say_what_differs_from_the_one_compared_with(small, read):
    page = read(small / "report.html")
    order = [row["variant"] for row in rows(small, "comparison.csv")]
    best = next(row["variant"] for row in rows(small, "comparison.csv") if row["rank"] == "1")
    assert best != "hold-wing", "another one leads, or nothing is proved"
    nth, base = order.index(best) + 1, order.index("hold-wing") + 1
    for picture in ["shots-regions", "good-look-regions", "free", "passes"]:
        words = [page.locator(f"figure:has(> [id='{picture}-{v}']) figcaption").text_content() for v in (nth, base)]
        assert "Against hold-wing" in words[0] and "Against" not in words[1], (picture, words)
    shots = [row for row in rows(small, "regions.csv") if row["measure"] == "shots"]
    file = {(row["variant"], row["region"]): int(row["count"]) for row in shots}
    words = page.locator(f"figure:has(> [id='shots-regions-{nth}']) figcaption").text_content()
    for by, way, region in re.findall(r"(\d+(?:\.\d+)?) (more|fewer) from the ([a-z ]+?)(?: and |, |\.|$)", words.split("Against")[1]):
        key = region.replace(" ", "-")
        differs = 20 * (file[best, key] - file["hold-wing", key]) / 256
        assert abs(abs(differs) - float(by)) < 0.051 and (differs > 0) == (way == "more"), (region, differs, words)
    differ = {
        row["measure"]: float(row["difference"])
        for row in rows(small, "differences.csv")
        if (row["variant"], row["reference"]) == (best, "hold-wing")
    }
    passes = page.locator(f"figure:has(> [id='passes-{nth}']) figcaption").text_content()
    said = float(re.search(r"(\d+\.\d+) (more|fewer) passes", passes).group(1))
    assert abs(said - abs(20 * differ["passes"])) < 0.051


@pytest.mark.parametrize("which", ["small", "crossed"])
def test_letters_and_numbers_of_a_picture_are_those_of_its_film(which, request, visit):
    """Numbered discs attack; squares defend, and the letters of a still are those of the film that it is taken from."""
    page = visit(request.getfixturevalue(which) / "report.html")
    figures = page.locator("figure:has(> svg[id^='still-'])")
    sides = set()
    for figure in figures.all():
        discs = figure.locator("svg .disc + text.number").all_text_contents()
        assert sorted(discs) == ["1", "2", "3", "4", "5"]
        letters = figure.locator("svg rect.body + text.letter").all_text_contents()
        assert len(set(letters)) == 5, "no two alike"
        figure.locator("button[data-film^='film-']").click()
        film = page.frame_locator("#film iframe")
        assert sorted(film.locator("#floor .mark.defence text").all_text_contents()) == sorted(letters)
        assert film.locator("#floor .mark.attack text").all_text_contents() == ["1", "2", "3", "4", "5"]
        assert film.locator("#floor .mark.defence rect.body").count() == 5
        assert film.locator("#floor .mark.attack circle:not(.ring)").count() == 5
        sides.add(figure.locator("g[data-who='rover-side-back'] text.letter").text_content())
        page.locator("#film-close").click()
    assert sides == {"LB", "RB"}, "the rover starts on either side in them, or nothing is proved"


def test_every_film_plays_to_its_end(small, visit):
    page = visit(small / "report.html", clocked=True)
    buttons = page.locator("button[data-film^='film-']")
    films = {(row["variant"], row["possession"]) for row in rows(small, "films.csv")}
    filmed = [variant for variant, _ in films]
    assert buttons.count() == len(films) and {filmed.count(variant) for variant in filmed} == {3}, films
    assert 3 <= len(set(filmed)) <= 4, "the first three, the best by net points, and the one compared with"
    seen = set()
    for nth in range(buttons.count()):
        buttons.nth(nth).click()
        film = page.frame_locator("#film iframe")
        which = film.locator("h1 .which").inner_text()
        name, possession = film.locator("h1").inner_text(), re.search(r"possession (\d+), seed 1", which).group(1)
        seen.add((re.search(r", (\S+?)\s*possession", name).group(1), possession))
        film.locator("#speed").select_option("4")
        # It may play by itself: a frame does not hear of the wish for less motion in every browser.
        if film.locator("#play").get_attribute("aria-label") == "Play":
            film.locator("#play").click()
        bar = film.locator("#scrub")
        play_out(film.locator("#play"))
        assert bar.input_value() == bar.get_attribute("max") and int(bar.input_value()) > 20
        page.locator("#film-close").click()
        assert page.locator("iframe").count() == 0
    assert seen == films


def test_the_best_is_seen_beside_the_one_it_is_compared_with(small, visit):
    page = visit(small / "report.html")
    buttons = page.locator("button[data-film^='beside-']")
    # Where nothing parts the two the page says so, and there is no film.
    same = page.locator("#films p", has_text="Beside hold-wing it is the same, move for move")
    assert buttons.count() + same.count() == 3 and buttons.count() > 0
    for nth in range(buttons.count()):
        assert "Play it beside hold-wing" in buttons.nth(nth).inner_text()
        buttons.nth(nth).click()
        film = page.frame_locator("#film iframe")
        expect(film.locator("#parting li").first).to_contain_text("The two part at")
        film.locator("#end").click()
        for floor in [0, 1]:
            expect(film.locator(f"#here-{floor}")).to_contain_text("the end: ")
        page.locator("#film-close").click()


def test_a_still_stands_on_the_side_that_it_names(small, visit):
    page = visit(small / "report.html")
    sides = {(row["variant"], row["choice"]): row["rover_started"] for row in rows(small, "films.csv")}
    order = [row["variant"] for row in rows(small, "comparison.csv")]
    for (variant, choice), side in sides.items():
        picture = f"still-{order.index(variant) + 1}-{choice}"
        assert f"The rover started on the {side}." in page.locator(f"figure:has(#{picture}) figcaption").text_content()
        button = page.locator(f"figure:has(#{picture}) button[data-film^='film-']")
        button.click()
        film = page.frame_locator("#film iframe")
        start = film.locator("#floor .mark").nth(2).get_attribute("transform")
        assert (float(re.match(r"translate\(([-\d.]+)", start).group(1)) > 0) == (side == "right")
        page.locator("#film-close").click()
    assert set(sides.values()) == {"left", "right"}, "both sides are among them, or nothing is proved"


def test_it_works_alone_and_keeps_small(small, tmp_path, visit):
    alone = tmp_path / "sent.html"
    shutil.copy(small / "report.html", alone)
    assert alone.stat().st_size < 5_000_000
    page = visit(alone, width=390)
    page.locator("button[data-film]").first.click()
    expect(page.frame_locator("#film iframe").locator("#clock")).to_contain_text("s")


def test_it_can_be_printed(small, visit, tmp_path):
    page = visit(small / "report.html")
    file = tmp_path / "report.pdf"
    page.pdf(path=str(file), format="A4")
    raw = file.read_bytes()
    pages = len(re.findall(rb"/Type\s*/Page[^s]", raw))
    # So many routes as are not clearly behind are shown, and the one with which all are compared: each has its pictures.
    shown = page.locator("h3", has_text="against hold-wing").count() + 1
    assert shown > 1 and 6 <= pages <= 6 * shown, (pages, shown)
    assert b"/ToUnicode" in raw and b"/Font" in raw, "its words are text"
    page.emulate_media(media="print")
    page.set_viewport_size({"width": 720, "height": 1000})
    assert not scrolls_sideways(page)
    assert page.locator(".play:visible").count() == 0 and page.locator("nav:visible").count() == 0
    after = page.eval_on_selector_all("h2, h3", "(all) => all.map((one) => getComputedStyle(one).breakAfter)")
    assert set(after) == {"avoid"}, "no heading stands alone"
    cut = page.evaluate(
        """() => [...document.querySelectorAll('table, figure, pre, p')].filter((one) =>
            one.checkVisibility() && one.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
            .map((one) => one.outerHTML.slice(0, 80))"""
    )
    assert cut == [], "wider than the paper"
