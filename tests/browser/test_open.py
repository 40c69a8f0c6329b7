"""The page that `zoneprobe open` serves: a question from the first click to the saved files, for one browser on one machine.

What it has caught: nothing yet.
"""

import contextlib
import filecmp
import functools
import http.client
import http.server
import os
import re
import shlex
import signal
import subprocess
import threading
import time
import urllib.request
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from conftest import grave_faults, scrolls_sideways
from playwright.sync_api import Page, expect
from pypdf import PdfReader

# A run of a few possessions, and what is played besides it, may have to wait for a busy machine.
PATIENCE_MS = 240_000
# What is compared: two routes that are hard to tell apart.
ROUTES = ["hold-wing", "seam-cross"]
pytestmark = pytest.mark.timeout(600)


class QuietHandler(http.server.SimpleHTTPRequestHandler):
    """Serves a folder without a word."""

    def log_message(self, *_):
        pass


class Served:
    """The program, serving in a folder of its own."""

    def __init__(self, folder: Path):
        self.folder = folder
        self.temporary = folder / "tmp"
        self.temporary.mkdir(parents=True)
        environment = {**os.environ, "TMPDIR": str(self.temporary)}
        command = [os.environ["ZONEPROBE"], "open", "--no-browser", "--quiet"]
        self.process = subprocess.Popen(command, cwd=folder, env=environment, stdout=subprocess.PIPE, text=True)
        self.address = self.process.stdout.readline().strip()
        parts = urlsplit(self.address)
        assert parts.hostname == "127.0.0.1" and parts.port, self.address
        self.port, self.path, self.origin = parts.port, parts.path, f"http://{parts.netloc}"

    def ask(self, method="GET", path=None, **headers) -> int:
        """The status of a request that some other program makes."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)
        connection.putrequest(method, path or self.path, skip_host=True)
        headers = {"Host": f"127.0.0.1:{self.port}", **{name.replace("_", "-"): value for name, value in headers.items()}}
        for name, value in headers.items():
            if value is not None:
                connection.putheader(name, value)
        connection.putheader("Content-Length", "0")
        connection.endheaders()
        status = connection.getresponse().status
        connection.close()
        return status

    def ticks(self) -> int:
        """Processor time that it and its children have taken."""
        fields = Path(f"/proc/{self.process.pid}/stat").read_text().rsplit(")", 1)[1].split()
        return sum(int(field) for field in fields[11:15])

    def children(self) -> list[str]:
        return Path(f"/proc/{self.process.pid}/task/{self.process.pid}/children").read_text().split()

    def gone(self):
        """It ends well and leaves nothing."""
        assert self.process.wait(60) == 0
        assert list(self.temporary.iterdir()) == []


@contextlib.contextmanager
def serving(folder: Path):
    own = Served(folder)
    yield own
    if own.process.poll() is None:
        own.process.send_signal(signal.SIGINT)
        own.process.wait(60)


@pytest.fixture(scope="module")
def shared(tmp_path_factory):
    """A program that many tests use, each with a browser of its own."""
    with serving(tmp_path_factory.mktemp("shared") / "here") as own:
        yield own


@pytest.fixture
def served(tmp_path):
    """A program of one's own, to be ended."""
    with serving(tmp_path / "here") as own:
        yield own


@contextlib.contextmanager
def tabs(browser, served: Served):
    """Opens the page in a browser of its own: `tab(width=..., scheme=...)`; nothing but the server may be asked."""
    opened = []

    def open_tab(width=1440, height=900, scheme="light") -> Page:
        context = browser.new_context(
            viewport={"width": width, "height": height}, color_scheme=scheme, reduced_motion="reduce"
        )
        # What would be printed, instead of a window to print it.
        context.add_init_script("window.print = () => { window.top.printed = location.pathname.split('/').pop(); }")
        said, asked = [], []
        opened.append((context, said, asked))
        page = context.new_page()
        ours = (served.origin, "data:", "about:", "blob:")
        page.on("request", lambda r: None if r.url.startswith(ours) else asked.append(r.url))
        # A form that was refused is answered by 422, and a run is cut off where the program ends; the console tells of both.
        told = ("422", "net::ERR_")
        page.on("console", lambda m: None if any(word in m.text for word in told) else said.append(m.text))
        page.on("pageerror", lambda error: said.append(str(error)))
        page.goto(served.address)
        return page

    yield open_tab
    for context, said, asked in opened:
        context.close()
        assert not said, f"the console has {said}"
        assert not asked, f"the page asks for {asked}"


