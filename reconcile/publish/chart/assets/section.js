"use strict";
// The cross-section of a joint at its nominal sizes, to scale.
const section = (() => {
  const {data} = answers;
  const mmOf = (pm) => pm / lengths.perMM;

  function element(name, attributes, ...children) {
    const e = document.createElementNS(page.namespace, name);
    for (const [key, value] of Object.entries(attributes)) e.setAttribute(key, value);
    e.append(...children);
    return e;
  }

  // shaft returns the radius of a tip in mm at a position in mm above its end.
  function shaft(tip) {
    const at = data.tips[tip].at;
    return (position) => {
      const up = Math.max(position, 0) * lengths.perMM;
      let i = 0;
      while (at[i + 1] && at[i + 1][0] <= up) i++;
      const [from, low] = at[i], [to, high] = at[i + 1] || [from + 1, low];
      return mmOf(low + (high - low) * (up - from) / (to - from)) / 2;
    };
  }

  // draw returns the figure, or null where a size is missing. Sizes: hosel, form, tip, od; line says what comes off.
  function draw(hosel, line, od, words) {
    const form = data.forms[line.form], base = data.dims[form.base];
    if (!base || !form.length || !form.bore || !od || !data.tips[line.tip].at.length) return null;
    const depth = mmOf(hosel.depth || data.limits.insertion), radius = shaft(line.tip);
    const at = (z) => radius(depth + z);
    const along = (from, to) => [from, ...data.tips[line.tip].at.map(([position]) => mmOf(position) - depth).filter((z) => z > from && z < to), to];
    const s = {
      od: mmOf(od) / 2, base: mmOf(base[0]) / 2, length: mmOf(form.length), bore: mmOf(hosel.bore) / 2 || at(0) + 0.06,
      sink: hosel.sink && hosel.sink.map(mmOf), counter: hosel.counter && hosel.counter.map(mmOf), spigot: form.spigot && form.spigot.map(mmOf),
    };
    s.bore = Math.max(s.bore, at(0));
    s.top = Math.min(form.top ? mmOf(form.top) / 2 : at(s.length), s.base);
    s.top = Math.max(s.top, at(s.length));
    const high = s.length + 7, low = Math.max(11, s.sink ? s.sink[1] + 5 : 0, s.counter ? s.counter[1] + 5 : 0, s.spigot ? s.spigot[1] + 5 : 0);
    const scale = Math.min(13, 380 / (high + low), 92 / Math.max(s.od, s.base));
    const middle = 196, zero = 16 + high * scale;
    const x = (r, side) => +(middle + side * r * scale).toFixed(2), y = (z) => +(zero - z * scale).toFixed(2);
    const path = (points, side) => points.map(([r, z], i) => (i ? "L" : "M") + x(r, side) + " " + y(z)).join("") + "Z";
    const both = (cls, points) => element("path", {class: cls, d: path(points, -1) + path(points, 1)});
    const svg = element("svg", {viewBox: "0 0 400 " + Math.round(zero + low * scale + 74), role: "img", class: "section"});

    svg.append(both("hosel", [[s.od, -low], [s.od, 0], ...recess(s), [s.bore, -low]]));

    const ferrule = [[s.base, 0], [s.top, s.length], ...along(0, s.length).reverse().map((z) => [at(z), z])];
    if (s.spigot) ferrule.push([at(0), -s.spigot[1]], [s.spigot[0] / 2, -s.spigot[1]], [s.spigot[0] / 2, 0]);
    svg.append(both("ferrule", ferrule));
    if (line.turns && line.off.nominal > 0 && s.base > s.od) {
      const meets = s.od <= s.top ? s.length : s.length * (s.base - s.od) / (s.base - s.top);
      const end = s.od <= s.top ? s.top : s.od;
      svg.append(both("off", [[s.base, 0], [end, meets], [s.od, meets], [s.od, 0]]));
    }
    const shaftSide = (z, side) => x(at(z), side) + " " + y(z), heights = along(-low, s.length + 7);
    svg.append(element("path", {class: "shaft", d: "M" + [...heights.map((z) => shaftSide(z, -1)), ...heights.reverse().map((z) => shaftSide(z, 1))].join("L") + "Z"}));
    svg.append(element("path", {class: "axis", d: "M" + middle + " 4V" + y(-low - 0.8)}));

    dimension(svg, x(s.od, -1), x(s.od, 1), y(-low), y(-low) + 22, words["figure.hosel"], od);
    upright(svg, y(0), y(s.length), x(Math.max(s.base, s.od), 1), 308, words["figure.length"], form.length);
    if (line.turns && line.off.nominal > 0) callout(svg, x((s.base + s.od) / 2, -1), y(Math.min(0.6, s.length / 8)), words["figure.off"], line.off.nominal);
    const bar = y(-low) + 60;
    svg.append(element("path", {class: "bar", d: "M" + (middle - 5 * scale) + " " + (bar - 3) + "v6m0 -3h" + 10 * scale + "m0 -3v6"}));
    svg.append(label(middle + 5 * scale + 6, bar + 4, "start", words["figure.bar"]));
    return svg;
  }

  // drawHosel returns a small figure of a hosel's top, cut open, with the tip that it takes; null where its sizes are not given.
  function drawHosel(hosel, od, tip) {
    if (!od || !data.tips[tip].at.length) return null;
    const radius = shaft(tip), depth = mmOf(hosel.depth || data.limits.insertion), low = 11, high = 5, scale = 5.4, middle = 60, zero = 6 + high * scale;
    const s = {od: mmOf(od) / 2, bore: Math.max(mmOf(hosel.bore) / 2 || 0, radius(depth)), sink: hosel.sink && hosel.sink.map(mmOf), counter: hosel.counter && hosel.counter.map(mmOf)};
    const x = (r, side) => +(middle + side * r * scale).toFixed(1), y = (z) => +(zero - z * scale).toFixed(1);
    const path = (points, side) => points.map(([r, z], i) => (i ? "L" : "M") + x(r, side) + " " + y(z)).join("") + "Z";
    const inside = recess(s), svg = element("svg", {viewBox: "0 0 120 " + Math.round(zero + low * scale + 2), "aria-hidden": "true", class: "section"});
    const outside = hosel.top === 2 ? [[s.od, -low], [s.od, -2.2], [s.od - 0.5, -0.7], [s.od - 1.6, 0]] : [[s.od, -low], [s.od, 0]];
    const metal = [...outside, ...inside, [s.bore, -low]];
    svg.append(element("path", {class: "hosel", d: path(metal, -1) + path(metal, 1)}));
    const along = (z) => radius(depth + z), tipSide = [[along(-low), -low], [along(high), high]];
    svg.append(element("path", {class: "shaft", d: path([...tipSide, ...tipSide.slice().reverse().map(([r, z]) => [-r, z])], 1)}));
    return svg;
  }

  // recess is the inside of a hosel from its top downward: a counterbore, a countersink, then the bore.
  function recess(s) {
    const inside = [];
    if (s.counter) inside.push([s.counter[0] / 2, 0], [s.counter[0] / 2, -s.counter[1]]);
    if (s.sink) {
      const top = s.counter ? -s.counter[1] : 0;
      inside.push([s.sink[0] / 2, top], [s.bore, top - s.sink[1]]);
    }
    inside.push(s.counter || s.sink ? [s.bore, inside[inside.length - 1][1]] : [s.bore, 0]);
    return inside;
  }

  function label(x, y, anchor, ...lines) {
    const text = element("text", {x, y, "text-anchor": anchor});
    lines.forEach((line, i) => text.append(element("tspan", {x, dy: i ? "1.2em" : 0}, line)));
    return text;
  }

  // dimension draws a diameter below the view.
  function dimension(svg, left, right, from, at, name, pm) {
    svg.append(element("path", {class: "dimension", d: "M" + left + " " + (from + 3) + "V" + (at + 4) + "M" + right + " " + (from + 3) + "V" + (at + 4) +
      "M" + left + " " + at + "H" + right}));
    arrow(svg, left, at, -1, 0);
    arrow(svg, right, at, 1, 0);
    svg.append(label((left + right) / 2, at + 15, "middle", name + " " + lengths.mm(pm) + " · " + lengths.inches(pm)));
  }

  // upright draws the ferrule's length beside it.
  function upright(svg, bottom, top, from, at, name, pm) {
    svg.append(element("path", {class: "dimension", d: "M" + (from + 4) + " " + bottom + "H" + (at + 4) + "M" + (from + 4) + " " + top + "H" + (at + 4) + "M" + at + " " + bottom + "V" + top}));
    arrow(svg, at, bottom, 0, 1);
    arrow(svg, at, top, 0, -1);
    svg.append(label(at + 9, (bottom + top) / 2 - 10, "start", name, lengths.mm(pm), lengths.along(pm, data.units)));
  }

  function callout(svg, x, y, name, pm) {
    svg.append(element("path", {class: "dimension", d: "M" + x + " " + y + "L84 " + (y - 40)}), element("circle", {class: "dot", cx: x, cy: y, r: 2}));
    svg.append(label(4, y - 74, "start", name, lengths.mm(pm), lengths.inches(pm)));
  }

  function arrow(svg, x, y, dx, dy) {
    const back = 8, wide = 2.2;
    svg.append(element("path", {class: "arrow", d: "M" + x + " " + y + "L" + (x - dx * back + dy * wide) + " " + (y - dy * back + dx * wide) +
      "L" + (x - dx * back - dy * wide) + " " + (y - dy * back - dx * wide) + "Z"}));
  }

  return {draw, drawHosel};
})();
