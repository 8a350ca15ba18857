#!/usr/bin/env python3
"""Opens printed sheets in headless Chromium and says what is wrong with them.

    tests/check_html.py SHEET.html...

Needs Debian's `chromium` and `poppler-utils`. For each page it checks that
  - one sheet of paper comes out for the cover, for each card and for each page of the coach,
  - the console stays empty,
  - nothing is wider than the screen at 390 px, nor than the paper at 186 mm,
  - on the phone no text is smaller than 12 px,
  - on the phone, with scripts and without, each set can be ticked off, with at least 24 by 24 px to touch (WCAG 2.2, 2.5.8),
  - an exercise takes two lines of words at most beside its name: how it is done, and a cue,
  - on paper each box to write in is at least 12 by 7 mm, and what is planned fits into it.
Exit 1 when a check fails, 2 when a tool is missing.
"""

import html
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

CHROMIUM = ["--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars"]
PAPER_PX = 703  # 186 mm at 96 px an inch: A4 less the margins

# Everything that sticks out to the right, and the smallest text that is shown.
MEASURE = """
const d = frame.contentDocument, width = d.documentElement.clientWidth, out = [];
if (d.documentElement.scrollWidth > width) out.push('page ' + d.documentElement.scrollWidth);
for (const e of d.querySelectorAll('main *')) {
  const box = e.getBoundingClientRect();
  if (box.width && box.right > width + 1) out.push('wide ' + e.tagName + ' ' + Math.round(box.right));
}
let least = 99;
for (const e of d.querySelectorAll('main *')) {
  const shown = [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim());
  if (shown && e.getBoundingClientRect().height > 2)
    least = Math.min(least, parseFloat(getComputedStyle(e).fontSize));
}
if (width < 600) for (const e of d.querySelectorAll('.boxes label, .picker select, .picker button, .copy button')) {
  const box = e.getBoundingClientRect();
  if (!box.width) continue;
  if (box.width < 24 || box.height < 24)
    out.push('tick of ' + Math.round(box.width) + ' x ' + Math.round(box.height) + ' px');
}
for (const e of d.querySelectorAll('tr[data-id] .lift > div')) {
  const words = e.querySelectorAll('.how, .cues, .tip');
  if (words.length > 2) out.push(words.length + ' lines of words: ' + e.textContent.slice(0, 60));
}
out.push('least ' + least);
const mm = 96 / 25.4;
for (const e of d.querySelectorAll('.boxes i')) {
  const box = e.getBoundingClientRect();
  if (!box.width || width < 600) continue;
  if (box.width < 12 * mm || box.height < 7 * mm)
    out.push('box of ' + (box.width / mm).toFixed(1) + ' x ' + (box.height / mm).toFixed(1) + ' mm');
  if (e.scrollWidth > e.clientWidth) out.push('box too narrow for ' + e.textContent);
}
"""


def chromium(*arguments):
    program = shutil.which("chromium") or shutil.which("chromium-browser")
    return subprocess.run(
        [program, *CHROMIUM, *arguments], capture_output=True, text=True, timeout=120, check=False
    )


def faults_at(page, width, least, scripts, folder):
    lines = measure(page, width, scripts, folder)
    where = f"{width} px" + ("" if scripts else ", scripts off")
    sizes = [float(line.split()[1]) for line in lines if line.startswith("least ")]
    faults = [] if sizes else [f"{where}: the page could not be measured"]
    if sizes and sizes[0] < least:
        faults.append(f"{where}: text of {sizes[0]:.1f} px is too small")
    return faults + [f"{where}: {line}" for line in lines if not line.startswith("least ")][:5]


def measure(page, width, scripts, folder):
    """A headless window cannot be as narrow as a phone, so the page goes into a frame that can."""
    frame = folder / f"frame-{width}.html"
    sandbox = "" if scripts else 'sandbox="allow-same-origin"'
    frame.write_text(
        f'<!doctype html><meta charset="utf-8"><iframe id="frame" {sandbox} width="{width}" height="800" '
        f'style="border:0" srcdoc="{html.escape(page.read_text("utf-8"))}"></iframe><pre id="out"></pre>'
        f"<script>frame.onload = () => {{ {MEASURE} "
        "document.getElementById('out').textContent = out.join('\\n') }</script>",
        "utf-8",
    )
    dump = chromium("--virtual-time-budget=4000", "--dump-dom", frame.as_uri()).stdout
    found = re.search(r'<pre id="out">(.*?)</pre>', dump, re.S)
    return html.unescape(found.group(1)).splitlines() if found else []


def check(page, folder):
    faults = []
    wanted = len(re.findall(r'<(?:section|article) class="page', page.read_text("utf-8")))
    pdf = folder / "sheet.pdf"
    log = chromium(
        "--enable-logging=stderr", f"--print-to-pdf={pdf}", "--no-pdf-header-footer",
        page.resolve().as_uri(),
    ).stderr
    faults += [f"console: {line}" for line in log.splitlines() if "CONSOLE" in line]
    info = subprocess.run(["pdfinfo", pdf], capture_output=True, text=True, check=True).stdout
    pages = int(re.search(r"Pages:\s+(\d+)", info).group(1))
    if pages != wanted:
        faults.append(f"{pages} printed pages where {wanted} are meant")
    for width, least, scripts in ((390, 12.0, True), (390, 12.0, False), (PAPER_PX, 0.0, True)):
        faults += faults_at(page, width, least, scripts, folder)
    return pages, faults


def main():
    for tool in ("chromium", "pdfinfo"):
        if not shutil.which(tool):
            print(f"{tool} is missing: apt-get install chromium poppler-utils", file=sys.stderr)
            return 2
    if len(sys.argv) < 2:
        print(__doc__, file=sys.stderr)
        return 2
    failed = False
    for name in sys.argv[1:]:
        with tempfile.TemporaryDirectory() as folder:
            pages, faults = check(pathlib.Path(name), pathlib.Path(folder))
        print(f"{name}: {pages} pages, " + ("as meant" if not faults else f"{len(faults)} faults"))
        for fault in faults:
            print(f"  {fault}")
        failed = failed or bool(faults)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
