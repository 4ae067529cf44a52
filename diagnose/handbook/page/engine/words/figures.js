// Figures within a person's own words: 350F for 40 seconds, set 200 but my probe says 185. By the expressions of
// foresight/figures_told.py, one kind of thing after the other: what one has read, no other reads.
var presslore = presslore || {};

(function () {
  'use strict';

  const {
    A_MINUTE,
    A_NUMBER,
    AFTER,
    ALIKE,
    BARE,
    BEFORE,
    COUNTING,
    COVERS,
    FOLDED,
    HEATS,
    HOTTEST,
    LEADING,
    LONGEST,
    METRES,
    NONE,
    NOW,
    NUMBERS,
    OF_THE_NEXT,
    PARTING,
    PRESSED,
    READ,
    SCALES,
    THICKEST,
    THICKNESS,
    THINNEST,
    TIMES,
    WORD
  } = presslore.shared.figures;
  const numbers = presslore.numbers;
  const nothing = NONE.map((each) => made(each, 'gu'));
  const kinds = READ.map((each) => made(each, 'gu'));
  const [heats, times] = [HEATS, TIMES].map((roles) => roles.map(([each, role]) => ({ whole: wholly(each), role })));
  const [aNumber, now] = [A_NUMBER, NOW].map(wholly);
  const [covers, thickness, next, parting] = [COVERS, THICKNESS, OF_THE_NEXT, PARTING].map((each) => made(each, 'u'));
  const word = made(WORD, 'gu');
  const leading = made(LEADING, 'giu');

  /**
   * The figures that a text tells, in its order, one of each name: {name, value, first, last}. A figure told twice and
   * otherwise is none, unless the words say which of them is in force.
   * @type {Words['figuresTold']}
   */
  function figuresTold(text) {
    const plain = folded(text);
    if (!/\d/.test(plain) && !COUNTING.some((each) => plain.includes(each))) return [];
    /** @type {Map<string, ToldFigure[]>} */
    const byName = new Map();
    inOrder(all(plain)).forEach((one) => byName.set(one.name, [...(byName.get(one.name) || []), one]));
    return inOrder(Array.from(byName.values()).flatMap((told) => inForce(plain, told)));
  }

  /**
   * The text with the figures cut out, and the words that lead to them or join them: a comma in the place of each.
   * @type {Words['withoutFigures']}
   */
  function withoutFigures(text, found) {
    const left = inOrder(found).reduceRight((so, { first, last }) => `${so.slice(0, first)}\0${so.slice(last)}`, text);
    return found.length ? left.replace(leading, ',') : text;
  }

  /** @param {string} pattern as Python writes it @param {string} flags */
  function made(pattern, flags) {
    return new RegExp(pattern.replace(/\(\?P</g, '(?<'), flags);
  }

  /** @param {string} pattern */
  function wholly(pattern) {
    return made(`^(?:${pattern})$`, 'u');
  }

  /** @param {ToldFigure[]} found */
  function inOrder(found) {
    return numbers.sorted(found, (one) => [one.first]);
  }

  /**
   * The text in small letters, sign for sign as long as it was.
   * @param {string} text
   */
  function folded(text) {
    return Array.from(text, (sign) => FOLDED[sign] || small(sign)).join('');
  }

  /** @param {string} sign */
  function small(sign) {
    const lower = sign.toLowerCase();
    return lower.length === sign.length ? lower : sign;
  }

  /**
   * The number that some folded words are: 385, 1.5, forty-five, three eighty five, half; null where they are none.
   * @param {string} words
   */
  function number(words) {
    const plain = words.replace(/,/g, '.');
    if (aNumber.test(plain)) return Number(plain);
    let total = 0;
    let last = 0;
    for (const each of words.split(/[\s-]+/)) {
      if (each === 'hundred') [total, last] = [(total || 1) * 100, 0];
      else if (each === 'a' || each === 'an' || each === 'and')
        total = total || (each !== 'and' && words === each ? 1 : 0);
      else if (!(each in NUMBERS)) return null;
      else {
        const value = NUMBERS[each];
        const hundreds = total >= 1 && total <= 5 && last === total && value >= 10; // "three eighty"
        total = hundreds ? total * 100 + value : total + value;
        last = value;
      }
    }
    return total || null;
  }

  /**
   * Every figure that is told, several of one name among them.
   * @param {string} plain folded
   */
  function all(plain) {
    nothing.forEach((each) => {
      plain = plain.replace(each, (fit) => '~'.repeat(fit.length));
    });
    const scaled = fits(kinds[0], plain).find((fit) => fit.told.scale);
    const scale = scaled ? scaled.told.scale : '';
    /** @type {ToldFigure[]} */
    const found = [];
    kinds.forEach((kind) => {
      fits(kind, plain)
        .flatMap((fit) => read(plain, fit, scale))
        .forEach((one) => {
          plain = `${plain.slice(0, one.first)}${'~'.repeat(one.last - one.first)}${plain.slice(one.last)}`;
          found.push(one);
        });
    });
    return found;
  }

  /** @typedef {{ told: Record<string, string>, first: number, last: number }} Fit what an expression fits */

  /**
   * @param {RegExp} expression @param {string} plain
   * @returns {Fit[]}
   */
  function fits(expression, plain) {
    return Array.from(plain.matchAll(expression), (fit) => {
      return { told: { ...fit.groups }, first: fit.index || 0, last: (fit.index || 0) + fit[0].length };
    });
  }

  /** @param {string} plain @param {Fit} fit @param {string} scale */
  function read(plain, fit, scale) {
    const { told, first, last } = fit;
    const found = ['heat', 'bare', 'bare_after', 'only'].flatMap((name) =>
      told[name] ? heat(plain, fit, name, told.scale || scale) : []
    );
    const seconds = told.plain ? 0 : secondsOf(told);
    if (told.plain) found.push(...figure('dwell', number(told.plain), last - told.plain.length, last));
    else if (seconds) {
      const end = last - (told.bare_after || '').length;
      found.push(...figure(role(plain, times, first, end, 'dwell'), seconds, first, end));
    }
    const by = () => beside(plain, first, last);
    if (told.sheets && covers.test(by())) found.push(...figure('sheets', number(told.sheets), first, last));
    if (told.thick && thickness.test(by())) {
      const metres = (number(told.thick) || 0) * METRES[unit(told.unit)];
      if (THINNEST <= metres && metres <= THICKEST) found.push(...figure('thickness', metres, first, last));
    }
    return found;
  }

  /** @param {string} plain @param {Fit} fit @param {string} name @param {string} scale */
  function heat(plain, { told, first, last }, name, scale) {
    const value = number(told[name]);
    if (value === null) return [];
    if (name === 'bare') last = first + told[name].length;
    else if (name !== 'heat') first = last - told[name].length;
    if (name !== 'heat' && !BARE.some(([least, most]) => least <= value && value <= most)) return [];
    const fahrenheit = scale ? scale.startsWith('f') : value > HOTTEST;
    const [factor, offset] = SCALES[fahrenheit ? 'f' : 'c'];
    const held = value * factor + offset;
    const of = role(plain, heats, first, last, '');
    return of || (PRESSED[0] <= held && held <= PRESSED[1]) ? figure(of || 'set', held, first, last) : [];
  }

  /**
   * @param {string} name @param {number | null} value @param {number} first @param {number} last
   * @returns {ToldFigure[]}
   */
  function figure(name, value, first, last) {
    if (value === null || value <= 0 || !presslore.measures.sensible(name, value)) return [];
    return [{ name, value: numbers.rounded(value, 9), first, last }];
  }

  /**
   * The time that was told, 0 where none was.
   * @param {Fit['told']} told
   */
  function secondsOf(told) {
    if (told.clock) {
      const [minutes, after] = told.clock.split(':');
      return A_MINUTE * Number(minutes) + Number(after);
    }
    if (told.half) return A_MINUTE / 2;
    let seconds = told.seconds ? number(told.seconds) || 0 : 0;
    if (told.minutes) {
      const whole = told.minutes === 'a' ? 1 : number(told.minutes) || 0;
      seconds = whole * A_MINUTE + (told.ahalf ? A_MINUTE / 2 : told.rest ? number(told.rest) || 0 : 0);
    }
    return seconds <= LONGEST ? seconds : 0;
  }

  /**
   * What a figure is of, by the nearest word for it: right before it, else right after it, in the same clause.
   * @param {string} plain @param {{ whole: RegExp, role: string }[]} roles @param {number} first @param {number} last
   * @param {string} usual
   */
  function role(plain, roles, first, last, usual) {
    for (const each of [...before(plain, first).reverse(), ...after(plain, last)]) {
      const found = roles.find(({ whole }) => whole.test(each));
      if (found) return found.role;
    }
    return usual;
  }

  /** @param {string} plain @param {number} first */
  function before(plain, first) {
    return wordsOf(plain.slice(0, first).split(parting).slice(-1)[0]).slice(-BEFORE);
  }

  /** @param {string} plain @param {number} last */
  function after(plain, last) {
    return wordsOf(plain.slice(last).replace(next, '').split(parting)[0]).slice(0, AFTER);
  }

  /** @param {string} clause */
  function wordsOf(clause) {
    return (clause.match(word) || []).map((each) => each.replace(/\s+/g, ' '));
  }

  /** @param {string} plain @param {number} first @param {number} last */
  function beside(plain, first, last) {
    return [...before(plain, first), plain.slice(first, last), ...after(plain, last)].join(' ');
  }

  /** @param {string} spelt */
  function unit(spelt) {
    return spelt.startsWith('m') ? 'mm' : spelt === 'cm' ? 'cm' : 'in';
  }

  /**
   * The one of several figures of a name that counts: the only one, or the last where the words before it say so.
   * @param {string} plain @param {ToldFigure[]} told
   */
  function inForce(plain, told) {
    const last = told[told.length - 1];
    const values = told.map((one) => one.value);
    const alike = Math.max(...values) - Math.min(...values) <= ALIKE * last.value;
    return alike || before(plain, last.first).some((each) => now.test(each)) ? [last] : [];
  }

  Object.assign(presslore.words, { figuresTold, withoutFigures });
})();
