// Deletes every job of this device for good, once it was asked again.
document.addEventListener("DOMContentLoaded", () => {
  const page = document.querySelector("[data-jobs]");
  if (!page) return;
  const { store } = stillbench;
  const find = (selector) => page.querySelector(selector);
  const [ask, sure] = [find("[data-all=ask]"), find("[data-sure]")];
  const count = (number) => (number === 1 ? "1 job" : `${number} jobs`);

  const show = async () => {
    ask.hidden = !sure.hidden || !(await store.jobs()).length;
  };

  const asking = (yes) => {
    sure.hidden = !yes;
    ask.hidden = yes;
  };

  const ACTS = {
    async ask() {
      const jobs = await store.jobs();
      const running = jobs.filter(({ end }) => !end).length;
      sure.querySelector("b").textContent = `Delete ${count(jobs.length)} for good?`;
      const open = running && (jobs.length === 1 ? "It is not ended. " : `${running} of them not ended. `);
      sure.querySelector("span").textContent = `${open || ""}All entries, readings and photos go, from this device. What was not saved to a file is nowhere else.`;
      asking(true);
      find("[data-all=keep]").focus();
    },
    keep() {
      asking(false);
      ask.focus();
    },
    async delete() {
      const jobs = await store.jobs();
      let gone = 0;
      try {
        for (const { id } of jobs) await store.remove(id).then(() => (gone += 1));
      } catch {
        // What is left is said, and stands in the list.
      }
      const left = jobs.length - gone;
      find(".said").dataset.told = "yes";
      find(".said").textContent = `${count(gone)} deleted: nothing of them is on this device.${left ? ` The device did not delete ${count(left)}.` : ""}`;
      asking(false);
      show();
      find("h1").tabIndex = -1;
      find("h1").focus();
    },
  };
  page.addEventListener("click", ({ target }) => ACTS[target.closest("[data-all]")?.dataset.all]?.());
  store.watch(show);
  show();
});
