// The search sheet: opens over the page, fetches what it looks through, lists what was found.
(() => {
  const sheet = document.querySelector("[data-search]");
  if (!sheet) return;
  const words = sheet.querySelector("[name=words]");
  const count = sheet.querySelector(".count");
  const list = sheet.querySelector(".found");
  const MOST = 40;
  let state = "not fetched";

  const fetchIndex = (name) =>
    new Promise((resolve, reject) => {
      const script = document.createElement("script");
      Object.assign(script, { src: sheet.dataset.search + name, onload: resolve, onerror: reject });
      document.head.append(script);
    });

  async function fetchAll() {
    if (state !== "not fetched") return;
    state = "fetching";
    try {
      await fetchIndex("find-pages.js");
      state = "ready";
      show();
      await fetchIndex("find-more.js");
    } catch {
      if (state === "fetching") state = "not fetched";
    }
    show();
  }

  function item({ entry, why }) {
    const link = document.createElement("a");
    link.href = sheet.dataset.root + entry.address;
    const title = document.createElement("b");
    title.textContent = entry.title;
    link.append(title);
    for (const text of [why === entry.title ? "" : why, entry.about]) {
      if (!text) continue;
      const small = document.createElement("small");
      small.textContent = text;
      link.append(small);
    }
    link.insertAdjacentHTML("beforeend", '<svg aria-hidden="true" viewBox="0 0 34 26"><path d="M1 3h20l12 10-12 10H1z"/></svg>');
    const row = document.createElement("li");
    row.append(link);
    return row;
  }

  function says(found) {
    if (state === "fetching") return "Fetching the list of pages …";
    if (state !== "ready") return "The list of pages could not be fetched.";
    if (!words.value.trim()) return "Type a symptom, a part, a model or a tool.";
    if (!found.length) return "Nothing found. Try fewer or other words.";
    if (found.length === MOST) return `The ${MOST} closest`;
    return found.length === 1 ? "One found" : `${found.length} found, the closest first`;
  }

  function show() {
    const found = state === "ready" ? window.stillbench.find(words.value, MOST) : [];
    list.replaceChildren(...found.map(item));
    count.textContent = says(found);
  }

  function open(text) {
    if (!sheet.open) sheet.showModal();
    if (text !== undefined) words.value = text;
    words.focus();
    words.select();
    show();
    fetchAll();
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
    if (!sheet.contains(form)) open(form.elements.namedItem("words").value);
    else list.querySelector("a")?.click();
  });
  words.addEventListener("input", show);
  words.form.addEventListener("reset", () => setTimeout(() => (words.focus(), show())));
})();
