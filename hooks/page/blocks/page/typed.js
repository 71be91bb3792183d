// What was typed into a field, with the unit that is chosen beside it where a number stands alone; of several
// values parted by semicolons, each has its own.
const typedText = (input) => {
  const unit = input.parentElement.querySelector("select.unit")?.value;
  const bare = (text) => text && !/[\p{L}°%∞"'″]/u.test(text.replace(/e[-+−]?\d+$/i, ""));
  const whole = (text) => (bare(text) && unit ? `${text} ${unit}` : text);
  return input.value.split(";").map((text) => whole(text.trim())).join("; ").trim();
};
