// Words compared as people type them: case, marks, endings and a slip of the finger do not count.
(() => {
  const stillbench = (window.stillbench ??= {});
  const NOT = /^(?:do|does|did|is|are|was|wo|ca)nt$/;
  const ENDING = /^(?:\p{L}?(?:ing|ed|er)|e?s|e|t|)$/u;
  const LONG = 5; // letters of a word in which a slip still tells what was meant
  // Words that help little to tell one page from another.
  const SMALL = new Set("a an and are as at be by do does for from get gets got has have how i in is it its me my of on or that the then there this to what when where why will with".split(" "));

  const plain = (text) => text.normalize("NFKC").toLowerCase().replace(/[’']/g, "");
  const cutPlain = (text) => text.split(/[^\p{L}\p{N}]+/u).filter(Boolean).map((word) => (NOT.test(word) ? "not" : word));
  const cut = (text) => cutPlain(plain(text));

  function same(a, b) {
    let at = 0;
    while (at < a.length && a[at] === b[at]) at += 1;
    return at;
  }

  // From 1 for the same word down to 0.
  function likeness(word, typed) {
    if (word === typed) return 1;
    if (typed.length > 1 && word.startsWith(typed)) return 0.9;
    const at = same(word, typed);
    return at > 2 && ENDING.test(word.slice(at)) && ENDING.test(typed.slice(at)) ? 0.8 : 0;
  }

  // Whether one letter is wrong, missing, too many, or two have changed places.
  function slip(word, typed) {
    if (typed.length < LONG || Math.abs(word.length - typed.length) > 1) return false;
    const at = same(word, typed);
    const [a, b] = [word.slice(at), typed.slice(at)];
    const swapped = a[0] === b[1] && a[1] === b[0] && a.slice(2) === b.slice(2);
    return swapped || a.slice(1) === b.slice(1) || a.slice(1) === b || a === b.slice(1);
  }

  // A stretch of the text with as many of the words as can be, as pieces of [text, whether it is one of them].
  function stretch(text, words, most) {
    const pieces = text.split(/\s+/);
    const hits = pieces.map((piece) => cut(piece).some((word) => words.some((typed) => likeness(word, typed))));
    const sums = pieces.map((_, at) => hits.slice(at, at + most).filter(Boolean).length);
    const first = hits.indexOf(true, sums.indexOf(Math.max(...sums)));
    const from = pieces.length > most ? Math.max(0, Math.min(first - 3, pieces.length - most)) : 0;
    const shown = pieces.slice(from, from + most).map((piece, at) => [piece, hits[from + at]]);
    return [...(from ? [["…", false]] : []), ...shown, ...(from + most < pieces.length ? [["…", false]] : [])];
  }

  stillbench.alike = { LONG, SMALL, plain, cut, cutPlain, likeness, slip, stretch };
})();