@pytest.fixture
def tab(browser, shared):
    """Opens the page of the program that tests share."""
    with tabs(browser, shared) as open_tab:
        yield open_tab


@pytest.fixture
def own_tab(browser, served):
    """Opens the page of the program that a test ends."""
    with tabs(browser, served) as open_tab:
        yield open_tab


@pytest.fixture(scope="module")
def answer(browser, shared) -> str:
    """The address of a question that has been answered."""
    with tabs(browser, shared) as open_tab:
        page = open_tab()
        small(page)
        play(page)
        answered(page)
        return page.url


def choose(page: Page, name: str, value: str):
    page.locator(f'input[name="{name}"][value="{value}"]').check()


def type_in(page: Page, name: str, text: str):
    page.locator(f'input[name="{name}"]').fill(text)


def small(page: Page, possessions=64, long="set", routes=ROUTES):
    """Two routes, few possessions; or, until it is sure, no more than may be."""
    route = page.locator('input[name="route"]')
    for name in route.evaluate_all("(all) => all.filter((one) => one.checked).map((one) => one.value)"):
        page.locator(f'input[name="route"][value="{name}"]').set_checked(name in routes)
    for name in routes:
        choose(page, "route", name)
    choose(page, "long", long)
    type_in(page, "possessions", str(possessions))


def play(page: Page):
    page.get_by_role("button", name="Play it").click()
    expect(page.locator("#run-head, #result-head").first).to_be_attached()


def answered(page: Page):
    expect(page.locator("#report")).to_be_visible(timeout=PATIENCE_MS)


