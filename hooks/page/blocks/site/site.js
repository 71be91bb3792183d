// The frame: light or dark, and a menu that closes when one goes elsewhere.
(() => {
  const toggle = () => {
    const root = document.documentElement;
    root.dataset.scheme = root.dataset.scheme === "dark" ? "light" : "dark";
    try {
      localStorage.setItem("stillbench.scheme", root.dataset.scheme);
    } catch {
      // Storage is full or refused: it holds for this page.
    }
  };
  const closeMenus = (but) => {
    for (const menu of document.querySelectorAll(".menu[open]")) {
      if (!menu.contains(but)) menu.open = false;
    }
  };
  document.addEventListener("click", (event) => {
    if (event.target.closest("[data-lamp]")) toggle();
    closeMenus(event.target);
  });
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    const menu = document.querySelector(".menu[open]");
    closeMenus(null);
    menu?.querySelector("summary").focus();
  });
})();
