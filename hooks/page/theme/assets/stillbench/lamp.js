// Light or dark, before anything is drawn: what was chosen on this device, else what the device prefers.
(() => {
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
    document.documentElement.dataset.scheme = ["light", "dark"].includes(one) ? one : dark.matches ? "dark" : "light";
  };
  dark.addEventListener("change", light);
  light();
})();
