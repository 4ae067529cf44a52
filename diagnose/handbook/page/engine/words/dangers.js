// Dangers in a person's own words: what happens now, to somebody or something that can burn, shock, crush or cut. It does
// what reasoning/words/dangers.py does, where the tables stand and are told.
var presslore = presslore || {};

(function () {
  'use strict';

  const words = presslore.words;
  const { CLASSES, PATTERNS, NEAR, FAR, LONGEST_GAP, SHORTEST_SLIP } = presslore.shared.dangers;
  const DENYING = new Set(presslore.shared.dangers.DENYING.split(' '));
  const CONDITIONS = new Set(presslore.shared.dangers.CONDITIONS);
  const SUPPOSING = new Set(presslore.shared.dangers.SUPPOSING.split(' ').filter((word) => !CONDITIONS.has(word)));
  const FEARING = new Set(presslore.shared.dangers.FEARING.split(' '));
  const SUBJECTS = new Set(presslore.shared.dangers.SUBJECTS.split(' '));
  const OPENING = union(presslore.shared.dangers.SUBJECTS, CLASSES.breaker);
  const SOURCES = union(CLASSES.m, CLASSES.elec, presslore.shared.dangers.SOURCES);
  const SCORCHED = union(CLASSES.goods, presslore.shared.dangers.SCORCHED);
  const FRIGHTS = new Set(presslore.shared.dangers.FRIGHTS);
  const REAL = new Set(presslore.shared.dangers.REAL.split(' '));
  const PRESENT = new Set(presslore.shared.dangers.PRESENT);
  const FIGURATIVE = new Set(presslore.shared.dangers.FIGURATIVE);
  const ARTWORK = new Set(presslore.shared.dangers.ARTWORK);
  const SIGNS = new Set(presslore.shared.dangers.SIGNS);
  const SMELLS = new Set(presslore.shared.dangers.SMELLS);
  const JOINING = new Set(presslore.shared.dangers.JOINING);
  const VERBS = new Set(presslore.shared.dangers.VERBS);
  const OWN = new Set(presslore.shared.dangers.OWN);
  /** @type {Map<string, RegExp>} */
  const expressions = new Map();
  /** @type {Map<string, string>} */
  const mended = new Map();
  /** @type {{ alarming: Set<string>, slippery: string[], rewritings: [RegExp, string][], wanted: Record<string, Set<string>[][]> } | null} */
  let read = null;

  /**
   * The ids of the dangers that are told of as happening now, the most urgent first.
   * @type {Words['dangers']}
   */
  function dangers(text) {
    const whole = words.fold(words.taken(text)).replace(new RegExp(presslore.shared.dangers.CORRECTED, 'g'), ',');
    const parts = whole.match(/[^.!?;\n]+[.!?;\n]*/g) || [];
    const said = parts.filter((part, at) => !answeredNo(part, parts[at + 1] || ''));
    const sentences = said.map(sentence);
    const past = new RegExp(`\\b(?:${presslore.shared.dangers.CONSEQUENCE})\\b`).test(whole);
    return Object.keys(PATTERNS).filter((danger) => sentences.some((one) => told(danger, one, past)));
  }

  /**
   * The danger that is most urgent, null where none is told of; one of a shop's own where the text is a saying of it.
   * @type {Words['alarm']}
   */
  function alarm(knowledge, text) {
    const heard = dangers(text).find((id) => knowledge.dangers.has(id));
    if (heard) return presslore.known(knowledge.dangers, heard);
    const typed = words.cut(text).join(' ');
    const said = Array.from(knowledge.dangers.values());
    return said.find((danger) => danger.said.some((one) => words.cut(one).join(' ') === typed)) || null;
  }

  /** @param {string[]} lists */
  function union(...lists) {
    return new Set(lists.join(' ').split(' '));
  }

  /** Made when it is first needed. */
  function tables() {
    if (read) return read;
    const said = Object.values(CLASSES).concat(...Object.values(PATTERNS));
    const alarming = new Set(
      said
        .join(' ')
        .replace(/_/g, ' ')
        .match(/[a-z0-9]+/g)
    );
    const slippery = presslore.shared.dangers.SLIPPERY.split(' ').filter((word) => word.length >= SHORTEST_SLIP);
    const { REWRITTEN, COMPOUNDS } = presslore.shared.dangers;
    const pairs = REWRITTEN.concat(COMPOUNDS.map((one) => /** @type {[string, string]} */ ([one, '_'])));
    /** @type {Record<string, Set<string>[][]>} */
    const wanted = {};
    Object.entries(PATTERNS).forEach(([danger, patterns]) => {
      wanted[danger] = patterns.map(needed);
    });
    read = {
      alarming,
      slippery: slippery.sort(),
      rewritings: pairs.map(([one, written]) => [new RegExp(` (?:${one})(?= )`, 'g'), written.replace('\\1', '$1')]),
      wanted
    };
    return read;
  }

  /**
   * Whether a question that speaks of nobody ("smoke?") is answered right away.
   * @param {string} part @param {string} after
   */
  function answeredNo(part, after) {
    const own = (part.match(/[a-z0-9]+/g) || []).some((word) => OWN.has(word));
    return part.includes('?') && /^ *(?:no|nope|not|nah)\b/.test(after) && !own;
  }

  /** @typedef {{ typed: string, read: string }} Sentence */

  /** @param {string} danger @param {Sentence} one @param {boolean} past */
  function told(danger, one, past) {
    const said = split(one.read);
    if ((presslore.shared.dangers.UNLESS[danger] || '').split(' ').some((word) => said.includes(word))) return false;
    return PATTERNS[danger].some((pattern, number) => {
      if (tables().wanted[danger][number].some((each) => !said.some((word) => each.has(word)))) return false;
      const fits = expression(pattern);
      for (let from = 0; ; ) {
        fits.lastIndex = from;
        const found = fits.exec(one.read);
        if (!found) return false;
        if (live(danger, found.index, found.index + found[0].length, one, past)) return true;
        from = found.index + 1;
      }
    });
  }

  /**
   * Whether what fits is said to happen, now, to people or things of this world.
   * @param {string} danger @param {number} first @param {number} last @param {Sentence} one @param {boolean} past
   */
  function live(danger, first, last, one, past) {
    const before = one.read.slice(0, first);
    const after = one.read.slice(last);
    const clause = split(before.slice(before.lastIndexOf(',') + 1));
    const own = split(one.read.slice(first, last));
    if (denied(before) || supposed(split(before), clause, own)) return false;
    const now = [...own, ...clause.slice(-2)].some((word) => PRESENT.has(word));
    const around = `${[...clause, ...own].join(' ')} ${after.split(' , ')[0]}`;
    if (!now && (past || longAgo(around) || longAgo(one.typed))) return false;
    if (new RegExp(` (?:${presslore.shared.dangers.HEARSAY}) `).test(one.read.slice(0, last))) return false;
    if (own.slice(-2).join(' ') === 'on fire' && clause.slice(-4).some((word) => FIGURATIVE.has(word))) return false;
    const smells =
      (danger === 'electrical-fault' || danger === 'smoke') &&
      [...clause.slice(-2), ...own.slice(0, 2)].some((word) => SMELLS.has(word));
    if (smells && ofScorching(own, split(one.read))) return false;
    return own.some((word) => OWN.has(word)) || !ofArtwork(clause, own, split(after.split(',')[0]));
  }

  /**
   * Whether it is goods that smell, and neither press nor wires.
   * @param {string[]} own @param {string[]} said
   */
  function ofScorching(own, said) {
    return !own.some((word) => SOURCES.has(word)) && said.some((word) => SCORCHED.has(word));
  }

  /** @param {string} text */
  function split(text) {
    return text.split(' ').filter(Boolean);
  }

  /** @param {string} before */
  function denied(before) {
    const left = new RegExp(presslore.shared.dangers.LEFT);
    const clause = `${before.slice(before.lastIndexOf(',') + 1)} `.split(left).slice(-1)[0];
    return split(clause)
      .slice(-NEAR)
      .some((word) => DENYING.has(word));
  }

  /** @param {string[]} before @param {string[]} clause @param {string[]} own */
  function supposed(before, clause, own) {
    const said = ` ${before.join(' ')} `;
    if (said.includes(' what if ') || said.includes(' in case ')) return true;
    if (clause.slice(-FAR).some((word) => FEARING.has(word)) || own.some((word) => FRIGHTS.has(word))) return true;
    if (clause.slice(-2).includes('like')) return true;
    if (before.length && before[before.length - 1] === 'to' && VERBS.has(own[0])) return true;
    if (clause.slice(-NEAR).some((word) => SUPPOSING.has(word))) return true;
    const place = before.map((word) => CONDITIONS.has(word)).lastIndexOf(true);
    if (place < 0) return false;
    const between = before.slice(place + 1);
    if (between.includes(',') || between.slice(2).some((word) => SUBJECTS.has(word))) return false;
    return !(between.length > 1 && OPENING.has(own[0]));
  }

  /**
   * Whether a sentence speaks of what is over, and of nothing that goes on.
   * @param {string} typed
   */
  function longAgo(typed) {
    const rest = typed.replace(new RegExp(presslore.shared.dangers.SINCE_BOUGHT, 'g'), ' ');
    const { LONG_AGO, JUST_NOW } = presslore.shared.dangers;
    const [over, on] = [LONG_AGO, JUST_NOW].map((said) => new RegExp(`\\b(?:${said})\\b`).test(rest));
    return over && !on;
  }

  /**
   * Whether it is a picture that shows it, or a sign that tells of it.
   * @param {string[]} clause @param {string[]} own @param {string[]} after
   */
  function ofArtwork(clause, own, after) {
    if (clause.slice(-4).some((word) => ARTWORK.has(word))) return true;
    if ([...own.slice(1), ...after.slice(0, 2)].some((word) => SIGNS.has(word))) return true;
    const joined = JOINING.has(own[own.length - 1])
      ? after.slice(0, 6)
      : JOINING.has(after[0])
        ? after.slice(1, 6)
        : [];
    return joined.some((word) => ARTWORK.has(word));
  }

  /** @param {string} part */
  function sentence(part) {
    const pieces = part.replace(/ - /g, ',').match(/[a-z0-9]+|[,:()–—]/g) || [];
    let said = ` ${pieces.map((piece) => (/[a-z0-9]/.test(piece) ? mend(piece) : ',')).join(' ')} `;
    tables().rewritings.forEach(([one, written]) => {
      said = said.replace(one, ` ${written}`).replace(/ +/g, ' ');
    });
    said = said.replace(/ +/g, ' ').replace(/(?: ,)+ /g, ' , ');
    said = said.replace(/ , $/, ' ').replace(/^ , /, ' ');
    return { typed: part, read: part.includes('!') ? `${said}! ` : said };
  }

  /**
   * The word of a pattern that a word not known otherwise is a slip away from; else the word itself.
   * @param {string} typed
   */
  function mend(typed) {
    let found = mended.get(typed);
    if (found === undefined) {
      found = mendedOf(typed);
      mended.set(typed, found);
    }
    return found;
  }

  /** @param {string} word */
  function mendedOf(word) {
    const { alarming, slippery } = tables();
    const drawn = word.replace(/(.)\1{2,}/g, '$1');
    if (drawn !== word) {
      const twice = word.replace(/(.)\1{2,}/g, '$1$1');
      word = alarming.has(twice) ? twice : drawn;
    }
    const known = word.length < SHORTEST_SLIP || !/^[a-z]+$/.test(word) || alarming.has(word) || REAL.has(word);
    if (known) return word;
    return slippery.find((one) => one[0] === word[0] && words.distance(word, one, 1) === 1) || word;
  }

  /**
   * The sets of words of which a pattern needs one each.
   * @param {string} pattern
   */
  function needed(pattern) {
    const elements = pattern.split(' ').filter((each) => !(each in LONGEST_GAP) && each !== '^' && !each.endsWith('?'));
    const sets = elements.map(wordsOf).filter((each) => !each.includes('$'));
    return sets.map((each) => new Set(each.map((word) => word.split(' ')[0])));
  }

  /**
   * The words and phrases that an element of a pattern stands for.
   * @param {string} element
   */
  function wordsOf(element) {
    return element
      .split('|')
      .flatMap((part) => (part[0] === '{' ? CLASSES[part.slice(1, -1)].split(' ') : [part]))
      .map((word) => word.replace(/_/g, ' '));
  }

  /** @param {string} pattern */
  function expression(pattern) {
    let found = expressions.get(pattern);
    if (!found) {
      const all = orders(pattern.split(' & ')).map((order) => inOrder(order.join(' & ')));
      found = new RegExp(all.join('|'), 'g');
      expressions.set(pattern, found);
    }
    return found;
  }

  /**
   * @param {string[]} parts
   * @returns {string[][]}
   */
  function orders(parts) {
    if (parts.length < 2) return [parts];
    return parts.flatMap((part, at) => orders(parts.filter((_, other) => other !== at)).map((rest) => [part, ...rest]));
  }

  /** @param {string} pattern */
  function inOrder(pattern) {
    const all = pattern.split(' ').map(written).join('');
    return pattern.startsWith('^') ? all : ` ${all}`;
  }

  /** @param {string} element */
  function written(element) {
    if (element === '^') return '^ ';
    if (element in LONGEST_GAP) {
      const stops = [
        ...presslore.shared.dangers.DENYING.split(' '),
        ...presslore.shared.dangers.SUPPOSING.split(' '),
        '!',
        ...(element === '..' ? [','] : [])
      ];
      return `(?:(?!(?:${stops.join('|')}) )[^ ]+ ){0,${LONGEST_GAP[element]}}`;
    }
    const optional = element.endsWith('?');
    const all = wordsOf(optional ? element.slice(0, -1) : element);
    const spaced = `(?:${all.filter((word) => word !== '$').join('|')}) `;
    const end = '(?:! )?$';
    const either = !all.includes('$') ? spaced : all.length > 1 ? `(?:${spaced}|${end})` : end;
    return optional ? `(?:${either})?` : either;
  }

  Object.assign(words, { dangers, alarm });
})();