def until(holds):
    """Waits from outside of the page: its policy lets no text be run as script, not even a test's."""
    for _ in range(PATIENCE_MS // 200):
        if holds():
            return
        time.sleep(0.2)
    raise AssertionError("it has not come to that")


def differing(one: Path, other: Path) -> list[str]:
    """Files that are not there twice, byte for byte."""
    names = {str(path.relative_to(root)) for root in (one, other) for path in root.rglob("*") if path.is_file()}
    _, unlike, missing = filecmp.cmpfiles(one, other, names, shallow=False)
    return unlike + missing


def test_the_first_screen_has_an_answer_and_a_film(tab):
    page = tab()
    assert "bundled question" in page.locator(".first").inner_text()
    assert page.locator(".first .sentence").inner_text().strip()
    assert page.locator(".first .chart svg").is_visible()
    film = page.frame_locator(".first iframe")
    expect(film.locator("#floor .mark")).to_have_count(10)
    film.locator("#play").click()
    expect(film.locator("#play")).to_have_attribute("aria-label", "Pause")


def test_a_question_from_the_zone_to_the_saved_files(shared, tab, tmp_path):
    page = tab()
    choose(page, "zone", "2-3")
    type_in(page, "sink_ft", "1.5")
    page.locator('.panel[data-zone="2-3"] input[name="corner_rule-2-3"]').nth(1).check()
    choose(page, "judged", "expected_net_points")
    type_in(page, "rover-name", "Kit")
    type_in(page, "rover-open_threes", "38 of 95")
    type_in(page, "other-post-number", "35")
    page.locator('select[name="other-post-licence"]').select_option("no-threes")
    small(page, long="sure")
    type_in(page, "budget", "2048")
    play(page)
    assert "Against a 2-3 whose back line sinks 1.5 ft" in page.locator("h1").inner_text()
    assert "Kit" in page.locator("header").inner_text() and "38 of 95" in page.locator("header").inner_text()
    answered(page)
    assert page.locator("#answer .sentence").inner_text().strip()
    assert re.search(r"(Sure|Not sure): .* \(after (1,024|2,048) possessions of each route", page.locator("#answer").inner_text())
    films = page.frame_locator("iframe.films")
    expect(films.locator("svg.floor")).to_have_count(2)
    films.locator("#play").click()
    expect(films.locator("#play")).to_have_attribute("aria-label", "Pause")

    with page.context.expect_page() as opened:
        page.locator("#sheet").click()
    sheet = opened.value
    expect(sheet.locator(".verdict")).to_be_attached()
    printed = tmp_path / "printed.pdf"
    sheet.pdf(path=printed)
    assert len(PdfReader(printed).pages) == 2
    assert "Kit" in sheet.locator("body").inner_text()
    sheet.close()
    page.locator("#print").click()
    until(lambda: page.evaluate("window.printed") == "sheet.html")

    page.get_by_label("Name of the folder").fill("Friday: the 2-3")
    page.get_by_role("button", name="Save").click()
    expect(page.locator("#command")).to_be_visible()
    saved = shared.folder / "friday-the-2-3"
    names = {path.name for path in saved.iterdir()}
    files = {"question.toml", "scenario.toml", "our-players.csv", "command.txt", "comparison.txt"}
    assert names == files | {"result", "sheet"}
    command = page.locator("#command").inner_text()
    assert command == (saved / "command.txt").read_text().strip()
    words = shlex.split(command)
    assert words[0] == "zoneprobe" and words[-2:] == ["--out", "again"]
    assert words[words.index("--until-sure") :][:4] == ["--until-sure", "0.02", "--budget", "2048"]
    done = subprocess.run([os.environ["ZONEPROBE"], *words[1:]], cwd=saved, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert differing(saved / "result", saved / "again") == []
    assert done.stdout == (saved / "comparison.txt").read_text()
    sheets = [os.environ["ZONEPROBE"], "sheet", "result", "--out", "sheet-again", "--quiet"]
    subprocess.run(sheets, cwd=saved, check=True, capture_output=True)
    assert differing(saved / "sheet", saved / "sheet-again") == []


def test_it_is_worked_by_the_keyboard_alone(shared, tab):
    page = tab()
    keys = page.keyboard

    def go_to(selector: str, most=400):
        for _ in range(most):
            keys.press("Tab")
            if page.evaluate("(selector) => document.activeElement.matches(selector)", selector):
                return
        raise AssertionError(f"no key leads to {selector}")

    keys.press("Tab")
    keys.press("Enter")
    go_to('input[name="zone"]')
    keys.press("ArrowRight")
    assert page.locator('input[name="zone"][value="3-2"]').is_checked()
    go_to('[data-zone="3-2"] summary')
    keys.press("Enter")
    go_to('[data-zone="3-2"] .man')
    before = page.locator('[data-zone="3-2"] table.places:not([hidden]) input').first.input_value()
    keys.press("ArrowRight")
    after = page.locator('[data-zone="3-2"] table.places:not([hidden]) input').first.input_value()
    assert float(after) == pytest.approx(float(before) + 0.1)
    go_to('input[name="rover-number"]')
    keys.type("7")
    go_to('input[name="route"][value="seam-sit"]')
    keys.press("Space")
    assert page.locator('input[name="route"]:checked').count() == 2
    go_to('input[name="long"]')
    keys.press("ArrowRight")
    assert page.locator('input[name="long"][value="set"]').is_checked()
    assert page.locator('input[name="margin"]').is_hidden()
    go_to('input[name="possessions"]')
    keys.press("Control+A")
    keys.type("64")
    go_to("button.go")
    keys.press("Enter")
    answered(page)
    assert page.evaluate("document.activeElement.id") == "result-head"
    go_to("#save button")
    keys.press("Enter")
    expect(page.locator("#command")).to_be_visible()
    assert (shared.folder / "saved-question" / "their-3-2.toml").exists()


def test_a_defender_is_dragged(tab):
    page = tab()
    page.locator('[data-zone="1-2-2"] summary').click()
    panel = page.locator('.panel[data-zone="1-2-2"]')
    panel.locator("select.place").select_option("wing")
    fields = panel.locator("table.places:not([hidden]) input")
    before = [float(fields.nth(nth).input_value()) for nth in range(10)]
    man = panel.locator(".man").first
    man.scroll_into_view_if_needed()
    box = man.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 40, y + 20, steps=4)
    page.mouse.up()
    after = [float(fields.nth(nth).input_value()) for nth in range(10)]
    assert after[0] > before[0] + 0.4 and after[1] > before[1] + 0.2
    assert after[2:] == before[2:], "nobody else has moved"
    # What is typed moves the mark.
    fields.nth(2).fill("6.5")
    assert "translate(6.5 " in panel.locator(".man").nth(1).get_attribute("transform")


def test_what_cannot_be_used_is_said_and_what_was_typed_stays(tab):
    page = tab()
    type_in(page, "rover-open_threes", "95 of 38")
    type_in(page, "sink_ft", "2.5")
    small(page)
    play_button = page.get_by_role("button", name="Play it")
    play_button.click()
    said = page.locator("#refused").inner_text()
    assert "our-players.csv" in said and "95" in said and str(page.url) not in said and "/tmp" not in said
    assert page.locator('input[name="sink_ft"]').input_value() == "2.5"
    assert page.locator('input[name="rover-open_threes"]').input_value() == "95 of 38"
    assert not page.locator('input[name="route"][value="seam-sit"]').is_checked()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1440])
