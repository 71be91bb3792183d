// The search sheet: opens over the page, fetches what it looks through, lists what was found.
(() => {
  const sheet = document.querySelector("[data-search]");
  if (!sheet) return;
  const { alike, apart, divide, find, inside, isApart, languageOf, words: said } = window.stillbench;
  const words = sheet.querySelector("[name=words]");
  const count = sheet.querySelector(".count");
  const list = sheet.querySelector(".found");
  const MOST = 40;
  const PAUSE = 150; // milliseconds without a key before the texts are asked
  const SAYS = { symptoms: said.for, names: said.part, codes: "" };
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

  function line(name, pieces) {
    const made = document.createElement(name);
    for (const [text, hit] of pieces) {
      const piece = hit ? document.createElement("mark") : document.createTextNode(text);
      piece.textContent = text;
      made.append(piece, " ");
    }
    return made;
  }

  // Why it was found, where its title does not say so.
  function reason({ field, text }, typed, title) {
    if (field === "text") return alike.stretch(text, typed, 22);
    if (title.toLowerCase().includes(text.toLowerCase())) return [];
    return field in SAYS ? [[SAYS[field] + text, false]] : [];
  }

  function row({ entry, why }, typed) {
    const link = document.createElement("a");
    link.href = sheet.dataset.root + encodeURI(entry.address);
    link.dataset.sort = entry.sort;
    const on = entry.of && `${said.on}${entry.of.title}`;
    const title = entry.sort === "part" ? [entry.codes, entry.title].filter(Boolean).join(" ") : entry.title;
    const about = [said.kinds[entry.sort], entry.of?.sort === "self-check" && said.kinds["self-check"], entry.appliance, entry.stage, entry.about, on];
    const lines = [reason(why, typed, title), [[about.filter(Boolean).join(" · "), false]]].filter((one) => one.length);
    link.append(line("b", [[title, false]]), ...lines.map((one) => line("small", one)));
    link.firstChild.lang = languageOf(entry);
    link.insertAdjacentHTML("beforeend", '<svg aria-hidden="true" viewBox="0 0 34 26"><path d="M1 3h20l12 10-12 10H1z"/></svg>');
    const made = document.createElement("li");
    made.append(link);
    return made;
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

  // What is shown does not move under a finger: if a page fits all words it stands at once, and what the
  // texts give comes below it; else nothing is shown before the texts have been looked into.
  async function show() {
    if (state !== "ready") return say();
    const mine = (asked += 1);
    const typed = words.value;
    const first = find(typed);
    const shown = first.complete && !isApart ? first.found.slice(0, MOST) : [];
    list.replaceChildren(...shown.map((one) => row(one, first.words)));
    if (!first.words.length) return say();
    say(shown, true);
    await new Promise((resolve) => setTimeout(resolve, PAUSE));
    if (mine !== asked) return;
    const extra = await inside(first.telling).catch(() => []);
    if (mine !== asked) return;
    const { found } = find(typed, extra);
    const there = new Set(shown.map(({ entry }) => entry.address));
    const more = apart(found).filter(({ entry }) => !there.has(entry.address)).slice(0, MOST - shown.length);
    list.append(...more.map((one) => row(one, first.words)));
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
})();
