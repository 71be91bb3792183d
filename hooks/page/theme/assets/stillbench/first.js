// Before anything is drawn: light or dark, and whether the address leads to a place on the page.
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
})();
