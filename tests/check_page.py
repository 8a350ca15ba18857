"""The coach's page in a real browser: what a coach does, with and without scripts, by keyboard, narrow and wide.

    python3 tests/check_page.py [--axe axe.min.js] [--pictures DIR]

Drives headless Chromium by WebDriver (selenium), looks for serious faults with axe-core where it is given, and tells how
long a change of the week takes. Environment: WEEKWRIGHT, the program.
"""

import argparse
import base64
import concurrent.futures
import datetime
import json
import os
import pathlib
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
import traceback

from selenium import webdriver
from selenium.common.exceptions import (
    ElementClickInterceptedException,
    ElementNotInteractableException,
    JavascriptException,
    NoSuchElementException,
    StaleElementReferenceException,
    TimeoutException,
    WebDriverException,
)
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import Select, WebDriverWait

ROOT = pathlib.Path(__file__).resolve().parent.parent
PROGRAM = os.path.abspath(os.environ.get("WEEKWRIGHT", "target/release/weekwright"))
SERIOUS = ("serious", "critical")
PATIENCE = 60
# Faults of a look that came too early.
NOT_YET = (
    NoSuchElementException,
    StaleElementReferenceException,
    ElementClickInterceptedException,
    ElementNotInteractableException,
    JavascriptException,
)

# How many times the Tab key leads from where the focus is to what is asked for, as far as this can be guessed.
AHEAD = """
const all = [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary')]
  .filter(e => e.checkVisibility() && !e.disabled && (e.type !== 'radio' || e.checked));
const at = all.indexOf(document.activeElement);
return all.findIndex((e, place) => place > at && e.matches(arguments[0])) - at;
"""


class Page:
    """A browser before a folder that is open."""

    def __init__(self, address, width, scripts=True):
        options = webdriver.ChromeOptions()
        options.binary_location = shutil.which("chromium") or shutil.which("chromium-browser")
        for flag in ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-background-networking"):
            options.add_argument(flag)
        self.browser = webdriver.Chrome(options=options, service=Service(shutil.which("chromedriver")))
        self.scripts = scripts
        self.size(width, 1000)
        self.browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": not scripts})
        self.base = address.split("/?")[0]
        self.browser.get(address)

    def size(self, width, height):
        screen = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 500}
        self.browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", screen)

    def go(self, path):
        self.browser.get(self.base + path)

    def patiently(self, act):
        """Does what a person does who sees the page: looks again where the week was swapped in between, or not there yet.

        These faults are told before anything is pressed or typed, so nothing is done twice.
        """
        return WebDriverWait(self.browser, PATIENCE, 0.05, ignored_exceptions=NOT_YET).until(act)

    def find(self, css):
        return self.patiently(lambda browser: browser.find_element(By.CSS_SELECTOR, css))

    def text(self, css="main"):
        return self.patiently(lambda browser: (browser.find_element(By.CSS_SELECTOR, css).text,))[0]

    def value(self, css, name):
        return self.patiently(lambda browser: (browser.find_element(By.CSS_SELECTOR, css).get_attribute(name),))[0]

    def click(self, find):
        """Presses what `find` finds, once it stands in the middle of the window and nothing is on its way."""

        def once(browser):
            found = find(browser)
            browser.execute_script("arguments[0].scrollIntoView({block: 'center', behavior: 'instant'})", found)
            found.click()
            return True

        self.rest()
        self.patiently(once)

    def click_on(self, css):
        self.click(lambda browser: browser.find_element(By.CSS_SELECTOR, css))

    def link(self, words):
        self.click(lambda browser: browser.find_element(By.PARTIAL_LINK_TEXT, words))

    def press(self, words):
        """Presses the first button that says so and can be seen."""

        def seen(browser):
            path = f"//button[contains(normalize-space(.), '{words}')]"
            buttons = [one for one in browser.find_elements(By.XPATH, path) if one.is_displayed()]
            if not buttons:
                raise NoSuchElementException(f"no button {words!r} on {browser.current_url}")
            return buttons[0]

        self.click(seen)

    def fill(self, name, text):
        def typed(browser):
            field = browser.find_element(By.CSS_SELECTOR, f'[name="{name}"]')
            if field.tag_name == "select":
                Select(field).select_by_value(text)
            elif field.get_attribute("type") == "date":
                # What is typed into such a field depends on where the browser thinks that it is.
                self.browser.execute_script("arguments[0].value = arguments[1]", field, text)
            else:
                field.clear()
                field.send_keys(text)
            return True

        self.rest()
        self.patiently(typed)

    def type(self, *keys):
        self.browser.switch_to.active_element.send_keys(*keys)

    def tab_to(self, css, *keys):
        """Goes on by the Tab key until something is reached, and types there."""
        self.rest()
        # One key at a time is slow: a guess first, which falls short of date fields and the like.
        self.type(Keys.TAB * max(1, self.browser.execute_script(AHEAD, css)))
        for _ in range(200):
            if self.browser.execute_script("return document.activeElement.matches(arguments[0])", css):
                self.type(*keys)
                return
            self.type(Keys.TAB)
        raise AssertionError(f"{css} is not reached by the keyboard")

    def until(self, words, css="main"):
        def holds(browser):
            try:
                return words in browser.find_element(By.CSS_SELECTOR, css).get_attribute("textContent")
            except WebDriverException as fault:
                # The page went away between finding and reading, which the driver does not always call stale.
                if "unhandled inspector error" in str(fault):
                    return False
                raise

        try:
            self.patiently(holds)
        except TimeoutException:
            raise AssertionError(f"{words!r} did not come: {self.text()[:1500]}") from None

    def rest(self):
        """Until nothing is on its way: no search of the page's script, and no page that is still being read."""
        busy = "[aria-busy=true], [data-better]" if self.scripts else "[aria-busy=true]"
        still = lambda browser: browser.execute_script("return document.readyState") == "complete"
        self.patiently(lambda browser: still(browser) and not browser.find_elements(By.CSS_SELECTOR, busy))

    def faults(self, axe):
        """Serious faults that axe-core finds."""
        self.browser.execute_script(axe)
        found = self.browser.execute_async_script(
            "axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']})"
            ".then(arguments[0])"
        )
        return [
            f"{one['id']} ({one['impact']}): {one['nodes'][0]['html'][:120]}"
            for one in found["violations"]
            if one["impact"] in SERIOUS
        ]

    def wider_than_the_window(self):
        width = "return document.documentElement.scrollWidth - document.documentElement.clientWidth"
        return self.browser.execute_script(width)