def test_it_fits_its_window_and_axe_finds_nothing_grave(tab, answer, scheme, width):
    page = tab(width=width, scheme=scheme)
    for zone in ["1-2-2", "man-to-man"]:
        choose(page, "zone", zone)
        for details in page.locator(f'[data-zone="{zone}"] summary').all():
            details.click()
        assert not scrolls_sideways(page)
        assert grave_faults(page) == []
    for kind in ["posts", "guards", "plan", "route"]:
        choose(page, "compare", kind)
        assert not scrolls_sideways(page)
    page.goto(answer)
    answered(page)
    assert not scrolls_sideways(page)
    assert grave_faults(page) == []


def test_every_picture_is_drawn(shared, tab):
    page = tab()
    addresses = page.evaluate("[...document.querySelectorAll('.choice img')].map((image) => image.src)")
    assert len(addresses) > 30

    def kind(address: str) -> str:
        request = urllib.request.Request(address, headers={"Sec-Fetch-Site": "same-origin"})
        with urllib.request.urlopen(request, timeout=PATIENCE_MS / 1000) as drawn:
            return drawn.headers["content-type"]

    with ThreadPoolExecutor(os.cpu_count()) as threads:
        for address, found in zip(addresses, threads.map(kind, addresses), strict=True):
            assert "svg" in found, address


def test_two_tabs_do_not_disturb_one_another(tab):
    pages = [tab(), tab()]
    for page in pages:
        small(page, 200)
        play(page)
    assert pages[0].url != pages[1].url
    tables = []
    for page in pages:
        answered(page)
        address = page.url + "/file/result/comparison.csv"
        tables.append(page.evaluate("async (address) => (await fetch(address)).text()", address))
    assert tables[0] == tables[1] and "hold-wing" in tables[0]


def test_a_run_is_stopped_when_told_and_counts(tab):
    page = tab()
    small(page, 65_536)
    play(page)
    expect(page.locator("#standing svg")).to_be_visible(timeout=PATIENCE_MS)
    assert "left" in page.locator("#left").inner_text()
    first = float(page.locator("#progress").evaluate("(bar) => bar.value"))
    until(lambda: page.locator("#progress").evaluate("(bar) => bar.value") > first)
    page.get_by_role("button", name="Stop").click()
    answered(page)
    assert "possessions of each route" in page.locator("#answer").inner_text()
    # The page loaded again still has it.
    page.reload()
    assert page.locator("#answer .sentence").is_visible()


def test_until_sure_looks_are_told_as_they_come_and_a_stop_says_that_it_was_not_sure(shared, tab):
    page = tab(width=390)
    # Two that 8,192 possessions do not part, and no difference is too small: it goes on until it is stopped.
    small(page, long="sure", routes=["split-drop", "seam-cross"])
    type_in(page, "margin", "0")
    play(page)
    expect(page.locator("#standing")).to_contain_text(re.compile("Nothing is said before|is ahead"), timeout=PATIENCE_MS)
    race = page.locator("#standing .race")
    expect(race).to_be_visible(timeout=PATIENCE_MS)
    expect(page.locator("#left")).to_contain_text("at most", timeout=PATIENCE_MS)
    # As a look is taken nothing is said of the next.
    expect(page.locator("#words")).to_contain_text("the next look is at", timeout=PATIENCE_MS)
    assert re.search(r"After (1,024|2,048|4,096) possessions of each \S+ is ahead", page.locator("#standing").inner_text())
    assert race.locator("tbody tr").count() == 2 and not scrolls_sideways(page)
    page.get_by_role("button", name="Stop").click()
    answered(page)
    told = re.search(r"Not sure: it was stopped after (\S+) possessions of each route", page.locator("#answer").inner_text())
    page.get_by_label("Name of the folder").fill("stopped")
    page.get_by_role("button", name="Save").click()
    expect(page.locator("#command")).to_be_visible()
    look = told.group(1).replace(",", "")
    assert f"--until-sure 0 --budget 65536 --stop-at {look} " in page.locator("#command").inner_text()
    again = [os.environ["ZONEPROBE"], "again", "result", "--quiet"]
    subprocess.run(again, cwd=shared.folder / "stopped", check=True, capture_output=True)


