// Parts of drawings; an attribute without a value is left out.
const drawn = (tag, about = {}, ...inside) => {
  const element = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [name, value] of Object.entries(about)) if (value !== undefined) element.setAttribute(name, value);
  element.append(...inside);
  return element;
};

// A drawing that was kept as text, drawn again: only shapes and words, only what places them. It is read apart
// from the page, and nothing of it but known names and plain values comes over.
const redrawn = (() => {
  const SHAPES = new Set(["svg", "g", "rect", "path", "circle", "line", "polyline", "polygon", "text", "tspan"]);
  const PLACES = [
    "x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "width", "height", "d", "points", "dx", "dy", "viewBox", "overflow",
    "preserveAspectRatio", "text-anchor", "transform", "role", "aria-label", "class",
  ];
  const MARK = /^(?!.*url)[\p{L}\p{N} .,:;%°±×÷²³√<>=≥≤~Ωµ'’“”"()/+*−–-]*$/u;
  const DEEP = 20;

  const copy = (from, depth) => {
    if (from.nodeType === Node.TEXT_NODE) return from.nodeValue;
    if (!SHAPES.has(from.localName) || depth > DEEP) return "";
    const places = PLACES.filter((name) => MARK.test(from.getAttribute(name) ?? "\n")).map((name) => [name, from.getAttribute(name)]);
    return drawn(from.localName, Object.fromEntries(places), ...[...from.childNodes].map((child) => copy(child, depth + 1)));
  };

  return (text) => {
    const root = new DOMParser().parseFromString(text, "text/html").querySelector("svg");
    return root && copy(root, 0);
  };
})();