class Folder:
    """A folder with demo clients, and the program that has it open."""

    def __init__(self, *clients, prefix="weekwright-page-"):
        self.path = pathlib.Path(tempfile.mkdtemp(prefix=prefix))
        shutil.copytree(ROOT / "profiles" / "places", self.path / "places")
        for client in clients:
            shutil.copy(ROOT / "profiles" / f"{client}.yaml", self.path)
        command = [PROGRAM, "open", str(self.path), "--no-browser"]
        self.program = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        self.address = self.program.stdout.readline().strip()

    def close(self):
        self.program.terminate()
        ended = self.program.wait(timeout=10)
        assert ended == 0, f"the program ended with {ended}"
        shutil.rmtree(self.path)


def from_nothing_to_a_printed_card(page, folder):
    page.go("/")
    page.link("New client")
    for name, text in [
        ("client", "punt-21"), ("training_status", "novice"), ("goal", "general-fitness"), ("place", "boathouse"),
        ("sessions.0.day", "tue"), ("sessions.0.minutes", "45"), ("sessions.1.day", "fri"), ("sessions.1.minutes", "45"),
        ("start", "2027-01-04"),
    ]:
        page.fill(name, text)
    page.press("Make the profile")
    page.until("not kept yet")
    page.rest()
    first = page.text(".lift-name bdi")
    never = page.value('.turns button[name="never"]', "value")
    page.click_on(".turns summary")
    page.press("Not this exercise")
    page.until("Tried: not " + first)
    page.rest()
    page.fill("minutes.tue", "35")
    page.press("Try these minutes")
    page.until("Tuesday 35 min")
    page.rest()
    page.press("Keep")
    page.until("Kept in punt-21.plan.yaml")
    page.go("/client/punt-21/sheet/html?for=client")
    assert "Tuesday" in page.text("body")
    kept = (folder.path / "punt-21.plan.yaml").read_bytes()
    # By its id: what may stand in for another can have the name in its own.
    assert never and f"exercise: {never},".encode() not in kept
    assert b"minutes tue=35" in kept
    # The profile that the form wrote is the one that the command line plans.
    page.go("/client/punt-21")
    profile = str(folder.path / "punt-21.yaml")
    audit = subprocess.run([PROGRAM, "audit", str(folder.path / "punt-21.plan.yaml")], capture_output=True, check=False)
    assert audit.returncode == 0, audit.stdout
    planned = subprocess.run([PROGRAM, "plan", profile, "--format", "yaml"], capture_output=True, check=True).stdout
    (folder.path / "punt-21.plan.yaml").unlink()
    page.go("/client/punt-21")
    page.press("Keep")
    page.until("Kept in")
    assert (folder.path / "punt-21.plan.yaml").read_bytes() == planned


