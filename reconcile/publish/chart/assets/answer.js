"use strict";
// What fits. Nothing is computed here but what comes off: verdicts stand in the data, for a measured hosel by its OD.
const answers = (() => {
  const data = page.data;
  // classes put what serves whichever piece comes before what suits some pieces, that before questions, and those before what does not fit.
  const classes = {flush: 0, turn: 0, prep: 0, measure: 1, ask: 2, no: 3, bare: 4};
  lengths.inWords(data.words["length.under"], data.words["number.decimal"]);
  const ferrulesOf = new Map();
  data.ferrules.form.forEach((form, ferrule) => {
    if (!ferrulesOf.has(form)) ferrulesOf.set(form, []);
    ferrulesOf.get(form).push(ferrule);
  });

  const outcomes = data.outcomes.map((o) => {
    const reasons = o.slice(3).map((r) => data.reasons[r]);
    return {verdict: data.verdicts[o[0]], assumed: o[1], oneSize: o[2] === 1, reasons, turns: reasons.some((r) => r.code === "flush.turn")};
  });
  // course is what becomes of a ferrule as the hosel's OD grows: outcome, bench time, the OD at which the next begins, outcome, and so on.
  const courses = [];
  function course(i) {
    if (!courses[i]) {
      const [shape, ...along] = data.courses[i], stretches = data.shapes[shape];
      courses[i] = along.flatMap((outcome, k) => k === 0 ? [outcome, stretches[0]] : [stretches[2 * k - 1], outcome, stretches[2 * k]]);
    }
    return courses[i];
  }

  const serves = (verdict) => classes[verdict] === 0;
  const fits = (verdict) => classes[verdict] <= 1;

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
        const found = at(course(row[form + 1]), od);
        const line = {form, tip, minutes: found.minutes, ...outcomes[found.outcome]};
        line.off = offAt(form, [od, od - tolerance, od + tolerance], false);
        line.measured = od;
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

  // middle is where the usual piece is between its limits.
  const middle = (dim) => lengths.half(dim[1] + dim[2]);

  // offAt is what comes off a form's base on a hosel, nominally and at most. One size stated twice has nothing to come off nominally.
  function offAt(form, hosel, oneSize) {
    const base = data.dims[data.forms[form].base];
    if (!base || !hosel) return {nominal: 0, most: 0};
    const over = middle(base) - middle(hosel), moved = oneSize ? -over : 0;
    return {nominal: Math.max(0, over + moved), most: Math.max(0, base[2] - hosel[1] + moved)};
  }

  // smaller is the share of joints of a line's base with the hosel that was measured in which base - hosel is less than a size.
  function smaller(line, size) {
    const form = data.forms[line.form];
    return below(data.spreads[form.spread], size - (middle(data.dims[form.base]) - line.measured));
  }

  // below is the share of a spread that lies below a difference from its middle.
  function below(spread, difference) {
    const shares = spread.below, last = shares.length - 1, at = difference - spread.from;
    if (at <= 0) return 0;
    if (at >= last * spread.step) return 1;
    const i = Math.floor(at / spread.step), rest = at / spread.step - i;
    return (shares[i] + (shares[i + 1] - shares[i]) * rest) / 10000;
  }

  // share is the share of joints that a reason's sentence speaks of: as it stands in the data, or by the OD that was measured.
  function share(line, reason) {
    if (reason.share || line.measured === undefined) return reason.share || 0;
    switch (reason.code) {
      case "flush.as-supplied": return smaller(line, -data.limits.flushStep) + 1 - smaller(line, data.limits.flushStep);
      case "flush.undersize": return 1 - smaller(line, -data.limits.flushStep);
      case "flush.turn-limit": return reason.level === 0 ? 1 - smaller(line, data.limits.turnLimit) : smaller(line, data.limits.turnLimit);
    }
    return 0;
  }

  // catalogue returns what was decided for a head of the catalogue, the best first, or the best of it.
  function catalogue(head, most = Infinity) {
    const flat = data.answers[data.heads.answer[head]], lines = [];
    const od = data.dims[data.heads.od[head]];
    for (let i = 0; i < Math.min(flat.length, 4 * most); i += 4) {
      const form = data.ferrules.form[flat[i]], outcome = outcomes[flat[i + 1]];
      lines.push({ferrule: flat[i], form, tip: flat[i + 2], minutes: flat[i + 3] / 100, ...outcome, off: offAt(form, od, outcome.oneSize)});
    }
    return lines;
  }

  // heads returns the heads that a ferrule fits, the least work first; those of which it suits some pieces come last.
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
      const od = data.dims[data.heads.od[head]];
      found.push({head, ferrule, form, tip: flat[i + 2], minutes: flat[i + 3], ...outcome, off: offAt(form, od, outcome.oneSize)});
    });
    return found.sort((a, b) => classes[a.verdict] - classes[b.verdict] || a.minutes - b.minutes || a.off.nominal - b.off.nominal || a.head - b.head);
  }

  // windows returns the hosel ODs that a ferrule serves on each tip, on a flat top, by verdict: stretches from an OD up to but not
  // including another.
  function windows(ferrule) {
    const hosel = data.hosels[data.bench[0].hosel], form = data.ferrules.form[ferrule], found = [];
    hosel.tips.forEach((tip, place) => {
      const row = data.rows[hosel.rows[place]], stands = course(row[form + 1]);
      const spans = {};
      for (let i = 0; i < stands.length; i += 3) {
        const verdict = outcomes[stands[i]].verdict;
        if (!fits(verdict)) continue;
        const from = i === 0 ? row[0] : stands[i - 1], to = stands[i + 2];
        const all = spans[verdict] = spans[verdict] || [], last = all[all.length - 1];
        if (last && last.to === from) last.to = to;
        else all.push({from, to});
      }
      if (Object.keys(spans).length) found.push({tip, spans});
    });
    return found;
  }

  // serving returns the forms that some hosel with a flat top takes on a tip.
  const served = new Map();
  function serving(tip) {
    if (!served.has(tip)) {
      const hosel = data.hosels[data.bench[0].hosel], place = hosel.tips.indexOf(tip), row = place < 0 ? [] : data.rows[hosel.rows[place]].slice(1);
      served.set(tip, new Set(row.flatMap((at, form) => course(at).some((outcome, k) => k % 3 === 0 && fits(outcomes[outcome].verdict)) ? [form] : [])));
    }
    return served.get(tip);
  }

  return {data, measured, catalogue, heads, windows, serving, fits, serves, share};
})();
