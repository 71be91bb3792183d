"""The job sheet and the list of jobs: what a job came to, on the screen and on paper; what can be done with jobs."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.jobs import ABOUT, Device, at, coil, device, devices, done, photo, repair  # noqa: F401
from tests.browser.test_access import AXE

SEEN = "document.querySelector('main').innerText"
ATTACK = "<img src=x onerror=taken=1>\"'</script><svg onload=taken=1>{}"
HOSTILE = (
    '<svg viewBox="0 0 9 9" onload="taken=1" style="position:fixed" class="nline"><script>taken=1</script><style>*{display:none}</style>'
    '<foreignObject><iframe srcdoc="<script>parent.taken=1</script>"></iframe></foreignObject><image href="x" onerror="taken=1"/>'
    '<a href="javascript:taken=1"><text>away</text></a><use href="#i-hand"/><rect x="1" fill="url(#i-hatch)" onclick="taken=1" '
    'width="5" height="5"/><animate attributeName="x" onbegin="taken=1"/><text x="2">312</text></svg>'
)
LEFT = """async () => {
  const db = await new Promise((done) => (indexedDB.open("stillbench.jobs").onsuccess = (e) => done(e.target.result)));
  const all = db.transaction([...db.objectStoreNames]);
  const count = (name) => new Promise((done) => (all.objectStore(name).count().onsuccess = (e) => done(e.target.result)));
  return Promise.all([...db.objectStoreNames].map(count));
}"""
"""How much of events, jobs, pages and photos the device holds."""


def interrupted() -> list[dict[str, object]]:
    """A job that was left for two hours, went on without its proofs, and is open."""
    events = [e for e in repair() if e.get("kind") != "reading" and e["at"] <= at(20.1)]
    events += [photo(20.2, 8), {"kind": "away", "at": at(150), "since": at(20.2)}]
    events += [done(151, 14, 15, "Leave it out", passed="leave it out"), done(155, 15, 16, "Dry and clean", unproved=True)]
    return [*events, {"kind": "back", "at": at(157), "to": 15}, done(160, 15, 16, "Dry and clean", unproved=True)]


def test_a_whole_job_stands_on_its_sheet(device: Device) -> None:
    page = device.sheet(device.write(repair()))
    expect(page.locator("h1")).to_have_text("Job sheet 26-0412")
    seen = page.evaluate(SEEN)
    told = ("Ice and water cabinet IW40", "40-1183", "2026-11-25", "Upper Hut, kitchen", "10:00 to 11:05", "No ice: the double water valve, revision")
    assert [words for words in (*told, f"“{ABOUT['complaint']}”") if words not in seen] == []
    expect(page.locator(".outcome")).to_have_text("Outcome: repaired. Cause: double valve or its strainer.")
    expect(page.locator(".closings .here")).to_have_text("In service, this one")
    expect(page.locator("textarea")).to_have_value(re.compile("^Water coil was open"))
    expect(page.locator(".open-still, .loud").filter(visible=True)).to_have_count(0)


def test_readings_stand_with_sign_limits_uncertainty_and_what_they_were_before(device: Device) -> None:
    page = device.sheet(device.write(repair()))
    rows = page.locator("tbody tr")
    texts = [[cell.inner_text() for cell in row.locator("td").all()] for row in rows.all()]
    assert [(row[0], row[2], row[3]) for row in texts] == [
        ("16", "312", "100 to 500 ohm"), ("16", "20.5 kohm", "100 to 500 ohm"), ("17", "OL", "100 to 500 ohm"),
    ]  # fmt: skip
    assert "IN LIMITS 312 ± 4 ohm is between 100 and 500." in texts[0][4]
    assert "before that" in texts[1][1] and "ABOVE LIMITS" in texts[1][4]
    signs = page.locator("tbody .sign use").evaluate_all("all => all.map((use) => use.getAttribute('href'))")
    assert signs == ["#i-sign-in", "#i-sign-above", "#i-sign-above"]


def test_what_was_done_says_what_was_left_out_and_what_was_noted(device: Device) -> None:
    page = device.sheet(device.write(repair()))
    rows = [row.inner_text() for row in page.locator(".done li").all()]
    assert rows[0] == "1 Does it smell clean and look dry? Yes 10:01"
    assert "13 Change the filter: not fitted on IW40, 10:20" in rows
    assert "14 Thaw the fill tube: left out, 10:21" in rows
    assert "Noted at step 19: Bracket screw worn 10:33" in rows
    assert page.locator(".done .box.tick").count() == len([e for e in repair() if e.get("kind") == "done" and "passed" not in e])


def test_the_trace_draws_what_was_on_and_says_the_same_in_words(device: Device) -> None:
    page = device.sheet(device.write(repair()))
    drawing = page.locator(".trace > svg")
    label = drawing.get_attribute("aria-label")
    power = "Power: on from 10:00, off, not proved from 10:11, proved off from 10:14, on from 10:59."
    water = "Water: on from 10:00, proved off from 10:20, on from 10:52."
    assert label == f"{power} {water} Hands in 10:21 to 10:50."
    parts = "all => all.map((one) => [one.getAttribute('class'), Math.round(parseFloat(one.getAttribute('x')))])"
    rects = drawing.locator("rect[class^=fill]").evaluate_all(parts)
    on, off, proved, again = (round(100 * minute / 65) for minute in (0, 11, 14, 59))
    assert rects[:4] == [["fill-on", on], ["fill-off", off], ["fill-proved", proved], ["fill-on", again]]
    signs = drawing.locator("use.sign").evaluate_all("all => all.map((use) => use.getAttribute('href').slice(3))")
    assert signs == ["blade-open", "tick", "blade-closed", "tap-shut", "tick", "tap-open"]


def test_a_job_that_goes_on_says_where_it_stands_what_was_missing_and_who_was_away(device: Device) -> None:
    page = device.sheet(device.write(interrupted()))
    expect(page.locator(".open-still")).to_have_text("Not finished. The job stands at step 16 Measure the ice coil.")
    expect(page.locator(".loud")).to_contain_text("HANDS IN WITHOUT THE PROOFS at step 15 Take off the back panel")
    rows = [row.inner_text() for row in page.locator(".done li").all()]
    assert "Away 10:20 to 12:30: what was proved counted as not proved from then on." in rows
    assert "15 Take off the back panel: Dry and clean: done again later, 12:35\nHANDS IN WITHOUT THE PROOFS" in rows
    label = page.locator(".trace > svg").get_attribute("aria-label")
    assert "proved off from 10:14, off, not proved from 12:30." in label
    expect(page.locator(".shots img")).to_have_attribute("alt", re.compile("^Photo. Step 8 Shut, drain .* wires before they came off"))
    assert page.locator(".shots img").evaluate("async (one) => (await one.decode(), one.naturalWidth)") == 1
    expect(page.locator("[data-act=on]")).to_have_attribute("href", re.compile(r"/ice-cabinet/no-ice-double-valve\.html\?job="))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_usual_job_is_one_sheet_of_paper(paper: str, device: Device) -> None:
    page = device.sheet(device.write(repair()))
    assert len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper))) == 1
    page.emulate_media(media="print")
    seen = page.evaluate(SEEN)
    words = ("Orsel Valley Workshop", "26-0412", "proved off, with a tick", "312", "double valve DV-2", "to order", "In service", "Water coil was open", "Technician", "cannot prove that a machine is safe")
    assert [one for one in words if one not in seen] == []
    assert not [one for one in ("Save to a file", "All jobs", "One more part", "As found", "Print them") if one in seen]


def test_photos_print_on_further_sheets_unless_told_otherwise(device: Device) -> None:
    page = device.sheet(device.write([*repair()[:-1], photo(64, 19), repair()[-1]]))
    sheets = lambda: len(re.findall(rb"/Type\s*/Page\b", page.pdf(format="A4")))  # noqa: E731
    assert sheets() == 2
    page.get_by_label("Print them too").uncheck()
    assert sheets() == 1


def test_parts_and_words_to_the_customer_can_be_corrected_and_are_kept(device: Device) -> None:
    job = device.write(repair())
    page = device.sheet(job)
    page.get_by_label("tube insert is").select_option("taken back")
    page.locator(".more-part summary").click()
    page.get_by_label("Part", exact=True).fill("filter cartridge")
    page.get_by_label("Number", exact=True).focus()
    expect(page.get_by_label("Number", exact=True)).to_have_value("FC-6")
    page.get_by_role("button", name="Write it down").click()
    page.locator("textarea").fill("Look again tomorrow.")
    expect(page.locator(".kept")).to_have_text("Kept.")
    page = device.sheet(job)
    parts = [(row.locator("b").inner_text(), row.locator("select").input_value()) for row in page.locator(".parts li").all()]
    assert parts == [("double valve", "fitted"), ("tube insert", "taken back"), ("bracket screw", "to order"), ("filter cartridge", "to order")]
    expect(page.locator("textarea")).to_have_value("Look again tomorrow.")


def hostile() -> tuple[list[dict[str, object]], dict[str, str]]:
    """A job in which every text is an attack, and a picture too."""
    about = {name: value if name == "model" else ATTACK.format(name) for name, value in ABOUT.items()}
    reading = {**coil(26, 16, "ice-coil", ATTACK.format("label"), "312"), "picture": HOSTILE, "meter": ATTACK.format("meter"), "sentence": ATTACK.format("sentence")}
    events = [
        {"at": at(0), **about, "carried": [{**reading, "label": ATTACK.format("carried")}], "from": {"job": "j", "title": ATTACK.format("from")}},
        done(1, 1, 2, ATTACK.format("words")),
        reading,
        photo(2, 1, words=ATTACK.format("photo")),
        {"kind": "note", "at": at(3), "step": 1, "text": ATTACK.format("note")},
        {"kind": "part", "at": at(3), "name": ATTACK.format("part"), "number": ATTACK.format("number"), "state": "fitted"},
        {"kind": "told", "at": at(3), "text": ATTACK.format("told")},
        {"kind": "end", "at": at(4), "step": 27, "end": "in service", "outcome": "repaired", "cause": ATTACK.format("cause")},
    ]
    return events, about


def inert(page: Page) -> None:
    """Nothing that was written has become more than words."""
    page.wait_for_timeout(100)
    assert page.evaluate("window.taken") is None
    found = "document.querySelectorAll('main :is(script, style, iframe, image, foreignObject, animate, [onload], [onerror], [onclick], [style], [href^=\"javascript\"])').length"
    assert page.evaluate(found) == 0


def test_what_anybody_wrote_is_only_words(devices) -> None:
    device = devices(bypass_csp=True)
    job = device.write(*hostile())
    page = device.sheet(job)
    inert(page)
    seen = page.evaluate(SEEN) + page.locator("textarea").input_value()
    names = ("serial", "place", "complaint", "label", "meter", "sentence", "carried", "from", "words", "photo", "note", "part", "number", "told", "cause", "reference")
    assert [name for name in names if ATTACK.format(name) not in seen] == []
    assert page.locator(".drawn rect, .drawn text").count() == 2
    page.emulate_media(media="print")
    for path in ("jobs.html", "index.html"):
        inert(device.go(path))
    expect(device.go("jobs.html").locator(".which b")).to_contain_text(ATTACK.format("place"))
    inert(device.page)


def test_the_list_says_where_each_job_stands_and_leads_there(device: Device) -> None:
    device.write(repair())
    running = device.write(interrupted(), {**ABOUT, "place": "Lower Hut", "reference": ""})
    page = device.go("jobs.html")
    row = page.locator("[data-rows=open] li")
    expect(row.locator(".which")).to_contain_text("Lower Hut, IW40 40-1183")
    expect(row.locator(".which")).to_contain_text("step 16 Measure the ice coil, begun")
    expect(page.locator("[data-rows=ended] li")).to_contain_text("No ice: the double water valve: in service")
    expect(page.locator(".promise")).to_contain_text("The browser has not promised")
    expect(device.go("index.html").locator("[data-open-jobs] li a")).to_have_attribute("href", re.compile(f"job={running}"))
    page.locator("[data-open-jobs] li a").click()
    expect(page.locator('[data-desk="open"]')).to_be_attached()


def test_a_job_is_deleted_for_good_once_it_was_asked_again(device: Device) -> None:
    job = device.write([*repair()[:-1], photo(64, 19), repair()[-1]])
    page = device.go("jobs.html")
    page.get_by_role("button", name="Delete for good").click()
    expect(page.locator(".sure")).to_contain_text(f"Its {len(repair()) + 1} entries and 1 photo go")
    page.get_by_role("button", name="Keep it").click()
    assert page.evaluate("async (id) => Boolean(await stillbench.store.job(id))", job)
    page.get_by_role("button", name="Delete for good").click()
    page.get_by_role("button", name="Delete it").click()
    expect(page.locator(".said")).to_have_text(f"Upper Hut, kitchen, IW40 40-1183, 26-0412 is deleted: its {len(repair()) + 1} entries and 1 photo are gone from this device.")
    assert page.evaluate(LEFT) == [0, 0, 0, 0]
    expect(device.go(f"job-sheet.html?job={job}").locator(".said")).to_contain_text("This job is not on this device.")


def test_all_jobs_are_deleted_for_good_once_it_was_asked_again(device: Device) -> None:
    assert device.go("jobs.html").get_by_role("button", name="Delete all").count() == 0
    device.write([*repair()[:-1], photo(64, 19), repair()[-1]])
    device.write(interrupted())
    page = device.go("jobs.html")
    page.get_by_role("button", name="Delete all jobs on this device").click()
    expect(page.locator("[data-sure]")).to_contain_text("Delete 2 jobs for good? 1 of them not ended.")
    assert page.evaluate("document.activeElement.textContent") == "Keep them"
    page.keyboard.press("Enter")
    assert page.evaluate(LEFT)[1] == 2
    page.get_by_role("button", name="Delete all jobs on this device").click()
    page.get_by_role("button", name="Delete all of them").click()
    expect(page.locator(".said")).to_have_text("2 jobs deleted: nothing of them is on this device.")
    assert page.evaluate(LEFT) == [0, 0, 0, 0]
    expect(page.locator("[data-rows] li")).to_have_count(0)
    expect(page.get_by_role("button", name="Delete all")).to_have_count(0)


def test_storage_trouble_is_said_at_once(device: Device) -> None:
    page = device.sheet(device.write(repair()))
    page.evaluate("() => { IDBObjectStore.prototype.add = () => { throw new DOMException('full', 'QuotaExceededError'); }; }")
    page.locator("textarea").fill("Not kept.")
    expect(page.locator(".trouble")).to_contain_text("This device is full.")
    expect(page.locator(".kept")).to_have_text("")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("path", ["jobs.html", "job-sheet.html"])
def test_access_rules_are_kept(path: str, scheme: str, device: Device) -> None:
    device.write(repair())
    job = device.write(interrupted())
    page = device.sheet(job) if path == "job-sheet.html" else device.go(path)
    page.evaluate(f"document.documentElement.dataset.scheme = '{scheme}'")
    if path == "jobs.html":
        page.get_by_role("button", name="Delete for good").first.click()
        page.locator(".sure").wait_for()
    else:
        page.locator(".more-part summary").click()
    page.evaluate(AXE.read_text("utf-8"))
    found = page.evaluate("axe.run()")
    assert [(v["id"], v["nodes"][0]["html"]) for v in found["violations"]] == []
    assert len(found["passes"]) > 10


@pytest.mark.parametrize("size", [(820, 1180), (390, 844), (320, 640)], ids=str)
def test_everything_fits_and_is_large_enough_for_a_glove(size: tuple[int, int], device: Device) -> None:
    device.page.set_viewport_size({"width": size[0], "height": size[1]})
    job = device.write([*interrupted(), *[e for e in repair() if e.get("kind") == "part"]])
    for page in (device.sheet(job), device.go("jobs.html")):
        page.locator("main button[data-act]").first.wait_for()
        assert page.evaluate("document.documentElement.scrollWidth") <= size[0]
        small = page.evaluate("""() => [...document.querySelectorAll('main :is(a, button, select, summary, input:not([type=checkbox]), textarea, .choose)')]
            .filter((e) => e.offsetParent && (e.offsetHeight < 44 || e.offsetWidth < 44)).map((e) => e.outerHTML)""")
        assert small == []