def a_bench_struck_out(page, _folder):
    page.go("/client/tide-01")
    assert "bench press" in page.text(".cards").lower()
    page.click_on('[name="without"][value="bench"]')
    page.press("Try without")
    page.until("Tried: without bench")
    page.rest()
    assert "gives way to" in page.text("#changes")
    page.press("Take the last change back")
    page.until("Made just now")


def a_collision_solved_by_its_button(page, folder):
    musts = "[back-squat, deadlift, bench-press, barbell-row, overhead-press, hip-thrust]"
    text = (folder.path / "tide-01.yaml").read_text().replace("minutes: 60", "minutes: 10")
    (folder.path / "tight.yaml").write_text(text + f"exercises: {{must: {musts}}}\n")
    page.go("/client/tight")
    page.until("no week can do all of this")
    page.click_on(".ways button")
    page.until("The week at its fullest")
    (folder.path / "tight.yaml").unlink()


def a_wrong_value_refused(page, folder):
    before = (folder.path / "tide-01.yaml").read_text()
    page.go("/client/tide-01/profile")
    page.fill("weeks", "many")
    page.fill("birth_year", "1850")
    page.press("Save the profile")
    page.until("Please look again")
    assert page.value('[name="weeks"]', "value") == "many"
    assert page.value('[name="weeks"]', "aria-invalid") == "true"
    assert (folder.path / "tide-01.yaml").read_text() == before


def by_keyboard(page, folder):
    """From nothing to a card that is kept, and a set that is written down, without a mouse."""
    page.go("/")
    page.tab_to('a[href="/new"]', Keys.ENTER)
    page.until("Only what is marked is needed")
    page.tab_to('[name="client"]', "gig-22")
    for name, text in [
        ("training_status", "nov"), ("goal", "general-f"), ("place", "boath"), ("sessions.0.day", "mon"),
        ("sessions.0.minutes", "40"), ("start", "01042027"),
    ]:
        page.tab_to(f'[name="{name}"]', text)
    page.type(Keys.ENTER)
    page.until("not kept yet")
    page.rest()
    page.tab_to("#minutes-1", Keys.CONTROL, "a")
    page.type("35", Keys.ENTER)
    page.until("Tried: Monday 35 min")
    page.rest()
    page.browser.execute_script("document.activeElement.blur(); window.getSelection().removeAllRanges()")
    page.tab_to(".state button.main", Keys.ENTER)
    page.until("Kept in gig-22.plan.yaml")
    page.tab_to('a[href$="/write"]', Keys.ENTER)
    page.until("Tap a set when it is done")
    page.tab_to('[name^="done."]', Keys.SPACE)
    page.tab_to('[name="load.0.1"], [name="amount.0.1"]', Keys.CONTROL, "a")
    page.type("10")
    page.tab_to(".save button.main", Keys.ENTER)
    page.until("Written down: 1 exercise with 1 set.")
    assert (folder.path / "weekwright.sqlite").exists()


