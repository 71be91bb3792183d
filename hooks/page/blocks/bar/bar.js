onJob((job) => {
  if (job.dataset.prints) return;
  job.dataset.prints = "yes";
  job.addEventListener("click", (event) => {
    if (event.target.closest("[data-print]")) print();
  });
});
