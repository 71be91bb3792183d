// Photos of a job: taken on this device, made small, without what the camera writes into them, kept with their step.
onJob((article) => {
  if (!article.matches(".procedure") || article.dataset.photos) return;
  article.dataset.photos = "yes";
  const { desk, store } = stillbench;
  const [MOST, QUALITY] = [1600, 0.8];
  const shown = new Map();

  const numberOf = (place) => Number(place.closest(".step").dataset.number);

  // Drawn anew: what comes out is a picture and nothing else, no place and no time.
  const scaled = async (file) => {
    const bitmap = await createImageBitmap(file, { imageOrientation: "from-image" });
    const by = Math.min(1, MOST / Math.max(bitmap.width, bitmap.height));
    const [width, height] = [bitmap.width, bitmap.height].map((side) => Math.max(1, Math.round(side * by)));
    const canvas = Object.assign(document.createElement("canvas"), { width, height });
    const pen = canvas.getContext("2d");
    Object.assign(pen, { fillStyle: "#fff", imageSmoothingQuality: "high" }).fillRect(0, 0, width, height);
    pen.drawImage(bitmap, 0, 0, width, height);
    bitmap.close();
    const blob = await new Promise((done) => canvas.toBlob(done, "image/jpeg", QUALITY));
    if (!blob) throw new DOMException("no picture", "EncodingError");
    return { blob, width, height };
  };

  const take = async (input) => {
    const [file] = input.files;
    const trouble = input.closest(".record").querySelector(".trouble");
    const step = numberOf(input);
    input.value = "";
    trouble.textContent = "Keeping the photo.";
    try {
      const { blob, width, height } = await scaled(file);
      const photo = store.fresh();
      await desk.act("photo", { step, photo, type: blob.type, width, height, words: "" }, { photo: { id: photo, blob } });
      trouble.textContent = store.trouble ? "The photo is not kept: this device has no room for it, or keeps nothing." : "";
    } catch {
      trouble.textContent = "This file is no picture that can be read here. Nothing was kept.";
    }
  };

  // Pictures are read from the device once a page, and only when there is one to show.
  const addresses = async (photos) => {
    if (photos.every(({ photo }) => shown.has(photo))) return;
    for (const { id, blob } of await store.photos(desk.job.id)) if (!shown.has(id)) shown.set(id, URL.createObjectURL(blob));
  };

  const drawn = (event) => {
    const one = article.querySelector("template.photo-one").content.firstElementChild.cloneNode(true);
    one.dataset.photo = event.photo;
    const picture = one.querySelector("img") ?? one.querySelector(".look").appendChild(new Image()); // older pages have one
    Object.assign(picture, { width: event.width, height: event.height });
    if (shown.has(event.photo)) picture.src = shown.get(event.photo);
    return one;
  };

  const show = async (step, place) => {
    const photos = desk.record.photos.filter(({ step }) => step === numberOf(place));
    await addresses(photos);
    const list = place.querySelector(".taken");
    const there = new Map([...list.children].map((one) => [one.dataset.photo, one]));
    for (const [id, one] of there) if (!photos.some(({ photo }) => photo === id)) one.remove();
    for (const [at, event] of photos.entries()) {
      const one = there.get(event.photo) ?? list.appendChild(drawn(event));
      const words = one.querySelector(".words");
      if (words !== document.activeElement) words.value = event.words ?? "";
      one.querySelector("img").alt = event.words || `Photo ${at + 1} of step ${event.step}`;
      one.querySelector(".look").setAttribute("aria-label", `Photo ${at + 1}, ${clock(event.at)}${event.words ? `: ${event.words}` : ""}, larger`);
    }
  };

  const forget = async (button) => {
    const { photo } = button.closest(".photo").dataset;
    if (!button.dataset.sure) return Object.assign(button, { textContent: "Delete for good?" }).setAttribute("data-sure", "yes");
    const back = button.closest(".record").querySelector(".shoot input");
    await desk.act("photo-gone", { photo, step: numberOf(button) }, { gone: photo });
    URL.revokeObjectURL(shown.get(photo));
    shown.delete(photo);
    back.focus();
  };

  const larger = (button) => {
    const open = button.closest(".photo").toggleAttribute("data-large");
    button.setAttribute("aria-expanded", String(open));
  };

  settle(article, ".photo .words", async (input) => {
    const event = desk.record.photos.find(({ photo }) => photo === input.closest(".photo")?.dataset.photo);
    if (!event || (event.words ?? "") === input.value.trim()) return;
    const { step, photo, type, width, height } = event;
    await desk.act("photo", { step, photo, type, width, height, words: input.value.trim() });
  });
  article.addEventListener("change", ({ target }) => target.closest(".shoot") && target.files.length && take(target));
  article.addEventListener("click", ({ target }) => {
    const [gone, look] = [target.closest(".photo .delete"), target.closest(".photo .look")];
    if (gone) forget(gone);
    if (look) larger(look);
  });
  onRecord(article, show);
});
