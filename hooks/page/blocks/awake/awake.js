// The screen stays on while a job is open, where the device allows it; where not, nothing is said.
onJob((article) => {
  if (!article.matches(".procedure") || article.dataset.awake) return;
  article.dataset.awake = "yes";
  let lock = null;
  const wanted = () => article.isConnected && article.dataset.desk === "open" && !stillbench.desk.record?.end && !document.hidden;

  const ask = async () => {
    if (!wanted()) return lock?.release();
    if (lock && !lock.released) return;
    lock = await navigator.wakeLock?.request("screen").catch(() => null);
  };
  article.addEventListener("stillbench:record", ask);
  document.addEventListener("visibilitychange", ask);
});
