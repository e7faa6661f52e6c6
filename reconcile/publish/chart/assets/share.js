"use strict";
// What a reader takes along: a link, a file of the answer.
const share = (() => {
  const {data, word, make} = say;

  // copy puts a text on the clipboard, and reports whether it could.
  async function copy(text) {
    try {
      await navigator.clipboard.writeText(text);
      return true;
    } catch {
      const field = make("textarea", {class: "aside"});
      field.value = text;
      page.top.append(field);
      field.select();
      const done = document.execCommand("copy");
      field.remove();
      return done;
    }
  }

  // csv writes rows as a spreadsheet of the reader's country opens them: with its decimal mark, and semicolons where that is a comma.
  function csv(rows) {
    const comma = data.words["number.decimal"] === ",", between = comma ? ";" : ",";
    const field = (value) => {
      if (typeof value === "number") return comma ? String(value).replace(".", ",") : String(value);
      // A text that begins like a formula stays a text.
      const text = /^[=+\-@\t\r]/.test(value) ? "'" + value : value;
      return /["\n\r;,]/.test(text) ? "\"" + text.replaceAll("\"", "\"\"") + "\"" : text;
    };
    return "\ufeff" + rows.map((row) => row.map(field).join(between)).join("\r\n") + "\r\n";
  }

  // save offers rows as a file.
  function save(name, rows) {
    const address = URL.createObjectURL(new Blob([csv(rows)], {type: "text/csv;charset=utf-8"}));
    const link = make("a", {href: address, download: name.replace(/[^\p{L}\p{N}._-]+/gu, "-") + ".csv", class: "aside"});
    page.top.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(address), 10000);
  }

  const mm = (pm) => Math.round(pm / 1e5) / 1e4, inches = (pm) => Math.round(pm / 2540) / 1e7;
  const both = (pm) => pm ? [mm(pm), inches(pm)] : ["", ""];
  const inBoth = (...names) => names.flatMap((n) => [word("column." + n) + " (mm)", word("column." + n) + " (in)"]);

  // offs is what comes off a line, nominally or, where that is nothing, at most.
  function offs(line) {
    const pm = !line.turns ? 0 : line.off.nominal || line.off.most;
    return line.turns ? [...both(pm), ...both(lengths.half(pm))] : [0, 0, 0, 0];
  }

  // rows are those of an answer.
  function rows(q, lines) {
    const f = data.ferrules, h = data.heads, priced = f.price ? ["price"] : [];
    const of = q.ferrule !== undefined || q.heads ? "heads" : "ferrules";
    const head = (l) => [h.part[l.head], h.description[l.head], say.supplierOf(h, l.head), ...both(data.dims[h.od[l.head]] && data.dims[h.od[l.head]][0])];
    const ferrule = (l) => [f.part[l.ferrule], f.description[l.ferrule], say.supplierOf(f, l.ferrule), say.colourOf(l.ferrule), ...both(data.forms[l.form].length)];
    const names = (keys) => keys.map((k) => word("column." + k));
    const titles = [...(of === "heads" ? [...names(["head", "description", "supplier"]), ...inBoth("od")] : []),
      ...names(["ferrule", "description", "supplier", "colour"]), ...inBoth("length"), word("column.fit"), ...inBoth("off", "side"), word("column.tip"), word("column.prepare"), ...names(priced)];
    return [titles, ...lines.map((l) => [...(of === "heads" ? head(l) : []), ...ferrule(l), word("verdict." + l.verdict), ...offs(l), say.tipName(l.tip),
      tables.noteTexts(l).join(" "), ...priced.map(() => f.price[l.ferrule] || "")])];
  }

  return {copy, save, rows, csv};
})();
