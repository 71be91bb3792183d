// Offers a newer version of the site and says when a device cannot keep one; nothing is taken without a press.
document.addEventListener("DOMContentLoaded", () => {
  const { keeper } = window.stillbench;
  const box = document.querySelector("[data-newer]");
  if (!keeper || !box) return;
  const ONLINE = "They work while there is a network.";
  const SAYS = {
    newer: ["A newer version of these pages is here. Taking it loads this page anew.", "take", "later"],
    renewed: ["A newer version was taken in another window. This page is still the old one.", "reload", "later"],
    full: [`There is no room on this device to keep these pages or a newer version of them. ${ONLINE}`, "later"],
    forbidden: [`This browser was told to keep no pages. ${ONLINE}`, "later"],
    failed: ["The newer version could not be taken. The pages here are as they were.", "take", "later"],
  };

  function show(what) {
    if (!SAYS[what]) return;
    const [text, ...acts] = SAYS[what];
    box.dataset.says = what;
    box.querySelector("p").textContent = text;
    for (const button of box.querySelectorAll("button")) button.hidden = !acts.includes(button.dataset.act);
    box.querySelector("[data-act=later]").textContent = acts.length > 1 ? "Later" : "Close";
  }

  const ACTS = {
    take: async () => (await keeper.take()).trouble && show("failed"),
    reload: () => location.reload(),
    later: () => delete box.dataset.says,
  };
  box.addEventListener("click", ({ target }) => ACTS[target.closest("[data-act]")?.dataset.act]?.());
  keeper.hear(show);
});
