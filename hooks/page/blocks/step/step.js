// One step is open: the one the address names. Ways out are plain links, so the back button works.
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

  const follow = (moved) => {
    const target = named();
    const step = target?.closest(".step");
    const place = step ?? (target && target !== start ? null : start);
    if (place) open(place);
    else if (!job.dataset.at) open(start);
    if (!target) return moved && scrollTo(0, 0);
    if (place) place.tabIndex = -1;
    (step === target || !step ? target : step).scrollIntoView();
    if (moved && place) place.focus({ preventScroll: true });
  };

  follow(false);
  if (job.dataset.followed) return;
  job.dataset.followed = "yes";
  let followed = null;
  addEventListener("hashchange", () => {
    const done = followed === location.hash;
    followed = null;
    if (job.isConnected && !done) follow(true);
  });
  // A job leads on at once, before the browser tells that the address is another.
  job.addEventListener("stillbench:follow", () => {
    followed = location.hash;
    follow(true);
  });
  job.addEventListener("click", (event) => {
    const link = event.target.closest("a[href^='#']");
    if (link && link.hash === location.hash) {
      event.preventDefault();
      follow(true);
    }
  });
});
