"use strict";
(() => {
  const data = JSON.parse(document.getElementById("data").textContent);
  document.documentElement.classList.add("js");
  const all = (root, selector) => Array.from(root.querySelectorAll(selector));
  const option = (value, name, chosen) => new Option(name, value, chosen, chosen);

  // What is decided about each table, over the rules that it has.
  const tables = all(document, "[data-table]").map((element, i) => ({element, about: data.tables[i], plain: new Map(), columns: new Map(), rows: new Map()}));

  const put = (map, key, value) => value === null ? map.delete(key) : map.set(key, value);
  function putIn(map, name, key, value) {
    const inner = map.get(name) || new Map();
    put(inner, key, value);
    put(map, name, inner.size > 0 ? inner : null);
  }

  // fill gives a list of choices all that there are.
  function fillRoles(select, kind, chosen) {
    select.replaceChildren();
    if (chosen === "") select.append(option("", "as is found out", true));
    select.append(option("none", "not read", chosen === "none"));
    for (const role of data.roles[kind] || []) select.append(option(role.role, role.name, role.role === chosen));
  }
  function fillUnits(select) {
    const chosen = select.value;
    select.replaceChildren(option("", "unit by cell", chosen === ""));
    for (const unit of data.units) select.append(option(unit.value, unit.name, unit.value === chosen));
  }

  for (const table of tables) {
    const element = table.element, kind = element.querySelector('[data-set="kind"]');
    const roleOf = (name) => (data.roles[kind.value] || []).find((role) => role.role === name);
    const lines = all(element, "[data-column]");

    // show says of a column what was chosen, here and above the sheet.
    function show(line) {
      const role = line.querySelector('[data-set="role"]'), unit = line.querySelector('[data-set="unit"]');
      const about = roleOf(role.value), size = Boolean(about && about.length), name = role.selectedOptions[0].textContent;
      const changed = role.value !== role.dataset.was || size && unit.value !== unit.dataset.was;
      line.querySelector("label.unit").hidden = !size;
      const group = "g-" + (about ? about.group : "none");
      line.className = group + (changed ? " changed" : "");
      line.querySelector(".is").textContent = name + (size ? ", " + unit.selectedOptions[0].textContent : "");
      const chip = document.querySelector('[data-chip="' + line.id + '"]');
      if (chip === null) return;
      chip.className = "chip " + group + (changed ? " changed" : "");
      chip.replaceChildren(Object.assign(document.createElement("b"), {textContent: name}));
      if (size) chip.append(" ", Object.assign(document.createElement("i"), {textContent: unit.selectedOptions[0].textContent}));
      const at = chip.parentElement.cellIndex, rows = chip.closest("thead") === null ? [] : chip.closest("table").tBodies[0].rows;
      for (const row of rows) {
        const cell = row.cells[at];
        if (cell && /(^| )g-/.test(cell.className)) cell.className = group + (cell.classList.contains("doubt") ? " doubt" : "");
      }
    }

    for (const line of lines) {
      const role = line.querySelector('[data-set="role"]'), unit = line.querySelector('[data-set="unit"]');
      const name = line.dataset.column, heading = line.dataset.heading;
      fillRoles(role, kind.value, role.value);
      fillUnits(unit);
      role.dataset.was = role.value;
      unit.dataset.was = unit.value;
      const decide = () => {
        const about = roleOf(role.value), size = Boolean(about && about.length);
        putIn(table.columns, name, "role", role.value === "" || role.value === role.dataset.was ? null : role.value);
        putIn(table.columns, name, "unit", !size || unit.value === "" || unit.value === unit.dataset.was ? null : unit.value);
        putIn(table.columns, name, "heading", table.columns.has(name) && (table.columns.get(name).has("role") || table.columns.get(name).has("unit")) && heading !== "" ? heading : null);
        show(line);
        tell();
      };
      role.addEventListener("change", decide);
      unit.addEventListener("change", decide);
    }

    for (const control of all(element, ".whole [data-set]")) {
      const was = control.value, key = control.dataset.set;
      control.addEventListener("change", () => {
        let value = control.value.trim() === was || control.value.trim() === "" ? null : control.value.trim();
        if (key === "heading_rows" && value !== null) {
          value = value.split(/[ ,;]+/).map(Number);
          if (value.some((n) => !Number.isInteger(n) || n < 1)) {
            control.setAttribute("aria-invalid", "true");
            value = null;
          } else control.removeAttribute("aria-invalid");
        }
        put(table.plain, key, value);
        if (key === "kind") for (const line of lines) {
          const role = line.querySelector('[data-set="role"]');
          fillRoles(role, kind.value, kind.value === was ? role.dataset.was : "");
          role.dispatchEvent(new Event("change"));
        }
        tell();
      });
    }

    // An answer for a cell is kept with the part that the row is of, so that it is for no other.
    function answer(row, key, value, part) {
      putIn(table.rows, row, key, value);
      const given = table.rows.get(row);
      if (given && part) given.set("for", part);
      if (given && given.size === 1 && given.has("for")) table.rows.delete(row);
      tell();
    }
    for (const input of all(element, ".answer input")) {
      const of = input.dataset;
      input.addEventListener(of.aside ? "change" : "input", () => {
        if (of.aside) return answer(of.row, "set_aside", input.checked ? true : null, of.for);
        const typed = input.value.trim();
        input.toggleAttribute("aria-invalid", typed !== "" && Boolean(of.length) && bare(typed));
        answer(of.row, of.role, typed === "" || of.length && bare(typed) ? null : typed, of.for);
      });
    }

    const another = (name) => element.querySelector('[data-another="' + name + '"]'), problem = element.querySelector(".another .wrong"), added = element.querySelector(".added");
    another("add").addEventListener("click", () => {
      const row = another("row").value.trim(), role = another("role").value, value = another("value").value.trim(), about = roleOf(role);
      problem.textContent = !/^[1-9]\d*$/.test(row) ? "Write the number of the row." : value === "" ? "Write the value." : about && about.length && bare(value) ? "Write the size with its unit." : "";
      if (problem.textContent !== "") return;
      answer(row, role, value, "");
      const item = document.createElement("li"), drop = Object.assign(document.createElement("button"), {type: "button", className: "plain", textContent: "Take back"});
      item.append("Row " + row + ", " + (about ? about.name : role) + ": " + value + " ", drop);
      drop.addEventListener("click", () => { answer(row, role, null, ""); item.remove(); });
      added.append(item);
      another("value").value = "";
    });
  }

  // A size without a unit is no size.
  const bare = (text) => !/[0-9½¼¾⅛⅜⅝⅞]/.test(text) || !/[a-z"'″”英吋毫厘米]/i.test(text);

  // The file, as TOML 1.0 has it: basic strings, and bare keys where they may be.
  const quote = (text) => JSON.stringify(text).replace(/\u007f/g, "\\u007F");
  const key = (text) => /^[A-Za-z0-9_-]+$/.test(text) ? text : quote(text);
  const written = (value) => Array.isArray(value) ? "[" + value.join(", ") + "]" : typeof value === "string" ? quote(value) : String(value);
  const entries = (rules) => Object.keys(rules).sort().map((name) => name + " = " + written(rules[name]) + "\n").join("");
  const numbered = (a, b) => a.length - b.length || (a < b ? -1 : 1);

  function sections(name, rules) {
    const prefix = "sheets." + quote(name);
    let text = "\n[" + prefix + "]\n" + entries(rules.plain);
    for (const part of ["columns", "rows"]) {
      for (const at of Object.keys(rules[part]).sort(numbered)) text += "\n[" + prefix + "." + part + "." + key(at) + "]\n" + entries(rules[part][at]);
    }
    return text;
  }

  const over = (under, map) => {
    const merged = {...under};
    for (const [name, value] of map) merged[name] = value instanceof Map ? {...merged[name], ...Object.fromEntries(value)} : value;
    return merged;
  };

  function file() {
    const sheets = {...data.sheets}, none = {plain: {}, columns: {}, rows: {}};
    for (const table of tables) {
      if (table.plain.size + table.columns.size + table.rows.size === 0) continue;
      const under = sheets[table.about.name] || data.sheets[table.about.from] || none;
      sheets[table.about.name] = {plain: over(under.plain, table.plain), columns: over(under.columns, table.columns), rows: over(under.rows, table.rows)};
    }
    let text = "# What a person decided about these sheets. Give it to the program with --map.\n";
    if (data.categories && Object.keys(data.categories).length > 0) {
      text += "\n[categories]\n" + Object.keys(data.categories).sort().map((word) => key(word) + " = " + quote(data.categories[word]) + "\n").join("");
    }
    return text + Object.keys(sheets).sort().map((name) => sections(name, sheets[name])).join("");
  }

  const state = document.getElementById("state"), save = document.getElementById("save"), text = document.getElementById("text");
  function tell() {
    let count = 0;
    for (const table of tables) {
      count += table.plain.size;
      for (const map of [table.columns, table.rows]) for (const given of map.values()) for (const name of given.keys()) count += name === "heading" || name === "for" ? 0 : 1;
    }
    state.textContent = count === 0 ? "Nothing is decided yet." : count === 1 ? "One thing is decided." : count + " things are decided.";
    save.disabled = count === 0;
    text.closest("details").hidden = count === 0;
    text.value = file();
  }
  save.addEventListener("click", () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([file()], {type: "application/toml;charset=utf-8"}));
    link.download = save.textContent.replace(/^Save /, "");
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    state.textContent = "Saved as " + link.download + ". Give it to the next run: --map " + link.download;
  });
  tell();
})();
