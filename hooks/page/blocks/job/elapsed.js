// How many milliseconds ago a moment was, by a clock that may be set: while the page is seen its own clock counts; after
// a sleep it takes what the device's clock went on meanwhile. Never less than nothing, never backwards.
const elapsed = (() => {
  const counts = new Map();
  const told = (at) => Math.max(0, Date.now() - at);
  const since = (at) => {
    if (!counts.has(at)) counts.set(at, { past: told(at), from: performance.now() });
    const { past, from } = counts.get(at);
    return past + performance.now() - from;
  };
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden) for (const at of counts.keys()) counts.set(at, { past: Math.max(since(at), told(at)), from: performance.now() });
  });
  return since;
})();
