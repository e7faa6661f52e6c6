"use strict";
// The list of pieces to order. It stands in the address, so that who gets the link has it.
const order = (() => {
  const {data, word, make, button, part} = say, {$, chosen} = state;

  function set(ferrule, pieces) {
    if (pieces > 0) chosen.order.set(ferrule, Math.min(99999, pieces));
    else chosen.order.delete(ferrule);
    state.remember(false);
  }

  // adder is the field and the button that put a ferrule on the list.
  function adder(ferrule, announce) {
    const field = make("input", {type: "number", min: 1, max: 99999, value: 1, id: "pieces", inputmode: "numeric"});
    return make("p", {class: "adder"}, make("label", {for: "pieces"}, word("order.pieces")), field, button("more", word("order.add"), () => {
      const n = Math.floor(Number(field.value)) || 0;
      if (n < 1) return;
      set(ferrule, (chosen.order.get(ferrule) || 0) + n);
      show();
      announce(word("order.added", {n: say.count(n), ferrule: data.ferrules.part[ferrule]}));
    }));
  }

  // show shows the list where there is something on it.
  function show() {
    const lines = [...chosen.order];
    $("order").hidden = lines.length === 0;
    const f = data.ferrules, priced = f.price, headings = ["ferrule", "pieces", ...(priced ? ["price", "sum"] : []), "remove"].map((c) => word("column." + c));
    const rows = lines.map(([ferrule, n]) => {
      const input = make("input", {type: "number", min: 1, max: 99999, value: n, inputmode: "numeric", "aria-label": word("order.pieces_of", {ferrule: f.part[ferrule]})});
      input.addEventListener("change", () => { set(ferrule, Math.floor(Number(input.value)) || 0); show(); });
      const sum = priced && f.price[ferrule] ? say.price(f.price[ferrule] * n) : "";
      return make("tr", {}, make("th", {scope: "row"}, part(f.part[ferrule]), make("small", {}, [f.description[ferrule], say.colourOf(ferrule), say.supplierOf(f, ferrule)].filter(Boolean).join(" · "))),
        tables.cell(headings[1], input, make("span", {class: "on-paper"}, say.count(n))),
        ...(priced ? [tables.cell(headings[2], tables.priceOf(ferrule)), tables.cell(headings[3], sum)] : []),
        make("td", {class: "screen"}, button("more", word("order.remove"), () => { set(ferrule, 0); show(); $("order-title").focus(); }, {"aria-label": word("order.remove_it", {ferrule: f.part[ferrule]})})));
    });
    const total = priced ? lines.reduce((sum, [ferrule, n]) => sum + (f.price[ferrule] || 0) * n, 0) : 0;
    $("order-body").replaceChildren(...(lines.length ? [tables.table(word("order.caption", {n: say.count(lines.reduce((sum, [, n]) => sum + n, 0))}), headings, rows)] : []),
      ...(total ? [make("p", {class: "total"}, word("order.total", {sum: say.price(Math.round(total * 100) / 100)}))] : []));
  }

  function save() {
    const f = data.ferrules, priced = f.price;
    share.save(word("order.title"), [["ferrule", "description", "supplier", "pieces", ...(priced ? ["price"] : [])].map((c) => word("column." + c)),
      ...[...chosen.order].map(([ferrule, n]) => [f.part[ferrule], f.description[ferrule], say.supplierOf(f, ferrule), n, ...(priced ? [f.price[ferrule] || ""] : [])])]);
  }

  // printList prints the list and nothing else.
  function printList() {
    page.top.classList.add("only-order");
    print();
    page.top.classList.remove("only-order");
  }

  function clear() {
    chosen.order.clear();
    state.remember(false);
    show();
  }

  $("order-print").addEventListener("click", printList);
  $("order-save").addEventListener("click", save);
  $("order-clear").addEventListener("click", clear);
  return {adder, show};
})();
