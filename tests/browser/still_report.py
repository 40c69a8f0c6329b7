"""Makes the picture of a report that the documents show, from a folder of results: still_report.py RESULTS PICTURE.png

The ranked chart, and beside it where the first variant's good shots come from and its route as it was run.
"""

import os
import sys
from io import BytesIO
from pathlib import Path

from conftest import ARGUMENTS
from PIL import Image
from playwright.sync_api import sync_playwright

results, picture = Path(sys.argv[1]).resolve(), sys.argv[2]
with sync_playwright() as playwright:
    browser = playwright.chromium.launch(executable_path=os.environ["CHROMIUM"], args=ARGUMENTS)
    page = browser.new_page(viewport={"width": 1440, "height": 900}, color_scheme="light", device_scale_factor=1.2)
    page.goto((results / "report.html").as_uri())
    first = page.locator("#where .floors").first.locator("svg").first.get_attribute("id").rsplit("-", 1)[1]
    # Only the three pictures are left, side by side.
    page.evaluate(
        """(first) => {
            const ids = ['ranking', `good-look-regions-${first}`, `route-${first}-1`];
            const row = document.createElement('div');
            row.id = 'still';
            row.style.cssText = 'display:flex;gap:16px;align-items:flex-start;width:1240px;background:#fff';
            for (const id of ids) {
                const one = document.getElementById(id);
                if (!one) continue;
                one.style.cssText = `flex:1 1 0;min-width:0`;
                row.append(one);
            }
            document.body.replaceChildren(row);
        }""",
        first,
    )
    shot = page.locator("#still").screenshot()
    browser.close()
# The picture has few colours: a palette halves the file. By octree, or what is small, as the ball is, would lose its own.
Image.open(BytesIO(shot)).convert("RGB").quantize(96, method=Image.Quantize.FASTOCTREE, dither=Image.Dither.NONE).save(picture, optimize=True)
