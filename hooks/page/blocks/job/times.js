// Times as they are told: "14:06", and with the day where it is not today.
const toHour = new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit" });
const toDay = new Intl.DateTimeFormat("sv-SE");
const clock = (at) => toHour.format(at);
const when = (at) => {
  const day = toDay.format(at);
  return day === toDay.format(Date.now()) ? `today at ${clock(at)}` : `${day} at ${clock(at)}`;
};
