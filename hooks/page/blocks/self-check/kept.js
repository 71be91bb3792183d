// What was answered on this page, kept until its tab is closed: `way` is the questions come to, each with its answer,
// `model` and `serial` what was typed at the end. A page whose words were changed begins anew.
const keptAnswers = (job) => {
  const { digest } = JSON.parse(job.querySelector("#graph").textContent);
  const key = `stillbench.self-check.${job.dataset.page}.${digest}`;
  let kept = { way: [] };
  try {
    kept = JSON.parse(sessionStorage.getItem(key)) ?? kept;
  } catch {
    // Storage is refused: it holds for as long as the page is open.
  }
  const keep = () => {
    try {
      sessionStorage.setItem(key, JSON.stringify(kept));
    } catch {
      // As above.
    }
  };
  const forget = () => {
    for (const name of Object.keys(kept)) delete kept[name];
    kept.way = [];
  };
  return { kept, keep, forget };
};

// The way after coming to a question. `pressed` is what led there: a link's `answer`, a link without one, or null
// where the browser went by itself: back, forward, loaded anew, or an address that someone typed.
const wayTo = (way, id, pressed) => {
  const last = way.at(-1);
  if (!last) return [{ id }];
  if (last.id === id && !pressed) return way;
  if (pressed) return [...way.slice(0, -1), { id: last.id, answer: pressed.answer, to: id }, { id }];
  if (way.at(-2)?.id === id) return way.slice(0, -1);
  if (last.to === id) return [...way, { id }];
  const before = way.findLastIndex((one) => one.id === id);
  return before < 0 ? [{ id }] : way.slice(0, before + 1);
};
