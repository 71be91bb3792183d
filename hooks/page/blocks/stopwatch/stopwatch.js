// A stopwatch beside each field that takes seconds: one press starts it, one stops it and writes the time down.
onJob((article) => {
  if (article.dataset.stopwatches || !article.querySelector(".stopwatch")) return;
  article.dataset.stopwatches = "yes";
  const OFTEN = 100;
  let ticking = 0;

  const watches = () => [...article.querySelectorAll(".stopwatch")];
  const inputOf = (watch) => watch.closest(".entry, .gauge").querySelector("input");
  const runs = (watch) => timers.all().get(inputOf(watch).id);
  const seconds = ({ at }) => (elapsed(at) / 1000).toFixed(1);

  const show = (watch) => {
    const running = runs(watch);
    watch.toggleAttribute("data-runs", Boolean(running));
    watch.querySelector("[data-watch=run]").textContent = running ? "Stop" : "Start watch";
    watch.querySelector("[data-watch=drop]").hidden = !running;
    if (running) watch.querySelector(".ran").textContent = `${seconds(running)} s`;
    return running;
  };

  const showAll = () => {
    clearInterval(ticking);
    if (watches().filter(show).length) ticking = setInterval(() => watches().forEach((watch) => runs(watch) && show(watch)), OFTEN);
  };

  const write = (input, text) => {
    const unit = input.parentElement.querySelector("select.unit");
    if (unit) unit.selectedIndex = 0;
    input.value = text;
    input.dispatchEvent(new Event("input", { bubbles: true }));
  };

  const about = (watch) => ({
    step: Number(watch.closest(".step").dataset.number),
    reading: watch.closest(".reading").dataset.reading,
  });

  const press = async (watch) => {
    const running = runs(watch);
    const input = inputOf(watch);
    if (!running) return timers.start(input.id, about(watch));
    const text = seconds(running);
    watch.querySelector(".ran").textContent = `${text} s`;
    await timers.stop(input.id, { ...about(watch), seconds: Number(text) });
    write(input, text);
  };

  const drop = async (watch) => {
    await timers.stop(inputOf(watch).id);
    watch.querySelector(".ran").textContent = "0.0 s";
    watch.querySelector("[data-watch=run]").focus();
  };

  article.addEventListener("click", async ({ target }) => {
    const button = target.closest("[data-watch]");
    if (!button || button.ariaBusy === "true") return;
    button.ariaBusy = "true";
    await (button.dataset.watch === "drop" ? drop : press)(button.closest(".stopwatch"));
    button.ariaBusy = null;
  });
  for (const changed of ["stillbench:record", "stillbench:timers", "stillbench:rows"]) article.addEventListener(changed, showAll);
});
