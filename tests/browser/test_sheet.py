"""The coach's sheet and its cards: the tables' numbers, two printed pages each, for anyone and with no network.

What it has caught: nothing yet.
"""

import csv
import io
import json
import re

import pytest
from conftest import grave_faults, scrolls_sideways
from pypdf import PdfReader

PAGES = ["sheet.html", "cards.html"]


@pytest.fixture(scope="session")
def result(program):
    built = program.build("compare", "--possessions", "256")
    done = program.run("sheet", str(built.folder), "--quiet")
    assert done.returncode == 0 or "not an empty folder" in done.stderr, done.stderr
    return built.folder


@pytest.fixture(scope="session")
def options(program):
    """Two leaders: more pictures, and more to say."""
    built = program.build("compare", "guard-options", "--rank-by", "seconds_used", "--possessions", "256")
    assert len(json.loads((built.folder / "verdict.json").read_text())["gap"]) == 2, "two leaders, or nothing is proved"
    done = program.run("sheet", str(built.folder), "--quiet")
    assert done.returncode == 0 or "not an empty folder" in done.stderr, done.stderr
    return built.folder


@pytest.fixture(scope="session")
def on_paper(program):
    """The sheet of a result on a paper: `on_paper(folder, "a4")`."""
    return lambda folder, paper: program.build("sheet", str(folder), "--paper", paper).folder


def table(result, name) -> list[dict]:
    return list(csv.DictReader(io.StringIO((result / name).read_text())))


@pytest.mark.parametrize("page_name", PAGES)
@pytest.mark.parametrize("width", [390, 1440])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_page_fits_its_window_and_has_no_grave_fault(result, visit, page_name, width, scheme):
    page = visit(result / "sheet" / page_name, width=width, scheme=scheme)
    assert not scrolls_sideways(page)
    assert not grave_faults(page)


def test_the_sheet_has_the_numbers_of_the_tables(result, visit):
    page = visit(result / "sheet/sheet.html")
    best = table(result, "best_by_net.csv")
    claims = page.locator(".grounds p").all_text_contents()
    assert page.locator(".verdict").count() == 1, "the advice stands alone"
    net, low, high = (f"{20 * float(best[0][key]):.1f}" for key in ("expected_net_points", "low", "high"))
    figure = f"{best[0]['variant']}, {net} in 20 possessions (95 % interval {low} to {high})."
    by_net = next(claim for claim in claims if "expected net points" in claim and claim.startswith("Best by"))
    assert figure in by_net
    assert ("Too close to call" in by_net) == any(row["settled"] == "false" for row in best[1:])
    rules = {row["post_help_rule"] for row in table(result, "answers.csv")}
    assert page.locator("dt").count() == len(rules)
    assert page.locator("dd").first.inner_text().startswith("All above was played against this.")


def test_the_sheet_claims_what_the_table_claims(result, visit):
    page = visit(result / "sheet/sheet.html")
    answers = table(result, "answers.csv")
    usual, *others = page.locator("dt").all_text_contents()
    assert usual.startswith("Their usual rule (the ")
    # What the ranking says of it, of more possessions, is not said again.
    assert page.locator("dd").first.locator(".gains").count() == 0
    for nth, head in enumerate(others, start=1):
        words = head.removeprefix("If their ")
        own = [row for row in answers if words.startswith(row["post_help_rule"].replace("-", " "))]
        lines = page.locator("dd").nth(nth).locator(".gains").all_text_contents()
        assert len(lines) == len({row["measure"] for row in own}) > 0
        said = " ".join(lines)
        for variant in {row["variant"] for row in own}:
            claimed = any(row["verdict"] or row["stands"] for row in own if row["variant"] == variant)
            assert (f" {variant} " in said) == claimed, (variant, said)


def test_every_picture_shows_something(result, visit):
    page = visit(result / "sheet/sheet.html")
    figures = page.locator(".floors svg")
    # Four for the best, and the small ones of the routes beside their names.
    assert figures.count() >= 4
    shapes = sorted(figures.nth(nth).locator("circle, rect, path").count() for nth in range(figures.count()))
    assert shapes[0] > 3 and shapes[-4] > 10, shapes
    cards = visit(result / "sheet/cards.html")
    assert cards.locator(".card svg").count() == 5


@pytest.mark.parametrize(("units", "other"), [("m", r"\d\sft\b"), ("ft", r"\d\sm\b")])
def test_lengths_are_told_in_what_was_asked_for(result, program, visit, tmp_path, units, other):
    out = tmp_path / units
    assert program.run("sheet", str(result), "--units", units, "--out", str(out), "--quiet").returncode == 0
    for name in PAGES:
        words = visit(out / name).locator(".screen").inner_text()
        assert not re.search(other, words), name
    assert ("4 ft" if units == "ft" else "1.22 m") in visit(out / "sheet.html").locator(".screen").inner_text()


def test_the_picture_of_a_card_is_as_wide_as_its_card(result, visit):
    page = visit(result / "sheet/cards.html")
    for card in page.locator(".card").all():
        wide = card.evaluate("(one) => one.querySelector('svg').getBoundingClientRect().width / one.clientWidth")
        assert wide > 0.8