def a_session_written_down(page, folder):
    page.go("/client/tide-01")
    if page.browser.find_elements(By.XPATH, "//button[normalize-space(.)='Keep']"):
        page.press("Keep")
        page.until("Kept in")
    page.link("Write down")
    page.until("Tap a set when it is done")
    place = page.value('[name^="load."]', "name").split(".")[1]
    page.fill(f"load.{place}.1", "heavy")
    page.click_on(f'[name="done.{place}.1"]')
    if page.scripts:
        page.patiently(lambda browser: browser.find_element(By.CSS_SELECTOR, "#clock .left").is_displayed())
        page.press("Enough rest")
    page.press("Write it down")
    page.until("Nothing was written yet")
    assert page.value(f'[name="load.{place}.1"]', "value") == "heavy"
    page.fill(f"load.{place}.1", "12")
    page.press("Write it down")
    page.until("Written down: 1 exercise with 1 set.")
    page.fill(f"amount.{place}.1", "9")
    page.press("Write it down")
    page.until("It takes the place of what stood there")
    page.link("tide-01")
    page.link("Review")
    page.until("12 9")
    page.press("Make it an easier one")
    page.until("Tried: an easier week")
    page.press("Take the last change back")
    page.until("Kept in")
    page.link("Review")
    page.link("Progress")
    page.until("Best sets so far")
    page.go("/")
    page.until("Last written down")
    told = subprocess.run(
        [PROGRAM, "review", "tide-01", "--book", str(folder.path / "weekwright.sqlite")], capture_output=True, check=True
    )
    assert told.stdout


SCENES = [
    from_nothing_to_a_printed_card,
    a_bench_struck_out,
    a_collision_solved_by_its_button,
    a_wrong_value_refused,
    by_keyboard,
    a_session_written_down,
]


def a_card_on_a_phone(page, folder):
    """The card that is sent: today first, ticks that stay, and text that the command line reads back."""
    today = datetime.date.today()
    monday = today - datetime.timedelta(days=today.weekday())
    text = (folder.path / "tide-01.yaml").read_text()
    days = ("mon", "wed", "fri")
    other = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")[today.weekday()]
    if other not in days:
        text = text.replace("day: fri", f"day: {other}")
    start = re.sub(r"(?m)^start: .*$", f"start: {monday}", text)
    assert start != text or f"start: {monday}" in text, "the demo profile has no start"
    (folder.path / "now-31.yaml").write_text(start)
    run = lambda *arguments: subprocess.run([PROGRAM, *map(str, arguments)], cwd=folder.path, capture_output=True, check=True)
    run("plan", "now-31.yaml", "-o", "now-31.plan.yaml")
    run("sheet", "now-31.plan.yaml", "--for", "client", "-o", "now-31.html")
    page.browser.get((folder.path / "now-31.html").as_uri())
    shown = page.find("article.shown")
    assert shown.get_attribute("data-name") == today.strftime("%A"), "the day of today is not first"
    for load in shown.find_elements(By.CSS_SELECTOR, "td.this input[required]"):
        load.send_keys("10")
    boxes = [one for one in shown.find_elements(By.CSS_SELECTOR, "td.this input[data-set]") if one.is_displayed()]
    for box in boxes:
        page.browser.execute_script("arguments[0].scrollIntoView({block: 'center'})", box)
        box.click()
    page.browser.refresh()
    kept = page.browser.find_elements(By.CSS_SELECTOR, "td.this input[data-set]:checked")
    assert len(kept) >= len(boxes) > 0, f"{len(kept)} of {len(boxes)} ticks were kept"
    page.press("Copy text")
    lines = page.value("#text", "value")
    run("log", "now-31.plan.yaml", "--date", str(today), lines)
    page.press("Whole plan")
    assert "With care" in page.text()
    return f"{len(lines.splitlines())} lines of {len(boxes)} sets were read back"


def written_down(folder):
    """Some sessions of the first weeks, so that there is something to draw."""
    run = lambda *arguments: subprocess.run([PROGRAM, *map(str, arguments)], cwd=folder.path, capture_output=True, check=True)
    run("plan", "tide-01.yaml", "-o", "tide-01.plan.yaml")
    for date, load in (("2027-01-04", 12), ("2027-01-06", 12), ("2027-01-11", 14), ("2027-01-13", 14), ("2027-01-18", 16)):
        run("log", "tide-01.plan.yaml", "--date", date, f"goblet-squat {load}kg 8 8 8 r3; band-assisted-pull-up 8 8 7")


