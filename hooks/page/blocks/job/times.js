// Times as they are told: "14:06", and with the day where it is not today. Put together by hand: what the browser has
// for this takes longer to get ready than all other scripts of a page.
const two = (number) => String(number).padStart(2, "0");
const clock = (at) => {
  const time = new Date(at);
  return `${two(time.getHours())}:${two(time.getMinutes())}`;
};
const dayOf = (at) => {
  const time = new Date(at);
  return `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())}`;
};
const when = (at) => (dayOf(at) === dayOf(Date.now()) ? `today at ${clock(at)}` : `${dayOf(at)} at ${clock(at)}`);
