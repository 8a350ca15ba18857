// Quickness only: every form and link works without this file.
"use strict";

let newest = 0;

/** Sends a form and puts the answer in the place of the week; an answer that came late is dropped. */
async function send(action, body, quiet) {
  const mine = ++newest;
  const hand = document.getElementById("hand");
  hand.setAttribute("aria-busy", "true");
  try {
    const response = await fetch(action, {
      method: "POST",
      body,
      headers: { "X-Part": "hand", "Content-Type": "application/x-www-form-urlencoded" },
    });
    const text = await response.text();
    if (mine !== newest) return;
    show(text, quiet);
  } catch (error) {
    if (mine === newest) say(document.body.dataset.sayNoAnswer);
  } finally {
    if (mine === newest) document.getElementById("hand").removeAttribute("aria-busy");
  }
}

/** Swaps the week in, keeps what is open and focused, and goes on looking where the first answer was quick. */
function show(text, quiet) {
  const part = new DOMParser().parseFromString(text, "text/html");
  const fresh = part.getElementById("hand");
  if (!fresh) {
    say(part.body.textContent.trim());
    return;
  }
  if (quiet && cards(document) === cards(part)) {
    settle();
    return;
  }
  const focused = document.activeElement && document.activeElement.id;
  document.getElementById("hand").replaceWith(document.adoptNode(fresh));
  ready();
  const back = focused && document.getElementById(focused);
  if (back) back.focus();
  const refused = document.getElementById("refused");
  const changes = document.querySelector("#changes h2");
  if (refused) {
    refused.focus();
  } else if (quiet) {
    say(document.body.dataset.sayBetter);
  } else if (changes) {
    say(changes.textContent);
  }
  // The picture comes first, unless something newer is asked for meanwhile.
  const mine = newest;
  requestAnimationFrame(() => setTimeout(() => { if (mine === newest) goOn(); }));
}

/** Goes on looking where the answer that is shown was a quick one. */
function goOn() {
  const hand = document.getElementById("hand");
  const token = hand && hand.querySelector("input[name=token]");
  if (token && hand.dataset.better) {
    send(hand.dataset.better, new URLSearchParams({ token: token.value }), true);
  }
}

/** The quick answer was the best one: only the remark about it goes. */
function settle() {
  document.getElementById("hand").removeAttribute("data-better");
  for (const note of document.querySelectorAll(".first-answer")) note.remove();
}

/** The cards as text, to see whether anything changed. */
function cards(root) {
  const list = root.querySelector(".cards");
  return list ? list.textContent : "";
}

function say(text) {
  document.getElementById("told").textContent = text;
}

/** A slider beside each number of minutes; letting it go tries the minutes. */
function sliders(form) {
  for (const number of form.querySelectorAll("input[type=number]")) {
    const slider = document.createElement("input");
    slider.type = "range";
    slider.id = number.id + "-slider";
    slider.min = 10;
    slider.max = Math.max(120, number.value);
    slider.step = 5;
    slider.value = number.value;
    slider.setAttribute("aria-label", number.labels[0].textContent + ", " + document.body.dataset.sayMinutes);
    slider.addEventListener("input", () => { number.value = slider.value; });
    slider.addEventListener("change", () => form.requestSubmit());
    number.addEventListener("input", () => { slider.value = number.value; });
    number.after(slider);
  }
}

function ready() {
  for (const form of document.querySelectorAll("form[data-live]")) sliders(form);
}

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (!form.matches("form[data-try]") || !document.getElementById("hand")) return;
  event.preventDefault();
  const body = new URLSearchParams(new FormData(form, event.submitter));
  if (form.action.endsWith("/try") || form.action.endsWith("/way")) body.set("quick", "1");
  send(form.action, body, false);
});

ready();
goOn();

/** The rest clock: it starts when a set is marked as done, and says once when the rest is over. */
let clock = 0;

function stopClock() {
  clearInterval(clock);
  document.getElementById("clock").hidden = true;
}

function startClock(box) {
  const rest = Number(box.dataset.rest);
  const shown = document.getElementById("clock");
  clearInterval(clock);
  if (!rest) return;
  const end = Date.now() + rest * 1000;
  const tick = () => {
    const left = Math.round((end - Date.now()) / 1000);
    const minutes = Math.floor(Math.abs(left) / 60);
    const text = minutes + ":" + String(Math.abs(left) % 60).padStart(2, "0");
    shown.querySelector(".left").textContent = left < 0 ? "+" + text : text;
    if (left <= 0 && !shown.classList.contains("over")) {
      shown.classList.add("over");
      say(document.body.dataset.sayRested);
    }
  };
  shown.classList.remove("over");
  shown.querySelector(".of").textContent = box.getAttribute("aria-label");
  shown.hidden = false;
  tick();
  clock = setInterval(tick, 500);
}

/** What is typed on the card of a session is not lost by a slip: the browser asks before the page is left. */
function card(form) {
  let typed = false;
  form.addEventListener("input", (event) => {
    typed = true;
    if (event.target.dataset.rest) event.target.checked ? startClock(event.target) : stopClock();
  });
  form.addEventListener("submit", () => { typed = false; });
  addEventListener("beforeunload", (event) => { if (typed) event.preventDefault(); });
  document.getElementById("clock-off").addEventListener("click", stopClock);
}

const session = document.querySelector("form[data-typed]");
if (session) card(session);
