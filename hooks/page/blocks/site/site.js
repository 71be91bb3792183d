// The frame: light or dark, and a menu that closes when one goes elsewhere.
(() => {
  const toggle = () => {
    const inputs = [...document.querySelectorAll("[name=__palette]")];
    const scheme = document.body.dataset.mdColorScheme;
    inputs.find((input) => input.dataset.mdColorScheme !== scheme)?.click();
  };
  const closeMenus = (but) => {
    for (const menu of document.querySelectorAll(".menu[open]")) {
      if (!menu.contains(but)) menu.open = false;
    }
  };
  document.addEventListener("click", (event) => {
    if (event.target.closest("[data-palette]")) toggle();
    closeMenus(event.target);
  });
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    const menu = document.querySelector(".menu[open]");
    closeMenus(null);
    menu?.querySelector("summary").focus();
  });
})();
