// One line of what was found: its title, why it was found, what it is.
(() => {
  const stillbench = (window.stillbench ??= {});
  const { alike, languageOf, words: said } = stillbench;
  const SAYS = { symptoms: said.for, names: said.part, codes: "" };

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

  stillbench.foundRow = ({ entry, why }, typed) => {
    const link = document.createElement("a");
    link.href = document.querySelector("[data-search]").dataset.root + encodeURI(entry.address);
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
  };
})();
