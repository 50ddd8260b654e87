// The player, single keys, and saving without a new page. Everything here also works without it, by plain forms.
"use strict";
(() => {
  const $ = (selector, root = document) => root.querySelector(selector);
  const all = (selector, root = document) => [...root.querySelectorAll(selector)];
  document.documentElement.classList.add("js");
  const main = $("#main");
  const status = $("#status");

  // -- the player: a play link's address ends in #t=start,end, and exactly that span is played
  const strips = new Map(all(".strip").map((strip) => [strip.dataset.clip, strip]));
  let stopAt = null, playing = null, link = null, lit = null;

  function audioOf(clip) { const strip = strips.get(clip); return strip ? $("audio", strip) : null; }

  function play(anchor) {
    const found = /sound\/([\w-]+)\.wav#t=([\d.]+)(?:,([\d.]+))?/.exec(anchor.getAttribute("href"));
    const audio = found && audioOf(found[1]);
    if (!audio) return false;
    for (const strip of strips.values()) { const other = $("audio", strip); if (other !== audio) other.pause(); }
    if (link) link.classList.remove("on");
    if (link === anchor && !audio.paused) { audio.pause(); link = null; return true; }
    link = anchor;
    link.classList.add("on");
    const begin = Number(found[2]);
    stopAt = found[3] ? Number(found[3]) : null;
    const go = () => { audio.currentTime = begin; audio.play().catch(() => say("The sound cannot be played here.", true)); };
    if (audio.readyState) go(); else { audio.addEventListener("loadedmetadata", go, { once: true }); audio.load(); }
    return true;
  }

  function tick(strip, audio) {
    if (stopAt !== null && audio.currentTime >= stopAt) { audio.pause(); stopAt = null; }
    const cursor = $(".cursor", strip);
    const length = Number(strip.dataset.duration);
    if (cursor && length) {
      cursor.style.visibility = "visible";
      cursor.setAttribute("transform", `translate(${(1000 * audio.currentTime) / length} 0)`);
    }
    light(strip.dataset.clip, audio.currentTime);
  }

  // The current word: only the stretch that is being heard is cut into words, and put back afterwards.
  let rows = null;
  function light(clip, time) {
    rows = rows || all("#said bdi[data-w]");
    const row = rows.find((r) => r.dataset.c === clip && time >= Number(r.dataset.s) && time < Number(r.dataset.e) + 0.2);
    if (lit && lit.row !== row) { lit.row.textContent = lit.text; lit.row.classList.remove("now"); lit = null; }
    if (!row) return;
    if (!lit) {
      const text = row.textContent;
      const times = row.dataset.w.split(" ").map(Number);
      row.textContent = "";
      const words = text.trim().split(/\s+/).map((word, n) => {
        const span = document.createElement("span");
        span.textContent = word;
        row.append(n ? " " : "", span);
        return span;
      });
      row.classList.add("now");
      lit = { row, text, times, words, at: -1 };
    }
    const since = (time - Number(row.dataset.s)) * 100 + 1;
    let n = lit.times.length - 1;
    while (n > 0 && lit.times[n] > since) n -= 1;
    if (n !== lit.at) {
      if (lit.words[lit.at]) lit.words[lit.at].classList.remove("lit");
      if (lit.words[n]) lit.words[n].classList.add("lit");
      lit.at = n;
    }
  }

  for (const strip of strips.values()) {
    const audio = $("audio", strip);
    let frame = 0;
    const run = () => { tick(strip, audio); frame = audio.paused ? 0 : requestAnimationFrame(run); };
    audio.addEventListener("play", () => { playing = audio; if (!frame) run(); });
    audio.addEventListener("seeked", () => tick(strip, audio));
    audio.addEventListener("pause", () => { if (link) { link.classList.remove("on"); } });
    strip.addEventListener("click", (event) => {
      const wave = event.target.closest(".wave");
      if (!wave) return;
      const box = wave.getBoundingClientRect();
      stopAt = null;
      const to = (Number(strip.dataset.duration) * (event.clientX - box.left)) / box.width;
      if (audio.readyState) audio.currentTime = to; else audio.addEventListener("loadedmetadata", () => { audio.currentTime = to; }, { once: true });
      audio.play().catch(() => {});
    });
    const later = $(".wave-here", strip);
    if (later) fetch(later.dataset.from).then((r) => (r.ok ? r.text() : "")).then((svg) => { if (svg) later.outerHTML = svg; });
  }

  // -- saving: the form goes out as it is, and the changing middle of the page comes back
  function say(text, bad = false) { if (status) { status.textContent = text; status.classList.toggle("bad", bad); } }

  function cards() { return all(".card", main).filter((card) => card.offsetParent !== null); }
  function current() {
    const here = document.activeElement && document.activeElement.closest(".card");
    return here || cards()[0] || null;
  }

  function show(html) {
    const open = new Set(all("details[open] > summary", main).map((s) => s.textContent));
    if (lit) lit = null;
    rows = null;
    main.innerHTML = html;
    for (const summary of all("details > summary", main)) {
      if (summary.parentElement.classList.contains("later") && open.size) summary.parentElement.open = [...open].some((t) => /cannot be told/.test(t));
    }
  }

  const pause = () => new Promise((resolve) => { setTimeout(resolve); });

  async function send(form, button) {
    const card = form.closest(".card");
    const place = card ? cards().indexOf(card) : -1;
    const body = new URLSearchParams(new FormData(form, button));
    const typed = body.get("text") || "";
    form.classList.add("busy");
    let answer;
    try {
      answer = await fetch(form.getAttribute("action"), { method: "POST", body, headers: { "X-Part": "1" } });
    } catch {
      form.classList.remove("busy");
      say("Not saved: the program behind this page has stopped. Start 'dictate review' again.", true);
      return;
    }
    form.classList.remove("busy");
    if (answer.ok) {
      const html = await answer.text();
      await pause();
      show(html);
      await pause(); // the page is laid out in a step of its own
      const done = () => say(decodeURIComponent(answer.headers.get("X-Said") || "Saved."));
      const left = cards();
      const next = place < 0 ? null : left[Math.min(place, left.length - 1)];
      if (next) next.focus(); else if (place >= 0) focusOn($("#look-h"));
      done();
      return;
    }
    say(await answer.text(), true);
    if (answer.status === 409) {
      const key = card && card.dataset.key;
      const fresh = await fetch(location.pathname, { headers: { "X-Part": "1" } });
      if (!fresh.ok) return;
      show(await fresh.text());
      const same = all(".card", main).find((c) => c.dataset.key === key);
      const field = same && $('input[data-k="t"]', same);
      if (field && typed) field.value = typed;
      if (same) same.focus();
    }
  }

  function focusOn(element) { if (element) { element.tabIndex = -1; element.focus(); } }

  if (main && $("#look")) {
    main.addEventListener("submit", (event) => {
      event.preventDefault();
      send(event.target, event.submitter);
    });
    document.addEventListener("click", (event) => {
      const anchor = event.target.closest("a");
      if (!anchor) return;
      if (anchor.matches('[href*="sound/"]') && play(anchor)) event.preventDefault();
      else if (anchor.id === "load-said" || anchor.classList.contains("more-said")) { event.preventDefault(); more(anchor); }
    });
  }

  async function more(anchor) {
    const answer = await fetch(anchor.dataset.next, { headers: { "X-Part": "1" } });
    if (!answer.ok) return;
    const box = $("#said-rows");
    anchor.closest("p").remove();
    box.insertAdjacentHTML("beforeend", await answer.text());
    rows = null;
  }

  // -- single keys, with a switch to turn them off
  const keys = $("#keys");
  if (keys) {
    try { keys.checked = localStorage.getItem("dictate-keys") !== "off"; } catch { /* without a store they stay on */ }
    keys.addEventListener("change", () => { try { localStorage.setItem("dictate-keys", keys.checked ? "on" : "off"); } catch { /* as above */ } });
  }

  document.addEventListener("keydown", (event) => {
    const field = event.target.closest("input:not([type=checkbox]), textarea, select");
    if (event.key === "Escape" && field) { const card = field.closest(".card"); if (card) card.focus(); else field.blur(); return; }
    if (!keys || !keys.checked || field || event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
    const key = event.key.toLowerCase();
    const card = current();
    if (key === "j" || key === "k") {
      const list = cards();
      const n = card && document.activeElement.closest(".card") ? list.indexOf(card) + (key === "j" ? 1 : -1) : 0;
      if (list[n]) list[n].focus();
    } else if (key === "z") {
      const undo = $("[data-undo]", main);
      if (!undo) return;
      undo.click();
    } else if (/^[a-z1-9]$/.test(key) && card) {
      const open = $("details[open]:has([data-k])", card);
      const target = (open && all(`[data-k="${key}"]`, open).find((e) => e.tagName !== "SUMMARY")) || all(`[data-k="${key}"]`, card).find((e) => e.offsetParent !== null);
      if (!target) return;
      if (target.tagName === "INPUT") target.focus();
      else if (target.tagName === "SUMMARY") {
        const box = target.parentElement;
        box.open = !box.open;
        const first = $("input:not([type=hidden])", box);
        if (box.open && key === "m" && first) first.focus();
      } else target.click();
    } else return;
    event.preventDefault();
  });

  addEventListener("beforeprint", () => { for (const box of all("details")) box.open = true; });
})();
