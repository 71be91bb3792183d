// Times as they are told: "14:06", and with the day where it is not today.
const clock = (at) => new Date(at).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
const when = (at) => {
  const day = new Date(at).toLocaleDateString("sv-SE");
  return day === new Date().toLocaleDateString("sv-SE") ? `today at ${clock(at)}` : `${day} at ${clock(at)}`;
};