@pytest.mark.parametrize("page_name", PAGES)
@pytest.mark.parametrize(("paper", "size"), [("letter", (612, 792)), ("a4", (595, 842))])
def test_printed_it_is_so_many_pages_with_its_words(result, on_paper, visit, page_name, paper, size):
    out = on_paper(result, paper)
    page = visit(out / page_name)
    printed = PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True, print_background=True)))
    own = PdfReader(out / page_name.replace(".html", ".pdf"))
    for pdf in (printed, own):
        assert len(pdf.pages) == 2
        box = pdf.pages[0].mediabox
        assert (round(float(box.width)), round(float(box.height))) == pytest.approx(size, abs=1)
    words = " ".join(page.extract_text() for page in printed.pages)
    assert "Follow your" in words.replace("\n", " ")


# Every word of a printed page: how high its letters are on paper, pt, and where its box is.
PRINTED = """() => [...document.querySelectorAll('.printed > .paper')].map((page) => {
    const frame = page.getBoundingClientRect();
    // The page's own units are points.
    const point = frame.height / Number(page.getAttribute('height'));
    const words = [...page.querySelectorAll('text')].filter((text) => text.textContent.trim()).map((text) => {
        const box = text.getBoundingClientRect();
        const own = text.getScreenCTM();
        const size = (parseFloat(getComputedStyle(text).fontSize) * Math.hypot(own.a, own.b)) / point;
        const [left, right] = [box.left - frame.left, box.right - frame.left].map((at) => at / point);
        const [top, bottom] = [box.top - frame.top, box.bottom - frame.top].map((at) => at / point);
        return { words: text.textContent, size, left, right, top, bottom, pictured: Boolean(text.closest('.pic')) };
    });
    return { words, width: frame.width / point, height: frame.height / point };
})"""

# No printer prints nearer to the edge of paper, pt.
EDGE = 18


@pytest.mark.parametrize("which", ["result", "options"])
@pytest.mark.parametrize("page_name", PAGES)
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_on_paper_nothing_is_cut_off_too_small_or_written_over(which, request, on_paper, visit, page_name, paper):
    page = visit(on_paper(request.getfixturevalue(which), paper) / page_name)
    page.emulate_media(media="print")
    pages = page.evaluate(PRINTED)
    assert len(pages) == 2 and all(len(own["words"]) > 20 for own in pages)
    for own in pages:
        small = [(round(one["size"], 2), one["words"]) for one in own["words"] if one["size"] < 6.995]
        assert small == []
        cut = [
            one["words"]
            for one in own["words"]
            if min(one["left"], one["top"]) < EDGE or one["right"] > own["width"] - EDGE or one["bottom"] > own["height"] - EDGE
        ]
        assert cut == []
        lines = [one for one in own["words"] if not one["pictured"]]
        for nth, one in enumerate(lines):
            for other in own["words"]:
                # Boxes of lines are taller than letters: a quarter may be shared.
                down = min(one["bottom"], other["bottom"]) - max(one["top"], other["top"])
                across = min(one["right"], other["right"]) - max(one["left"], other["left"])
                lies_over = across > 0.5 and down > 0.25 * min(one["bottom"] - one["top"], other["bottom"] - other["top"])
                assert other is one or not lies_over, (one["words"], other["words"])


def sizes_of(pdf: PdfReader) -> list[tuple[float, str]]:
    """Heights of the letters of a PDF, pt, with the words."""
    found = []
    for page in pdf.pages:
        def heard(text, within, own, _, size):
            # The matrix of the text within that of the page.
            scale = abs(own[0] * within[0] + own[1] * within[2]) or abs(own[1] * within[1])
            if text.strip():
                found.append((size * scale, text))

        page.extract_text(visitor_text=heard)
    return found


@pytest.mark.parametrize("page_name", PAGES)
def test_cards_and_sheet_as_pdf_have_no_letters_under_seven_points(result, visit, page_name):
    own = PdfReader(result / "sheet" / page_name.replace(".html", ".pdf"))
    printed = PdfReader(io.BytesIO(visit(result / "sheet" / page_name).pdf(prefer_css_page_size=True, print_background=True)))
    for pdf in (own, printed):
        sizes = sizes_of(pdf)
        assert len(sizes) > 40
        # A browser's page is a thousandth lower than the paper, or it would print an empty one.
        assert min(sizes)[0] > 6.98, min(sizes)


def test_three_cards_to_a_page_with_pictures_of_one_size(result, visit):
    page = visit(result / "sheet/cards.html")
    page.emulate_media(media="print")
    pages = page.locator(".printed > .paper")
    frames = [pages.nth(nth).locator("rect.f").count() for nth in range(pages.count())]
    assert frames == [3, 2], "five cards, and a field about them"
    widths = page.locator(".printed svg.pic").evaluate_all("(all) => all.map((one) => one.width.baseVal.value)")
    # The last is of the field about them: what the places are called.
    assert len(widths) == 6 and max(widths[:5]) - min(widths[:5]) < 0.1, widths


def test_marks_of_a_sheet_are_those_of_report_and_film(result, visit):
    page = visit(result / "sheet/sheet.html")
    start = page.locator("#sheet-start")
    assert sorted(start.locator(".disc + text.number").all_text_contents()) == ["1", "2", "3", "4", "5"]
    assert sorted(start.locator("rect.body + text.letter").all_text_contents()) == ["LB", "LW", "P", "RB", "RW"]
    # The rover's side is on the right: so is who is called right.
    at = {
        group.locator("text").text_content(): group.locator("rect").get_attribute("x")
        for group in start.locator("g:has(> rect.body)").all()
    }
    assert float(at["RB"]) > float(at["LB"]) and float(at["RW"]) > float(at["LW"])
    assert not page.locator("polygon.body, path.body").count(), "squares, and no other shape"
