// What a site can do besides being read: tick off, keep the screen on, search. No sum is done here: sizes, ways and units are pages.
"use strict";
(() => {
  const make = (name, words, className) => {
    const element = document.createElement(name);
    if (words) element.textContent = words;
    if (className) element.className = className;
    return element;
  };

  // Boxes before ingredients and steps.
  for (const place of document.querySelectorAll(".recipe .list li, .recipe .method .what strong")) {
    const label = make("label", "", "tick");
    const box = make("input");
    box.type = "checkbox";
    label.append(box, ...place.childNodes);
    place.append(label);
  }

  // A screen that stays on while dough is on the hands.
  const variants = document.querySelector(".variants");
  if (variants && "wakeLock" in navigator) {
    const button = make("button", "Keep the screen on", "keep");
    button.type = "button";
    button.setAttribute("aria-pressed", "false");
    let lock = null;
    let wanted = false;
    const show = () => button.setAttribute("aria-pressed", String(lock !== null));
    const ask = async () => {
      try {
        lock = await navigator.wakeLock.request("screen");
        lock.addEventListener("release", () => { lock = null; show(); });
      } catch {
        lock = null;
        wanted = false;
      }
      show();
    };
    button.addEventListener("click", () => {
      wanted = !wanted;
      if (wanted) ask();
      else if (lock) lock.release();
    });
    document.addEventListener("visibilitychange", () => {
      if (wanted && !lock && document.visibilityState === "visible") ask();
    });
    variants.append(button);
  }

  // The search.
  const book = window.micheBook;
  const search = document.getElementById("search");
  if (!book || !search) return;
  const words = document.getElementById("words");
  const without = document.getElementById("without");
  const told = document.getElementById("told");
  const found = document.getElementById("found");
  const chapters = document.getElementById("chapters");
  const plain = (text) => text.toLowerCase().normalize("NFD").replace(/[\u0300-\u036f]/g, "");
  const texts = book.r.map((one) => plain([one.t, one.w || "", ...one.i.map((at) => book.i[at])].join(" ")));
  const look = () => {
    const asked = plain(words.value).split(/\s+/).filter(Boolean);
    const allergen = without && without.value !== "" ? Number(without.value) : null;
    const isIdle = asked.length === 0 && allergen === null;
    chapters.hidden = !isIdle;
    found.replaceChildren();
    told.textContent = "";
    if (isIdle) return;
    let unknown = 0;
    let count = 0;
    book.r.forEach((one, at) => {
      if (!asked.every((word) => texts[at].includes(word))) return;
      if (allergen !== null && one.a.includes(allergen)) return;
      if (allergen !== null && one.u) { unknown += 1; return; }
      const link = make("a", one.t);
      link.href = `recipes/${one.s}.html`;
      const item = make("li");
      item.append(link);
      found.append(item);
      count += 1;
    });
    told.textContent = `${count} ${count === 1 ? "recipe" : "recipes"}`
      + (unknown ? `; ${unknown} more left out: nobody knows the allergens of all that goes in` : "");
  };
  words.addEventListener("input", look);
  if (without) without.addEventListener("change", look);
  search.hidden = false;
  look();
})();
