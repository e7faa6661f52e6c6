"use strict";
// What was chosen; everything that is shown follows from it, and the address holds it, so that it can be shared.
const state = (() => {
  const {data} = answers, $ = (id) => page.root.getElementById(id);
  // beside is a ferrule to compare with the one that is picked; order is what is to be ordered, ferrules and pieces.
  const chosen = {way: "head", head: -1, ferrule: -1, picked: null, beside: null, all: false, order: new Map()};
  const filters = ["only-tip", "only-length", "only-colour", "only-style"], selects = ["supplier", "category", ...filters];
  const fresh = () => Object.assign(chosen, {picked: null, beside: null, all: false});

  // name tells parts of one number apart by who makes them, or by which of them it is.
  function name(parts, key, list, i) {
    parts.set(key, list.part[i]);
    const same = list.part.flatMap((p, k) => p === list.part[i] ? [k] : []);
    if (same.length > 1) parts.set("by", data.suppliers[list.supplier[i]] || String(same.indexOf(i)));
  }

  function place(parts, list, part) {
    const by = parts.get("by"), same = list.part.flatMap((p, k) => p === part ? [k] : []);
    const found = same.find((k) => data.suppliers[list.supplier[k]] === by);
    return found !== undefined ? found : same[Number(by)] !== undefined ? same[Number(by)] : same.length ? same[0] : -1;
  }

  // written is the choice as it stands in an address.
  function written() {
    const parts = new URLSearchParams(), typed = $("od").value.trim();
    if (chosen.way === "head" && chosen.head >= 0) name(parts, "head", data.heads, chosen.head);
    if (chosen.way === "ferrule" && chosen.ferrule >= 0) name(parts, "ferrule", data.ferrules, chosen.ferrule);
    if (chosen.way !== "ferrule" && typed !== "") parts.set("od", typed);
    if (chosen.way === "measure") {
      parts.set("tip", data.tips[$("tip").value].name);
      parts.set("top", say.tops[data.bench[$("top").value].top]);
    }
    if (chosen.way === "head" && chosen.head < 0) {
      if ($("supplier").value !== "") parts.set("supplier", data.suppliers[$("supplier").value]);
      if ($("category").value !== "") parts.set("kind", say.categories[$("category").value] || "other");
    }
    for (const id of filters) if ($(id).value !== "") parts.set(id, $(id).selectedOptions[0].dataset.name);
    if (chosen.order.size) parts.set("order", [...chosen.order].map(([ferrule, n]) => data.ferrules.part[ferrule] + "*" + n).join(" "));
    if (say.metric() !== (data.units === "mm")) parts.set("units", say.metric() ? "mm" : "in");
    return parts.toString();
  }

  // remember puts the choice into the address. A choice is a step back; typing is not. The address of a seller's page is left alone.
  function remember(step) {
    const address = "#" + written();
    if (page.embedded || address === location.hash || address === "#" && location.hash === "") return;
    if (step) history.pushState(null, "", address);
    else history.replaceState(null, "", address);
  }

  // mark begins what an address in a seller's page holds for the chart.
  const mark = page.embedded ? "fit-chart:" : "";
  const link = () => location.href.replace(/#.*/s, "") + "#" + mark + written();

  // tipPlace finds a tip by its name, or by the size at the name's end.
  function tipPlace(name) {
    const exact = data.tips.findIndex((t) => t.name === name);
    return exact >= 0 ? exact : data.tips.findIndex((t) => name !== "" && t.name.endsWith(name));
  }

  // recall takes the choice from the address.
  function recall() {
    const hash = location.hash.slice(1), parts = new URLSearchParams(hash.startsWith(mark) ? hash.slice(mark.length) : "");
    $("od").value = parts.get("od") || "";
    chosen.head = parts.has("head") ? place(parts, data.heads, parts.get("head")) : -1;
    chosen.ferrule = parts.has("ferrule") ? place(parts, data.ferrules, parts.get("ferrule")) : -1;
    chosen.way = chosen.ferrule >= 0 ? "ferrule" : chosen.head < 0 && (parts.has("od") || parts.has("tip")) ? "measure" : "head";
    const tip = parts.has("tip") ? tipPlace(parts.get("tip")) : -1;
    if (tip >= 0) $("tip").value = tip;
    const top = data.bench.findIndex((b) => say.tops[b.top] === parts.get("top"));
    if (top >= 0) $("top").value = top;
    for (const id of selects) {
      const wanted = parts.get(id === "category" ? "kind" : id);
      $(id).value = wanted === null ? "" : ([...$(id).options].find((o) => o.dataset.name === wanted) || {value: ""}).value;
    }
    chosen.order = new Map();
    for (const [, part, n] of (parts.get("order") || "").matchAll(/(.+?)\*(\d{1,5})(?: |$)/g)) {
      const ferrule = data.ferrules.part.indexOf(part);
      if (ferrule >= 0 && Number(n) > 0) chosen.order.set(ferrule, Number(n));
    }
    say.useMetric((parts.get("units") || data.units) === "mm");
    fresh();
  }

  return {$, chosen, filters, fresh, remember, recall, link, tipPlace};
})();
