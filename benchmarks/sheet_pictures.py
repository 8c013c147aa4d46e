"""Takes pictures of a sheet as people see it: phone, wide screen, A4 and Letter, by day and by night.

Run: python -m benchmarks.sheet_pictures sheet.html out/

Needs `chromium` and `pdftoppm` (poppler). Fails where a page is wider than its screen: then text is cut or has to be
scrolled sideways. Overlap and unreadable marks are for a person to look at.
"""

import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from benchmarks.table import parser

WIDTHS = {"phone": 390, "wide": 1280}
SCHEMES = {"day": 1, "night": 0}
"""The browser's own numbers for the light and the dark scheme."""
FRAME = """<!DOCTYPE html><meta name="color-scheme" content="light dark"><style>html,body{{margin:0;overflow:hidden}}
iframe{{border:0;display:block;width:{width}px;height:{height}px}}</style>
<iframe id="f" src="{page}"></iframe>"""
"""A browser's window cannot be narrower than 500 px; a frame in it can."""
MEASURE = """<script>
document.getElementById("f").onload = function () {
  const d = this.contentDocument.documentElement;
  document.body.dataset.size = d.scrollWidth + "x" + d.scrollHeight;
};
</script>"""


def browser(*words: str) -> str:
    """Start the browser without its own network traffic, with an empty profile; what it prints comes back."""
    with tempfile.TemporaryDirectory() as profile:
        command = [
            "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking",
            "--allow-file-access-from-files", "--hide-scrollbars", f"--user-data-dir={profile}", *words,
        ]  # fmt: skip
        done = subprocess.run(command, capture_output=True, text=True, timeout=120, check=True)  # noqa: S603
    return done.stdout


def page_size(page: Path, width: int, folder: Path) -> tuple[int, int]:
    """How wide and high a page is when its screen is so wide."""
    frame = folder / "measure.html"
    frame.write_text(FRAME.format(width=width, height=800, page=page.as_uri()) + MEASURE, encoding="utf-8")
    told = browser("--virtual-time-budget=4000", "--dump-dom", frame.as_uri())
    wide, high = told.split('data-size="')[1].split('"')[0].split("x")
    return int(wide), int(high)


def screens(page: Path, out: Path, folder: Path) -> list[str]:
    """Pictures of both widths in both schemes; what is wrong comes back in words."""
    faults = []
    for name, width in WIDTHS.items():
        wide, high = page_size(page, width, folder)
        if wide > width:
            faults.append(f"{name}: the page is {wide} px wide on a screen of {width} px")
        frame = folder / f"{name}.html"
        frame.write_text(FRAME.format(width=width, height=high, page=page.as_uri()), encoding="utf-8")
        for scheme, number in SCHEMES.items():
            whole = out.resolve() / f"{name}-{scheme}.png"
            browser(
                f"--blink-settings=preferredColorScheme={number}", f"--window-size={max(width, 500)},{high}",
                f"--screenshot={whole}", frame.as_uri(),
            )  # fmt: skip
    return faults


def paper(page: Path, out: Path, folder: Path) -> list[str]:
    """The pages of A4 and of Letter as pictures, printed by night, which must come out as by day."""
    faults = []
    for name, size in (("a4", "A4"), ("letter", "letter")):
        sized = folder / f"{name}.html"
        told = page.read_text(encoding="utf-8").replace(
            "@page { margin: 12mm; }", f"@page {{ margin: 12mm; size: {size}; }}"
        )
        sized.write_text(told, encoding="utf-8")
        pdf = out / f"{name}.pdf"
        browser(
            "--blink-settings=preferredColorScheme=0", "--no-pdf-header-footer", f"--print-to-pdf={pdf}", sized.as_uri()
        )
        if not pdf.exists():
            faults.append(f"{name}: nothing was printed")
        subprocess.run(["pdftoppm", "-r", "80", "-png", "-gray", str(pdf), str(out / name)], check=True)  # noqa: S603, S607
    return faults


def main() -> int:
    """Take all pictures; 1 where a page does not fit its screen, 2 where a program is missing."""
    asked = parser(__doc__)
    asked.add_argument("page", type=Path, help="the sheet")
    asked.add_argument("out", type=Path, help="the folder for the pictures")
    given = asked.parse_args()
    if not given.page.is_file():
        asked.error(f"there is no file {given.page}")
    if shutil.which("chromium") is None or shutil.which("pdftoppm") is None:
        print("needs chromium and pdftoppm", file=sys.stderr)
        return 2
    given.out.mkdir(parents=True, exist_ok=True)
    page, out = given.page.resolve(), given.out.resolve()
    with tempfile.TemporaryDirectory() as folder:
        faults = [*screens(page, out, Path(folder)), *paper(page, out, Path(folder))]
    print("\n".join(faults) or f"pictures are in {given.out}")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
