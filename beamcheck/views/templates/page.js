"use strict";
(() => {
  const at = (id, root = document) => root.getElementById(id);
  let timer = 0;
  let latest = 0;
  let unsaved = false;
  let leaving = false;
  let pressed = null;

  function say(sentence) {
    const told = document.createElement("p");
    told.textContent = sentence;
    at("strip").replaceChildren(told);
  }

  /* Exchange what differs and leave the rest as it is: scrolled tables stay scrolled, and little is laid out anew. */
  function settle(old, fresh, depth) {
    if (old.isEqualNode(fresh)) return;
    const [ours, theirs] = [[...old.childNodes], [...fresh.childNodes]];
    const alike = old.cloneNode().isEqualNode(fresh.cloneNode()) && ours.length === theirs.length;
    if (depth && alike && ours.length) ours.forEach((one, place) => settle(one, theirs[place], depth - 1));
    else old.replaceWith(document.adoptNode(fresh));
  }

  function restyle() {
    const rules = at("sheet-style").sheet;
    const paper = at("paper").value;
    for (const rule of rules.cssRules) if (rule instanceof CSSPageRule && rule.style.size !== paper) rule.style.size = paper;
    const known = new Set(Array.from(rules.cssRules, (rule) => rule.selectorText));
    for (const pair of at("sheet").querySelectorAll(".pair")) {
      const chosen = `.pair[data-columns="${pair.dataset.columns}"]`;
      if (!known.has(chosen)) rules.insertRule(`${chosen} { --widths: ${pair.dataset.columns}; }`, rules.cssRules.length);
      known.add(chosen);
    }
  }

  function show(page) {
    const faulty = at("sheet", page).classList.contains("none");
    at("strip").replaceChildren(...at("strip", page).childNodes);
    settle(at("faults"), at("faults", page), 0);
    if (!faulty) settle(at("sheet"), at("sheet", page), 5);
    restyle();
    at("live").classList.toggle("stale", faulty && !at("sheet").classList.contains("none"));
    if (at("survey", page)) redraw(at("survey", page));
    else mark(page);
  }

  function mark(page) {
    const said = new Map(Array.from(page.querySelectorAll("[data-for]"), (one) => [one.dataset.for, one]));
    for (const old of document.querySelectorAll(".sync")) {
      const fresh = said.get(old.id);
      if (fresh && old.classList.contains("fault")) unfold(old);
      if (fresh ? old.innerHTML !== fresh.innerHTML : old.hasChildNodes()) old.replaceChildren(...(fresh ? fresh.childNodes : []));
    }
    for (const control of document.querySelectorAll("#survey [aria-describedby]")) {
      if (said.has(`${control.id}~fault`)) control.setAttribute("aria-invalid", "true");
      else control.removeAttribute("aria-invalid");
    }
  }

  function unfold(one) {
    for (let around = one.closest("details"); around; around = around.parentElement.closest("details")) around.open = true;
  }

  function redraw(fresh) {
    const form = at("survey");
    const active = document.activeElement ? document.activeElement.id : "";
    const scrolled = form.scrollTop;
    const open = new Map(Array.from(form.querySelectorAll("details[id]"), (one) => [one.id, one]));
    for (const one of fresh.querySelectorAll("details[id]")) {
      const old = open.get(one.id);
      if (old && (old.querySelector(".row") || !one.querySelector(".row"))) one.open = old.open;
    }
    const first = fresh.querySelector("[autofocus]");
    if (first) first.removeAttribute("autofocus");
    form.replaceChildren(...fresh.childNodes);
    form.dataset.shape = fresh.dataset.shape;
    form.scrollTop = scrolled;
    const next = first || (active && at(active));
    if (next) next.focus();
  }

  async function refresh(button) {
    clearTimeout(timer);
    const mine = ++latest;
    const form = at("survey");
    const body = new URLSearchParams();
    for (const [name, text] of new FormData(form)) if (text || !/\.(trust|note|low|high)$/.test(name)) body.append(name, text);
    if (button && button.name) pressed = button;
    if (pressed) body.set(pressed.name, pressed.value);
    at("strip").setAttribute("aria-busy", "true");
    try {
      const answer = await fetch("./", { method: "POST", body, headers: { "X-Shape": form.dataset.shape } });
      const text = await answer.text();
      if (mine !== latest) return;
      pressed = null;
      const page = new DOMParser().parseFromString(text, "text/html");
      if (at("sheet", page)) show(page);
      else say(text);
    } catch {
      pressed = null;
      say("No answer: is the program that serves this page still running? What you wrote is still here.");
    }
    at("strip").removeAttribute("aria-busy");
  }

  document.addEventListener("input", (event) => {
    if (!event.target.form) return;
    unsaved = unsaved || at("survey").contains(event.target);
    latest += 1;
    clearTimeout(timer);
    timer = setTimeout(refresh, event.target.tagName === "SELECT" ? 0 : 200);
  });

  at("survey").addEventListener("submit", (event) => {
    const button = event.submitter;
    if (button && button.hasAttribute("formaction")) {
      leaving = true;
      setTimeout(() => { leaving = false; }, 2000);
      if (button.getAttribute("formaction") === "survey.toml") unsaved = false;
      return;
    }
    event.preventDefault();
    if (button && button.name === "do") unsaved = true;
    refresh(button);
  });

  window.addEventListener("beforeunload", (event) => {
    if (unsaved && !leaving) event.preventDefault();
  });
})();
