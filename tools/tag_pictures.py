"""Draw the seed tags that the made-up book shows as photos, from what its lots say.

Paper, print and words are the project's own; nothing is copied from a real tag.
"""

import tomllib
from datetime import date
from pathlib import Path

from playwright.sync_api import sync_playwright

from evenstand.demo.book import PHOTOS

FOLDER = Path(__file__).parents[1] / "src/evenstand/demo"
CHROMIUM = Path("/usr/bin/chromium")
MOST = 60 * 1024  # bytes of a picture
SIZE = {"width": 640, "height": 480}
LINES = (
    ("Pure seed", "purity"),
    ("Inert matter", "inert"),
    ("Other crop seed", "other_crop"),
    ("Weed seed", "weed"),
    ("Germination", "germination"),
    ("Hard seed", "hard"),
    ("Tested", "tested"),
    ("Seeds per lb", "seeds_per_lb"),
    ("Net weight", "bag1_weight"),
    ("Treated with", "treated_with"),
)
PAGE = """
<!doctype html><meta charset="utf-8"><style>
body {{ margin: 0; width: 640px; height: 480px; background: #77705f; font: 17px/1.2 monospace;
  background-image: repeating-linear-gradient(93deg, #0000 0 6px, #0001 6px 8px); }}
main {{ position: absolute; left: 74px; top: 30px; width: 440px; height: 372px; padding: 24px 26px;
  background: #efe6cc; color: #2b2a26; transform: rotate(-1.4deg); border-radius: 26px 26px 4px 4px;
  box-shadow: 3px 6px 14px #0008; }}
main::before {{ content: ""; position: absolute; left: 232px; top: 12px; width: 22px; height: 22px;
  border-radius: 50%; background: #77705f; box-shadow: 0 0 0 4px #c9b98c; }}
h1 {{ font-size: 25px; margin: 26px 0 2px; letter-spacing: .04em; }}
p {{ margin: 0 0 10px; }}
dl {{ margin: 0; display: grid; grid-template-columns: 190px 1fr; row-gap: 3px; }}
dt, dd {{ margin: 0; border-bottom: 1px solid #b9ac86; }}
dd {{ font-weight: bold; }}
small {{ position: absolute; left: 26px; bottom: 12px; }}
</style><main><h1>{species}</h1><p>Lot {name}</p><dl>{lines}</dl>
<small>Made up for a demonstration: no such seed is sold.</small></main>
"""


def drawn(lot: dict[str, str]) -> str:
    """Return a page that looks like the tag of a lot."""
    tested = f"{date.fromisoformat(lot['tested'] + '-01'):%B %Y}"
    said = {**lot, "tested": tested, "seeds_per_lb": lot["seeds_per_lb"].removesuffix(" seeds/lb")}
    lines = "".join(f"<dt>{label}</dt><dd>{said[key]}</dd>" for label, key in LINES if key in lot)
    return PAGE.format(species=lot["species"].upper(), name=lot["name"], lines=lines)


def main() -> None:
    """Draw every tag anew."""
    lots = tomllib.loads((FOLDER / "book.toml").read_text(encoding="utf-8"))["lot"]
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        page = browser.new_page(viewport=SIZE)
        for lot in lots:
            if lot["name"] in PHOTOS:
                page.set_content(drawn(lot))
                picture = page.screenshot(type="jpeg", quality=72)
                if len(picture) > MOST:
                    raise ValueError(f"the tag of {lot['name']} is larger than {MOST} bytes")
                (FOLDER / f"tag_{lot['name']}.jpg").write_bytes(picture)
        browser.close()


if __name__ == "__main__":
    main()
