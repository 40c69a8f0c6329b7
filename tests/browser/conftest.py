"""What tests of pages share: the program, a folder of pages made once, and a watched browser page.

`program` builds a page once and keeps it; `visit` opens one, `read` one for several tests, and the test fails afterwards if
anything was written to the console or asked of a network.
"""

import os
import subprocess
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Locator, Page, expect, sync_playwright

ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
# A clock that goes on by as much as a slow machine's pictures lie apart, ms, as soon as one has been drawn.
CLOCK = """{
    let now = 0;
    performance.now = () => now;
    window.requestAnimationFrame = (draw) => setTimeout(() => draw((now += 60)), 0);
}"""
LOCAL = ("file:", "data:", "blob:", "about:")


@dataclass(frozen=True)
class Built:
    """A folder that the program wrote, and what it printed."""

    folder: Path
    told: str


class Program:
    """Runs the program; a command line is run once a session."""

    def __init__(self, home: Path):
        self.home = home
        self.built: dict[tuple[str, ...], Built] = {}

    def run(self, *arguments: str) -> subprocess.CompletedProcess:
        return subprocess.run(
            [os.environ["ZONEPROBE"], *arguments], capture_output=True, text=True, timeout=100, check=False
        )

    def build(self, *arguments: str) -> Built:
        """The folder that these arguments write with `--out`."""
        if arguments not in self.built:
            folder = self.home / f"page-{len(self.built)}"
            done = self.run(*arguments, "--quiet", "--out", str(folder))
            assert done.returncode == 0, done.stderr
            self.built[arguments] = Built(folder, done.stdout)
        return self.built[arguments]

    def film(self, file: str, seed: int, possession: int, *more: str) -> Built:
        return self.build("film", file, "--seed", str(seed), "--possession", str(possession), *more)


@dataclass
class Watched:
    """What a page said and asked for."""

    said: list[str] = field(default_factory=list)
    asked: list[str] = field(default_factory=list)

    def check(self):
        assert not self.said, f"the console has {self.said}"
        assert not self.asked, f"the page asks for {self.asked}"


@pytest.fixture(scope="session")
def program(tmp_path_factory) -> Program:
    return Program(tmp_path_factory.mktemp("pages"))


@pytest.fixture(scope="session")
def browser():
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=os.environ["CHROMIUM"], args=ARGUMENTS)
        yield browser
        browser.close()


class Visits:
    """Pages that were opened, each in a context of its own that is watched."""

    def __init__(self, browser: Browser):
        self.browser = browser
        self.opened: list[tuple[object, Watched]] = []

    def open(self, path: Path, width=1440, height=900, scheme="light", still=True, clocked=False) -> Page:
        context = self.browser.new_context(
            viewport={"width": width, "height": height},
            color_scheme=scheme,
            reduced_motion="reduce" if still else "no-preference",
        )
        watched = Watched()
        self.opened.append((context, watched))

        def judge(route):
            if route.request.url.startswith(LOCAL):
                route.continue_()
            else:
                watched.asked.append(route.request.url)
                route.abort()

        context.route("**/*", judge)
        page = context.new_page()
        page.on("request", lambda r: None if r.url.startswith(LOCAL) else watched.asked.append(r.url))
        page.on("console", lambda message: watched.said.append(message.text))
        page.on("pageerror", lambda error: watched.said.append(str(error)))
        if clocked:
            page.add_init_script(CLOCK)
        page.goto(path.as_uri())
        return page

    def close(self):
        for context, watched in self.opened:
            context.close()
            watched.check()


@pytest.fixture
def visit(browser: Browser):
    """Opens a file: `visit(path, width=..., scheme=..., still=..., clocked=...)`. `still` asks for reduced motion; with `clocked`
    nobody waits for a film: see `CLOCK`."""
    visits = Visits(browser)
    yield visits.open
    visits.close()


@pytest.fixture(scope="module")
def read(browser: Browser):
    """Opens a file for tests that only read it, once for all of them, with all that is folded away unfolded: `read(path)`."""
    visits, pages = Visits(browser), {}

    def page_of(path: Path) -> Page:
        if path not in pages:
            pages[path] = visits.open(path)
            pages[path].evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
        return pages[path]

    yield page_of
    visits.close()


def play_out(play: Locator):
    """Waits until a film that runs by a clock of its own has stopped playing."""
    expect(play).to_have_attribute("aria-label", "Play", timeout=60_000)


def length(cm: float, units: str, *, room=False, digits=1) -> str:
    """A length as pages tell it, unbroken; `room`: how far somebody is away, cut off to the inch."""
    if units == "m":
        return f"{cm / 100:.{digits}f}\u00a0m"
    inches = int((cm + 0.2) / 2.54) if room else int(cm / 2.54 + 0.5)
    feet, rest = divmod(inches, 12)
    if feet >= 10:
        return f"{cm / 30.48:.0f}\u00a0ft"
    return "\u00a0".join([f"{feet}\u00a0ft"] * (feet > 0) + [f"{rest}\u00a0in"] * (rest > 0 or feet == 0))


def grave_faults(page: Page) -> list[str]:
    """Serious and critical findings of axe, each with the elements that it is about."""
    found = Axe().run(page).response["violations"]
    return [
        f"{fault['id']} ({fault['impact']}): {[node['html'][:120] for node in fault['nodes']]}"
        for fault in found
        if fault["impact"] in ("serious", "critical")
    ]


def scrolls_sideways(page: Page) -> bool:
    return page.evaluate("document.documentElement.scrollWidth > window.innerWidth")
