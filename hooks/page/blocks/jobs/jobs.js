// The jobs on this device: where each stands, what can be done with it, and what the device has promised.
document.addEventListener("DOMContentLoaded", () => {
  const page = document.querySelector("[data-jobs]");
  if (!page) return;
  const { store } = stillbench;
  const find = (selector) => page.querySelector(selector);
  const megabytes = (bytes) => `${(bytes / 1e6).toFixed(1)} MB`;
  let read = null;

  const show = async () => {
    const jobs = await store.jobs();
    const groups = { open: jobs.filter(({ end }) => !end), ended: jobs.filter(({ end }) => end) };
    for (const [name, those] of Object.entries(groups)) {
      const rows = await Promise.all(those.map(jobRow.row));
      if (page.querySelector(".sure")) return;
      find(`[data-rows=${name}]`).replaceChildren(...rows);
      find(`[data-rows=${name}] + .none`).hidden = rows.length > 0;
    }
    if (find(".said").dataset.told !== "yes") find(".said").textContent = "Kept on this device alone. Nothing is sent anywhere.";
  };

  const tell = (text) => {
    find(".said").textContent = text;
    find(".said").dataset.told = "yes";
  };

  const promised = async (ask) => {
    const [yes, room] = [await (ask ? navigator.storage?.persist?.() : navigator.storage?.persisted?.()), await navigator.storage?.estimate?.()];
    const takes = room?.usage ? ` All that this site keeps takes ${megabytes(room.usage)}.` : "";
    const held = yes ? "The browser has promised to hold it until you delete it." : "The browser has not promised to hold it: it may throw it out when the device runs short of room. Save what matters to a file.";
    find(".promise").textContent = `${held}${takes}`;
    find("[data-act=promise]").hidden = Boolean(yes) || !navigator.storage?.persist;
  };

  const jobOf = (button) => store.job(button.closest("[data-job]").dataset.job);

  const took = async (copy) => {
    find(".twice").hidden = true;
    try {
      const id = await stillbench.take(read, copy);
      const job = await store.job(id);
      find(".opened").replaceChildren(`${copy ? "Kept as a second one" : "Opened"}: ${nameOf(job)}. `, made("a", { href: sheetOf(job) }, "Job sheet"));
    } catch (error) {
      find(".opened").textContent = `${error.name === "QuotaExceededError" ? "There is no room for it on this device." : "This device did not keep it."} Nothing was changed.`;
    }
    read = null;
  };

  const picked = async (input) => {
    const [file] = input.files;
    if (!file) return;
    find(".twice").hidden = true;
    find(".opened").textContent = "Looking through it …";
    read = await stillbench.read(file);
    input.value = "";
    if (read.trouble) return (find(".opened").textContent = `“${file.name}” is refused. ${read.trouble} Nothing was changed.`);
    if (!read.here) return took(false);
    find(".opened").textContent = `${nameOf(read.saved.job)} is on this device already. The one here stays as it is.`;
    find(".twice").hidden = false;
  };

  const ACTS = {
    save: async (button) => (await stillbench.save((await jobOf(button)).id)) > stillbench.file.most && tell("The file is larger than 60 MB: it is kept, but no device will open it."),
    async ask(button) {
      const job = await jobOf(button);
      const [events, photos] = [await store.events(job.id), await store.photos(job.id)];
      const sure = jobRow.sure(job, events.length, photos.length);
      button.closest(".acts").replaceWith(sure);
      sure.querySelector("[data-act=keep]").focus();
    },
    async keep(button) {
      const row = button.closest("[data-job]");
      row.querySelector(".sure").replaceWith(jobRow.acts(await jobOf(button)));
      row.querySelector("[data-act=ask]").focus();
    },
    async delete(button) {
      const job = await jobOf(button);
      const { lost } = button.closest(".sure").dataset;
      try {
        await store.remove(job.id);
        button.closest("[data-job]").remove();
        tell(`${nameOf(job)} is deleted: its ${lost} are gone from this device.`);
      } catch {
        tell("The device did not delete it. It is all still here.");
      }
      find("h1").tabIndex = -1;
      find("h1").focus();
      show();
    },
    copy: () => took(true),
    leave() {
      find(".twice").hidden = true;
      find(".opened").textContent = "Left. Nothing was changed.";
    },
    promise: () => promised(true),
  };
  page.addEventListener("click", ({ target }) => {
    const button = target.closest("button[data-act]");
    if (button) ACTS[button.dataset.act](button);
  });
  find("input[type=file]").addEventListener("change", ({ target }) => picked(target));
  store.watch(show);
  store.ontrouble((reason) => {
    find(".trouble").hidden = !reason;
    find(".trouble").textContent = STORAGE[reason] ?? "";
  });
  show();
  promised(false);
});
