// Swaps in the board that was drawn for the open step. What it says is decided where the page is built.
const board = {
  of: (place) => place.dataset.board,
  show(job, id) {
    const place = job.querySelector(".board");
    const drawn = document.getElementById(id);
    if (!place || !drawn) return;
    if (place.dataset.shows === id) return board.fit(place);
    place.dataset.shows = id;
    place.querySelector(".now").replaceChildren(board.whole(job, drawn));
    place.querySelector("[role=status]").textContent = place.querySelector("[data-say]").dataset.say;
    board.fit(place);
  },
  // Boards share their heads and their lines, and name them by number. A job that began on an older page has whole boards.
  whole(job, { content, dataset }) {
    if (content.firstElementChild) return content.cloneNode(true);
    const shared = (what, number) => job.querySelector(`#page--board-${what}`).content.children[number].cloneNode(true);
    const made = shared("heads", dataset.head);
    const numbers = dataset.lines.split(" ").filter(Boolean);
    made.querySelector(".lines").replaceChildren(...numbers.map((number) => shared("lines", number)));
    return made;
  },
  // A board that would take more than this share of the screen is drawn without its lines. It is measured once all
  // that is being said of it was drawn: before somebody is led to a place, else when the script is through.
  MOST: 0.4,
  unfit: null,
  fit(place) {
    if (!board.unfit) queueMicrotask(board.measure);
    board.unfit = place;
  },
  measure() {
    const place = board.unfit;
    if (!place) return;
    board.unfit = null;
    if (place.dataset.tall) delete place.dataset.tall;
    if (place.offsetHeight > innerHeight * board.MOST) place.dataset.tall = "yes";
    board.clear(place);
  },
  // What is jumped to must not lie under the board, the bar or a script's other strips.
  clear(place) {
    const bar = document.querySelector(".bar");
    const root = document.documentElement.style;
    const [top, bottom] = [place.offsetHeight + 8, (bar?.offsetHeight ?? 0) + 16].map((height) => `${height}px`);
    if (root.scrollPaddingTop !== top) root.scrollPaddingTop = top;
    if (root.scrollPaddingBottom !== bottom) root.scrollPaddingBottom = bottom;
  },
};

onJob((job) => {
  const place = job.querySelector(".board");
  if (!place || job.dataset.boards) return;
  job.dataset.boards = "yes";
  new ResizeObserver(() => board.clear(place)).observe(place);
  addEventListener("resize", () => place.isConnected && board.fit(place));
});