def looked_at(folder, axe, pictures):
    """Every page at both widths: nothing wider than the window, no serious fault, a picture if wanted."""
    faults = []
    pages = {"clients": "/", "week": "/client/tide-01", "profile": "/client/tide-01/profile", "new": "/new",
             "instead": "/client/tide-01/instead/goblet-squat", "missing": "/client/nobody",
             "write": "/client/tide-01/write", "progress": "/client/tide-01/progress", "review": "/client/tide-01/review",
             "empty": "/client/oar-02/progress", "sheet": "/client/tide-01/sheet/html?for=client"}
    written_down(folder)
    for width in (1280, 390):
        page = Page(folder.address, width)
        for name, path in pages.items():
            page.go(path)
            if page.wider_than_the_window() > 0:
                faults.append(f"{path} at {width} px is wider than the window")
            if axe:
                faults += [f"{path} at {width} px: {fault}" for fault in page.faults(axe)]
            if pictures:
                page.size(width, min(4000, page.browser.execute_script("return document.body.scrollHeight")))
                page.browser.save_screenshot(str(pathlib.Path(pictures) / f"{name}-{width}.png"))
                page.size(width, 1000)
        page.browser.quit()
    return faults


# Kilograms of a first week, invented.
LOADS = {
    "back-squat": 30, "bench-press": 25, "dumbbell-row": 10, "goblet-split-squat": 8, "overhead-triceps-extension": 8,
    "dumbbell-romanian-deadlift": 12, "dumbbell-squat": 10, "dumbbell-bench-press": 10, "one-arm-row": 10, "lateral-raise": 4,
    "seated-dumbbell-overhead-press": 6, "dumbbell-deadlift": 12, "goblet-squat": 12, "dumbbell-fly": 4,
    "dumbbell-step-up": 8, "dumbbell-calf-raise": 12, "seated-rear-raise": 3, "dumbbell-split-squat": 8,
    "lying-dumbbell-triceps-extension": 5, "dumbbell-hip-thrust": 20,
}


def in_the_third_week(folder):
    """Clients at different places of their blocks as it is today; two weeks of the first are written down."""
    run = lambda *arguments: subprocess.run([PROGRAM, *map(str, arguments)], cwd=folder.path, capture_output=True, check=True)
    today = datetime.date.today()
    monday = today - datetime.timedelta(days=today.weekday())
    for client, weeks in (("tide-01", 2), ("oar-02", 1), ("scull-07", 3), ("keel-04", 0)):
        profile = folder.path / f"{client}.yaml"
        start = monday - datetime.timedelta(weeks=weeks)
        text = re.sub(r"(?m)^start: .*\n", "", profile.read_text())
        profile.write_text(f"{text.rstrip()}\nstart: {start}\n")
        if client != "keel-04":
            run("plan", profile.name, "-o", f"{client}.plan.yaml")
    plan = json.loads(run("plan", "tide-01.yaml", "--format", "json").stdout)
    for week in (0, 1):
        for session in plan["sessions"]:
            day = ("mon", "tue", "wed", "thu", "fri", "sat", "sun").index(session["day"])
            date = monday + datetime.timedelta(weeks=week - 2, days=day)
            items = [item for group in session["groups"] if group["kind"] != "prep" for item in group["items"]]
            lines = [line_of(item, week) for item in items]
            run("log", "tide-01.plan.yaml", "--date", date, "; ".join(lines))


def line_of(item, week):
    """What was done of an item, a set less in the first week."""
    load = f" {LOADS[item['exercise']]}kg" if item["exercise"] in LOADS else ""
    amounts = item.get("reps") or [f"{seconds}s" for seconds in item["seconds"]]
    done = " ".join(str(one) for one in amounts[: len(amounts) - (week == 0)])
    return f"{item['exercise']}{load} {done}{' r3' if load else ''}"


