// The device's database of jobs: opened once, asked in whole transactions.
const database = (() => {
  const NAME = "stillbench.jobs";
  const STORES = ["jobs", "events", "photos", "pages"];
  let opening = null;

  const request = () =>
    new Promise((resolve, reject) => {
      const asked = indexedDB.open(NAME, 1);
      asked.onupgradeneeded = () => {
        asked.result.createObjectStore("jobs", { keyPath: "id" });
        asked.result.createObjectStore("events", { keyPath: ["job", "n"] }).createIndex("id", "id", { unique: true });
        asked.result.createObjectStore("photos", { keyPath: ["job", "id"] });
        asked.result.createObjectStore("pages", { keyPath: "digest" });
      };
      asked.onerror = () => reject(asked.error);
      asked.onblocked = () => reject(new DOMException("blocked by another page", "AbortError"));
      asked.onsuccess = () => {
        const db = asked.result;
        db.onversionchange = db.onclose = () => (db.close(), (opening = null));
        resolve(db);
      };
    });

  const open = () => (opening ??= request().catch((error) => ((opening = null), Promise.reject(error))));

  // Does `work` in one transaction; is settled once the device says that all of it is kept, or none.
  const within = async (mode, work) => {
    const db = await open();
    return new Promise((resolve, reject) => {
      const all = db.transaction(STORES, mode, { durability: "strict" });
      let found;
      all.oncomplete = () => resolve(found);
      all.onabort = () => reject(all.error ?? new DOMException("nothing was kept", "AbortError"));
      const done = (result) => ((found = result), all.commit());
      work(all).then(done, (error) => (reject(error), all.abort()));
    });
  };

  const wish = (asked) =>
    new Promise((resolve, reject) => {
      asked.onsuccess = () => resolve(asked.result);
      asked.onerror = () => reject(asked.error);
    });

  // Everything of one job in the events or the photos.
  const of = (job) => IDBKeyRange.bound([job], [job, []]);

  return { NAME, within, wish, of };
})();
