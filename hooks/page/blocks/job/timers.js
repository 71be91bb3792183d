// What runs by the clock, by a name: kept with the job; without one, while the page is open.
// Who shows it hears "stillbench:timers" at the article when one was started or stopped, and "stillbench:record" in a job.
const timers = (() => {
  const own = new Map();
  const job = () => document.querySelector(".job");
  const kept = () => job().dataset.desk === "open" && stillbench.desk.record;
  const change = async (kind, data, alone) => {
    if (kept()) return stillbench.desk.act(kind, data);
    alone(data);
    job().dispatchEvent(new CustomEvent("stillbench:timers"));
  };
  return {
    all: () => (kept() ? stillbench.desk.record.timers : own),
    start: (timer, data) => change("timer", { timer, ...data }, () => own.set(timer, { ...data, at: Date.now() })),
    stop: (timer, data = {}) => change("timer-stop", { timer, ...data }, () => own.delete(timer)),
  };
})();
