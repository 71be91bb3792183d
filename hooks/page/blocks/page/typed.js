// What was typed into a field, with the unit that is chosen beside it where a number stands alone.
const typedText = (input) => {
  const text = input.value.trim();
  const unit = input.parentElement.querySelector("select.unit")?.value;
  const bare = text && !/[\p{L}°%∞"'″]/u.test(text.replace(/e[-+−]?\d+$/i, ""));
  return bare && unit ? `${text} ${unit}` : text;
};