def pictures_for_the_readme(target):
    """A change of the week, a session that is written down, and the clients, as the README shows them."""
    folder = Folder("tide-01", "oar-02", "scull-07", "keel-04", prefix="boathouse-")
    in_the_third_week(folder)
    page = Page(folder.address, 1180)
    page.size(1180, 900)

    def taken(name):
        page.browser.execute_script("window.scrollTo(0, 0)")
        picture = page.browser.execute_cdp_cmd("Page.captureScreenshot", {"format": "webp", "quality": 82})
        (target / f"page-{name}.webp").write_bytes(base64.b64decode(picture["data"]))

    page.go("/client/tide-01")
    page.click_on('[name="without"][value="bench"]')
    page.press("Try without")
    page.until("Tried: without bench")
    page.rest()
    taken("week")
    page.press("Back to what is kept")
    page.go("/client/tide-01/write?week=3&day=mon")
    for number in (1, 2):
        page.fill(f"load.0.{number}", "32.5")
        page.click_on(f'[name="done.0.{number}"]')
    taken("session")
    page.press("Write it down")
    page.go("/")
    taken("clients")
    page.browser.quit()
    folder.close()


def times(folder):
    """Seconds from a press to the new picture, and to the better week after it."""
    page = Page(folder.address, 1280)
    first, better = [], []
    for client in ("tide-01", "oar-02", "scull-07", "sweep-10"):
        page.go(f"/client/{client}")
        for minutes in (55, 50, 45, 40, 35, 40, 45, 50, 55, 40):
            page.rest()
            field = page.find("#minutes-1")
            field.clear()
            field.send_keys(str(minutes))
            begin = time.monotonic()
            field.send_keys(Keys.ENTER)
            WebDriverWait(page.browser, PATIENCE, 0.01, ignored_exceptions=NOT_YET).until(
                lambda browser, minutes=minutes: f"{minutes} min"
                in browser.find_element(By.CSS_SELECTOR, "#changes h2, #refused h2").text
            )
            first.append(time.monotonic() - begin)
            page.rest()
            better.append(time.monotonic() - begin)
    page.browser.quit()
    return first, better


def played(scripts, width):
    """Every scene in a browser and a folder of its own; how many did not hold."""
    folder = Folder("tide-01")
    page = Page(folder.address, width, scripts)
    failed = 0
    on_a_phone = [a_card_on_a_phone] if scripts and width < 500 else []
    for scene in SCENES + on_a_phone:
        begin = time.monotonic()
        told = f"{scene.__name__.replace('_', ' ')}, {width} px, scripts {'on' if scripts else 'off'}"
        try:
            said = scene(page, folder)
            more = f"; {said}" if said else ""
            print(f"ok      {told}, {time.monotonic() - begin:.1f} s{more}", flush=True)
        except Exception as fault:  # pylint: disable=broad-except
            failed += 1
            here = [one for one in traceback.extract_tb(fault.__traceback__) if one.filename == __file__]
            way = " < ".join(f"line {one.lineno}" for one in reversed(here))
            said = str(fault).split("Stacktrace:", maxsplit=1)[0].strip()
            print(f"FAULT   {told}: {type(fault).__name__}, {way}: {said[:900]}", flush=True)
    page.browser.quit()
    folder.close()
    return failed


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--axe")
    parser.add_argument("--pictures")
    arguments = parser.parse_args()
    axe = pathlib.Path(arguments.axe).read_text(encoding="utf-8") if arguments.axe else None
    ways = [(scripts, width) for scripts in (True, False) for width in (1280, 390)]
    with concurrent.futures.ThreadPoolExecutor(2) as two:
        failed = sum(two.map(lambda way: played(*way), ways))
    folder = Folder("tide-01", "oar-02", "scull-07", "sweep-10")
    faults = looked_at(folder, axe, arguments.pictures)
    failed += len(faults)
    for fault in faults:
        print(f"FAULT   {fault}")
    if arguments.pictures:
        pictures_for_the_readme(pathlib.Path(arguments.pictures))
    print("axe-core: " + ("looked" if axe else "not at hand"))
    for name, seconds in zip(("new picture", "better week"), times(folder)):
        part = statistics.quantiles(seconds, n=20, method="inclusive")[-1]
        print(f"{name}: median {statistics.median(seconds):.2f} s, 95th percentile {part:.2f} s of {len(seconds)}")
    folder.close()
    print(f"{'all held' if failed == 0 else f'{failed} did not hold'}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
