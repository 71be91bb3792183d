// On a page for customers what they read comes first; the rest stands below a line that says whose it is.
(() => {
  const stillbench = (window.stillbench ??= {});
  const others = document.querySelector("[data-search]")?.dataset.others;
  const theirs = ({ entry }) => Number(["first minute", "self-check"].includes((entry.of ?? entry).sort));

  stillbench.apart = (found) => (others ? [...found].sort((a, b) => theirs(b) - theirs(a)) : found);
  stillbench.isApart = Boolean(others);

  stillbench.divide = (list, found) => {
    const at = found.findIndex((one) => !theirs(one));
    if (!others || at < 0) return;
    const line = Object.assign(document.createElement("li"), { className: "others", textContent: others });
    list.insertBefore(line, list.children[at]);
  };
})();
