"use strict";
// Finding heads and ferrules by what people type: OWM17 is OW-M17, and 7 iron, iron 7 and 7-iron are one.
const search = (() => {
  const {data} = answers;
  const fold = (text) => text.normalize("NFKD").replace(/[\u0300-\u036f]/g, "").toLowerCase();
  const apart = /[^\p{L}\p{N}]+/u;
  // tokens parts a text into words and numbers.
  const tokens = (text) => text.match(/\p{L}+|\p{N}+/gu) || [];
  const squeezed = (text) => text.split(/\s+/).map((w) => w.split(apart).join("")).join(" ");

  function key(...texts) {
    const text = fold(texts.filter(Boolean).join(" "));
    return {text, squeezed: squeezed(text), tokens: tokens(text)};
  }

  // fit says how well a typed word is met: 2 for one that stands in the key as a word or a number of its own, 1 for a part of one, 0 for
  // none. A number of a digit or two is no part of a number: who types 7 does not mean 17.
  function fit(key, {typed, pieces, tight}) {
    const whole = (t) => key.tokens.includes(t) || t.length > 3 && t.endsWith("s") && key.tokens.includes(t.slice(0, -1));
    if (pieces.length && pieces.every(whole)) return 2;
    if (/^\p{N}{1,2}$/u.test(typed)) return key.tokens.some((t) => t.startsWith(typed)) ? 1 : 0;
    if (key.text.includes(typed) || tight !== "" && key.squeezed.includes(tight)) return 1;
    return pieces.length > 1 && pieces.every((t) => whole(t) || !/\p{N}/u.test(t) && key.tokens.some((k) => k.startsWith(t))) ? 1 : 0;
  }

  // matching returns the places whose keys meet every word typed, the best met first; those that begin with it stand before the others.
  // Keys are made when they are first looked at: a large page opens without them.
  function matching(count, keyOf, typed, suits) {
    const parts = fold(typed).split(/\s+/).filter(Boolean).map((word) => ({typed: word, pieces: tokens(word), tight: word.split(apart).join("")})), classes = [[], [], [], []];
    for (let i = 0; i < count; i++) {
      if (suits && !suits(i)) continue;
      const met = Math.min(2, ...parts.map((p) => fit(keyOf(i), p)));
      if (met === 0) continue;
      const first = parts.length && keyOf(i).text.startsWith(parts[0].typed);
      classes[(met === 2 ? 0 : 2) + (first ? 0 : 1)].push(i);
    }
    return classes.flat();
  }

  const kept = (make) => { const all = []; return (i) => all[i] || (all[i] = make(i)); };
  const h = data.heads, f = data.ferrules;
  const headKey = kept((i) => key(h.part[i], h.description[i], say.supplierOf(h, i), say.categoryName(h.category[i]), say.categories[h.category[i]]));
  const ferruleKey = kept((i) => key(f.part[i], f.description[i], say.supplierOf(f, i), say.colourOf(i)));

  return {heads: (typed, suits) => matching(h.part.length, headKey, typed, suits), ferrules: (typed, suits) => matching(f.part.length, ferruleKey, typed, suits)};
})();
