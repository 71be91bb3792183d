// Which texts fit what was typed, and how well. A text that many pages have is looked at once, and so is a word of many texts.
(() => {
  const stillbench = (window.stillbench ??= {});
  const { LONG, SMALL, likeness, slip } = stillbench.alike;
  const FIELDS = { codes: 1.5, symptoms: 1.2, titles: 1.1, names: 1, steps: 0.9, appliance: 0.8, text: 0.5, about: 0.4 };
  const GIVEN = ["codes", "names"];

  function ofCode({ plain }, words) {
    const [code] = plain.split("\t");
    return words.map((word, at) => {
      if ([word, words[at - 1] + word, word + words[at + 1]].includes(code)) return 1;
      return word.length > 1 && code.startsWith(word) ? 0.6 : 0;
    });
  }

  // How well each typed word fits this one; null where none does.
  function ofWord(word, query) {
    let likes = query.known.get(word);
    if (likes === undefined) {
      likes = query.words.map((typed) => query.like(word, typed));
      query.known.set(word, (likes = likes.some(Boolean) ? likes : null));
    }
    return likes;
  }

  // How well each typed word fits the text, and how much of the text they are; null where none that tells something does.
  function ofText(one, query) {
    let [likes, share] = [null, 1];
    if (one.field === "codes") likes = ofCode(one, query.words);
    else {
      let [large, fit] = [0, 0];
      for (const word of one.cuts) {
        const found = ofWord(word, query);
        if (found) likes = likes ? likes.map((like, at) => Math.max(like, found[at])) : found;
        if (SMALL.has(word)) continue;
        large += 1;
        if (found) fit += 1;
      }
      share = fit / (large || 1);
    }
    return likes?.some((like, at) => like && query.tells[at]) ? { one, likes, share, field: FIELDS[one.field] } : null;
  }

  // Most lines have none of the words: they are passed over as they stand.
  function fitting(table, query) {
    const may = (line) => (table.field === "codes" ? query.words.some((word) => line.startsWith(word)) : query.starts.some((start) => line.includes(start)));
    const found = [];
    for (const [at, line] of table.plains.entries()) {
      const row = may(line) && ofText(stillbench.text(table, at), query);
      if (row) found.push(row);
    }
    return found;
  }

  // By number of a page, part, machine: the texts that fit. Parts and machines give theirs to the pages that they are on.
  function ofEntries(tables, query) {
    const all = new Map();
    const put = (at, row) => all.get(at)?.rows.push(row) ?? all.set(at, { page: at, rows: [row] });
    for (const row of tables.flatMap((table) => fitting(table, query))) {
      for (const at of row.one.on) {
        put(at, row);
        const pages = GIVEN.includes(row.one.field) && stillbench.pagesOf(at);
        if (pages) for (const on of pages) put(on, row);
      }
    }
    return all;
  }

  // The steps of one title. Where nothing of their pages fits they are all alike: a few of these will do.
  function ofSteps(row, pages) {
    const rows = [row];
    const all = row.one.on.map((page) => ({ page, step: row.one, rows, beside: pages.get(page)?.rows }));
    const alike = all.filter(({ beside }) => !beside);
    return [...all.filter(({ beside }) => beside), ...alike.slice(0, stillbench.ENOUGH)];
  }

  // {page, step, entry, rows, beside}: what fits of a page, of one of its steps, or of an item passed in; what fits of the page beside it.
  function look(shelf, extra, query) {
    const pages = ofEntries(shelf.tables, query);
    const steps = fitting(shelf.steps, query);
    const has = ({ plain }) => query.starts.some((start) => plain.includes(start));
    const inside = extra.map(({ entry, page, texts }) => {
      const rows = texts.filter(has).map((one) => ofText(one, query)).filter(Boolean);
      return { entry, page, rows, beside: pages.get(page)?.rows };
    });
    const whole = [...pages.values(), ...inside.filter(({ rows }) => rows.length)];
    const counts = query.words.map((_, at) => {
      const on = steps.filter(({ likes }) => likes[at]).map(({ one }) => one.on.length);
      return whole.filter(({ rows }) => rows.some(({ likes }) => likes[at])).length + on.reduce((a, b) => a + b, 0);
    });
    return { items: [...whole, ...steps.flatMap((row) => ofSteps(row, pages))], counts };
  }

  // What fits the words, how much fits each, and which of them nothing fits as they are: those may be slips, once the
  // texts were asked for them.
  stillbench.fitting = (words, shelf, extra) => {
    const none = words.every((word) => SMALL.has(word));
    const tells = words.map((word) => none || !SMALL.has(word));
    const starts = words.filter((_, at) => tells[at]).map((word) => word.slice(0, 3));
    const found = look(shelf, extra ?? [], { words, tells, starts, like: likeness, known: new Map() });
    const strange = words.filter((_, at) => !found.counts[at]);
    if (!extra || !strange.some((typed) => typed.length >= LONG)) return { ...found, strange };
    const like = (word, one) => likeness(word, one) || (strange.includes(one) && slip(word, one) ? 0.6 : 0);
    const meant = [...shelf.known()].filter((word) => strange.some((typed) => slip(word, typed)));
    return { ...look(shelf, extra, { words, tells, starts: [...starts, ...meant], like, known: new Map() }), strange };
  };
})();
