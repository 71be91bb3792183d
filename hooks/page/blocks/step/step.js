// One step is open: the one the address names. Ways out are plain links, so the back button works.
// A job leads on by itself: it opens a step, shows what is known there, then goes to it.
const lead = { open: null, go: null };

onJob((job) => {
  if (!job.querySelector(".steps")) return;
  const start = job.querySelector(".before");
  const trail = [];

  const named = () => {
    const target = document.getElementById(placeNamed());
    return target && job.contains(target) ? target : null;
  };

  const remember = (place) => {
    if (trail.at(-2) === place) trail.pop();
    else if (trail.at(-1) !== place) trail.push(place);
    if (job.dataset.desk === "open") return;
    const last = trail.at(-2);
    const back = document.querySelector(".bar .back");
    if (!back) return;
    back.hidden = !last;
    back.href = last ? `#${last.id}` : "";
    back.querySelector("span").textContent = last?.dataset.number ? `Back to ${last.dataset.number}` : "Back";
  };

  const open = (place) => {
    for (const other of job.querySelectorAll("[data-open]")) other.removeAttribute("data-open");
    place.setAttribute("data-open", "");
    job.dataset.at = place === start ? "before" : "step";
    board.show(job, board.of(place));
    remember(place);
    job.dispatchEvent(new CustomEvent("stillbench:open", { bubbles: true, detail: { step: place.dataset.number ? place.id : null } }));
  };

  const go = (target, place, moved) => {
    const step = target.closest(".step");
    if (place) place.tabIndex = -1;
    board.measure();
    (step === target || !step ? target : step).scrollIntoView();
    if (moved && place) place.focus({ preventScroll: true });
  };

  const follow = (moved) => {
    const target = named();
    const step = target?.closest(".step");
    const place = step ?? (target && target !== start ? null : start);
    if (place) open(place);
    else if (!job.dataset.at) open(start);
    if (target) go(target, place, moved);
    else if (moved) scrollTo(0, 0);
  };

  lead.open = (step) => {
    if (location.hash !== `#${step.id}`) history.pushState(null, "", `#${step.id}`);
    open(step);
  };
  lead.go = (step) => go(step, step, true);
  follow(false);
  if (job.dataset.followed) return;
  job.dataset.followed = "yes";
  addEventListener("hashchange", () => job.isConnected && follow(true));
  job.addEventListener("click", (event) => {
    const link = event.target.closest("a[href^='#']");
    if (link && link.hash === location.hash) {
      event.preventDefault();
      follow(true);
    }
  });
});
