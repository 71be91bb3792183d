// Offers a newer version of the site and says when a device cannot keep one; nothing is taken without a press.
document.addEventListener("DOMContentLoaded", () => {
  const { keeper, words } = window.stillbench;
  const box = document.querySelector("[data-newer]");
  if (!keeper || !box) return;
  const ACTS_OF = { newer: ["take", "later"], renewed: ["reload", "later"], full: ["later"], forbidden: ["later"], failed: ["take", "later"] };

  function show(what) {
    const acts = ACTS_OF[what];
    if (!acts) return;
    box.dataset.says = what;
    box.querySelector("p").textContent = words[what];
    for (const button of box.querySelectorAll("button")) button.hidden = !acts.includes(button.dataset.act);
    box.querySelector("[data-act=later]").textContent = acts.length > 1 ? words.later : words.close;
  }

  const ACTS = {
    take: async () => (await keeper.take()).trouble && show("failed"),
    reload: () => location.reload(),
    later: () => delete box.dataset.says,
  };
  box.addEventListener("click", ({ target }) => ACTS[target.closest("[data-act]")?.dataset.act]?.());
  keeper.hear(show);
});
