"use strict";
// What fits. Nothing is computed here but what comes off: verdicts stand in the data, for a measured hosel by its OD.
const answers = (() => {
  const data = JSON.parse(document.getElementById("chart-data").textContent);
  const verdicts = ["", "flush", "turn", "prep", "ask", "no", "bare"];
  const classes = {flush: 0, turn: 0, prep: 0, ask: 1, no: 2, bare: 3};
  const ferrulesOf = new Map();
  data.ferrules.form.forEach((form, ferrule) => {
    if (!ferrulesOf.has(form)) ferrulesOf.set(form, []);
    ferrulesOf.get(form).push(ferrule);
  });

  const outcomes = data.outcomes.map((o) => {
    const reasons = o.slice(2).map((r) => data.reasons[r]);
    return {verdict: verdicts[o[0]], assumed: o[1], reasons, turns: reasons.some((r) => r.code === "flush.turn")};
  });
  const fits = (verdict) => classes[verdict] === 0;

  // at returns where a course stands at a hosel OD: the outcome and the bench time in minutes.
  function at(course, od) {
    let i = 0;
    while (i + 3 <= course.length && course[i + 2] <= od) i += 3;
    const minutes = course[i + 1];
    if (!minutes) return {outcome: course[i], minutes: 0};
    const from = i === 0 ? 0 : course[i - 1], last = course[i + 2] - 1;
    const step = last > from ? (od - from) / (last - from) * 64 : 0;
    let k = 2;
    while (minutes[k] < step) k += 2;
    const share = (step - minutes[k - 2]) / (minutes[k] - minutes[k - 2]);
    return {outcome: course[i], minutes: (minutes[k - 1] + (minutes[k + 1] - minutes[k - 1]) * share) / 100};
  }

  // measured returns what becomes of every ferrule on a hosel of a measured OD, the best first, each on the tip on which it asks
  // least of the bench; or the least OD that such a hosel can have.
  function measured(hosel, tips, od) {
    const tolerance = data.limits.measured, best = [];
    for (const tip of tips) {
      const place = hosel.tips.indexOf(tip);
      if (place < 0) continue;
      const row = data.rows[hosel.rows[place]];
      if (od < row[0]) return {least: row[0]};
      if (od + tolerance > data.limits.most) return {most: true};
      for (let form = 0; form < data.forms.length; form++) {
        const found = at(data.courses[row[form + 1]], od);
        const line = {form, tip, minutes: found.minutes, ...outcomes[found.outcome]};
        line.off = offAt(form, od, od - tolerance);
        if (!best[form] || compare(line, best[form]) < 0) best[form] = line;
      }
    }
    const lines = [];
    best.sort(compare).forEach((line) => {
      for (const ferrule of ferrulesOf.get(line.form) || []) lines.push({ferrule, ...line});
    });
    return {lines};
  }

  function compare(a, b) {
    return classes[a.verdict] - classes[b.verdict] || a.minutes - b.minutes || a.off.nominal - b.off.nominal ||
      a.form - b.form || a.tip - b.tip;
  }

  // offAt is what comes off a form's base, nominally and at most, on a hosel of an OD and its lower limit.
  function offAt(form, od, least) {
    const base = data.dims[data.forms[form].base];
    if (!base || od === undefined) return {nominal: 0, most: 0};
    return {nominal: Math.max(0, base[0] - od), most: Math.max(0, base[2] - least)};
  }

  // catalogue returns what was decided for a head of the catalogue, the best first.
  function catalogue(head) {
    const flat = data.answers[data.heads.answer[head]], lines = [];
    const od = data.dims[data.heads.od[head]] || [];
    for (let i = 0; i < flat.length; i += 4) {
      const form = data.ferrules.form[flat[i]];
      lines.push({ferrule: flat[i], form, tip: flat[i + 2], minutes: flat[i + 3] / 100, ...outcomes[flat[i + 1]], off: offAt(form, od[0], od[1])});
    }
    return lines;
  }

  // heads returns the heads that a ferrule fits, the least work first.
  function heads(ferrule) {
    const found = [], form = data.ferrules.form[ferrule];
    const stands = data.answers.map((flat) => {
      for (let i = 0; i < flat.length; i += 4) if (flat[i] === ferrule) return i;
      return -1;
    });
    data.heads.answer.forEach((answer, head) => {
      const i = stands[answer];
      if (i < 0) return;
      const flat = data.answers[answer], outcome = outcomes[flat[i + 1]];
      if (!fits(outcome.verdict)) return;
      const od = data.dims[data.heads.od[head]] || [];
      found.push({head, ferrule, form, tip: flat[i + 2], minutes: flat[i + 3], ...outcome, off: offAt(form, od[0], od[1])});
    });
    return found.sort((a, b) => a.minutes - b.minutes || a.off.nominal - b.off.nominal || a.head - b.head);
  }

  // windows returns the hosel ODs that a ferrule serves on each tip, on a flat top: from, up to but not including to.
  function windows(ferrule) {
    const hosel = data.hosels[data.bench[0].hosel], form = data.ferrules.form[ferrule], found = [];
    hosel.tips.forEach((tip, place) => {
      const row = data.rows[hosel.rows[place]], course = data.courses[row[form + 1]];
      const spans = {};
      for (let i = 0; i < course.length; i += 3) {
        const verdict = outcomes[course[i]].verdict;
        if (!fits(verdict)) continue;
        const from = i === 0 ? row[0] : course[i - 1], to = course[i + 2];
        if (spans[verdict] && spans[verdict].to === from) spans[verdict].to = to;
        else spans[verdict] = {from, to};
      }
      if (Object.keys(spans).length) found.push({tip, spans});
    });
    return found;
  }

  return {data, measured, catalogue, heads, windows, fits};
})();
