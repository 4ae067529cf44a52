// Facts of the job that a person's words give away beside the item: what it is made of, its colour, thickness.
var presslore = presslore || {};

(function () {
  'use strict';

  const { POLYESTER, COLOUR, THICKNESS, COATED, USUAL_BLEND } = presslore.shared.shares;
  const POLY_WORDS = new Set(presslore.shared.shares.POLY_WORDS);
  const COTTON_WORDS = new Set(presslore.shared.shares.COTTON_WORDS);
  const JOINING = new Set(presslore.shared.items.JOINING);
  const MIXED_WORDS = new Set(presslore.shared.shares.MIXED_WORDS);
  // The words that tell a share of polyester, by their stems: no part of what an item is.
  const OF_SHARES = new Set(presslore.shared.shares.OF_SHARES);
  const PAIR = new RegExp(presslore.shared.shares.PAIR, 'g');
  const OF_POLY = new RegExp(presslore.shared.shares.OF_POLY);
  const OF_COTTON = new RegExp(presslore.shared.shares.OF_COTTON);
  const ALL_COTTON = new RegExp(presslore.shared.shares.ALL_COTTON);
  const ALL_POLY = new RegExp(presslore.shared.shares.ALL_POLY);
  const THICK = new RegExp(presslore.shared.shares.THICK);
  const HALVES = new RegExp(presslore.shared.shares.HALVES);
  const words = presslore.words;

  /**
   * The share of polyester in per cent, or null.
   * @type {Words['polyesterShare']}
   */
  function polyesterShare(plain) {
    PAIR.lastIndex = 0;
    for (let pair = PAIR.exec(plain); pair; pair = PAIR.exec(plain)) {
      if (Number(pair[1]) + Number(pair[2]) === 100) return Number(pair[3].startsWith('cotton') ? pair[2] : pair[1]);
    }
    const poly = OF_POLY.exec(plain);
    if (poly && Number(poly[1]) <= 100) return Number(poly[1]);
    const cotton = OF_COTTON.exec(plain);
    if (cotton && Number(cotton[1]) <= 100) return 100 - Number(cotton[1]);
    if (HALVES.test(plain)) return 50;
    if (ALL_COTTON.test(plain)) return 0;
    return ALL_POLY.test(plain) ? 100 : null;
  }

  /**
   * The share of polyester by the bare name of the material; null where it is not told, or both are named apart.
   * @type {Words['materialShare']}
   */
  function materialShare(said) {
    const placesOf = (/** @type {Set<string>} */ names) =>
      said.map((word, i) => (names.has(word) ? i : -1)).filter((i) => i >= 0);
    const poly = placesOf(POLY_WORDS);
    const cotton = placesOf(COTTON_WORDS);
    const together = poly.some((one) => cotton.some((other) => Math.abs(one - other) === 1));
    if (together || said.indexOf('polycotton') >= 0) return USUAL_BLEND;
    if (poly.length && cotton.length) return null;
    if ((poly.length || cotton.length) && said.some((word) => MIXED_WORDS.has(word))) return USUAL_BLEND;
    return cotton.length ? 0 : poly.length ? 100 : null;
  }

  /**
   * The ground colour named within or right before the words of the item: the longest name; null for none.
   * @param {string[]} said @param {Span} near @param {Fact} fact
   */
  function colour(said, near, fact) {
    let length = 0;
    let found = null;
    for (const [value, names] of fact.words) {
      for (const name of names) {
        const parts = words.cut(name);
        for (let start = 0; start + parts.length <= said.length; start++) {
          const there = parts.length > length && parts.every((part, i) => said[start + i] === part);
          if (!there || !isGround(said, start, start + parts.length, near)) continue;
          length = parts.length;
          found = { value, start };
        }
      }
    }
    return found;
  }

  /** @param {string[]} said @param {number} start @param {number} end @param {Span} near */
  function isGround(said, start, end, near) {
    const inside = near[0] <= start && end <= near[1];
    const before = end <= near[0] && near[0] - end <= 2 && !said.slice(end, near[0]).some((word) => JOINING.has(word));
    return near[1] > near[0] && (inside || before);
  }

  /**
   * Every fact the words give away, and where the item stands with its colour; `near` is where it stands without.
   * @type {Words['factsBeside']}
   */
  function factsBeside(text, said, near, facts) {
    const given = new Map();
    const plain = words.fold(text);
    let share = polyesterShare(plain);
    if (share === null && near[1]) share = materialShare(said.slice(Math.max(0, near[0] - 2), near[1]));
    if (share !== null && facts.has(POLYESTER)) given.set(POLYESTER, share);
    const colours = facts.get(COLOUR);
    const ground = colours ? colour(said, near, colours) : null;
    if (ground) given.set(COLOUR, ground.value);
    const thick = THICK.exec(plain);
    if (thick && facts.has(THICKNESS) && plain.indexOf('thick') >= 0) {
      given.set(THICKNESS, Number(thick[1]));
    }
    const uncoated = said.indexOf('uncoated') >= 0 || said.join(' ').indexOf('not coated') >= 0;
    if (uncoated && facts.has(COATED)) given.set(COATED, false);
    return { facts: given, near: ground ? [Math.min(near[0], ground.start), near[1]] : near };
  }

  Object.assign(words, { OF_SHARES, POLY_WORDS, polyesterShare, materialShare, factsBeside });
})();
