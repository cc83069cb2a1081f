"use strict";
(() => {
  const status = document.getElementById("status"), faults = document.getElementById("faults"), picture = document.getElementById("picture");
  const { follows, ended, full } = status.dataset;
  const say = (text, live) => { status.textContent = text; status.classList.toggle("ended", !live); };
  const folds = () => picture.querySelectorAll("details[data-name]");
  const given = new Map(), chosen = new Map(); // open or not, by name: as it came, and as the reader has set it

  // A fold stays as the reader has set it, a wide part where it was moved to.
  function repaint(html) {
    for (const fold of folds()) if (fold.open !== given.get(fold.dataset.name)) chosen.set(fold.dataset.name, fold.open);
    const moved = [...picture.querySelectorAll(".wide")].map((part) => part.scrollLeft);
    picture.innerHTML = html;
    settle();
    picture.querySelectorAll(".wide").forEach((part, i) => { part.scrollLeft = moved[i] || 0; });
  }
  function settle() {
    given.clear();
    for (const fold of folds()) {
      const name = fold.dataset.name;
      if (chosen.has(name)) fold.open = chosen.get(name);
      given.set(name, fold.open);
    }
  }

  // What is read stays where it is: the part that begins the window, found again
  // by its name, or the whole.
  function placeOf() {
    if (window.scrollY === 0) return () => {};
    const named = () => [...picture.querySelectorAll("h2[id], details[data-name]")];
    const name = (part) => part.id || part.dataset.name;
    const top = (part) => part.getBoundingClientRect().top;
    const under = faults.parentElement.getBoundingClientRect().bottom;
    const part = named().findLast((part) => top(part) <= under) || picture;
    const key = name(part), before = top(part);
    return () => window.scrollBy(0, top(named().find((part) => name(part) === key) || picture) - before);
  }

  function show(text) {
    const next = new DOMParser().parseFromString(text, "text/html");
    const part = (id) => next.getElementById(id);
    const place = placeOf();
    faults.innerHTML = part("faults").innerHTML;
    const painted = part("picture");
    if (painted.dataset.painted !== picture.dataset.painted) {
      repaint(painted.innerHTML);
      picture.dataset.painted = painted.dataset.painted;
    }
    document.title = next.title;
    picture.className = painted.className;
    place();
    shown = Number(part("frame").dataset.number);
  }

  let shown = Number(document.getElementById("frame").dataset.number), newest = shown, busy = false;
  async function renew() {
    if (busy) return;
    busy = true;
    try {
      while (shown < newest) {
        const answer = await fetch("picture");
        if (!answer.ok) break;
        show(await answer.text());
      }
    } catch { /* the stream tells when the program has ended */ } finally { busy = false; }
  }

  settle();
  const stream = new EventSource("events");
  stream.onopen = () => say(follows, true);
  stream.onmessage = (event) => { newest = Number(event.data); renew(); };
  stream.addEventListener("end", () => { stream.close(); say(ended, false); });
  stream.onerror = () => say(stream.readyState === EventSource.CLOSED ? full : ended, false); // it was answered, and not with a stream
})();
