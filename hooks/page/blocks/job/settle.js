// What is typed is kept when it settles: after a rest, when its field is left, before a way out is taken, before the page
// is out of sight. `keep` is asked one place at a time, and itself sees whether there is anything new. Gives what keeps a place at once.
const settle = (article, selector, keep) => {
  const REST = 700;
  const rests = new Map();
  let line = Promise.resolve();

  const now = (place) => {
    clearTimeout(rests.get(place));
    rests.delete(place);
    if (article.dataset.desk === "open") line = line.catch(() => {}).then(() => keep(place));
    return line;
  };
  const on = (kind, then) =>
    article.addEventListener(kind, ({ target }) => {
      const place = target.closest(selector);
      if (place) then(place);
    });

  on("input", (place) => {
    clearTimeout(rests.get(place));
    rests.set(place, setTimeout(now, REST, place));
  });
  for (const left of ["change", "focusout"]) on(left, now);
  document.addEventListener("visibilitychange", () => document.hidden && [...rests.keys()].forEach(now));

  const { desk } = stillbench;
  const others = desk.flush;
  desk.flush = async (step) => {
    await others?.(step);
    await Promise.all([...step.querySelectorAll(selector)].map(now));
  };
  return now;
};
