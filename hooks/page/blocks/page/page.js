// Runs each block's script once all scripts and the whole page are there, and again on a page put in its place.
const onJob = (start) => onJob.starts.push(start);
onJob.starts = [];
onJob.again = () => {
  const job = document.querySelector(".job");
  if (job) for (const start of onJob.starts) start(job);
};
document.addEventListener("DOMContentLoaded", onJob.again);

// The place that the address names; one that cannot be read is no place.
const placeNamed = () => {
  try {
    return decodeURIComponent(location.hash.slice(1));
  } catch {
    return "";
  }
};

// Folded lists are open in print and without a script; on the screen they start closed.
onJob((job) => {
  const folds = () => job.querySelectorAll("details.fold");
  for (const fold of folds()) fold.open = false;
  if (job.dataset.live) return;
  job.dataset.live = "yes";
  let opened = [];
  addEventListener("beforeprint", () => {
    opened = [...folds()].filter((fold) => !fold.open);
    for (const fold of opened) fold.open = true;
  });
  addEventListener("afterprint", () => {
    for (const fold of opened) fold.open = false;
  });
});
