"""Photos and notes in a job: small, without what a camera writes into them, with their step, and deletable."""

from __future__ import annotations

import struct

from playwright.sync_api import FilePayload, Page, expect

from tests.browser.bench import Again, Begin, again, begin, events, folder, go, opened, reload  # noqa: F401

PHOTOS = """async () => Promise.all((await stillbench.store.photos(stillbench.desk.job.id)).map(async ({ id, blob }) => {
  const bitmap = await createImageBitmap(blob);
  return { id, type: blob.type, size: [bitmap.width, bitmap.height], bytes: [...new Uint8Array(await blob.arrayBuffer())] };
}))"""
DRAWN = """async ([width, height]) => {
  const canvas = Object.assign(document.createElement("canvas"), { width, height });
  const pen = canvas.getContext("2d");
  pen.fillStyle = "#c33"; pen.fillRect(0, 0, width / 2, height / 2);
  const blob = await new Promise((done) => canvas.toBlob(done, "image/jpeg"));
  return [...new Uint8Array(await blob.arrayBuffer())];
}"""
SECRET = b"46.5N 9.8E"
FULL = """() => {
  const real = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function (...all) {
    if (this.name === "photos") throw new DOMException("full", "QuotaExceededError");
    return real.apply(this, all);
  };
}"""


def camera(tab: Page, width: int, height: int, turned: int = 1) -> FilePayload:
    """A JPEG as a camera writes it, with an EXIF segment: how it was turned (Exif 2.3, tag 0x0112), and a place."""
    plain = bytes(tab.evaluate(DRAWN, [width, height]))
    entries = struct.pack("<HHHIHHI", 1, 0x0112, 3, 1, turned, 0, 0)
    tiff = b"II*\0" + struct.pack("<I", 8) + entries + SECRET
    body = b"Exif\0\0" + tiff
    segment = b"\xff\xe1" + struct.pack(">H", len(body) + 2) + body
    return {"name": "wires.jpg", "mimeType": "image/jpeg", "buffer": plain[:2] + segment + plain[2:]}


def take(tab: Page, file: FilePayload) -> None:
    count = tab.locator("[data-open] .photo").count()
    tab.locator("[data-open] .shoot input").set_input_files(file)
    expect(tab.locator("[data-open] .photo")).to_have_count(count + 1)


def test_a_photo_is_kept_small_and_says_nothing_of_its_place(begin: Begin) -> None:
    tab = begin("open")
    file = camera(tab, 2400, 1200)
    assert SECRET in file["buffer"]
    take(tab, file)
    (kept,) = tab.evaluate(PHOTOS)
    assert kept["type"] == "image/jpeg" and kept["size"] == [1600, 800]
    assert b"Exif" not in bytes(kept["bytes"]) and SECRET not in bytes(kept["bytes"])
    (event,) = events(tab, "photo")
    told = {"step": 7, "photo": kept["id"], "width": 1600, "height": 800, "type": "image/jpeg", "words": ""}
    assert {name: event[name] for name in told} == told


def test_a_photo_that_the_camera_turned_stands_upright_and_a_small_one_stays(begin: Begin) -> None:
    tab = begin("open")
    take(tab, camera(tab, 400, 200, turned=6))
    assert tab.evaluate(PHOTOS)[0]["size"] == [200, 400]


def test_a_photo_stays_with_its_step_with_its_words_after_a_reload_and_in_another_tab(begin: Begin, again: Again) -> None:
    tab = begin("open")
    other = again(tab)
    take(tab, camera(tab, 400, 200))
    expect(other.locator("#open .photo img")).to_be_visible()
    words = tab.get_by_label("What the photo shows")
    words.fill("Brown on the left tab")
    words.blur()
    expect(other.get_by_label("What the photo shows")).to_have_value("Brown on the left tab")
    reload(tab)
    expect(tab.locator("#open .photo img")).to_have_attribute("alt", "Brown on the left tab")
    assert tab.locator("#open .photo img").evaluate("async (one) => (await one.decode(), one.naturalWidth)") == 400
    go(tab, "measure")
    expect(tab.locator("#measure .record")).to_be_visible()
    assert tab.locator("#measure .photo").count() == 0
    assert len(tab.evaluate("stillbench.desk.record.photos")) == 1


def test_a_photo_is_deleted_for_good_at_the_second_press(begin: Begin) -> None:
    tab = begin("open")
    take(tab, camera(tab, 400, 200))
    delete = tab.locator("#open .photo .delete")
    delete.click()
    expect(delete).to_have_text("Delete for good?")
    assert len(tab.evaluate(PHOTOS)) == 1
    delete.click()
    expect(tab.locator("#open .photo")).to_have_count(0)
    assert tab.evaluate(PHOTOS) == []
    assert [e["kind"] for e in events(tab, "photo", "photo-gone")] == ["photo", "photo-gone"]


def test_what_is_no_picture_is_refused_and_nothing_is_kept(begin: Begin) -> None:
    tab = begin("open")
    tab.locator("#open .shoot input").set_input_files({"name": "a.jpg", "mimeType": "image/jpeg", "buffer": b"no picture"})
    expect(tab.locator("#open .record .trouble")).to_contain_text("no picture that can be read here")
    assert events(tab, "photo") == [] and tab.evaluate(PHOTOS) == []


def test_a_device_without_room_is_said_beside_the_photo_too(begin: Begin) -> None:
    tab = begin("open")
    tab.evaluate(FULL)
    take(tab, camera(tab, 400, 200))
    expect(tab.locator("#open .record .trouble")).to_contain_text("The photo is not kept")
    expect(tab.locator(".strip.trouble")).to_contain_text("This device is full")


def test_a_note_is_kept_with_its_step_once_and_is_there_again(begin: Begin, again: Again) -> None:
    tab = begin("open")
    other = again(tab)
    tab.locator("#open .note summary").click()
    field = tab.locator("#open .note textarea")
    field.press_sequentially("Rust on the left tab", delay=10)
    expect(other.locator("#open .note textarea")).to_have_value("Rust on the left tab")
    field.blur()
    tab.wait_for_timeout(900)
    assert [(e["step"], e["text"]) for e in events(tab, "note")] == [(7, "Rust on the left tab")]
    reload(tab)
    expect(field).to_be_visible()
    expect(field).to_have_value("Rust on the left tab")
    field.fill("Rust on both")
    go(tab, "measure")
    expect(tab.locator("#measure .note")).not_to_have_attribute("open", "")
    assert tab.evaluate("stillbench.desk.record.notes.map((n) => n.text)") == ["Rust on both"]


def test_without_a_job_there_is_no_place_for_photos_and_notes(begin: Begin) -> None:
    tab = begin()
    tab.goto(tab.url.split("?")[0] + "#open")
    expect(tab.locator("#open")).to_have_attribute("data-open", "")
    assert tab.locator(".record").count() == 0
