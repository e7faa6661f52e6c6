"use strict";
// Lengths are whole picometres. Doubles hold them exactly up to nine metres; what is typed is read with whole numbers of any size.
const lengths = (() => {
  const perMM = 1000000000, perInch = 25400000000, perThou = 25400000;
  const units = new Map([
    [perMM, ["mm", "毫米", "公厘", "ミリ", "millimetre", "millimetres", "millimeter", "millimeters", "millimètres", "milímetros"]],
    [perInch, ["in", "in.", "inch", "inches", "\"", "''", "zoll", "pouce", "pouces", "pulgada", "pulgadas", "英寸", "吋", "インチ"]],
    [perThou, ["thou", "mil"]],
  ]);
  // The many signs for one and the same.
  const signs = [
    [/[\u2033\u201d\u201c\u3003\u02dd\u2036]/g, "\""], [/[\u2032\u2019\u2018\u00b4\u2035]/g, "'"], [/[\u2044\u2215]/g, "/"],
    [/[\u2010-\u2015\u2212\ufe63]/g, "-"], [/[\s\u200b-\u200d\ufeff]+/g, " "], [/[\uff01-\uff5e]/g, (c) => String.fromCharCode(c.charCodeAt(0) - 0xfee0)],
    [/[\u00bc-\u00be\u2150-\u215e]/g, (c) => " " + c.normalize("NFKC").replace("\u2044", "/")],
  ];

  // parse reads a size: {pm}, {empty}, or {error} with the word that says what is wrong.
  function parse(typed) {
    let text = typed;
    for (const [sign, plain] of signs) text = text.replace(sign, plain);
    text = text.trim().toLowerCase().replace(/^[\u2300\u00f8\u03c6\u03d5\u2205\u0444] ?/, "");
    if (text === "") return {empty: true};
    const [, number, word] = /^([\d.,/ -]*)(.*)$/.exec(text);
    let perUnit = 0;
    if (word !== "") {
      for (const [size, names] of units) if (names.includes(word)) perUnit = size;
      if (perUnit === 0) return {error: "number"};
    }
    const ratio = read(number.trim());
    if (ratio.error) return ratio;
    if (perUnit === 0) perUnit = usual(ratio);
    if (perUnit === 0) return {error: "unit"};
    const top = ratio.num * BigInt(perUnit);
    if (top % ratio.den !== 0n) return {error: "fine"};
    const pm = top / ratio.den;
    return pm > 9000000000000000n ? {error: "range"} : {pm: Number(pm)};
  }

  // read reads a number without its unit as a ratio of whole numbers: 13.6, 13,6, 17/32, 1 1/32 or 1-1/32.
  function read(number) {
    let m = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/.exec(number);
    if (m) {
      const den = BigInt(m[3]);
      return den === 0n ? {error: "number"} : {num: BigInt(m[1] || 0) * den + BigInt(m[2]), den, fraction: true};
    }
    if (/^[1-9]\d{0,2}(,\d{3})+$/.test(number)) return {error: "ambiguous"};
    m = /^(\d*)(?:[.,](\d*))?$/.exec(number);
    if (!m || !/\d/.test(number)) return {error: "number"};
    const decimals = m[2] || "";
    return {num: BigInt(m[1] + decimals), den: 10n ** BigInt(decimals.length)};
  }

  // usual is the unit of a number without one: no hosel is under 2 mm or over 5 in. In between it has to be said.
  function usual(ratio) {
    if (ratio.fraction || ratio.num < 2n * ratio.den) return perInch;
    return ratio.num > 5n * ratio.den ? perMM : 0;
  }

  // decimal writes pm/unit with so many places, half to even, without zeros at the end beyond those to keep.
  function decimal(pm, unit, places, keep) {
    const step = unit / 10 ** places, size = Math.abs(pm);
    const rest = size % step;
    let count = (size - rest) / step;
    if (rest * 2 > step || rest * 2 === step && count % 2 === 1) count++;
    const digits = String(count).padStart(places + 1, "0");
    let tail = digits.slice(-places);
    while (tail.length > keep && tail.endsWith("0")) tail = tail.slice(0, -1);
    return (pm < 0 && count > 0 ? "-" : "") + digits.slice(0, -places) + "." + tail;
  }

  // written writes a size with its unit. One that is not nothing is never written as nothing: it is under the least that is written.
  function written(pm, unit, places, keep, name) {
    const step = unit / 10 ** places, small = pm !== 0 && Math.abs(pm) * 2 <= step;
    let number = decimal(small ? step : pm, unit, places, keep);
    if (mark !== ".") number = number.replace(".", mark);
    else if (unit === perInch) number = number.replace(/^(-?)0\./, "$1."); // as the trade does
    const text = number + "\u00a0" + name;
    return small ? under.replace("{size}", text) : text;
  }

  let under = "", mark = ".";
  // inWords takes the words for a size under another, and the mark before decimals.
  const inWords = (words, decimalMark) => { under = words; mark = decimalMark; };

  const mm = (pm) => written(pm, perMM, 3, 2, "mm");
  const inches = (pm) => written(pm, perInch, 4, 3, "in");

  // along writes a length along the axis in inches: in sixty-fourths for readers of fractions, where that is exact.
  function along(pm, units) {
    const step = perInch / 64;
    if (units !== "frac" || pm % step !== 0) return inches(pm);
    let parts = Math.abs(pm) / step % 64, den = 64;
    const whole = (Math.abs(pm) / step - parts) / 64;
    for (; den > 1 && parts % 2 === 0; den /= 2) parts /= 2;
    return (pm < 0 ? "-" : "") + (parts === 0 ? whole : (whole ? whole + "-" : "") + parts + "/" + den) + "\"";
  }

  // half is from the diameter to one side, half a picometre going away from nothing.
  const half = (pm) => Math.sign(pm) * Math.ceil(Math.abs(pm) / 2);

  // exact writes all digits, for a size that is read back.
  const exact = (pm, unit, places) => decimal(pm, unit, places, unit === perMM ? 2 : 3);

  return {parse, inWords, mm, inches, along, half, exact, perMM, perInch};
})();
