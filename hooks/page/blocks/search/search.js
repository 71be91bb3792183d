// The search sheet: opens over the page, fetches what it looks through, lists what was found.
(() => {
  const sheet = document.querySelector("[data-search]");
  if (!sheet) return;
  const { apart, divide, find, foundRow, inside, isApart, openTexts, words: said } = window.stillbench;
  const words = sheet.querySelector("[name=words]");
  const count = sheet.querySelector(".count");
  const list = sheet.querySelector(".found");
  const MOST = 40;
  const AT_ONCE = 12; // more than a screen shows: the rest is drawn when nobody types
  const PAUSE = 100; // milliseconds without a key before the texts are asked
  let [state, asked, opens] = ["not fetched", 0, false];

  const fetchScript = (name) =>
    new Promise((resolve, reject) => {
      const script = document.createElement("script");
      Object.assign(script, { src: sheet.dataset.search + name, onload: resolve, onerror: reject });
      document.head.append(script);
    });

  async function fetchPages() {
    if (state !== "not fetched") return;
    state = "fetching";
    say();
    const both = ["find-pages.js", "find-steps.js"].map(fetchScript);
    state = await Promise.all(both).then(() => "ready", () => "not fetched");
    show();
  }

  function say(found = [], looking = false) {
    const number = found.length > MOST ? said.closest : found.length === 1 ? said["one-found"] : said.found;
    if (state === "fetching") count.textContent = said.fetching;
    else if (state !== "ready") count.textContent = said["not-fetched"];
    else if (!words.value.trim()) count.textContent = said.type;
    else if (looking) count.textContent = said.looking;
    else count.textContent = found.length ? number.replace("{number}", Math.min(found.length, MOST)) : said.nothing;
    sheet.toggleAttribute("data-looking", looking || state === "fetching");
  }

  // What is shown does not move under a finger: if a page fits all words it stands at once, and the rest
  // with what the texts give comes below it; else nothing is shown before the texts have been looked into.
  async function show() {
    if (state !== "ready") return say();
    const mine = (asked += 1);
    const typed = words.value;
    const first = find(typed);
    const shown = first.complete && !isApart ? first.found.slice(0, AT_ONCE) : [];
    list.replaceChildren(...shown.map((one) => foundRow(one, first.words)));
    if (!first.words.length) return say();
    say(shown, true);
    if (!first.complete) openTexts();
    await new Promise((resolve) => setTimeout(resolve, PAUSE));
    if (mine !== asked) return;
    const extra = await inside(first.telling).catch(() => []);
    if (mine !== asked) return;
    const { found } = find(typed, extra);
    const there = new Set(shown.map(({ entry }) => entry.address));
    const more = apart(found).filter(({ entry }) => !there.has(entry.address)).slice(0, MOST - shown.length);
    list.append(...more.map((one) => foundRow(one, first.words)));
    divide(list, more);
    say(found);
    if (opens) list.querySelector("a")?.click();
    opens = false;
  }

  function open(text) {
    if (!sheet.open) sheet.showModal();
    if (text !== undefined) words.value = text;
    words.focus();
    words.select();
    if (state === "not fetched") fetchPages();
    else show();
  }

  document.addEventListener("click", (event) => {
    if (event.target.closest("[data-search-open]")) open();
    if (event.target.closest("[data-search-close]")) sheet.close();
    if (event.target.closest(".found a")) sheet.close();
  });
  document.addEventListener("submit", (event) => {
    const form = event.target.closest("[data-search-for]");
    if (!form) return;
    event.preventDefault();
    if (!sheet.contains(form)) return open(form.elements.namedItem("words").value);
    opens = !list.firstChild && sheet.hasAttribute("data-looking");
    list.querySelector("a")?.click();
  });
  words.addEventListener("input", () => ((opens = false), show()));
  words.form.addEventListener("reset", () => setTimeout(() => (words.focus(), show())));
  if (document.documentElement.hasAttribute("data-sought")) open();
})();
