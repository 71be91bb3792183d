// Keeping a machine's pages on this device: what it takes, how far it is, what is kept, how to give it up.
document.addEventListener("DOMContentLoaded", () => {
  const box = document.querySelector("[data-keep]");
  if (!box) return;
  const { keeper } = window.stillbench;
  const id = box.dataset.keep;
  const said = box.querySelector(".said");
  const promise = box.querySelector(".promise");
  const bar = box.querySelector("progress");
  const megabytes = (bytes) => `${(bytes / 1e6).toFixed(1)} MB`;
  const count = (pages) => (pages === 1 ? "1 page" : `${pages} pages`);
  const UNCHANGED = "Nothing on this device has changed.";
  const WHY = {
    preview: "A preview keeps nothing. The published site does.",
    folder: "These pages are opened from a folder, and lie there for good.",
    insecure: "This address has no secure connection (https), and browsers keep pages only over one. The pages work while there is a network.",
    browser: "This browser keeps no pages, or not in a private window. They work while there is a network.",
    forbidden: "This browser was told to keep nothing. The pages work while there is a network.",
    full: `There is no room for it on this device. ${UNCHANGED} The pages work while there is a network.`,
    changed: `The pages on the server are not the ones that were looked for: they are being changed, or a newer version is there. ${UNCHANGED} Load this page anew, then try again.`,
    "cut off": `The network broke off. ${UNCHANGED} Press again to go on from here.`,
    broken: `It did not work. ${UNCHANGED}`,
  };
  let going = false;

  function show(act, text) {
    for (const button of box.querySelectorAll("button")) button.hidden = button.dataset.act !== act;
    bar.hidden = act !== "stop";
    said.textContent = text;
  }

  // A browser may throw out what it keeps when the device runs short of room, unless it has promised not to.
  async function promised(ask) {
    const yes = await (ask ? navigator.storage?.persist?.() : navigator.storage?.persisted?.());
    promise.textContent = yes
      ? "The browser has promised to hold them until you take them off."
      : "The browser has not promised to hold them: it may throw them out when the device runs short of room. Look here before you leave the network. The site on the home screen usually helps.";
  }

  async function look() {
    promise.textContent = "";
    const { trouble, sets } = await keeper.ask("ask");
    if (trouble) return show("", WHY[trouble]);
    const { bytes, pages, kept } = sets[id];
    const shared = Object.entries(sets).filter(([name]) => !name.startsWith("machines/"));
    const whole = megabytes(shared.reduce((sum, [, set]) => sum + set.bytes, bytes));
    const missing = megabytes(shared.reduce((sum, [, set]) => sum + (set.kept ? 0 : set.bytes), bytes));
    if (kept) {
      show("drop", `On this device: ${count(pages)}, ${megabytes(bytes)}; with what all machines share ${whole}. They open without a network.`);
      return promised(false);
    }
    const rest = missing === megabytes(bytes) ? "" : `, ${megabytes(bytes)}; the rest is shared by all machines`;
    show("keep", `Takes ${missing} on this device: ${count(pages)}${rest}.`);
  }

  async function fetchAll() {
    going = true;
    promised(true);
    bar.value = 0;
    show("stop", "Starting …");
    const got = await keeper.keep(id, ({ left, bytes }) => {
      bar.value = 1 - left / bytes;
      if (going) said.textContent = `${megabytes(bytes - left)} of ${megabytes(bytes)} are here. Stay on this page.`;
      return going;
    });
    if (!got.trouble) return look();
    show(got.trouble === "forbidden" ? "" : "keep", WHY[got.trouble]);
    promise.textContent = "";
  }

  const ACTS = {
    keep: fetchAll,
    stop: () => (going = false),
    drop: async () => {
      await keeper.ask("drop", { id });
      await look();
    },
  };
  box.addEventListener("click", ({ target }) => ACTS[target.closest("[data-act]")?.dataset.act]?.());
  keeper.hear((what) => WHY[what] && show("", WHY[what]));
  look();
});
