// Which item a person means, and what their words say of it beyond its usual facts.
var presslore = presslore || {};

(function () {
  'use strict';

  /** @typedef {{ item: string, covered: number, share: number, off: number, units: number[], rank: Key }} Candidate */

  const { POLYESTER, FAMILY, LEAST_CLOSE, NEARLY, CLOSE, LONGEST_NAME, WHOLE_NAME, LONG_STEM } = presslore.shared.items;
  const JOINING = new Set(presslore.shared.items.JOINING);
  const OF_THE_SHOP = new Set(presslore.shared.items.OF_THE_SHOP);
  const MATERIAL_STEMS = new Set(presslore.shared.items.MATERIAL_STEMS);
  const words = presslore.words;
  const numbers = presslore.numbers;
  const OF = new Set(presslore.shared.items.OF);
  const LIKE_BEFORE = new Set(presslore.shared.items.LIKE_BEFORE);
  const LIKE_AFTER = new Set(presslore.shared.items.LIKE_AFTER);
  const COATS = new Set(presslore.shared.items.COATS);
  const COATED_BY = new Set(presslore.shared.items.COATED_BY);

  /**
   * The item a text names, {id, facts: Map, score, words, refused}; null where it names none and gives no fact away. `id`
   * is '' where the words give away facts but no item that is known, or name goods of a stuff that is `refused`, by its
   * id. An id is taken as it stands, and so is a name, be it mistyped.
   * @type {Words['findItem']}
   */
  function findItem(lexicon, text) {
    text = words.taken(text);
    const typed = words.clauses(text);
    const name = lexicon.knowledge.items.has(text) ? text : lexicon.wholeItems.get(words.wholeKey(text));
    const id = name || mistyped(lexicon, text);
    if (id) {
      const found = withFacts(lexicon, text, typed, { item: id, covered: WHOLE_NAME }, [0, typed.length]);
      if (name) [POLYESTER, FAMILY].forEach((fact) => found.facts.delete(fact)); // a name says them of every such item
      return found;
    }
    const [first] = refusedAt(lexicon, typed, true);
    if (first !== undefined) return refusal(lexicon, typed, first, [0, typed.length]);
    const units = unitsOf(lexicon, text, typed);
    const told = toldShare(words.polyesterShare(words.fold(text)), typed);
    for (const chunk of chunks(typed, units)) {
      const found = best(lexicon, units, chunk, told, true);
      if (found) return withFacts(lexicon, text, typed, found, where(found.units, units));
    }
    return factsAlone(lexicon, text, typed);
  }

  /**
   * The item named in passing anywhere in a text as it was taken. Of a refused stuff is what stands right after its name,
   * or of which it is said to be.
   * @type {Words['itemAmong']}
   */
  function itemAmong(lexicon, text) {
    const typed = words.clauses(text);
    const units = unitsOf(lexicon, text, typed);
    const share = words.polyesterShare(words.fold(text));
    for (const place of refusedAt(lexicon, typed, false)) {
      const others = units.filter((unit) => !lexicon.refused(typed[unit.words[0]].text));
      const goods = best(lexicon, others, Array.from(others.keys()), share, false);
      const [from, to] = goods ? where(goods.units, others) : [0, 0];
      const atGoods = from === place + 1 || (to === place - 1 && OF.has(typed[to].text));
      if (atGoods || (goods && isCoat(typed, place) && clad(typed, place, from, to))) {
        return refusal(lexicon, typed, place, [Math.min(from, place), Math.max(to, place + 1)]);
      }
    }
    const told = toldShare(share, typed);
    const found = clausesOf(units).flatMap((own) => best(lexicon, units, own, told, false) || []);
    const first = numbers.least(found, (candidate) => candidate.rank.slice(0, 4));
    if (first) return withFacts(lexicon, text, typed, first, where(first.units, units));
    return factsAlone(lexicon, text, typed);
  }

  /**
   * The share of polyester that is told: as a share, else by what the thing is made of.
   * @param {number | null} share @param {TypedWord[]} typed
   */
  function toldShare(share, typed) {
    return share === null ? words.materialShare(typed.map((word) => word.text)) : share;
  }

  /**
   * The numbers of the units of each clause.
   * @param {Unit[]} units
   */
  function clausesOf(units) {
    /** @type {Map<number, number[]>} */
    const found = new Map();
    units.forEach((unit, number) => found.set(unit.clause, (found.get(unit.clause) || []).concat([number])));
    return Array.from(found.values());
  }

  /**
   * Where a refused stuff stands for what a thing is made of, or coated with: no likeness of it, no blend with polyester
   * and, where the thing was asked for, no part beside it ("with a silk lining").
   * @param {Lexicon} lexicon @param {TypedWord[]} typed @param {boolean} asked
   */
  function refusedAt(lexicon, typed, asked) {
    const named = typed.map((word) => Boolean(lexicon.refused(word.text)));
    const blended = typed.some((word) => words.POLY_WORDS.has(word.text));
    if (!named.includes(true) || inName(lexicon, typed)) return [];
    let beside = false;
    let clause = 0;
    return typed
      .map((_, place) => place)
      .filter((place) => {
        const word = typed[place];
        const [before, after] = [typed[place - 1], typed[place + 1]].map((one) => (one ? one.text : ''));
        beside = JOINING.has(word.text) ? asked && !OF.has(word.text) : beside && word.clause === clause;
        clause = word.clause;
        if (!named[place] || LIKE_BEFORE.has(before) || LIKE_AFTER.has(after)) return false;
        return isCoat(typed, place) || !(beside || blended);
      });
  }

  /**
   * Whether a stuff is said to lie on another as a coat: "PVC-coated", "with a PVC backing", "coated with PVC".
   * @param {TypedWord[]} typed @param {number} place
   */
  function isCoat(typed, place) {
    const [second, first, after] = [typed[place - 2], typed[place - 1], typed[place + 1]].map((one) => one?.text || '');
    return COATS.has(after) || (COATS.has(second) && COATED_BY.has(first));
  }

  /**
   * Whether a coat is that of the goods: nothing else stands between them.
   * @param {TypedWord[]} typed @param {number} place @param {number} from @param {number} to
   */
  function clad(typed, place, from, to) {
    const between = place < from ? typed.slice(place + 1, from) : typed.slice(to, place);
    return between.every((word) => [COATS, words.POLY_WORDS, COATED_BY].some((each) => each.has(word.text)));
  }

  /**
   * Whether the words hold a whole name of an item that speaks of such a stuff: "silk look scarf".
   * @param {Lexicon} lexicon @param {TypedWord[]} typed
   */
  function inName(lexicon, typed) {
    const said = ` ${words.wholeKey(typed.map((word) => word.text).join(' '))} `;
    return Array.from(lexicon.wholeItems.keys()).some(
      (name) => said.includes(` ${name} `) && name.split(' ').some((word) => lexicon.refused(word))
    );
  }

  /**
   * @param {Lexicon} lexicon @param {TypedWord[]} typed @param {number} place @param {Span} span
   * @returns {FoundItem}
   */
  function refusal(lexicon, typed, place, span) {
    const stuff = lexicon.refused(typed[place].text);
    return { id: '', facts: new Map(), score: 0, words: span, refused: stuff ? stuff.id : '' };
  }

  /**
   * The units that may be words of an item: nouns as they are, so that "patchy" is no patch.
   * @param {Lexicon} lexicon @param {string} text @param {TypedWord[]} typed
   */
  function unitsOf(lexicon, text, typed) {
    const own = (/** @type {TypedWord} */ word) => lexicon.isItemWord(word.text) || !lexicon.speller.knows(word.text);
    return lexicon
      .literalUnits(text)
      .filter((unit) => !unit.denied)
      .map((unit) => {
        const spelt = typed.slice(unit.words[0], unit.words[1]);
        return spelt.every(own) ? unit : { ...unit, features: [/** @type {Feature} */ ([`=${spelt[0].text}`, 1])] };
      });
  }

  /**
   * Runs of units without a joining word or the end of a clause between them.
   * @param {TypedWord[]} typed @param {Unit[]} units
   */
  function chunks(typed, units) {
    /** @type {number[][]} */
    const result = [];
    units.forEach((unit, number) => {
      const before = units[number - 1];
      const between = before ? typed.slice(before.words[1], unit.words[0]) : [];
      const joined = before && before.clause === unit.clause && !between.some((word) => JOINING.has(word.text));
      if (joined) result[result.length - 1].push(number);
      else result.push([number]);
    });
    return result;
  }

  /**
   * The item whose name covers most of a run of units. When asked, it must cover the last of them, the thing itself;
   * and never may a material stand before it that is none of its own.
   * @param {Lexicon} lexicon
   * @param {Unit[]} units
   * @param {number[]} chunk
   * @param {number | null} told
   * @param {boolean} asked
   */
  function best(lexicon, units, chunk, told, asked) {
    const said = chunk.filter((number) => !words.OF_SHARES.has(units[number].features[0][0]));
    if (!said.length) return null;
    const own = said.map((number) => units[number]);
    /** @type {Candidate[]} */
    const candidates = [];
    words.foundNames(lexicon.items(), own).forEach((parts, name) => {
      if (!asked && !isSure(parts, own)) return;
      const one = candidate(lexicon, name, parts, said, told);
      if (!one || one.share < (asked ? LEAST_CLOSE : CLOSE)) return;
      if (!asked && one.units.every((number) => OF_THE_SHOP.has(units[number].features[0][0]))) return;
      const misses = asked && one.units.indexOf(said[said.length - 1]) < 0;
      if (!misses && !otherMaterial(lexicon, units, said, one.units, asked)) candidates.push(one);
    });
    const much = NEARLY * Math.max(...candidates.map((one) => one.covered));
    const before = (/** @type {Candidate} */ one) => (asked ? [] : [Number(one.covered < much), one.off]);
    const first = numbers.least(candidates, (one) => [...before(one), ...one.rank]);
    if (!first) return null;
    const rivals = new Set(candidates.filter((one) => one.covered >= first.covered - 1e-6).map((one) => one.item));
    return first.share >= CLOSE || rivals.size === 1 ? first : null;
  }

  /**
   * Whether a name is there by more than a short word that may have been mistyped.
   * @param {NamePart[]} parts @param {Unit[]} units
   */
  function isSure(parts, units) {
    return parts.some((part) => part[2] === 1 || units[part[0]].features[0][0].length >= LONG_STEM);
  }

  /**
   * A name weighed without its words for the material's share; null where nothing of it is there.
   * @param {Lexicon} lexicon
   * @param {number} name
   * @param {NamePart[]} parts
   * @param {number[]} said
   * @param {number | null} told
   */
  function candidate(lexicon, name, parts, said, told) {
    const index = lexicon.items();
    /** @type {Map<number, { surety: number, unit: number }>} */
    const fullest = new Map();
    parts.forEach((part) => {
      const before = fullest.get(part[1]);
      const more = !before || part[2] > before.surety || (part[2] === before.surety && part[0] < before.unit);
      if (more) fullest.set(part[1], { surety: part[2], unit: part[0] });
    });
    /** @type {Map<number, number>} */
    const proper = new Map();
    index.rows[name].forEach((kind, place) => {
      if (!words.OF_SHARES.has(index.kinds[kind][0])) proper.set(place, index.kindWeights[kind]);
    });
    const total = numbers.sum(Array.from(proper.values()));
    const counted = Array.from(fullest).filter((pair) => proper.has(pair[0]));
    const covered = numbers.sum(counted.map((pair) => presslore.known(proper, pair[0]) * pair[1].surety));
    if (!total || !covered) return null;
    const item = index.owners[index.owner[name]];
    const own = new Map(presslore.known(lexicon.knowledge.items, item).facts).get(POLYESTER);
    const off = told === null ? 0 : typeof own === 'number' ? Math.abs(told - own) : 1000;
    const units = Array.from(new Set(Array.from(fullest.values(), (one) => said[one.unit])));
    const share = covered / total;
    const least = (/** @type {number} */ value) => -numbers.rounded(value, 6);
    return {
      item,
      covered,
      share,
      off,
      units: units.sort((one, other) => one - other),
      rank: [least(covered), off, least(covered / index.totals[name]), least(share), item]
    };
  }

  /** @param {Lexicon} lexicon @param {Unit[]} units @param {number[]} said @param {number[]} covered @param {boolean} asked */
  function otherMaterial(lexicon, units, said, covered, asked) {
    const first = said.indexOf(covered[0]);
    const beside = asked ? said : said.slice(Math.max(0, first - 1), first);
    return beside.some(
      (number) =>
        covered.indexOf(number) < 0 &&
        units[number].clause === units[covered[0]].clause &&
        isMaterial(lexicon, units[number])
    );
  }

  /** @param {Lexicon} lexicon @param {Unit} unit */
  function isMaterial(lexicon, unit) {
    const features = unit.features.map((pair) => pair[0].replace(/^=/, ''));
    return features.some((feature) => MATERIAL_STEMS.has(feature) || lexicon.stuffStems.has(feature));
  }

  /**
   * The item of the name that a whole text is with a slip or two, blanks apart; '' where there is none.
   * @param {Lexicon} lexicon @param {string} text
   */
  function mistyped(lexicon, text) {
    const parts = words.cut(text);
    const joined = parts.join('');
    const exact = lexicon.joinedItems.get(joined) || '';
    const odd = joined.length < 5 || joined.length > LONGEST_NAME;
    const stuff = parts.some((part) => lexicon.refused(part)); // "plastic cup" is no slip for a mug
    if (exact || odd || stuff || (parts.length === 1 && lexicon.speller.knows(joined))) return exact;
    let found = { slips: words.allowed(joined.length) + 1, item: '' };
    lexicon.joinedItems.forEach((item, name) => {
      if (name[0] !== joined[0] || digits(name) !== digits(joined)) return;
      const slips = words.distance(joined, name, found.slips);
      if (slips < found.slips || (slips === found.slips && numbers.byText(item, found.item) < 0)) {
        found = { slips, item };
      }
    });
    return found.item;
  }

  /** @param {string} text */
  function digits(text) {
    return text.replace(/[^0-9]/g, '');
  }

  /**
   * @param {Lexicon} lexicon
   * @param {string} text
   * @param {TypedWord[]} typed
   * @param {{ item: string, covered: number }} found
   * @param {Span} bare
   */
  function withFacts(lexicon, text, typed, found, bare) {
    const usual = new Map(presslore.known(lexicon.knowledge.items, found.item).facts);
    const said = typed.map((word) => word.text);
    const { facts, near } = words.factsBeside(text, said, bare, lexicon.knowledge.facts);
    const own = new Map(Array.from(facts).filter((pair) => differs(usual.get(pair[0]), pair[1])));
    if (!usual.has(POLYESTER)) own.delete(POLYESTER);
    const share = own.get(POLYESTER);
    if (typeof share === 'number' && share > 0 && share < 100 && usual.get(FAMILY) === 'cloth')
      own.set(FAMILY, 'blend');
    return { id: found.item, facts: own, score: numbers.rounded(found.covered, 6), words: near, refused: '' };
  }

  /** @param {Lexicon} lexicon @param {string} text @param {TypedWord[]} typed */
  function factsAlone(lexicon, text, typed) {
    const said = typed.map((word) => word.text);
    /** @type {Span} */
    const near = [0, said.length <= 3 ? said.length : 0];
    const { facts } = words.factsBeside(text, said, near, lexicon.knowledge.facts);
    return facts.size ? { id: '', facts, score: 0, words: /** @type {Span} */ ([0, 0]), refused: '' } : null;
  }

  /** @param {Value | undefined} usual @param {Value} told */
  function differs(usual, told) {
    if (usual === undefined || typeof usual === 'string' || typeof told === 'string') return usual !== told;
    return Number(usual) !== Number(told);
  }

  /**
   * The words from the first to the last of some units.
   * @param {number[]} found @param {Unit[]} units
   */
  function where(found, units) {
    const first = Math.min(...found.map((n) => units[n].words[0]));
    return /** @type {Span} */ ([first, Math.max(...found.map((n) => units[n].words[1]))]);
  }

  Object.assign(words, { findItem, itemAmong });
})();
