#!/usr/bin/env python3
"""Makes the README's two pictures from what the program prints.

    .pictures/make.py [PROGRAM]        (default target/release/weekwright)

Writes `terminal.svg`, the plan of profiles/tide-01.yaml as a terminal shows it, and `card.png`, one
printed card of the same plan. Needs Debian's `chromium` and `poppler-utils` for the card. Both are
checked to stay under 300 KB together. Exit 1 when they do not, 2 when a tool is missing.
"""

import html
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parent
PROFILE = ROOT / "profiles/tide-01.yaml"
LINES = 46  # what shows the first session whole
MOST_BYTES = 300_000
WIDE, HIGH = 8.4, 18  # a letter of 14 px
NO_BREAK = "\u00a0"  # viewers fold plain spaces
STYLES = {"1": "font-weight:bold", "2": "fill:#9fb0b8", "36": "fill:#7fd6cb"}


def program(arguments, **more):
    path = sys.argv[1] if len(sys.argv) > 1 else str(ROOT / "target/release/weekwright")
    return subprocess.run([path, *map(str, arguments)], check=True, capture_output=True, **more).stdout


def terminal_svg(text):
    """Colored terminal lines as an SVG: each run of one style is a `tspan`."""
    lines = text.split("\n")[:LINES]
    rows = []
    for number, line in enumerate(lines):
        spans, styles = [], []
        for part in re.split(r"(\x1b\[[0-9;]*m)", line):
            if part.startswith("\x1b"):
                codes = part[2:-1].split(";")
                styles = [] if codes in ([""], ["0"]) else styles + [STYLES[c] for c in codes if c in STYLES]
            elif part:
                style = f' style="{";".join(styles)}"' if styles else ""
                kept = html.escape(part).replace(" ", NO_BREAK)
                spans.append(f"<tspan{style}>{kept}</tspan>")
        rows.append(f'<text x="16" y="{30 + number * HIGH}">{"".join(spans)}</text>')
    width, height = 32 + 80 * WIDE, 36 + len(lines) * HIGH
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.0f} {height}" role="img" '
        f'aria-label="A plan in the terminal">\n<rect width="100%" height="100%" rx="6" fill="#12212a"/>\n'
        '<g font-family="ui-monospace,Menlo,Consolas,monospace" font-size="14" fill="#eef3f0">\n' + "\n".join(rows) + "\n</g>\n</svg>\n"
    )


def card_png(plan, target):
    with tempfile.TemporaryDirectory() as folder:
        page, paper = pathlib.Path(folder, "sheet.html"), pathlib.Path(folder, "sheet.pdf")
        program(["sheet", plan, "--as", "html", "-o", page])
        printing = ["--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer"]
        subprocess.run(
            ["chromium", *printing, f"--print-to-pdf={paper}", page.as_uri()], check=True, capture_output=True
        )
        second = ["-f", "2", "-l", "2", "-singlefile"]
        subprocess.run(["pdftoppm", "-r", "100", "-png", *second, paper, target.with_suffix("")], check=True)


def main():
    for tool in ("chromium", "pdftoppm"):
        if shutil.which(tool) is None:
            print(f"{tool} is missing", file=sys.stderr)
            return 2
    with tempfile.TemporaryDirectory() as folder:
        plan = pathlib.Path(folder, "plan.yaml")
        program(["plan", PROFILE, "--format", "yaml", "-o", plan])
        colored = {**os.environ, "CLICOLOR_FORCE": "1", "COLUMNS": "80"}
        colored.pop("NO_COLOR", None)
        text = program(["sheet", plan], env=colored).decode()
        (HERE / "terminal.svg").write_text(terminal_svg(text))
        card_png(plan, HERE / "card.png")
    size = sum((HERE / name).stat().st_size for name in ("terminal.svg", "card.png"))
    print(f"{size} bytes in both pictures")
    return 0 if size < MOST_BYTES else 1


if __name__ == "__main__":
    sys.exit(main())
