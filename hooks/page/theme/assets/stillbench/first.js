// Before anything is drawn: light or dark, whether the address leads to a place on the page, what is pressed before the scripts are here.
(() => {
  const root = document.documentElement;
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const chosen = () => {
    try {
      return localStorage.getItem("stillbench.scheme");
    } catch {
      return null;
    }
  };
  const light = () => {
    const one = chosen();
    root.dataset.scheme = ["light", "dark"].includes(one) ? one : dark.matches ? "dark" : "light";
  };
  dark.addEventListener("change", light);
  light();
  root.toggleAttribute("data-to", location.hash.length > 1);
  // Who asks for the search before its script is here gets it then.
  addEventListener("click", ({ target }) => root.toggleAttribute("data-sought", Boolean(target.closest?.("[data-search-open]"))));
})();