def test_closing_the_tab_ends_its_run(served, own_tab):
    page = own_tab()
    small(page, 65_536)
    play(page)
    expect(page.locator("#standing svg")).to_be_visible(timeout=PATIENCE_MS)
    page.close()
    for _ in range(120):
        before = served.ticks()
        time.sleep(1)
        # A server that waits takes next to nothing; a run takes all that it gets.
        if served.ticks() - before <= 2:
            break
    else:
        raise AssertionError("it plays on")
    assert served.children() == []
    assert served.ask() == 200, "it is still there for other tabs"


def test_nobody_else_is_heard(shared):
    served = shared
    stop = served.path + "q/1000000/stop"
    assert served.ask() == 200
    assert served.ask("POST", stop, Origin=served.origin) == 404, "heard, though there is no such question"
    for refused in [
        served.ask(path="/"),
        served.ask(path="/0123456789abcdef0123456789abcdef/"),
        served.ask(path=served.path[:-2] + "/"),
        served.ask(path="//" + served.path),
        served.ask(Host="zoneprobe.example"),
        served.ask(Host=f"localhost:{served.port}"),
        served.ask(Host=None),
        served.ask(Origin="http://zoneprobe.example"),
        served.ask(Origin="null"),
        served.ask(Sec_Fetch_Site="cross-site"),
        served.ask("POST", stop),
        served.ask("POST", stop, Origin="http://zoneprobe.example"),
        served.ask("POST", stop, Origin=served.origin, Host="zoneprobe.example"),
        served.ask("POST", stop, Origin=served.origin, Sec_Fetch_Site="cross-site"),
        served.ask("POST", "/q/1000000/stop", Origin=served.origin),
    ]:
        assert refused in (400, 403)


def test_a_foreign_page_in_the_same_browser_is_not_heard(shared, browser, tmp_path):
    served = shared
    (tmp_path / "foreign").mkdir()
    (tmp_path / "foreign" / "index.html").write_text(
        f"""<!doctype html><title>x</title><iframe src="{served.address}"></iframe><img src="{served.address}floor.svg">
        <form method="post" action="{served.address}end" target="own"></form><iframe name="own"></iframe>
        <script>
        document.forms[0].submit();
        window.heard = Promise.all([
          fetch("{served.address}").then((answer) => "read " + answer.status, () => "no"),
          fetch("{served.address}end", {{ method: "POST", mode: "no-cors" }}).then(() => "sent", () => "no"),
        ]);
        </script>"""
    )
    # Another server on this machine: as near as a foreign page can come, and it knows the whole address.
    handler = functools.partial(QuietHandler, directory=tmp_path / "foreign")
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    context = browser.new_context()
    page = context.new_page()
    answers = []
    page.on("response", lambda a: answers.append((a.request.method, a.status)) if a.url.startswith(served.origin) else None)
    page.goto(f"http://127.0.0.1:{server.server_port}/")
    assert page.evaluate("window.heard.then((all) => all[0])") == "no"
    page.wait_for_timeout(1000)
    context.close()
    server.shutdown()
    assert {method for method, _ in answers} == {"GET", "POST"}, answers
    assert {status for _, status in answers} == {403}, answers
    assert served.process.poll() is None, "and it has not been ended"


def test_it_ends_by_its_button(served, own_tab):
    page = own_tab()
    small(page, 65_536)
    play(page)
    expect(page.locator("#standing svg")).to_be_visible(timeout=PATIENCE_MS)
    page.get_by_role("button", name="End zoneprobe").click()
    expect(page.locator("#ended")).to_have_text("Zoneprobe has ended. This tab can be closed.")
    served.gone()


def test_it_ends_by_a_signal(served):
    served.process.send_signal(signal.SIGINT)
    served.gone()
