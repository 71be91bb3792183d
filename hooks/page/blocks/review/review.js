// How long ago each review was, by the clock of who reads: the page itself says the day alone.
(() => {
  const ago = (days) => {
    const [count, word] = days < 60 ? [days, "day"] : days < 730 ? [Math.round(days / 30.44), "month"] : [Math.round(days / 365.25), "year"];
    return `${count} ${word}${count === 1 ? "" : "s"} ago`;
  };
  for (const day of document.querySelectorAll(".review time")) {
    const days = Math.floor((Date.now() - Date.parse(day.dateTime)) / 864e5);
    const said = document.createElement("small");
    said.textContent = ` ${days === 0 ? "today" : ago(days)}`;
    if (days >= 0) day.after(said);
  }
})();
