"use strict";
(() => {
  const { words, cards } = JSON.parse(document.getElementById("cards").textContent);
  const articles = [...document.querySelectorAll("article")];
  const byId = (id) => document.getElementById(id);
  const [bar, panel, dials, told] = ["bar", "change", "dials", "told"].map(byId);
  if (!cards.length) return;

  // What is dialled in at each set-up, so that one comes back to it as it was left.
  const state = cards.map((card) => ({ light: card.planned, at: card.dials.map((dial) => dial.planned) }));
  let shown = 0;

  // A sentence with its amounts.
  const filled = (sentence, amounts) => sentence.replace(/\{(\w+)\}/g, (_, name) => amounts[name]);

  const make = (name, text, properties) => {
    const element = Object.assign(document.createElement(name), properties);
    element.textContent = text;
    return element;
  };

  // A line of parts, its numbers large: the same as the file was written with.
  const setLine = (line, parts, settled, little) => {
    const name = line.firstElementChild;
    line.replaceChildren(name);
    parts.forEach((part, index) => {
      const last = index + 1 === parts.length;
      const kind = settled(index, last) ? " settled" : "";
      const span = make("span", "", { className: `part${kind}${last && little ? " little" : ""}` });
      part.split(" ").forEach((word, at) => {
        if (at) span.append(" ");
        span.append(/[0-9]/.test(word) ? make("b", word) : word);
      });
      line.append(span);
      if (!last) line.append(make("span", "\u00a0· ", { className: `dot${kind}` }));
    });
  };

  const asPlanned = (card, now) => now.light === card.planned && card.dials.every((dial, i) => now.at[i] === dial.planned);
  const combination = (card, now) => card.dials.reduce((at, dial, i) => at * dial.values.length + now.at[i], 0);
  const flashOf = (card, way, now) => card.flashes[way.flash[combination(card, now)]];

  const answer = () => {
    const [card, now, article] = [cards[shown], state[shown], articles[shown]];
    const light = card.lights[now.light];
    const way = light.ways[0];
    const [power, hand, little] = flashOf(card, way, now);
    setLine(article.querySelector(".camera"), way.camera, (_, last) => last, false);
    setLine(article.querySelector(".flash"), [power, ...card.wear, hand], (index, last) => index > 0 && !last, little);
    const planned = asPlanned(card, now);
    article.classList.toggle("elsewhere", !planned);
    byId("planned").disabled = planned;
    byId("changed").textContent = planned ? words.lightChanged : light.by;
    if (now.light === card.planned && !planned) byId("changed").textContent = words.distanceChanged;
    const sentences = [];
    if (!planned) {
      const exposure = (one) => one.camera.slice(0, -1).join(" · ");
      sentences.push([filled(words.then, { camera: exposure(way), power, hand }), "plain"]);
      if (light.ways[1]) {
        const other = light.ways[1];
        const [otherPower, otherHand] = flashOf(card, other, now);
        const amounts = { shutter: way.shutter, camera: exposure(other), power: otherPower, hand: otherHand };
        sentences.push([filled(words.slow, amounts), ""]);
      }
      for (const lost of light.lost) sentences.push([lost, ""]);
    }
    told.replaceChildren(...sentences.map(([text, className]) => make("span", text, { className })));
    fit();
  };

  const step = (values, at, by) => Math.min(values - 1, Math.max(0, at + by));

  const dial = (name, values, get, set, steps) => {
    const box = make("div", "", { className: steps.length === 2 ? "dial pair" : "dial" });
    box.setAttribute("role", "group");
    box.setAttribute("aria-label", name);
    const value = make("p", "", { className: "value" });
    const strong = make("strong", "");
    value.append(make("span", name), strong);
    box.append(value);
    const buttons = steps.map(([by, label, small, amount]) => {
      const button = make("button", label, { type: "button" });
      button.append(make("small", small));
      button.setAttribute("aria-label", `${name}: ${small}${amount ? ` ${amount}` : ""}`);
      button.addEventListener("click", () => { set(step(values.length, get(), by)); show(); answer(); });
      box.append(button);
      return [button, by];
    });
    const show = () => {
      strong.textContent = values[get()];
      for (const [button, by] of buttons) button.disabled = step(values.length, get(), by) === get();
    };
    show();
    return box;
  };

  const buildDials = () => {
    const [card, now] = [cards[shown], state[shown]];
    const light = dial(words.light, card.lights.map((light) => light.by), () => now.light, (at) => { now.light = at; }, [
      [-3, "−1", words.darker, words.byOne], [-1, "−⅓", words.darker, words.byThird],
      [1, "+⅓", words.brighter, words.byThird], [3, "+1", words.brighter, words.byOne],
    ]);
    const others = card.dials.map((one, i) =>
      dial(one.name, one.values, () => now.at[i], (at) => { now.at[i] = at; }, [[-1, "−", words.nearer], [1, "+", words.further]]));
    dials.replaceChildren(light, ...others);
  };

  const openPanel = (open) => {
    panel.hidden = !open;
    document.documentElement.classList.toggle("asking", open);
    byId("changed").setAttribute("aria-expanded", String(open));
    if (open) { buildDials(); window.scrollTo(0, 0); }
    fit();
  };

  const show = (index) => {
    shown = Math.min(cards.length - 1, Math.max(0, index));
    articles.forEach((article, at) => { article.hidden = at !== shown; });
    byId("back").disabled = shown === 0;
    byId("next").disabled = shown === cards.length - 1;
    if (!panel.hidden) buildDials();
    try { history.replaceState(null, "", `#setup-${shown + 1}`); } catch { /* A viewer without a history. */ }
    window.scrollTo(0, 0);
    answer();
  };

  // The largest digits with which the three lines still stand on one screen; the style gives the least. Phones call
  // less than a millimetre a millimetre, so they get what makes 9 mm on glass where the words leave room.
  const MOST_PX = 76;
  const least = () => {
    const probe = make("div", "");
    probe.style.width = "13mm";
    document.body.append(probe);
    const width = probe.getBoundingClientRect().width;
    probe.remove();
    return width;
  };
  const fit = () => {
    const lines = articles[shown].querySelector(".lines");
    const floor = (panel.hidden ? bar : panel).getBoundingClientRect().top - 4;
    const top = lines.getBoundingClientRect().top + window.scrollY;
    const fits = () => top + lines.offsetHeight <= floor && [...lines.querySelectorAll(".part")].every((part) => part.offsetWidth <= lines.clientWidth);
    const smallest = least();
    lines.classList.remove("tight");
    for (let size = Math.min(window.innerWidth * 0.205, MOST_PX); size > smallest; size -= 1) {
      lines.style.setProperty("--big", `${size}px`);
      if (fits()) return;
    }
    lines.style.removeProperty("--big");
    lines.classList.toggle("tight", !fits());
  };

  // A switch of the ground, for glare and for the dark.
  const dark = window.matchMedia("(prefers-color-scheme: dark)");
  const switchGround = () => {
    const now = document.documentElement.dataset.ground || (dark.matches ? "black" : "white");
    document.documentElement.dataset.ground = now === "black" ? "white" : "black";
    nameGround();
  };
  const nameGround = () => {
    const now = document.documentElement.dataset.ground || (dark.matches ? "black" : "white");
    for (const button of document.querySelectorAll(".ground")) {
      button.textContent = now === "black" ? words.white : words.black;
      button.setAttribute("aria-label", now === "black" ? words.makeWhite : words.makeBlack);
      button.hidden = false;
    }
  };

  // The screen stays on during a set-up where the phone lets a page ask for that.
  let lock = null;
  const stayAwake = async () => {
    try {
      if (!lock && document.visibilityState === "visible") {
        lock = await navigator.wakeLock.request("screen");
        lock.addEventListener("release", () => { lock = null; });
      }
    } catch { lock = null; }
  };

  byId("back").addEventListener("click", () => show(shown - 1));
  byId("next").addEventListener("click", () => show(shown + 1));
  byId("changed").addEventListener("click", () => openPanel(panel.hidden));
  byId("close").addEventListener("click", () => { openPanel(false); byId("changed").focus(); });
  byId("planned").addEventListener("click", () => {
    state[shown] = { light: cards[shown].planned, at: cards[shown].dials.map((one) => one.planned) };
    buildDials();
    answer();
  });
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && !panel.hidden) { openPanel(false); byId("changed").focus(); }
    if (event.key === "ArrowRight") show(shown + 1);
    if (event.key === "ArrowLeft") show(shown - 1);
  });
  document.addEventListener("click", stayAwake);
  document.addEventListener("visibilitychange", stayAwake);
  window.addEventListener("resize", fit);
  for (const button of document.querySelectorAll(".ground")) button.addEventListener("click", switchGround);
  dark.addEventListener("change", nameGround);

  document.documentElement.classList.add("scripted");
  bar.hidden = false;
  byId("back").hidden = byId("next").hidden = cards.length < 2;
  nameGround();
  show(Number((/^#setup-(\d+)$/.exec(location.hash) || [0, 1])[1]) - 1);
  stayAwake();
})();
