"""Makes the still picture of a film that the documents show: still.py FILM.html FRAME PLAYER PICTURE.png"""

import os
import sys
from io import BytesIO
from pathlib import Path

from conftest import ARGUMENTS
from PIL import Image
from playwright.sync_api import sync_playwright

film, frame, player, picture = sys.argv[1:]
with sync_playwright() as playwright:
    browser = playwright.chromium.launch(executable_path=os.environ["CHROMIUM"], args=ARGUMENTS)
    page = browser.new_page(viewport={"width": 1440, "height": 860}, color_scheme="light", reduced_motion="reduce")
    page.goto(Path(film).resolve().as_uri())
    page.select_option("#who", label=player)
    page.locator("#scrub").evaluate("(bar, to) => { bar.value = to; bar.dispatchEvent(new Event('input')); }", frame)
    shot = page.screenshot()
    browser.close()
# The page has few colours: a palette halves the file.
Image.open(BytesIO(shot)).convert("RGB").quantize(128, dither=Image.Dither.NONE).save(picture, optimize=True)
