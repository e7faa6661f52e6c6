"use strict";
// The list at the bench: what is ticked off and typed is kept in this browser, and nowhere else.
(() => {
  const bench = document.getElementById("bench"), paper = document.querySelectorAll(".paper .hosel");
  const step = Number(bench.dataset.step), limit = Number(bench.dataset.limit), inch = bench.dataset.units !== "mm";
  const key = "turn list " + bench.dataset.list;
  const pieces = [...document.querySelectorAll(".pieces > li")];
  const far = lengths.perMM / 2; // further from its sheet, a hosel is another one, or misread
  const show = inch ? lengths.inches : lengths.mm;
  const finest = inch ? [12700000, 2540000] : [10000000, 1000000]; // what calipers show, or finer

  // inward rounds a range inward to what calipers show.
  function inward(from, to) {
    for (const grid of finest) {
      const low = Math.ceil(from / grid) * grid, high = Math.floor(to / grid) * grid;
      if (low < high) return [low, high];
    }
    return [from, to];
  }

  const number = (text) => text.replace(/\u00a0.*/, "");

  // advice says what to do with a hosel that measures so much, {loud, rest, wrong}.
  function advice(hosel, piece) {
    const joint = piece.closest(".joint"), base = Number(joint.dataset.base), off = base - hosel;
    const [from, to] = inward(hosel, hosel + step);
    const apart = Math.abs(hosel - Number(joint.dataset.hosel));
    const doubt = apart > far ? "That is " + show(apart) + " from the size on the sheet: measure again, or look for the right head. " : "";
    if (off < -step) return {loud: "Do not fit: too small", rest: doubt + "The ferrule as supplied is " + show(-off) + " under this hosel. Take a larger one.", wrong: true};
    if (off <= step) return {loud: "Nothing to turn", rest: doubt + "The ferrule as supplied ends flush with this hosel.", wrong: doubt !== ""};
    const work = "Take off " + show(off) + " on the diameter, " + show(lengths.half(off)) + " per side.";
    const much = off > limit ? " That is more than the shop turns." : "";
    return {loud: "Stop between " + number(show(from)) + " and " + show(to), rest: doubt + work + much, wrong: doubt + much !== ""};
  }

  const troubles = {
    unit: "Say whether that is in or mm.", number: "That is not a size. Type it like 12.91 mm or .508 in.",
    ambiguous: "Is the comma a decimal one? Type a point.", fine: "That is finer than anything measures.", range: "That is no hosel.",
  };

  // look shows what a piece asks for now.
  function look(piece) {
    const input = piece.querySelector("input[type=text]"), out = piece.querySelector("output"), read = lengths.parse(input.value);
    let said = {loud: "", rest: "", wrong: false};
    if (read.error) said = {loud: "Not read", rest: troubles[read.error], wrong: true};
    else if (!read.empty && read.pm <= 0) said = {loud: "Not read", rest: troubles.range, wrong: true};
    else if (!read.empty) said = advice(read.pm, piece);
    out.replaceChildren();
    if (said.loud) {
      const loud = document.createElement("strong");
      loud.textContent = said.loud;
      out.append(loud, " " + said.rest);
    }
    out.classList.toggle("wrong", said.wrong);
    input.setAttribute("aria-invalid", String(Boolean(read.error)));
    paper[pieces.indexOf(piece)].textContent = read.pm > 0 ? show(read.pm) : "";
  }

  const readingOf = (piece) => lengths.parse(piece.querySelector("input[type=text]").value).pm || 0;

  // field is a text as a field of CSV, neutral where a spreadsheet program would take it for a formula.
  function field(text) {
    if (/^[ \u00a0]*[=+\-@\t\r\n＝＋－＠]/.test(text)) text = "'" + text;
    return /[",\r\n]|^\s/.test(text) ? "\"" + text.replace(/"/g, "\"\"") + "\"" : text;
  }

  // csv is the readings as a sheet that --measured reads.
  function csv() {
    const rows = [["part", "supplier", "measured", "reading (mm)"]];
    for (const piece of pieces) {
      const pm = readingOf(piece), d = piece.dataset;
      if (pm > 0) rows.push([d.part, d.supplier, d.measured, lengths.exact(pm, lengths.perMM, 9)]);
    }
    return rows.map((row) => row.map(field).join(",") + "\r\n").join("");
  }

  function count() {
    const done = pieces.filter((p) => p.querySelector("input[type=checkbox]").checked).length;
    const read = pieces.filter((p) => readingOf(p) > 0).length;
    document.getElementById("count").textContent = done + " of " + pieces.length + " done, " + read + " measured";
    document.getElementById("save").disabled = read === 0;
    document.getElementById("text").value = csv();
    for (const joint of document.querySelectorAll(".joint")) {
      joint.classList.toggle("done", [...joint.querySelectorAll("input[type=checkbox]")].every((box) => box.checked));
    }
  }

  function keep() {
    try {
      localStorage.setItem(key, JSON.stringify(pieces.map((p) => [p.querySelector("input[type=checkbox]").checked, p.querySelector("input[type=text]").value])));
    } catch {
      document.getElementById("lost").hidden = false;
    }
  }

  function recall() {
    let kept = null;
    try {
      kept = JSON.parse(localStorage.getItem(key));
    } catch {
      document.getElementById("lost").hidden = false;
    }
    if (!Array.isArray(kept) || kept.length !== pieces.length) return;
    pieces.forEach((piece, i) => {
      if (!Array.isArray(kept[i])) return;
      piece.querySelector("input[type=checkbox]").checked = kept[i][0] === true;
      piece.querySelector("input[type=text]").value = String(kept[i][1]);
    });
  }

  function save() {
    const link = document.createElement("a"), now = new Date();
    const day = [now.getFullYear(), String(now.getMonth() + 1).padStart(2, "0"), String(now.getDate()).padStart(2, "0")].join("-");
    link.href = URL.createObjectURL(new Blob([csv()], {type: "text/csv;charset=utf-8"}));
    link.download = "readings-" + day + ".csv";
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    document.getElementById("saved").textContent = "Saved as " + link.download + ". Give it to the next run: --measured " + link.download;
  }

  // Asked twice: a day's readings are not to be lost by one touch.
  const clear = document.getElementById("clear"), ask = clear.textContent;
  function forget() {
    if (clear.dataset.sure !== "yes") {
      clear.dataset.sure = "yes";
      clear.textContent = "Press again to clear all";
      return;
    }
    calm();
    for (const input of document.querySelectorAll(".pieces input")) {
      input.checked = false;
      if (input.type === "text") input.value = "";
    }
    pieces.forEach(look);
    count();
    keep();
  }
  function calm() {
    clear.dataset.sure = "";
    clear.textContent = ask;
  }

  // A caliper that types ends with Enter, or with Tab, which goes on by itself.
  bench.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || event.target.type !== "text") return;
    event.preventDefault();
    const inputs = [...document.querySelectorAll(".pieces input[type=text]")], next = inputs[inputs.indexOf(event.target) + 1];
    if (next) {
      next.focus();
      next.select();
    }
  });
  bench.addEventListener("input", (event) => {
    const piece = event.target.closest(".pieces > li");
    if (piece) {
      look(piece);
      count();
      keep();
    }
  });
  document.getElementById("save").addEventListener("click", save);
  clear.addEventListener("click", forget);
  clear.addEventListener("blur", calm);
  document.documentElement.classList.add("js");
  recall();
  pieces.forEach(look);
  count();
})();
