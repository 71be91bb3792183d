// The photos of a job by their steps, and the pictures of its readings drawn again.
const pictures = (() => {
  const TYPES = ["image/jpeg", "image/png", "image/webp"];
  const held = new Map();

  const sourceOf = (job, { id, blob }) => {
    const key = `${job.id} ${id}`;
    if (!held.has(key)) held.set(key, URL.createObjectURL(blob));
    return held.get(key);
  };

  const shot = ({ job, course, photos }, { photo, step, at, words, width, height }) => {
    const kept = photos.find(({ id, blob }) => id === photo && TYPES.includes(blob?.type));
    const said = [`Step ${lists.title(course, step)}`, words, clock(at)].filter(Boolean).join(", ");
    const picture = kept ? made("img", { src: sourceOf(job, kept), alt: `Photo. ${said}`, width: width || 400, height: height || 300 }) : made("p", {}, "This photo is not on this device any more.");
    return made("figure", { className: "shot" }, picture, made("figcaption", {}, said));
  };

  const seen = (ones) => {
    const { picture, label, step } = ones.at(-1);
    const again = picture && redrawn(picture);
    return again ? [made("figure", { className: "shot drawn" }, made("span", { className: "picture" }, again), made("figcaption", {}, `Step ${step}, ${label}`))] : [];
  };

  return (whole) => {
    const photos = [...whole.record.photos].sort((a, b) => a.step - b.step || a.at - b.at);
    return [...photos.map((one) => shot(whole, one)), ...[...whole.record.readings.values()].flatMap(seen)];
  };
})();
