"use strict";
// Answers as tables, and the ferrule that is picked with its section and its numbers.
const tables = (() => {
  const {data, word, rich, make, button, part, size, sizeLength, sizeOf, verdict, facts} = say;

  // table returns a table that may be wider than the page. It can be moved by the keyboard: where no row has a button, the box around
  // it takes the focus.
  function table(caption, headings, rows) {
    const box = rows.some((r) => r.querySelector("button")) ? {class: "sheet"} : {class: "sheet", role: "group", tabindex: 0, "aria-label": caption};
    return make("div", box, make("table", {}, make("caption", {}, caption),
      make("thead", {}, make("tr", {}, ...headings.map((h) => make("th", {scope: "col"}, h)))), make("tbody", {}, ...rows)));
  }

  // cell names its column, for narrow screens where a row is a card.
  const cell = (name, ...content) => make("td", {"data-key": name}, ...content);

  const whole = (pm) => pm;
  // off shows what comes off, on the diameter or by half: that of the usual joint, or where that is nothing, the most.
  function off(line, share) {
    if (!line.turns) return make("span", {class: "none"}, word("column.nothing"));
    if (line.off.nominal > 0) return size(share(line.off.nominal));
    return make("span", {}, word("column.most") + " ", size(share(line.off.most)));
  }

  // parts writes a share as so many of ten or of a hundred, which is never none nor all.
  const parts = (share, of) => say.count(Math.min(of - 1, Math.max(1, Math.round(share * of))));

  function sentence(line, r) {
    const blank = (pm) => (r.axial ? say.showLength : say.show)(pm || 0), share = answers.share(line, r);
    return word("reason." + r.word, {
      size: blank(r.size), other: blank(r.other), limit: blank(r.limit), most: say.show(line.off.most), field: word("field." + r.field),
      ten: parts(share, 10), hundred: parts(share, 100),
    });
  }

  // said reports whether a reason has a sentence besides what the numbers say; that a ferrule holds is told in the detail only.
  const said = (r) => r.code !== "flush.turn" || r.share > 0;
  function noteTexts(line) {
    const texts = line.reasons.filter((r) => said(r) && r.code !== "grip.holds").map((r) => sentence(line, r));
    if (answers.fits(line.verdict) && !data.forms[line.form].length) texts.push(word("reason.data.missing", {field: word("field.length of the ferrule")}));
    return texts;
  }
  function notes(line, as) {
    const texts = noteTexts(line);
    if (as === "ul") return make("ul", {class: "notes"}, ...texts.map((t) => make("li", {}, t)));
    return texts.length ? make("span", {class: "notes"}, texts.join(" ")) : make("span", {class: "none"}, word("column.nothing"));
  }

  // extra are the seller's own columns of a ferrule.
  const extra = {
    supplier: (l) => say.breakable(say.supplierOf(data.ferrules, l.ferrule)),
    length: (l) => data.forms[l.form].length ? sizeLength(data.forms[l.form].length) : "",
    base: (l) => sizeOf(data.forms[l.form].base),
    bore: (l) => say.boreText(data.forms[l.form]),
    colour: (l) => say.colourOf(l.ferrule),
    minutes: (l) => l.minutes ? word("column.min", {n: say.count(Math.round(l.minutes))}) : "",
    price: (l) => priceOf(l.ferrule),
  };
  const priceOf = (ferrule) => data.ferrules.price && data.ferrules.price[ferrule] ? say.price(data.ferrules.price[ferrule]) : "";

  // ferrules lists those that fit, from the first to the most that are shown; best is the one that asks least, where there is one.
  function ferrules(q, lines, picked, best, most, pick) {
    const severalTips = q.tips.length > 1, columns = data.columns.filter((c) => c !== "supplier" || lines.some((l) => say.supplierOf(data.ferrules, l.ferrule)));
    const headings = [word("column.ferrule"), word("column.fit"), word("column.off"), word("column.side"), word("column.prepare"),
      ...(severalTips ? [word("column.tip")] : []), ...columns.map((c) => word("column." + c))];
    const rows = lines.slice(0, most).map((line) => make("tr", {class: line === picked ? "picked" : false},
      make("th", {scope: "row"}, button("pick", part(data.ferrules.part[line.ferrule]), () => pick(line.ferrule), {"aria-pressed": String(line === picked)}),
        line === best ? make("span", {class: "badge"}, word("answer.best")) : null, make("small", {}, data.ferrules.description[line.ferrule])),
      cell(headings[1], verdict(line.verdict)), cell(headings[2], off(line, whole)), cell(headings[3], off(line, lengths.half)),
      cell(headings[4], notes(line, "span")), severalTips ? cell(word("column.tip"), say.tipName(line.tip)) : null,
      ...columns.map((c) => make("td", {class: "extra", "data-key": word("column." + c)}, extra[c](line) || ""))));
    const some = lines.some((l) => l.verdict === "measure"), caption = !answers.serves(lines[0].verdict) ? "answer.caption_only" : some ? "answer.caption_some" : "answer.caption";
    return table(word(caption), headings, rows);
  }

  // plain lists what does not fit or cannot be decided, with the reasons.
  function plain(lines, caption) {
    return table(caption, [word("column.ferrule"), word("column.fit"), word("column.prepare")], lines.slice(0, 200).map((line) => make("tr", {},
      make("th", {scope: "row"}, part(data.ferrules.part[line.ferrule]), " ", make("small", {}, data.ferrules.description[line.ferrule])),
      cell(word("column.fit"), verdict(line.verdict)), cell(word("column.prepare"), notes(line, "span")))));
  }

  // together parts lines about heads into those that have everything in common but the head: a set is one row.
  function together(lines, key) {
    const rows = new Map();
    for (const line of lines) {
      const k = key(line);
      if (!rows.has(k)) rows.set(k, []);
      rows.get(k).push(line);
    }
    return [...rows.values()];
  }

  // headNames are heads to choose from, each with what it is where the one before is not the same.
  function headNames(heads, to) {
    let described = "";
    return make("th", {scope: "row"}, ...heads.flatMap((head) => {
      const is = data.heads.description[head], same = is === described;
      described = is;
      return [button("pick", part(data.heads.part[head]), () => to(head)), " ", same ? null : make("small", {}, is + " ")];
    }));
  }

  // compact lists heads with their best ferrules, those of a set in one row.
  function compact(heads, caption, to, toFerrule) {
    const h = data.heads, name = (c) => word("column." + c), columns = ["head", "od", "tip", "best", "fit", "off", "side"].map(name);
    const rows = together(heads, (i) => [h.od[i], h.tips[i], h.answer[i], h.hosel[i]].join()).map((same) => {
      const [line] = answers.catalogue(same[0], 1), fits = line && answers.fits(line.verdict);
      const ferrule = line && line.verdict !== "bare" ? data.ferrules.part[line.ferrule] : "";
      return make("tr", {}, headNames(same, to), cell(columns[1], sizeOf(h.od[same[0]])),
        cell(columns[2], fits ? say.tipName(line.tip) : data.tipSets[h.tips[same[0]]].map(say.tipName).join(", ")),
        cell(columns[3], fits ? button("pick", part(ferrule), () => toFerrule(line.ferrule)) : line && line.verdict === "no" ? make("span", {}, ...rich("answer.nearest", {ferrule: part(ferrule)})) : ""),
        cell(columns[4], verdict(line ? line.verdict : "no")), cell(columns[5], fits ? off(line, whole) : ""), cell(columns[6], fits ? off(line, lengths.half) : ""));
    });
    return table(caption, columns, rows);
  }

  // folded shows something only once it is asked for.
  function folded(summary, content) {
    const d = make("details", {}, make("summary", {}, summary));
    d.addEventListener("toggle", () => { if (d.open && d.children.length === 1) d.append(content()); });
    return d;
  }

  // numbers are those of a ferrule on a hosel.
  function numbers(line) {
    const form = data.forms[line.form];
    const most = (share) => line.turns && line.off.nominal > 0 ? [" · " + word("column.most") + " ", size(share(line.off.most))] : [];
    return [
      ["column.off", line.turns && [off(line, whole), ...most(whole)]], ["column.side", line.turns && [off(line, lengths.half), ...most(lengths.half)]],
      ["column.base", [sizeOf(form.base)]], ["column.bore", [say.boreText(form)]], ["column.length", [form.length && sizeLength(form.length)]],
      ["column.style", [say.styleName(form.style)]], ["column.colour", [say.colourOf(line.ferrule)]], ["column.price", [priceOf(line.ferrule)]],
    ];
  }

  const meaning = (q, line) => word(q.measured && line.verdict === "measure" ? "meaning.close" : "meaning." + line.verdict);

  // detail is the picked ferrule with its section, its numbers and what was taken for granted.
  function detail(q, line, ...tools) {
    const text = data.ferrules.part[line.ferrule];
    const granted = data.assumptions.filter((code, i) => line.assumed >> i & 1).map((code) => word("assumed." + code));
    const steps = make("div", {class: "steps"}, make("p", {class: "verdict"}, verdict(line.verdict), " ", meaning(q, line)),
      facts("numbers", numbers(line).filter(([, value]) => value).map(([name, value]) => [word(name), ...value])),
      make("ul", {class: "notes"}, ...line.reasons.filter(said).map((r) => make("li", {}, sentence(line, r)))),
      granted.length ? make("p", {class: "granted"}, word("answer.granted", {what: granted.join(word("answer.granted_next"))})) : null, ...tools);
    return make("section", {class: "detail", "aria-labelledby": "detail-title"},
      make("h3", {id: "detail-title"}, ...rich(q.head !== undefined ? "answer.details" : "answer.details_measure", {ferrule: part(text)})), picture(q, line), steps);
  }

  // beside puts two ferrules next to each other, row by row.
  function beside(q, lines) {
    const name = (l) => data.ferrules.part[l.ferrule], rows = [];
    const row = (heading, values) => { if (values.some(Boolean)) rows.push(make("tr", {}, make("th", {scope: "row"}, heading), ...values.map((v, i) => make("td", {"data-key": name(lines[i])}, ...[v || ""].flat())))); };
    row(word("figure.title"), lines.map((l) => picture(q, l)));
    row(word("column.fit"), lines.map((l) => verdict(l.verdict)));
    const all = lines.map(numbers);
    all[0].forEach(([heading], i) => row(word(heading), all.map((n) => n[i][1] && n[i][1].filter(Boolean)).map((v) => v && v.length ? v : "")));
    row(word("column.supplier"), lines.map((l) => say.supplierOf(data.ferrules, l.ferrule)));
    row(word("column.prepare"), lines.map((l) => notes(l, "span")));
    const box = table(word("compare.title"), [word("column.ferrule"), ...lines.map((l) => part(name(l)))], rows);
    box.classList.add("beside");
    return box;
  }

  function picture(q, line) {
    const figure = section.draw(q.hosel, line, q.od, data.words), form = data.forms[line.form], base = data.dims[form.base];
    if (!figure) return make("p", {class: "empty"}, word("figure.none"));
    let text = word("figure.describe", {ferrule: data.ferrules.part[line.ferrule], od: say.show(q.od), base: say.show(base[0]), length: say.showLength(form.length)});
    if (line.turns && line.off.nominal > 0) text += " " + word("figure.describe_off", {off: say.show(line.off.nominal)});
    figure.setAttribute("aria-label", text);
    return make("figure", {}, figure, make("figcaption", {}, word("figure.title")));
  }

  return {table, cell, off, whole, notes, noteTexts, ferrules, plain, together, headNames, compact, folded, detail, beside, priceOf};
})();
