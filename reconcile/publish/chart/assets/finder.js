"use strict";
// What the reader chooses and types, and the answer to it.
(() => {
  const {data, word, rich, make, button, part, facts} = say, {$, chosen} = state;
  const wide = () => page.top.clientWidth;
  const most = {choices: 30, heads: 40, lines: () => wide() <= 560 ? 4 : 12};

  // Announcements wait until the reader pauses, so that a screen reader is not interrupted at every keystroke.
  let pause = 0;
  function announce(text) {
    clearTimeout(pause);
    pause = setTimeout(() => { $("status").textContent = text; }, 700);
  }

  // Search.

  const suits = (list, supplier, category) => (i) => (supplier === "" || data.suppliers[list.supplier[i]] === data.suppliers[supplier]) &&
    (category === undefined || category === "" || list.category[i] === Number(category));

  // filtered reports whether a ferrule passes what the reader narrowed the ferrules down to.
  function filtered(ferrule, tip) {
    const [onlyTip, length, colour, style] = state.filters.map((id) => $(id).value), form = data.forms[data.ferrules.form[ferrule]];
    return (onlyTip === "" || (tip !== undefined ? tip === Number(onlyTip) : answers.serving(Number(onlyTip)).has(data.ferrules.form[ferrule]))) &&
      (length === "" || form.length === Number(length)) && (colour === "" || data.ferrules.colour[ferrule] === Number(colour)) && (style === "" || form.style === Number(style));
  }
  const narrowed = () => state.filters.some((id) => $(id).value !== "");

  const searches = {
    head: {
      input: $("head-search"), list: $("head-list"), more: $("head-more"), key: "status.heads",
      find() { return search.heads(this.input.value, suits(data.heads, $("supplier").value, $("category").value)); },
      lines: (i) => [data.heads.part[i], data.heads.description[i], [say.supplierOf(data.heads, i), say.categoryName(data.heads.category[i])].filter(Boolean).join(" · ")],
      choose(i) { $("od").value = ""; choose({head: i}); },
    },
    ferrule: {
      input: $("ferrule-search"), list: $("ferrule-list"), more: $("ferrule-more"), key: "status.ferrules",
      find() { return search.ferrules(this.input.value, (i) => filtered(i)); },
      lines: (i) => [data.ferrules.part[i], data.ferrules.description[i], [say.supplierOf(data.ferrules, i), say.colourOf(i)].filter(Boolean).join(" · ")],
      choose(i) { choose({ferrule: i}); },
    },
  };

  // list shows what a search finds, and says how much that is when the reader typed.
  function list(which, typed) {
    const s = searches[which], found = s.find(), now = chosen[which];
    if (!typed && found.indexOf(now) >= most.choices) found.unshift(...found.splice(found.indexOf(now), 1));
    // On a phone the kinds of head come first, and not a list of any heads.
    const early = which === "head" && wide() < 860 && now < 0 && !browsing(), listed = early ? 0 : most.choices;
    s.list.replaceChildren(...found.slice(0, listed).map((i) => {
      const [number, description, of] = s.lines(i);
      return make("li", {}, make("button", {type: "button", "data-key": i, "aria-current": now === i ? "true" : false, onclick: () => s.choose(i)},
        make("strong", {}, part(number)), " ", make("span", {}, description), " ", make("small", {}, of)));
    }));
    const current = s.list.querySelector("[aria-current]");
    if (current && !typed) s.list.scrollTop = current.offsetTop;
    const beyond = early ? 0 : found.length - listed;
    s.more.textContent = beyond > 0 ? word("find.more", {n: say.count(beyond)}) : "";
    if (typed) announce(found.length === 0 ? word("status.none") : say.many(s.key, found.length));
  }

  // arrows moves between a search and its list by the arrow keys.
  function arrows(which) {
    const s = searches[which];
    const step = (event) => {
      const buttons = [...s.list.querySelectorAll("button")], at = buttons.indexOf(page.root.activeElement);
      if (event.key === "ArrowDown" && at < buttons.length - 1) buttons[at + 1].focus();
      else if (event.key === "ArrowUp" && at >= 0) (at === 0 ? s.input : buttons[at - 1]).focus();
      else if (event.key === "Enter" && at < 0 && buttons.length) s.choose(Number(buttons[0].dataset.key));
      else return;
      event.preventDefault();
    };
    s.input.addEventListener("keydown", step);
    s.list.addEventListener("keydown", step);
    s.input.addEventListener("input", () => {
      list(which, true);
      if (chosen[which] < 0) answer();
    });
  }

  // Choosing.

  function choose(change) {
    Object.assign(chosen, change);
    state.fresh();
    state.remember(true);
    render();
    announceAnswer();
    if (wide() < 860) $("answer-title").scrollIntoView({block: "start"});
  }

  // question is what is asked, and its answer: lines with the best first, or what keeps it from one.
  function question() {
    if (chosen.way === "ferrule") return chosen.ferrule < 0 ? null : {ferrule: chosen.ferrule, lines: answers.heads(chosen.ferrule)};
    const typed = lengths.parse($("od").value);
    if (chosen.way === "measure") {
      const hosel = data.hosels[data.bench[$("top").value].hosel];
      return typed.empty ? {problem: "answer.type_od"} : ask({hosel, tips: [Number($("tip").value)]}, typed);
    }
    if (chosen.head < 0) return browsing();
    const hosel = data.hosels[data.heads.hosel[chosen.head]], tips = data.tipSets[data.heads.tips[chosen.head]];
    const od = data.dims[data.heads.od[chosen.head]];
    if (!typed.empty) return ask({hosel, tips, head: chosen.head}, typed);
    return {hosel, tips, head: chosen.head, od: od && od[0], lines: answers.catalogue(chosen.head), problem: !od && hosel.top !== 2 ? "answer.need_od" : ""};
  }

  // browsing is the heads that the reader narrowed the chart down to, null where that is not done.
  function browsing() {
    if ($("head-search").value.trim() === "" && $("category").value === "" && $("supplier").value === "") return null;
    const heads = searches.head.find();
    return {heads, lines: heads.flatMap((head) => answers.catalogue(head, 1).map((line) => ({...line, head})))};
  }

  function ask(q, typed) {
    if (typed.error) return {...q, error: word("error." + typed.error)};
    q = {...q, od: typed.pm, measured: true};
    const known = q.tips.filter((tip) => q.hosel.tips.includes(tip));
    if (!known.length) return {...q, problem: "answer.need_tip"};
    const found = answers.measured(q.hosel, known, typed.pm);
    if (found.least !== undefined) return {...q, error: word("error.small", {least: say.show(found.least)})};
    if (found.most) return {...q, error: word("error.range")};
    return {...q, lines: found.lines};
  }

  function render() {
    for (const [id, ways] of Object.entries({"panel-head": "head", "panel-ferrule": "ferrule", "panel-od": "head measure", "panel-bench": "measure"})) {
      $(id).hidden = !ways.split(" ").includes(chosen.way) || id === "panel-od" && chosen.way === "head" && chosen.head < 0;
    }
    $("panel-filter").hidden = chosen.way === "head" && chosen.head < 0 || chosen.way === "ferrule" && chosen.ferrule >= 0;
    $("limits").hidden = chosen.way !== "measure" && chosen.head < 0;
    $("od-label").textContent = word(chosen.way === "head" ? "find.measured" : "find.od");
    page.root.querySelector("input[name=way][value=" + chosen.way + "]").checked = true;
    page.root.querySelector("input[name=unit][value=" + (say.metric() ? "mm" : "in") + "]").checked = true;
    if (chosen.way !== "measure") list(chosen.way, false);
    order.show();
    answer();
  }

  let shown = null;
  function answer() {
    const q = question();
    shown = q;
    const od = $("od"), wrong = Boolean(q && q.error);
    od.setAttribute("aria-invalid", wrong);
    $("od-read").textContent = wrong ? q.error : q && q.measured ? reading(q.od) : "";
    $("od-read").classList.toggle("wrong", wrong);
    $("answer-title").replaceChildren(...title(q));
    const body = $("answer-body"), empty = !q || wrong || !q.lines;
    $("tools").hidden = empty;
    $("answer-save").hidden = empty || q.lines.length === 0;
    if (!q && chosen.way === "head" && data.heads.part.length) body.replaceChildren(...kinds());
    else if (!q && chosen.way === "ferrule" && data.ferrules.part.length) body.replaceChildren(...ferruleSizes());
    else if (empty) body.replaceChildren(make("p", {class: "empty"}, !q ? word("answer.empty") : wrong ? q.error : word(q.problem)));
    else body.replaceChildren(...(q.heads ? headsAnswer(q) : q.ferrule !== undefined ? ferruleAnswer(q) : headAnswer(q)));
  }

  const reading = (pm) => word("find.read_as", {mm: lengths.exact(pm, lengths.perMM, 9).replace(".", data.words["number.decimal"]) + "\u00a0mm", in: lengths.inches(pm)});

  function title(q) {
    if (!q) return [word(chosen.way === "ferrule" ? "kinds.ferrules" : chosen.way === "head" ? "kinds.title" : "page.finder")];
    if (q.heads) return [$("category").value === "" ? word("find.heads") : say.categoryName(Number($("category").value))];
    if (q.ferrule !== undefined) return rich("answer.ferrule", {ferrule: part(data.ferrules.part[q.ferrule])});
    if (q.head !== undefined) return rich("answer.head", {head: part(data.heads.part[q.head])});
    return [q.od === undefined ? word("page.finder") : word("answer.measure", {od: say.show(q.od)})];
  }

  function announceAnswer() {
    const q = shown;
    if (!q) return;
    if (q.error || !q.lines) return announce(q.error || word(q.problem));
    if (q.heads) return announce(say.many("status.heads", q.heads.length));
    const serving = q.lines.filter((l) => answers.serves(l.verdict)), some = q.lines.filter((l) => l.verdict === "measure").length;
    const more = some === 0 ? "" : " " + say.many("status.measures", some);
    if (q.ferrule !== undefined) return announce(say.many("status.heads", serving.length) + more);
    const best = serving.length ? data.ferrules.part[serving[0].ferrule] + ", " + word("verdict." + serving[0].verdict) : "";
    announce((serving.length === 0 ? word("status.fits_none") : serving.length === 1 ? word("status.fits_one", {best}) : word("status.fits_many", {n: say.count(serving.length), best})) + more);
  }

  // kinds is the first view: each kind of head with its usual hosel.
  function kinds() {
    const h = data.heads, cards = [];
    for (const category of [1, 2, 3, 4, 5, 6, 7, 0]) {
      const heads = h.category.flatMap((c, i) => c === category ? [i] : []);
      if (!heads.length) continue;
      const ods = heads.map((i) => data.dims[h.od[i]]).filter(Boolean).map((d) => d[0]).sort((a, b) => a - b), usual = usualOf(heads);
      const ends = [...new Set([ods[0], ods[ods.length - 1]])].map((pm) => say.brief(pm || 0));
      const range = ods.length ? ends.map((end, i) => i + 1 < ends.length ? end.replace(/\s.*/, "") : end).join("–") : "";
      cards.push(make("li", {}, make("button", {type: "button", class: "kind", onclick: () => { $("category").value = category; choose({head: -1}); $("answer-title").focus(); }},
        usual < 0 ? null : section.drawHosel(data.hosels[h.hosel[usual]], data.dims[h.od[usual]][0], data.tipSets[h.tips[usual]][0]),
        make("strong", {}, say.categoryName(category)), make("span", {}, say.many("status.heads", heads.length)),
        range ? make("span", {}, word("column.od")) : null, range ? make("span", {}, range) : null)));
    }
    return [make("p", {class: "hint"}, word("kinds.hint")), make("ul", {class: "kinds"}, ...cards)];
  }

  // usualOf is a head whose hosel most of some heads have, of those that state their OD the one in the middle.
  function usualOf(heads) {
    const h = data.heads, by = new Map();
    for (const i of heads) if (data.dims[h.od[i]]) by.set(h.hosel[i], [...(by.get(h.hosel[i]) || []), i]);
    const same = [...by.values()].sort((a, b) => b.length - a.length)[0];
    return same ? same.sort((a, b) => data.dims[h.od[a]][0] - data.dims[h.od[b]][0])[Math.floor(same.length / 2)] : -1;
  }

  // ferruleSizes lists the ferrules that the search and the filters leave, before one is chosen.
  function ferruleSizes() {
    const found = searches.ferrule.find();
    if (!found.length) return [none()];
    const names = ["ferrule", "base", "bore", "length", "style", "colour"].map((c) => word("column." + c));
    const rows = found.slice(0, chosen.all ? found.length : most.heads).map((i) => {
      const form = data.forms[data.ferrules.form[i]];
      return make("tr", {}, make("th", {scope: "row"}, button("pick", part(data.ferrules.part[i]), () => choose({ferrule: i})), make("small", {}, data.ferrules.description[i])),
        tables.cell(names[1], say.sizeOf(form.base)), tables.cell(names[2], say.boreText(form)), tables.cell(names[3], form.length ? say.sizeLength(form.length) : ""),
        tables.cell(names[4], say.styleName(form.style)), tables.cell(names[5], say.colourOf(i)));
    });
    return [tables.table(say.many("status.ferrules", found.length), names, rows), showMore(found.length - rows.length, rows.length)];
  }

  const none = () => make("p", {class: "empty"}, narrowed() ? word("filter.none") : word("status.none"), narrowed() ? make("br") : null, narrowed() ? button("more", word("filter.clear"), clearFilters) : null);

  // showMore is the button that shows the rest of a table.
  function showMore(more, from) {
    return more <= 0 ? "" : button("more", word("answer.show_more", {n: say.count(more)}), () => { chosen.all = true; answer(); focusPick(from); });
  }

  function headsAnswer(q) {
    if (!q.heads.length) return [none()];
    const few = chosen.all ? q.heads : q.heads.slice(0, $("head-search").value.trim() !== "" || wide() <= 560 ? most.heads : 3 * most.heads);
    return [make("p", {class: "screen tools"}, button("", word("kinds.all"), () => {
      for (const id of ["head-search", "category", "supplier"]) $(id).value = "";
      choose({head: -1});
      $("answer-title").focus();
    })), tables.compact(few, word("kinds.caption"), toHead, toFerrule), showMore(q.heads.length - few.length, few.length)];
  }

  // headAnswer is the answer for a head or a measured hosel.
  function headAnswer(q) {
    const all = q.lines.filter((l) => answers.fits(l.verdict)), asks = q.lines.filter((l) => l.verdict === "ask");
    const fitting = all.filter((l) => filtered(l.ferrule, l.tip)), not = q.lines.filter((l) => l.verdict === "no" || l.verdict === "bare");
    const parts = [aboutHead(q)];
    if (q.measured && q.hosel.usual) parts.push(make("p", {class: "empty"}, word("answer.usual")));
    if (q.problem) parts.push(make("p", {class: "empty"}, word(q.problem)));
    const bare = q.lines.some((l) => l.verdict === "bare");
    if (bare) parts.push(make("p", {class: "empty"}, say.verdict("bare"), " ", word("reason.seat.rounded")));
    else if (fitting.length) parts.push(...fits(q, all, fitting));
    else if (all.length) parts.push(none());
    else if (!asks.length) parts.push(make("p", {class: "empty"}, word("answer.none")));
    if (!q.measured && !all.length && !bare && not.length) parts.push(make("p", {}, ...rich("answer.nearest", {ferrule: make("strong", {}, part(data.ferrules.part[not[0].ferrule]))})), tables.notes(not[0], "ul"));
    if (asks.length && !q.problem) parts.push(tables.folded(word("answer.asks", {n: say.count(asks.length)}), () => tables.plain(asks, word("answer.caption_ask"))));
    if (q.measured && not.length && !bare) parts.push(tables.folded(word("answer.others", {n: say.count(not.length)}), () => tables.plain(not, word("answer.caption_no"))));
    return parts;
  }

  // fits is what fits: the table, the ferrule that is picked, and the one beside it.
  function fits(q, all, fitting) {
    const picked = fitting.find((l) => l.ferrule === chosen.picked) || fitting[0], other = fitting.find((l) => l.ferrule === chosen.beside && l !== picked);
    const parts = [];
    if (!answers.serves(all[0].verdict)) parts.push(make("p", {class: "empty"}, word(q.measured ? "answer.only_close" : "answer.only_measure")));
    const few = chosen.all ? fitting.length : most.lines(), best = answers.serves(all[0].verdict) ? all[0] : null;
    parts.push(make("div", {class: "fitting"}, tables.ferrules(q, fitting, picked, best, few, pick), showMore(fitting.length - few, few)));
    const more = q.measured || q.head === undefined || !data.heads.fits ? 0 : data.heads.fits[q.head] - all.length;
    if (more > 0) parts.push(make("p", {class: "empty"}, word("answer.more_fit", {n: say.count(more)})));
    parts.push(tables.detail(q, picked, order.adder(picked.ferrule, announce), comparing(fitting, picked, other)));
    if (other) parts.push(tables.beside(q, [picked, other]));
    return parts;
  }

  // comparing is the choice of a ferrule to set beside the one that is picked.
  function comparing(fitting, picked, other) {
    if (fitting.length < 2) return "";
    const select = make("select", {id: "beside"}, make("option", {value: ""}, word("compare.none")),
      ...fitting.filter((l) => l !== picked).map((l) => make("option", {value: l.ferrule, selected: l === other}, data.ferrules.part[l.ferrule])));
    select.addEventListener("change", () => {
      chosen.beside = select.value === "" ? null : Number(select.value);
      answer();
      $("beside").focus();
    });
    return make("p", {class: "comparing"}, make("label", {for: "beside"}, word("compare.with")), select);
  }

  function aboutHead(q) {
    const h = data.heads, of = q.head !== undefined;
    const assumed = of && h.assumed[q.head] && q.tips.some((t) => data.tips[t].at[0]) ? " (" + word("answer.tip_assumed") + ")" : "";
    return facts("facts", [
      ...(of ? [[word("column.head"), h.description[q.head]], [word("column.supplier"), say.supplierOf(h, q.head)], [word("column.category"), say.categoryName(h.category[q.head])]] : []),
      q.measured ? [word("column.od"), say.size(q.od), " " + word("answer.measured")] : [word("column.od"), of && say.sizeOf(h.od[q.head])],
      [word("column.tip"), q.tips.map(say.tipName).join(", ") + assumed], [word("column.top"), say.topName(q.hosel.top)],
    ]);
  }

  function focusPick(i) {
    const buttons = $("answer-body").querySelectorAll(".pick");
    if (buttons[i]) buttons[i].focus();
  }

  function pick(ferrule) {
    chosen.picked = ferrule;
    answer();
    const again = $("answer-body").querySelector(".pick[aria-pressed=true]");
    if (again) again.focus();
  }

  // ferruleAnswer is what a ferrule fits: heads, and the hosel ODs it serves.
  function ferruleAnswer(q) {
    const f = data.ferrules, form = data.forms[f.form[q.ferrule]], name = (c) => word("column." + c);
    const parts = [facts("facts", [
      [name("ferrule"), f.description[q.ferrule]], [name("supplier"), say.supplierOf(f, q.ferrule)], [name("base"), say.sizeOf(form.base)], [name("bore"), say.boreText(form)],
      [name("length"), form.length && say.sizeLength(form.length)], [name("style"), say.styleName(form.style)], [name("colour"), say.colourOf(q.ferrule)], [name("price"), tables.priceOf(q.ferrule)],
    ])];
    const spans = answers.windows(q.ferrule), verdicts = data.verdicts.filter(answers.fits);
    parts.push(spans.length ? tables.table(word("answer.caption_windows"), [name("tip"), ...verdicts.map(name)], spans.map((s) => make("tr", {},
      make("th", {scope: "row"}, say.tipName(s.tip)), ...verdicts.map((v) => tables.cell(name(v), ...(s.spans[v] || []).map((span) => make("span", {class: "span"}, fromTo(span)))))))) :
      make("p", {class: "empty"}, word("answer.no_windows")));
    const all = f.fits ? f.fits[q.ferrule] : q.lines.length;
    if (all > q.lines.length) parts.push(make("p", {class: "empty"}, word("answer.more_heads", {n: say.count(all)})));
    parts.push(order.adder(q.ferrule, announce));
    if (!all) return [...parts, make("p", {class: "empty"}, word("answer.no_heads"))];
    return q.lines.length ? [...parts, ...headsOf(q)] : parts;
  }

  // headsOf lists the heads that a ferrule fits, those of a set in one row.
  function headsOf(q) {
    const h = data.heads, headings = ["head", "fit", "off", "side", "od", "supplier"].map((c) => word("column." + c));
    const together = tables.together(q.lines, (l) => [l.verdict, l.off.nominal, l.off.most, h.od[l.head], h.supplier[l.head], l.turns].join());
    const few = chosen.all ? together : together.slice(0, 40);
    return [tables.table(word("answer.caption_heads"), headings, few.map((same) => {
      const l = same[0];
      return make("tr", {}, tables.headNames(same.map((s) => s.head), toHead), tables.cell(headings[1], say.verdict(l.verdict)), tables.cell(headings[2], tables.off(l, tables.whole)),
        tables.cell(headings[3], tables.off(l, lengths.half)), tables.cell(headings[4], say.sizeOf(h.od[l.head])), tables.cell(headings[5], say.breakable(say.supplierOf(h, l.head))));
    })), showMore(together.length - few.length, few.flat().length)];
  }

  // fromTo shows a window with its ends rounded inward, so that what is shown is in it.
  function fromTo(span) {
    const step = say.metric() ? 10000000 : 25400000, from = Math.ceil(span.from / step) * step, to = Math.floor(span.to / step) * step;
    return from < to ? word("answer.from_to", {from: say.show(from), to: say.show(to)}) : word("answer.from_to", {from: say.show(span.from), to: say.show(span.to)});
  }

  function toHead(head) {
    $("od").value = "";
    choose({way: "head", head, ferrule: -1});
    $("answer-title").focus();
  }
  function toFerrule(ferrule) {
    choose({way: "ferrule", ferrule});
    $("answer-title").focus();
  }

  // The form.

  for (const which of Object.keys(searches)) arrows(which);
  for (const id of ["supplier", "category"]) $(id).addEventListener("change", () => {
    list("head", true);
    chosen.head = -1;
    chosen.all = false;
    state.remember(true);
    render();
  });
  for (const radio of page.root.querySelectorAll("input[name=way]")) {
    radio.addEventListener("change", () => {
      chosen.way = radio.value;
      state.fresh();
      state.remember(true);
      render();
    });
  }
  function typed() {
    state.fresh();
    state.remember(false);
    answer();
    announceAnswer();
  }
  $("od").addEventListener("input", typed);
  for (const id of ["tip", "top"]) $(id).addEventListener("change", typed);
  function narrow() {
    if (chosen.way === "ferrule") list("ferrule", true);
    state.remember(false);
    answer();
  }
  for (const id of state.filters) $(id).addEventListener("change", narrow);
  function clearFilters() {
    for (const id of state.filters) $(id).value = "";
    render();
  }
  for (const radio of page.root.querySelectorAll("input[name=unit]")) {
    radio.addEventListener("change", () => {
      say.useMetric(radio.value === "mm");
      state.remember(false);
      limits();
      whole();
      render();
    });
  }
  $("finder").addEventListener("submit", (event) => event.preventDefault());
  $("answer-link").addEventListener("click", async () => announceNow(word(await share.copy(state.link()) ? "page.copied" : "page.not_copied")));
  $("answer-save").addEventListener("click", () => share.save($("answer-title").textContent, share.rows(shown, shown.lines.filter((l) => answers.fits(l.verdict)))));
  $("answer-print").addEventListener("click", () => print());
  function announceNow(text) {
    clearTimeout(pause);
    $("status").textContent = $("copied").textContent = text;
  }

  // limits says what the shop allows for, the reader's unit first.
  function limits() {
    const blanks = {step: say.show(data.limits.flushStep), turn: say.show(data.limits.turnLimit)}, tolerance = say.show(data.limits.measured);
    $("limits").textContent = word(data.limits.caliper ? "page.measured_caliper" : "page.measured_shop", {tolerance}) + " " + word("page.limits", blanks);
  }

  // whole writes the whole chart anew, where the reader's unit is another than the page's, or the page does not hold it.
  let written = page.embedded ? null : say.metric();
  function whole() {
    if (!page.top.classList.contains("whole-shown") || written === say.metric()) return;
    written = say.metric();
    const h = data.heads, groups = tables.together(h.part.map((part, i) => i), (i) => say.supplierOf(h, i) + "\u0000" + h.category[i]);
    const captions = (i) => [say.supplierOf(h, i), say.categoryName(h.category[i])].filter(Boolean).join(" · ");
    $("all-sheets").replaceChildren(...groups.map((heads) => tables.compact(heads, captions(heads[0]), toHead, toFerrule)));
  }
  $("show-all").addEventListener("click", () => {
    const open = page.top.classList.toggle("whole-shown");
    $("show-all").setAttribute("aria-expanded", open);
    $("show-all").textContent = word(open ? "page.hide_all" : "page.show_all");
    whole();
  });
  function recall() {
    state.recall();
    limits();
    render();
  }
  if (!page.embedded) {
    addEventListener("popstate", recall);
    addEventListener("hashchange", recall);
    // A page in a frame tells the page around it how high it is.
    if (parent !== window) new ResizeObserver(() => parent.postMessage({fitChart: {height: Math.ceil(page.top.getBoundingClientRect().height)}}, "*")).observe(page.top);
  }
  const usual = state.tipPlace(".370 parallel");
  if (usual >= 0) $("tip").value = usual;
  recall();
  page.top.classList.add("js");
})();
