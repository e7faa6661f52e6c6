"use strict";
// Words, elements and sizes, as the reader has them.
const say = (() => {
  const {data} = answers, words = data.words;
  const categories = ["", "driver", "fairway", "hybrid", "iron", "wedge", "putter", "chipper"];
  const tops = ["unknown", "flat", "rounded", "countersunk", "counterbored", "sleeve"];
  const styles = ["", "plain", "collared", "stepped"];
  let metric = data.units === "mm";

  function word(key, blanks = {}) {
    return (words[key] || "").replace(/\{(\w+)\}/g, (whole, name) => name in blanks ? blanks[name] : whole);
  }

  // rich is word with elements in the blanks.
  function rich(key, blanks) {
    return (words[key] || "").split(/(\{\w+\})/).map((piece) => blanks[piece.slice(1, -1)] || piece);
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
  const button = (cls, text, onclick, more) => make("button", {type: "button", class: cls || false, onclick, ...more}, text);

  const count = (n) => n.toLocaleString(data.language);
  const many = (key, n) => n === 1 ? word(key + "_one") : word(key + "_many", {n: count(n)});
  const price = (n) => n.toLocaleString(data.language, {style: "currency", currency: data.currency});

  // part is a part number, which is never broken: not at its hyphens either. One that is longer than a line has to be.
  const part = (text) => make("span", {class: text.length > 22 ? "part long" : "part"}, text);

  // units are the reader's: mm, in, or frac for lengths in fractions of an inch.
  const units = () => metric ? "mm" : data.units === "mm" ? "in" : data.units;
  const useMetric = (is) => { metric = is; };
  // pair returns a length in both units, the reader's first.
  const pair = (pm, inches) => metric ? [lengths.mm(pm), inches] : [inches, lengths.mm(pm)];
  const along = (pm) => lengths.along(pm, data.units);
  const join = ([first, second]) => first + " (" + second + ")";
  const show = (pm) => join(pair(pm, lengths.inches(pm)));
  const showLength = (pm) => join(pair(pm, along(pm))); // along the axis
  const brief = (pm) => pair(pm, lengths.inches(pm))[0];
  const briefLength = (pm) => pair(pm, along(pm))[0];

  // size shows a length in both units, the other below the reader's; sizeLength shows one along the axis.
  const size = (pm) => stacked(pair(pm, lengths.inches(pm)));
  const sizeLength = (pm) => stacked(pair(pm, along(pm)));
  function stacked(both) {
    return make("span", {class: "size"}, both[0], " ", make("small", {}, "(" + both[1] + ")"));
  }

  const tipText = (name) => name.replace(/ (parallel|taper|profile)$/, (form) => " " + word("tip." + form.trim()));
  const tipName = (tip) => tipText(data.tips[tip].name) || word("tip.unknown");
  // boreText is the bore of a ferrule, or the tip that it is known by.
  const boreText = (form) => form.forTip ? word("column.for_tip", {tip: tipText(form.forTip)}) : form.bore ? size(form.bore) : "";
  const categoryName = (category) => word("category." + (categories[category] || "other"));
  const topName = (top) => word("top." + tops[top]);
  const styleName = (style) => styles[style] ? word("style." + styles[style]) : "";
  const verdict = (v) => make("b", {class: "v " + v}, word("verdict." + v));
  const supplierOf = (list, i) => data.suppliers[list.supplier[i]];
  const colourOf = (ferrule) => data.colours[data.ferrules.colour[ferrule]];

  // sizeOf shows a dimension of a part, and says where readings gave it.
  const measuredDims = new Set(data.dimsMeasured);
  function sizeOf(dim) {
    if (!data.dims[dim]) return "";
    return make("span", {}, size(data.dims[dim][0]), measuredDims.has(dim) ? " " + word("answer.measured") : "");
  }

  // breakable lets a long name that has no spaces go on in the next line where its words part.
  function breakable(text) {
    const e = make("span");
    for (const piece of text.split(/(?<=[_.\/])/)) e.append(piece, make("wbr"));
    return e;
  }

  // facts is a list of what is known of something; nothing is left out silently but what is not known.
  function facts(cls, all) {
    const list = make("dl", {class: cls});
    for (const [name, ...value] of all) if (value[0]) list.append(make("div", {}, make("dt", {}, name), make("dd", {}, ...value)));
    return list;
  }

  return {
    data, categories, tops, word, rich, make, button, count, many, price, part, units, useMetric, metric: () => metric, show, showLength, brief, briefLength, size, sizeLength,
    tipName, boreText, categoryName, topName, styleName, verdict, supplierOf, colourOf, sizeOf, breakable, facts,
  };
})();
