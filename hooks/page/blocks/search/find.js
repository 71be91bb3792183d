// Finds pages and steps by symptom, part, model, tool, title and text. The rarer a word that fits, the more it counts.
(() => {
  const stillbench = (window.stillbench ??= {});
  const { SMALL, cut } = stillbench.alike;
  const SORTS = ["first minute", "machine", "self-check", "procedure", "calculator", "page", "part", "tool", "step"];
  const languageOf = (entry) => (entry.of ?? entry).language ?? "en";
  const sum = (numbers) => numbers.reduce((a, b) => a + b, 0);

  // For each typed word the best that these texts have of it: by how well it fits, and by what the text is, too.
  // A word that stands in running text alone says less of what the page is about.
  function best(rows, words) {
    const [fits, values] = [words.map(() => 0), words.map(() => 0)];
    for (const { likes, field } of rows) {
      for (let at = 0; at < likes.length; at += 1) {
        fits[at] = Math.max(fits[at], likes[at] * Math.min(1, 1.2 * field));
        values[at] = Math.max(values[at], likes[at] * field);
      }
    }
    return { fits, values };
  }

  const covering = (large) => (rows) => large.every((at) => rows.some(({ likes }) => likes[at] > 0.65));

  // The steps of a page share what stands beside them, and steps of one title what they are called.
  function scorer(bestOf, weights, covers) {
    const nothing = [];
    const all = sum(weights);
    const here = document.documentElement.lang;

    function worth(row) {
      const value = () => row.field * (0.5 + 0.5 * row.share) * sum(row.likes.map((like, at) => like * weights[at]));
      return (row.worth ??= value() * (row.share === 1 && covers([row]) ? 1.5 : 1));
    }

    // Pages in another language than the reader's come after his own.
    return (item) => {
      const first = item.rows.reduce((a, b) => (worth(b) > worth(a) ? b : a));
      const [own, beside] = [bestOf(item.rows), bestOf(item.beside ?? nothing)];
      let [rest, fit] = [0, 0];
      for (let at = 0; at < weights.length; at += 1) {
        if (!first.likes[at]) rest += weights[at] * Math.max(own.values[at], beside.values[at]);
        fit += weights[at] * Math.max(own.fits[at], beside.fits[at]);
      }
      const language = (stillbench.told("language", item.page) ?? "en") === here ? 1 : 0.5;
      return { item, first, score: (worth(first) + 0.7 * rest) * (fit / all) * language };
    };
  }

  // The first of them as entries, each address once.
  function shown(found) {
    const kept = new Map();
    for (const { item, first, score } of found) {
      if (kept.size === stillbench.ENOUGH || score <= 0.25 * found[0].score) break;
      const entry = item.entry ?? (item.step ? stillbench.stepOf(item.page, item.step) : stillbench.entry(item.page));
      if (!kept.has(entry.address)) kept.set(entry.address, { entry, score, why: first.one });
    }
    return [...kept.values()];
  }

  // What fits `typed`, the closest first, among the shelf and the items passed in. Without any the texts are still to be
  // asked: a word that nothing fits may stand there, and is not taken for a slip of another.
  function find(typed, extra = null) {
    const words = cut(typed);
    const shelf = stillbench.shelf();
    const { items, counts, strange } = stillbench.fitting(words, shelf, extra);
    const bests = new Map();
    const bestOf = (rows) => bests.get(rows) ?? bests.set(rows, best(rows, words)).get(rows);
    const weights = counts.map((count, at) => (SMALL.has(words[at]) ? 0.1 : 1) * Math.log(1 + (shelf.size + (extra ?? []).length) / (count || 1)));
    const large = [...words.keys()].filter((at) => !SMALL.has(words[at]));
    const covers = covering(large);
    const rank = ({ entry, step, page }) => SORTS.indexOf(step ? "step" : (entry?.sort ?? stillbench.told("sort", page)));
    const found = items.map(scorer(bestOf, weights, covers)).sort((a, b) => b.score - a.score || rank(a.item) - rank(b.item));
    const whole = ({ item, first }) => covers([first, ...item.rows.filter(({ one }) => one.field === "codes")]);
    const rare = large.filter((at) => strange.includes(words[at]));
    const most = (rare.length ? rare : large).sort((a, b) => weights[b] - weights[a]).slice(0, 2).map((at) => words[at]);
    return { words, telling: most.length ? most : words, found: shown(found), complete: Boolean(words.length) && found.some(whole) };
  }

  Object.assign(stillbench, { ENOUGH: 100, find, languageOf });
})();
