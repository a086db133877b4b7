/* Run in the page: the quickest thumb there can be. Chooses the kind, taps some spots, presses save, again and again,
   through the screen's own buttons; and tells, as they appear, the items that the page's list shows as kept. */
(seed) => {
  let state = seed;
  const chance = () => (state = (state * 48271) % 2147483647) / 2147483647;
  const pause = (ms) => new Promise((go) => setTimeout(go, ms));
  const button = (text) => [...document.querySelectorAll("button")].find((one) => one.textContent.trim() === text);
  const told = new Set();
  const look = () => {
    const shown = [...document.querySelectorAll('a[href*="/item/"]')].map((one) => one.href.split("/item/")[1]);
    const fresh = shown.filter((id) => !told.has(id));
    fresh.forEach((id) => told.add(id));
    if (fresh.length > 0) globalThis.shownAsSaved(fresh);
  };
  new MutationObserver(look).observe(document.body, { subtree: true, childList: true });
  look();
  const once = async () => {
    button("Nick")?.click();
    await pause(5);
    const wall = document.querySelector(".wall-tap");
    const box = wall.getBoundingClientRect();
    for (let left = 1 + Math.floor(chance() * 6); left > 0; left -= 1) {
      const at = { clientX: box.left + box.width * chance(), clientY: box.top + box.height * chance() };
      wall.dispatchEvent(new MouseEvent("click", { bubbles: true, cancelable: true, ...at }));
      await pause(5);
    }
    document.querySelector(".slab-main").click();
    await pause(30 + chance() * 60);
  };
  void (async () => {
    for (;;) await once();
  })();
};
