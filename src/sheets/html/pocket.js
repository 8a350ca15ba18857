// A card on a phone: the day of today comes first, sets are ticked off, and what was done becomes text for the coach.
// Paper, wide screens and browsers without scripts need none of it; nothing here asks the network for anything.
"use strict";
(() => {
  const main = document.querySelector("main");
  const words = JSON.parse(main.dataset.words);
  const DAYS = words.days.split(" ");
  const sessions = [];
  for (const card of document.querySelectorAll("article[data-name]")) {
    const weeks = JSON.parse(card.dataset.weeks);
    for (const [week, from] of weeks) {
      const who = card.dataset.plan;
      const name = [card.dataset.name, card.dataset.start].filter(Boolean).join(" ");
      const same = sessions.find((one) => one.who === who && one.week === week && one.name === name);
      if (same) same.cards.push(card);
      else sessions.push({ who, week, name, date: dateOf(from, card.dataset.name), cards: [card] });
    }
  }
  if (!sessions.length) return;
  sessions.sort((one, other) => one.week - other.week);

  /** The day of a session on the calendar; empty where the plan has no dates. */
  function dateOf(from, name) {
    if (!from) return "";
    const [year, month, day] = from.split("-").map(Number);
    const date = new Date(Date.UTC(year, month - 1, day));
    const ahead = (DAYS.indexOf(name) - ((date.getUTCDay() + 6) % 7) + 7) % 7;
    date.setUTCDate(date.getUTCDate() + ahead);
    return date.toISOString().slice(0, 10);
  }

  function today() {
    const now = new Date();
    const two = (number) => String(number).padStart(2, "0");
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  }

  /** Where there is storage, ticks and loads are kept in it; where there is none, they last until the page is closed. */
  const kept = {
    name: `weekwright ${sessions[0].who}`,
    read() {
      try { return JSON.parse(localStorage.getItem(this.name)) || {}; } catch { return {}; }
    },
    write(values) {
      try { localStorage.setItem(this.name, JSON.stringify(values)); } catch { /* It lasts until the page is closed. */ }
    },
  };
  const fields = [...document.querySelectorAll("td[data-n] input")];
  const values = kept.read();
  fields.forEach((field, place) => {
    const isTick = field.type === "checkbox";
    if (place in values) isTick ? (field.checked = values[place]) : (field.value = values[place]);
    field.addEventListener("input", () => {
      values[place] = isTick ? field.checked : field.value;
      kept.write(values);
    });
  });

  const made = (tag, text, more) => Object.assign(document.createElement(tag), { textContent: text }, more);
  const picker = made("nav", "", { className: "picker" });
  picker.setAttribute("aria-label", words.which);
  const choice = made("select", "", { id: "which" });
  sessions.forEach((one, place) => {
    choice.append(made("option", `${one.name}, ${words.week} ${one.week}`, { value: place }));
  });
  choice.setAttribute("aria-label", words.session);
  const whole = made("button", words.whole, { type: "button" });
  whole.setAttribute("aria-pressed", "false");
  picker.append(choice, whole);
  main.prepend(picker);

  const out = made("section", "", { className: "copy" });
  const copy = made("button", words.copy, { type: "button" });
  const text = made("textarea", "", { id: "text", rows: 6, spellcheck: false, hidden: true });
  const told = made("p", words.tick, { id: "told" });
  told.setAttribute("role", "status");
  text.setAttribute("aria-label", words.text);
  out.append(told, copy, text);

  let now = sessions[0];

  function show(place) {
    now = sessions[place];
    choice.value = String(place);
    for (const card of document.querySelectorAll(".page")) card.classList.toggle("shown", now.cards.includes(card));
    for (const cell of document.querySelectorAll("[data-n]")) {
      cell.classList.toggle("this", cell.dataset.n === String(now.week));
    }
    now.cards[now.cards.length - 1].append(out);
    text.hidden = true;
  }

  /** A line for each exercise with a tick; the exercise whose load is missing instead, if there is one. */
  function lines() {
    const found = [];
    for (const row of now.cards.flatMap((card) => [...card.querySelectorAll("tr[data-id]")])) {
      const cell = row.querySelector(`td[data-n="${now.week}"]`);
      const sets = cell ? [...cell.querySelectorAll("input[data-set]:checked")].map((box) => box.dataset.set) : [];
      if (!sets.length) continue;
      const load = cell.querySelector("input[data-after]");
      const typed = load ? load.value.trim() : "";
      if (load && load.required && !typed) return { missing: load };
      const isPlain = /^\d+([.,]\d+)?$/.test(typed);
      const word = isPlain ? load.dataset.before + typed + load.dataset.after : typed;
      found.push([row.dataset.id, word, ...sets].filter(Boolean).join(" "));
    }
    return { text: found.join("\n") };
  }

  copy.addEventListener("click", async () => {
    const found = lines();
    if (found.missing) {
      told.textContent = words.load;
      found.missing.focus();
      return;
    }
    if (!found.text) {
      told.textContent = words.nothing;
      return;
    }
    text.hidden = false;
    text.value = found.text;
    text.rows = found.text.split("\n").length + 1;
    told.textContent = words.copied;
    try {
      await navigator.clipboard.writeText(found.text);
    } catch {
      text.select();
      const done = document.execCommand && document.execCommand("copy");
      if (!done) told.textContent = words.here;
    }
  });

  choice.addEventListener("change", () => show(Number(choice.value)));
  whole.addEventListener("click", () => {
    const isWhole = document.documentElement.classList.toggle("pocket") === false;
    whole.setAttribute("aria-pressed", String(isWhole));
  });
  document.documentElement.classList.add("pocket");
  const day = today();
  const isOn = sessions.findIndex((one) => one.date === day);
  const coming = sessions.findIndex((one) => one.date > day);
  const isOver = sessions[0].date && coming < 0;
  show(isOn >= 0 ? isOn : coming >= 0 ? coming : isOver ? sessions.length - 1 : 0);
})();
