// "My meter": entered once and kept on this device; where that is refused it holds while the page is open.
const meter = {
  KEPT: "stillbench.my-meter",
  held: {},
  values() {
    try {
      return JSON.parse(localStorage.getItem(meter.KEPT)) ?? { ...meter.held };
    } catch {
      return { ...meter.held };
    }
  },
  keep(values) {
    meter.held = values;
    try {
      localStorage.setItem(meter.KEPT, JSON.stringify(values));
    } catch {
      // Storage is full or refused: `held` is all there is.
    }
  },
};
