"use strict";
// What the reader chooses and types, and how answers are shown.
(() => {
  const {data} = answers, words = data.words;
  const $ = (id) => document.getElementById(id);
  const most = {choices: 30, lines: innerWidth <= 560 ? 4 : 12};
  const categories = ["", "driver", "fairway", "hybrid", "iron", "wedge", "putter", "chipper"];
  const tops = ["unknown", "flat", "rounded", "countersunk", "counterbored", "sleeve"];
  const metric = data.units === "mm";
  // state is what was chosen; everything that is shown follows from it.
  const state = {way: "head", head: -1, ferrule: -1, picked: null, all: false};

  function word(key, blanks = {}) {
    return (words[key] || "").replace(/\{(\w+)\}/g, (whole, name) => name in blanks ? blanks[name] : whole);
  }

  // make returns an element. Text is always text, never markup.
  function make(name, attributes, ...children) {
    const e = document.createElement(name);
    for (const [key, value] of Object.entries(attributes || {})) {
      if (key.startsWith("on")) e.addEventListener(key.slice(2), value);
      else if (value === true) e.setAttribute(key, "");
      else if (value !== false && value !== undefined) e.setAttribute(key, value);
    }
    e.append(...children.filter((c) => c !== null && c !== undefined));
    return e;
  }

  // pair returns a length in both units, the reader's first.
  const pair = (pm, inches) => metric ? [lengths.mm(pm), inches] : [inches, lengths.mm(pm)];
  const join = ([first, second]) => first + " (" + second + ")";
  const show = (pm) => join(pair(pm, lengths.inches(pm)));
  const showLength = (pm) => join(pair(pm, lengths.along(pm, data.units))); // along the axis

  // size shows a length in both units, the other below the reader's; sizeLength shows one along the axis.
  const size = (pm) => stacked(pair(pm, lengths.inches(pm)));
  const sizeLength = (pm) => stacked(pair(pm, lengths.along(pm, data.units)));
  function stacked(both) {
    return make("span", {class: "size"}, both[0], " ", make("small", {}, "(" + both[1] + ")"));
  }

  const tipText = (name) => name.replace(/ (parallel|taper|profile)$/, (form) => " " + word("tip." + form.trim()));
  const tipName = (tip) => tipText(data.tips[tip].name) || word("tip.unknown");
  // boreText is the bore of a ferrule, or the tip that it is known by.
  const boreText = (form) => form.forTip ? word("column.for_tip", {tip: tipText(form.forTip)}) : form.bore ? size(form.bore) : "";
  const categoryName = (category) => word("category." + (categories[category] || "other"));
  const verdict = (v) => make("b", {class: "v " + v}, word("verdict." + v));

  // Announcements wait until the reader pauses, so that a screen reader is not interrupted at every keystroke.
  let pause = 0;
  function announce(text) {
    clearTimeout(pause);
    pause = setTimeout(() => { $("status").textContent = text; }, 700);
  }

  // Search.

  const fold = (text) => text.normalize("NFKD").replace(/[\u0300-\u036f]/g, "").toLowerCase();
  const headKeys = data.heads.part.map((part, i) => fold([part, data.heads.description[i], data.suppliers[data.heads.supplier[i]],
    categoryName(data.heads.category[i])].join(" ")));
  const ferruleKeys = data.ferrules.part.map((part, i) => fold([part, data.ferrules.description[i],
    data.suppliers[data.ferrules.supplier[i]], data.ferrules.colour ? data.ferrules.colour[i] : ""].join(" ")));

  // matching returns the places whose keys hold every word typed; those that begin with it stand first.
  function matching(keys, typed, suits) {
    const parts = fold(typed).split(/\s+/).filter(Boolean), first = [], rest = [];
    for (let i = 0; i < keys.length; i++) {
      if (suits && !suits(i) || !parts.every((p) => keys[i].includes(p))) continue;
      (parts.length && keys[i].startsWith(parts[0]) ? first : rest).push(i);
    }
    return first.concat(rest);
  }

  const searches = {
    head: {
      input: $("head-search"), list: $("head-list"), more: $("head-more"), one: "status.heads_one", many: "status.heads_many",
      find() {
        const supplier = $("supplier").value, category = $("category").value;
        return matching(headKeys, this.input.value, (i) => (supplier === "" || data.heads.supplier[i] === Number(supplier)) &&
          (category === "" || data.heads.category[i] === Number(category)));
      },
      lines: (i) => [data.heads.part[i], data.heads.description[i], [data.suppliers[data.heads.supplier[i]], categoryName(data.heads.category[i])].filter(Boolean).join(" · ")],
      choose(i) { $("od").value = ""; choose({head: i}); },
    },
    ferrule: {
      input: $("ferrule-search"), list: $("ferrule-list"), more: $("ferrule-more"), one: "status.ferrules_one", many: "status.ferrules_many",
      find() { return matching(ferruleKeys, this.input.value); },
      lines: (i) => [data.ferrules.part[i], data.ferrules.description[i], [data.suppliers[data.ferrules.supplier[i]], data.ferrules.colour && data.ferrules.colour[i]].filter(Boolean).join(" · ")],
      choose(i) { choose({ferrule: i}); },
    },
  };

  // list shows what a search finds, and says how much that is when the reader typed.
  function list(which, typed) {
    const s = searches[which], found = s.find(), chosen = state[which];
    if (!typed && found.indexOf(chosen) >= most.choices) found.unshift(...found.splice(found.indexOf(chosen), 1));
    s.list.replaceChildren(...found.slice(0, most.choices).map((i) => {
      const [part, description, of] = s.lines(i);
      return make("li", {}, make("button", {type: "button", "data-key": i, "aria-current": state[which] === i ? "true" : false, onclick: () => s.choose(i)},
        make("strong", {}, part), " ", make("span", {}, description), " ", make("small", {}, of)));
    }));
    const current = s.list.querySelector("[aria-current]");
    if (current && !typed) s.list.scrollTop = current.offsetTop;
    const beyond = found.length - most.choices;
    s.more.textContent = beyond > 0 ? word("find.more", {n: beyond}) : "";
    if (typed) announce(found.length === 0 ? word("status.none") : found.length === 1 ? word(s.one) : word(s.many, {n: found.length}));
  }

  // arrows moves between a search and its list by the arrow keys.
  function arrows(which) {
    const s = searches[which];
    const step = (event) => {
      const buttons = [...s.list.querySelectorAll("button")], at = buttons.indexOf(document.activeElement);
      if (event.key === "ArrowDown" && at < buttons.length - 1) buttons[at + 1].focus();
      else if (event.key === "ArrowUp" && at >= 0) (at === 0 ? s.input : buttons[at - 1]).focus();
      else if (event.key === "Enter" && at < 0 && buttons.length) s.choose(Number(buttons[0].dataset.key));
      else return;
      event.preventDefault();
    };
    s.input.addEventListener("keydown", step);
    s.list.addEventListener("keydown", step);
    s.input.addEventListener("input", () => list(which, true));
  }

  // Choosing.

  function choose(change) {
    Object.assign(state, change, {picked: null, all: false});
    remember(true);
    render();
    announceAnswer();
    if (innerWidth < 860) $("answer-title").scrollIntoView({block: "start"});
  }

  // remember puts the choice into the address, so that it can be shared. A choice is a step back; typing is not.
  function remember(step) {
    const parts = new URLSearchParams(), typed = $("od").value.trim();
    const name = (list, i) => {
      parts.set(list === data.heads ? "head" : "ferrule", list.part[i]);
      if (list.part.indexOf(list.part[i]) !== list.part.lastIndexOf(list.part[i])) parts.set("by", data.suppliers[list.supplier[i]]);
    };
    if (state.way === "head" && state.head >= 0) name(data.heads, state.head);
    if (state.way === "ferrule" && state.ferrule >= 0) name(data.ferrules, state.ferrule);
    if (state.way !== "ferrule" && typed !== "") parts.set("od", typed);
    if (state.way === "measure") {
      parts.set("tip", data.tips[$("tip").value].name);
      parts.set("top", tops[data.bench[$("top").value].top]);
    }
    const address = "#" + parts.toString();
    if (address === location.hash || address === "#" && location.hash === "") return;
    if (step) history.pushState(null, "", address);
    else history.replaceState(null, "", address);
  }

  // tipPlace finds a tip by its name, or by the size at the name's end.
  function tipPlace(name) {
    const exact = data.tips.findIndex((t) => t.name === name);
    return exact >= 0 ? exact : data.tips.findIndex((t) => name !== "" && t.name.endsWith(name));
  }

  // recall takes the choice from the address.
  function recall() {
    const parts = new URLSearchParams(location.hash.slice(1));
    const place = (list, part) => {
      const by = parts.get("by");
      const exact = list.part.findIndex((p, i) => p === part && (by === null || data.suppliers[list.supplier[i]] === by));
      return exact >= 0 ? exact : list.part.indexOf(part);
    };
    $("od").value = parts.get("od") || "";
    state.head = parts.has("head") ? place(data.heads, parts.get("head")) : -1;
    state.ferrule = parts.has("ferrule") ? place(data.ferrules, parts.get("ferrule")) : -1;
    state.way = state.ferrule >= 0 ? "ferrule" : state.head < 0 && (parts.has("od") || parts.has("tip")) ? "measure" : "head";
    const tip = parts.has("tip") ? tipPlace(parts.get("tip")) : -1;
    if (tip >= 0) $("tip").value = tip;
    const top = data.bench.findIndex((b) => tops[b.top] === parts.get("top"));
    if (top >= 0) $("top").value = top;
    state.picked = null;
    state.all = false;
    document.querySelector("input[name=way][value=" + state.way + "]").checked = true;
    render();
  }

  // Answers.

  // question is what is asked, and its answer: lines with the best first, or what keeps it from one.
  function question() {
    if (state.way === "ferrule") return state.ferrule < 0 ? null : {ferrule: state.ferrule, lines: answers.heads(state.ferrule)};
    const typed = lengths.parse($("od").value);
    if (state.way === "measure") {
      const hosel = data.hosels[data.bench[$("top").value].hosel];
      return typed.empty ? {problem: "answer.type_od"} : ask({hosel, tips: [Number($("tip").value)]}, typed);
    }
    if (state.head < 0) return null;
    const hosel = data.hosels[data.heads.hosel[state.head]], tips = data.tipSets[data.heads.tips[state.head]];
    const od = data.dims[data.heads.od[state.head]];
    if (!typed.empty) return ask({hosel, tips, head: state.head}, typed);
    return {hosel, tips, head: state.head, od: od && od[0], lines: answers.catalogue(state.head), problem: !od && hosel.top !== 2 ? "answer.need_od" : ""};
  }

  function ask(q, typed) {
    if (typed.error) return {...q, error: word("error." + typed.error)};
    q = {...q, od: typed.pm, measured: true};
    const known = q.tips.filter((tip) => q.hosel.tips.includes(tip));
    if (!known.length) return {...q, problem: "answer.need_tip"};
    const found = answers.measured(q.hosel, known, typed.pm);
    if (found.least !== undefined) return {...q, error: word("error.small", {least: show(found.least)})};
    if (found.most) return {...q, error: word("error.range")};
    return {...q, lines: found.lines};
  }

  function render() {
    for (const [id, ways] of Object.entries({"panel-head": "head", "panel-ferrule": "ferrule", "panel-od": "head measure", "panel-bench": "measure"})) {
      $(id).hidden = !ways.split(" ").includes(state.way) || id === "panel-od" && state.way === "head" && state.head < 0;
    }
    $("od-label").textContent = word(state.way === "head" ? "find.measured" : "find.od");
    if (state.way !== "measure") list(state.way, false);
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
    $("answer-title").textContent = title(q);
    const body = $("answer-body");
    if (!q || wrong || !q.lines && q.problem) {
      body.replaceChildren(make("p", {class: "empty"}, !q ? word("answer.empty") : wrong ? q.error : word(q.problem)));
      return;
    }
    body.replaceChildren(...(q.ferrule !== undefined ? ferruleAnswer(q) : headAnswer(q)));
  }

  const reading = (pm) => word("find.read_as", {mm: lengths.exact(pm, lengths.perMM, 9) + "\u00a0mm", in: lengths.inches(pm)});

  function title(q) {
    if (!q) return word("page.finder");
    if (q.ferrule !== undefined) return word("answer.ferrule", {ferrule: data.ferrules.part[q.ferrule]});
    if (q.head !== undefined) return word("answer.head", {head: data.heads.part[q.head]});
    return q.od === undefined ? word("page.finder") : word("answer.measure", {od: show(q.od)});
  }

  function announceAnswer() {
    const q = shown;
    if (!q) return;
    if (q.error || !q.lines) return announce(q.error || word(q.problem));
    const serving = q.lines.filter((l) => answers.serves(l.verdict)), some = q.lines.filter((l) => l.verdict === "measure").length;
    const more = some === 0 ? "" : " " + (some === 1 ? word("status.measures_one") : word("status.measures_many", {n: some}));
    if (q.ferrule !== undefined) return announce((serving.length === 1 ? word("status.heads_one") : word("status.heads_many", {n: serving.length})) + more);
    const best = serving.length ? data.ferrules.part[serving[0].ferrule] + ", " + word("verdict." + serving[0].verdict) : "";
    announce((serving.length === 0 ? word("status.fits_none") : serving.length === 1 ? word("status.fits_one", {best}) : word("status.fits_many", {n: serving.length, best})) + more);
  }

  // headAnswer is the answer for a head or a measured hosel.
  function headAnswer(q) {
    const fitting = q.lines.filter((l) => answers.fits(l.verdict)), asks = q.lines.filter((l) => l.verdict === "ask");
    const not = q.lines.filter((l) => l.verdict === "no" || l.verdict === "bare");
    const parts = [facts(q)];
    if (q.measured && q.hosel.usual) parts.push(make("p", {class: "empty"}, word("answer.usual")));
    if (q.problem) parts.push(make("p", {class: "empty"}, word(q.problem)));
    const bare = q.lines.some((l) => l.verdict === "bare");
    if (bare) parts.push(make("p", {class: "empty"}, verdict("bare"), " ", word("reason.seat.rounded")));
    else if (fitting.length) {
      const picked = fitting.find((l) => l.ferrule === state.picked) || fitting[0];
      if (!answers.serves(fitting[0].verdict)) parts.push(make("p", {class: "empty"}, word(q.measured ? "answer.only_close" : "answer.only_measure")));
      parts.push(ferruleTable(q, fitting, picked));
      const more = q.measured || q.head === undefined || !data.heads.fits ? 0 : data.heads.fits[q.head] - fitting.length;
      if (more > 0) parts.push(make("p", {class: "empty"}, word("answer.more_fit", {n: more})));
      parts.push(detail(q, picked));
    } else if (!asks.length) parts.push(make("p", {class: "empty"}, word("answer.none")));
    if (!q.measured && !fitting.length && !bare && not.length) parts.push(make("p", {}, word("answer.nearest") + ": ", make("strong", {}, data.ferrules.part[not[0].ferrule])), notes(q, not[0], "ul"));
    if (asks.length && !q.problem) parts.push(folded(word("answer.asks", {n: asks.length}), () => plainTable(q, asks, word("answer.caption_ask"))));
    if (q.measured && not.length && !bare) parts.push(folded(word("answer.others", {n: not.length}), () => plainTable(q, not, word("answer.caption_no"))));
    return parts;
  }

  function facts(q) {
    const list = make("dl", {class: "facts"});
    const fact = (name, ...value) => list.append(make("div", {}, make("dt", {}, name), make("dd", {}, ...value)));
    if (q.head !== undefined) {
      const h = data.heads, supplier = data.suppliers[h.supplier[q.head]];
      if (h.description[q.head]) fact(word("column.head"), h.description[q.head]);
      if (supplier) fact(word("column.supplier"), supplier);
      fact(word("column.category"), categoryName(h.category[q.head]));
    }
    if (q.measured) fact(word("column.od"), size(q.od), " " + word("answer.measured"));
    else if (q.od !== undefined) fact(word("column.od"), sizeOf(data.heads.od[q.head]));
    const assumed = q.head !== undefined && data.heads.assumed[q.head] && q.tips.some((t) => data.tips[t].at[0]) ? " (" + word("answer.tip_assumed") + ")" : "";
    fact(word("column.tip"), q.tips.map(tipName).join(", ") + assumed);
    fact(word("column.top"), word("top." + tops[q.hosel.top]));
    return list;
  }

  // sizeOf shows a dimension of a part, and says where readings gave it.
  const measuredDims = new Set(data.dimsMeasured);
  function sizeOf(dim) {
    if (!data.dims[dim]) return "";
    return make("span", {}, size(data.dims[dim][0]), measuredDims.has(dim) ? " " + word("answer.measured") : "");
  }

  // breakable lets a long name that has no spaces go on in the next line where its words part.
  function breakable(text) {
    const e = make("span");
    for (const piece of text.split(/(?<=[_.\/-])/)) e.append(piece, make("wbr"));
    return e;
  }

  // extra are the seller's own columns of a ferrule.
  const extra = {
    supplier: (l) => breakable(data.suppliers[data.ferrules.supplier[l.ferrule]]),
    length: (l) => data.forms[l.form].length ? sizeLength(data.forms[l.form].length) : "",
    base: (l) => sizeOf(data.forms[l.form].base),
    bore: (l) => boreText(data.forms[l.form]),
    colour: (l) => data.ferrules.colour[l.ferrule],
    minutes: (l) => l.minutes ? word("column.min", {n: Math.round(l.minutes)}) : "",
    price: (l) => data.ferrules.price[l.ferrule],
  };

  // table returns a table that may be wider than the page. It can be moved by the keyboard: where no row has a button, the box around
  // it takes the focus.
  function table(caption, headings, rows) {
    const box = rows.some((r) => r.querySelector("button")) ? {class: "sheet"} : {class: "sheet", role: "group", tabindex: 0, "aria-label": caption};
    return make("div", box, make("table", {}, make("caption", {}, caption),
      make("thead", {}, make("tr", {}, ...headings.map((h) => make("th", {scope: "col"}, h)))), make("tbody", {}, ...rows)));
  }

  // cell names its column, for narrow screens where a row is a card.
  const cell = (name, ...content) => make("td", {"data-key": name}, ...content);

  // off shows what comes off, on the diameter or by half: that of the usual joint, or where that is nothing, the most.
  function off(line, share) {
    if (!line.turns) return make("span", {class: "none"}, word("column.nothing"));
    if (line.off.nominal > 0) return size(share(line.off.nominal));
    return make("span", {}, word("column.most") + " ", size(share(line.off.most)));
  }
  const whole = (pm) => pm;

  function ferruleTable(q, lines, picked) {
    const severalTips = q.tips.length > 1;
    const headings = [word("column.ferrule"), word("column.fit"), word("column.off"), word("column.side"), word("column.prepare"),
      ...(severalTips ? [word("column.tip")] : []), ...data.columns.map((c) => word("column." + c))];
    const rows = lines.slice(0, state.all ? lines.length : most.lines).map((line, i) => make("tr", {class: line === picked ? "picked" : false},
      make("th", {scope: "row"}, make("button", {type: "button", class: "pick", "aria-pressed": String(line === picked), onclick: () => pick(line.ferrule)}, data.ferrules.part[line.ferrule]),
        i === 0 && answers.serves(line.verdict) ? make("span", {class: "badge"}, word("answer.best")) : null, make("small", {}, data.ferrules.description[line.ferrule])),
      cell(headings[1], verdict(line.verdict)), cell(headings[2], off(line, whole)), cell(headings[3], off(line, lengths.half)),
      cell(headings[4], notes(q, line, "span")), severalTips ? cell(word("column.tip"), tipName(line.tip)) : null,
      ...data.columns.map((c) => make("td", {class: "extra", "data-key": word("column." + c)}, extra[c](line) || ""))));
    const some = lines.some((l) => l.verdict === "measure"), caption = !answers.serves(lines[0].verdict) ? "answer.caption_only" : some ? "answer.caption_some" : "answer.caption";
    const box = make("div", {class: "fitting"}, table(word(caption), headings, rows));
    if (!state.all && lines.length > most.lines) {
      box.append(make("button", {type: "button", class: "more", onclick: () => { state.all = true; answer(); focusPick(most.lines); }}, word("answer.show_more", {n: lines.length - most.lines})));
    }
    return box;
  }

  function focusPick(i) {
    const buttons = $("answer-body").querySelectorAll(".pick");
    if (buttons[i]) buttons[i].focus();
  }

  function pick(ferrule) {
    state.picked = ferrule;
    answer();
    const again = $("answer-body").querySelector(".pick[aria-pressed=true]");
    if (again) again.focus();
  }

  // plainTable lists what does not fit or cannot be decided, with the reasons.
  function plainTable(q, lines, caption) {
    return table(caption, [word("column.ferrule"), word("column.fit"), word("column.prepare")], lines.slice(0, 200).map((line) => make("tr", {},
      make("th", {scope: "row"}, data.ferrules.part[line.ferrule], " ", make("small", {}, data.ferrules.description[line.ferrule])),
      cell(word("column.fit"), verdict(line.verdict)), cell(word("column.prepare"), notes(q, line, "span")))));
  }

  // folded shows something only once it is asked for.
  function folded(summary, content) {
    const d = make("details", {}, make("summary", {}, summary));
    d.addEventListener("toggle", () => { if (d.open && d.children.length === 1) d.append(content()); });
    return d;
  }

  // parts writes a share as so many of ten or of a hundred, which is never none nor all.
  const parts = (share, of) => Math.min(of - 1, Math.max(1, Math.round(share * of)));

  function sentence(line, r) {
    const blank = (pm) => (r.axial ? showLength : show)(pm || 0), share = answers.share(line, r);
    return word("reason." + r.word, {
      size: blank(r.size), other: blank(r.other), limit: blank(r.limit), most: show(line.off.most), field: word("field." + r.field),
      ten: parts(share, 10), hundred: parts(share, 100),
    });
  }

  // said reports whether a reason has a sentence besides what the numbers say; that a ferrule holds is told in the detail only.
  const said = (r) => r.code !== "flush.turn" || r.share > 0;
  function notes(q, line, as) {
    const texts = line.reasons.filter((r) => said(r) && r.code !== "grip.holds").map((r) => sentence(line, r));
    if (answers.fits(line.verdict) && !data.forms[line.form].length) texts.push(word("reason.data.missing", {field: word("field.length of the ferrule")}));
    if (as === "ul") return make("ul", {class: "notes"}, ...texts.map((t) => make("li", {}, t)));
    return texts.length ? make("span", {class: "notes"}, texts.join(" ")) : make("span", {class: "none"}, word("column.nothing"));
  }

  // detail is the picked ferrule with its section, its numbers and what was taken for granted.
  function detail(q, line) {
    const part = data.ferrules.part[line.ferrule], base = data.dims[data.forms[line.form].base];
    const figure = section.draw(q.hosel, line, q.od, words);
    const box = make("section", {class: "detail", "aria-labelledby": "detail-title"},
      make("h3", {id: "detail-title"}, word(q.head !== undefined ? "answer.details" : "answer.details_measure", {ferrule: part})));
    const steps = make("div", {class: "steps"});
    steps.append(make("p", {class: "verdict"}, verdict(line.verdict), " ", word(q.measured && line.verdict === "measure" ? "meaning.close" : "meaning." + line.verdict)));
    const list = make("dl", {class: "numbers"});
    const fact = (name, ...value) => list.append(make("div", {}, make("dt", {}, name), make("dd", {}, ...value)));
    if (line.turns) {
      for (const [name, share] of [["column.off", whole], ["column.side", lengths.half]]) {
        fact(word(name), off(line, share), ...(line.off.nominal > 0 ? [" · " + word("column.most") + " ", size(share(line.off.most))] : []));
      }
    }
    if (base) fact(word("column.base"), sizeOf(data.forms[line.form].base));
    const form = data.forms[line.form];
    if (form.bore) fact(word("column.bore"), boreText(form));
    if (form.length) fact(word("column.length"), sizeLength(form.length));
    steps.append(list, make("ul", {class: "notes"}, ...line.reasons.filter(said).map((r) => make("li", {}, sentence(line, r)))));
    const granted = data.assumptions.filter((code, i) => line.assumed >> i & 1).map((code) => word("assumed." + code));
    if (granted.length) steps.append(make("p", {class: "granted"}, word("answer.granted") + ": " + granted.join("; ") + "."));
    steps.append(make("button", {type: "button", class: "print", onclick: () => print()}, word("page.print")));
    box.append(picture(figure, q, line, part, base), steps);
    return box;
  }

  function picture(figure, q, line, part, base) {
    if (!figure) return make("p", {class: "empty"}, word("figure.none"));
    let text = word("figure.describe", {ferrule: part, od: show(q.od), base: show(base[0]), length: showLength(data.forms[line.form].length)});
    if (line.turns && line.off.nominal > 0) text += " " + word("figure.describe_off", {off: show(line.off.nominal)});
    figure.setAttribute("aria-label", text);
    return make("figure", {}, figure, make("figcaption", {}, word("figure.title")));
  }

  // ferruleAnswer is what a ferrule fits: heads, and the hosel ODs it serves.
  function ferruleAnswer(q) {
    const f = data.ferrules, form = data.forms[f.form[q.ferrule]];
    const list = make("dl", {class: "facts"});
    const fact = (name, value) => { if (value) list.append(make("div", {}, make("dt", {}, name), make("dd", {}, value))); };
    fact(word("column.ferrule"), f.description[q.ferrule]);
    fact(word("column.supplier"), data.suppliers[f.supplier[q.ferrule]]);
    fact(word("column.base"), sizeOf(form.base));
    fact(word("column.bore"), boreText(form));
    fact(word("column.length"), form.length && sizeLength(form.length));
    const parts = [list], spans = answers.windows(q.ferrule), verdicts = data.verdicts.filter(answers.fits);
    parts.push(spans.length ? table(word("answer.caption_windows"), [word("column.tip"), ...verdicts.map((v) => word("column." + v))], spans.map((s) => make("tr", {},
      make("th", {scope: "row"}, tipName(s.tip)), ...verdicts.map((v) => cell(word("column." + v), ...(s.spans[v] || []).map((span) => make("span", {class: "span"}, fromTo(span)))))))) :
      make("p", {class: "empty"}, word("answer.no_windows")));
    const all = f.fits ? f.fits[q.ferrule] : q.lines.length;
    if (all > q.lines.length) parts.push(make("p", {class: "empty"}, word("answer.more_heads", {n: all})));
    if (!all) return [...parts, make("p", {class: "empty"}, word("answer.no_heads"))];
    if (!q.lines.length) return parts;
    const lines = state.all ? q.lines : q.lines.slice(0, 40), headings = ["head", "fit", "off", "side", "od", "supplier"].map((c) => word("column." + c));
    parts.push(table(word("answer.caption_heads"), headings, lines.map((l) => make("tr", {},
      make("th", {scope: "row"}, make("button", {type: "button", class: "pick", onclick: () => toHead(l.head)}, data.heads.part[l.head]), make("small", {}, data.heads.description[l.head])),
      cell(headings[1], verdict(l.verdict)), cell(headings[2], off(l, whole)), cell(headings[3], off(l, lengths.half)),
      cell(headings[4], sizeOf(data.heads.od[l.head])), cell(headings[5], breakable(data.suppliers[data.heads.supplier[l.head]]))))));
    if (lines.length < q.lines.length) parts.push(make("button", {type: "button", class: "more", onclick: () => { state.all = true; answer(); focusPick(lines.length); }}, word("answer.show_more", {n: q.lines.length - lines.length})));
    return parts;
  }

  // fromTo shows a window with its ends rounded inward, so that what is shown is in it.
  function fromTo(span) {
    const step = metric ? 10000000 : 25400000, from = Math.ceil(span.from / step) * step, to = Math.floor(span.to / step) * step;
    return from < to ? word("answer.from_to", {from: show(from), to: show(to)}) : word("answer.from_to", {from: show(span.from), to: show(span.to)});
  }

  function toHead(head) {
    $("od").value = "";
    document.querySelector("input[name=way][value=head]").checked = true;
    choose({way: "head", head, ferrule: -1});
    $("answer-title").focus();
  }

  // The form.

  for (const which of Object.keys(searches)) arrows(which);
  for (const id of ["supplier", "category"]) $(id).addEventListener("change", () => list("head", true));
  for (const radio of document.querySelectorAll("input[name=way]")) {
    radio.addEventListener("change", () => {
      state.way = radio.value;
      Object.assign(state, {picked: null, all: false});
      remember(true);
      render();
    });
  }
  function typed() {
    Object.assign(state, {picked: null, all: false});
    remember(false);
    answer();
    announceAnswer();
  }
  $("od").addEventListener("input", typed);
  for (const id of ["tip", "top"]) $(id).addEventListener("change", typed);
  $("finder").addEventListener("submit", (event) => event.preventDefault());
  $("show-all").addEventListener("click", () => {
    const open = document.documentElement.classList.toggle("whole-shown");
    $("show-all").setAttribute("aria-expanded", open);
    $("show-all").textContent = word(open ? "page.hide_all" : "page.show_all");
  });
  addEventListener("popstate", recall);
  addEventListener("hashchange", recall);
  const usual = tipPlace(".370 parallel");
  if (usual >= 0) $("tip").value = usual;
  recall();
  document.documentElement.classList.add("js");
})();
