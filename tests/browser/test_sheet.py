"""The coach's sheet and its cards: the tables' numbers, one printed page each, for anyone and with no network.

What it has caught: nothing yet.
"""

import csv
import io
import subprocess

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
    claims = page.locator(".verdict").all_text_contents()
    net, low, high = (f"{20 * float(best[0][key]):.1f}" for key in ("expected_net_points", "low", "high"))
    figure = f"{best[0]['variant']}, {net} in 20 possessions (95 % interval {low} to {high})."
    by_net = next(claim for claim in claims if "expected net points" in claim and claim.startswith("Best by"))
    assert figure in by_net
    assert ("Too close to call" in by_net) == any(row["settled"] == "false" for row in best[1:])
    rules = {row["post_help_rule"] for row in table(result, "answers.csv")}
    assert page.locator("dt").count() == len(rules)
    assert page.locator("dd").first.inner_text().startswith("As above")


def test_the_sheet_claims_what_the_table_claims(result, visit):
    page = visit(result / "sheet/sheet.html")
    answers = table(result, "answers.csv")
    for nth, head in enumerate(page.locator("dt").all_text_contents()):
        words = head.removeprefix("If the ")
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


@pytest.mark.parametrize("page_name", PAGES)
@pytest.mark.parametrize(("paper", "size"), [("letter", (612, 792)), ("a4", (595, 842))])
def test_printed_it_is_one_page_with_its_words(result, program, visit, tmp_path, page_name, paper, size):
    out = tmp_path / paper
    done: subprocess.CompletedProcess = program.run(
        "sheet", str(result), "--paper", paper, "--out", str(out), "--quiet"
    )
    assert done.returncode == 0, done.stderr
    page = visit(out / page_name)
    printed = PdfReader(io.BytesIO(page.pdf(prefer_css_page_size=True, print_background=True)))
    own = PdfReader(out / page_name.replace(".html", ".pdf"))
    for pdf in (printed, own):
        assert len(pdf.pages) == 1
        box = pdf.pages[0].mediabox
        assert (round(float(box.width)), round(float(box.height))) == pytest.approx(size, abs=1)
    assert "Follow your" in printed.pages[0].extract_text().replace("\n", " ")
