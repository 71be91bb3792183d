// A wait counts down once it was begun, in its step and in the bar; it keeps nobody from going on.
onJob((article) => {
  if (article.dataset.waits || !article.querySelector(".bar .waits")) return;
  article.dataset.waits = "yes";
  const { nodes } = JSON.parse(article.querySelector("#graph").textContent);
  const over = new Set();
  const bar = article.querySelector(".bar .waits");
  const said = article.querySelector(".bar .over");
  let sound = null;

  const nameOf = (node) => `wait--${node.id}`;
  const placeOf = (node) => document.getElementById(node.id)?.querySelector(".wait");
  const left = ({ at, seconds }) => Math.max(0, Math.ceil(seconds - elapsed(at) / 1000));
  const minutes = (seconds) => `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
  const long = (node) => article.querySelector(`#${CSS.escape(node.id)} [data-wait]`).dataset.wait;
  const waits = nodes.filter((node) => node.wait && article.querySelector(`#${CSS.escape(node.id)} [data-wait]`));

  for (const node of waits) {
    const place = article.querySelector("template.wait-one").content.firstElementChild.cloneNode(true);
    place.dataset.node = node.id;
    article.querySelector(`#${CSS.escape(node.id)} .facts`).after(place);
  }

  const show = (node) => {
    const place = placeOf(node);
    const running = timers.all().get(nameOf(node));
    const ended = running && !left(running);
    place.dataset.state = !running ? "still" : ended ? "over" : "runs";
    place.querySelector("[data-count=start]").textContent = running ? "Wait again" : `Start the wait: ${long(node)}`;
    place.querySelector(".left").textContent = !running ? "" : ended ? `Over: ${long(node)}` : `${minutes(left(running))} left`;
    return running && { node, ended, text: ended ? `Step ${node.number}: the wait is over` : `wait, step ${node.number}: ${minutes(left(running))}` };
  };

  // Words are enough; a shake and a tone come with them where an earlier touch allows it.
  const call = (node) => {
    said.textContent = `Step ${node.number}: the wait of ${long(node)} is over.`;
    navigator.vibrate?.([300, 150, 300]);
    if (sound?.state !== "running") return;
    const tone = sound.createOscillator();
    tone.frequency.value = 880;
    tone.connect(sound.destination);
    tone.start();
    tone.stop(sound.currentTime + 0.4);
  };

  // A wait that was over before the page was opened is said in words alone.
  const showAll = (first = false) => {
    const shown = waits.map(show).filter(Boolean);
    const next = shown.find(({ ended }) => ended) ?? shown[0];
    bar.hidden = !next;
    if (next) Object.assign(bar, { hash: `#${next.node.id}`, textContent: next.text });
    for (const { node } of shown.filter(({ node, ended }) => ended && !over.has(node.id))) {
      over.add(node.id);
      if (!first) call(node);
    }
    for (const id of over) if (!shown.some(({ node, ended }) => node.id === id && ended)) over.delete(id);
    article.querySelector(".bar .slot").toggleAttribute("data-waits", Boolean(next));
  };

  article.addEventListener("click", async ({ target }) => {
    const button = target.closest("[data-count]");
    if (!button) return;
    const node = nodes.find(({ id }) => id === button.closest(".wait").dataset.node);
    if (button.dataset.count === "stop") await timers.stop(nameOf(node));
    else {
      if (window.AudioContext) sound ??= new AudioContext();
      sound?.resume();
      await timers.start(nameOf(node), { step: node.number, seconds: node.wait });
    }
    placeOf(node).querySelector("[data-count=start]").focus({ preventScroll: true });
  });
  let first = true;
  article.addEventListener("stillbench:record", () => (showAll(first), (first = false)));
  article.addEventListener("stillbench:timers", () => showAll());
  showAll(true);
  setInterval(() => article.isConnected && timers.all().size && showAll(), 500);
});
