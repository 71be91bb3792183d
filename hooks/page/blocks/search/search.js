// Search: opens and closes the sheet with focus where a keyboard expects it.
// Finding itself is Material's; it listens on the window, so keys meant for our buttons stop here.
(() => {
  const sheet = document.querySelector("[data-search]");
  const toggle = document.querySelector("[data-md-toggle=search]");
  if (!sheet || !toggle) return;
  const words = sheet.querySelector("[name=query]");
  const unserved = location.protocol === "file:";
  let from = null;

  const open = (text, opener) => {
    from = opener;
    if (!toggle.checked) toggle.click();
    sheet.hidden = false;
    sheet.querySelector(".unserved").hidden = !unserved;
    words.focus();
    if (text === undefined) return words.select();
    words.value = text;
    words.dispatchEvent(new Event("keyup"));
  };
  const close = () => {
    if (toggle.checked) toggle.click();
    from?.focus();
  };
  const stays = () => [...sheet.querySelectorAll("input, button, a[href], summary")].filter((e) => e.offsetParent);

  document.addEventListener("click", (event) => {
    const opener = event.target.closest("[data-search-open]");
    if (opener) open(undefined, opener);
    if (event.target.closest("[data-search-close]")) close();
  });
  document.addEventListener("submit", (event) => {
    const form = event.target.closest("[data-search-for]");
    if (!form && event.target !== words.form) return;
    event.preventDefault();
    if (form) open(form.elements.namedItem("words").value, form.elements.namedItem("words"));
  });
  sheet.addEventListener("keydown", (event) => {
    if (event.key === "Escape") return event.stopPropagation(), close();
    if (event.key === "Tab") {
      const all = stays();
      const last = event.shiftKey ? all[0] : all.at(-1);
      if (document.activeElement === last) event.preventDefault(), (event.shiftKey ? all.at(-1) : all[0]).focus();
      event.stopPropagation();
    } else if (event.target !== words && !event.key.startsWith("Arrow")) event.stopPropagation();
  });
})();
