// From figures to measures, and what they say of causes: the same likelihoods as on the command line.
// A figure is held in °C, seconds, metres and sheets; a colour as its L*, a* and b* under `print.l` and so on.
var presslore = presslore || {};

(function () {
  'use strict';

  /**
   * @typedef {{ item: Item | null, press: Press | null }} Place where figures were read: what for, and in which press
   * @typedef {{ item: PressedItem, press: Press }} Laid
   * @typedef {object} Formula
   * @property {string} own the figure at its heart
   * @property {string[]} needs
   * @property {string[]} uses
   * @property {(place: Place) => boolean} serves
   * @property {(figures: Figures, at: Laid) => number} work called only where it serves
   */

  const {
    AXES,
    ROUNDING,
    LEAST_QUOTIENT,
    LEAST_MOVE,
    MOST,
    DECIMALS,
    SCALE,
    FAR,
    PLATEN,
    STACK,
    DOSING,
    OFF,
    LEAST_OFF,
    MOST_OFFSET,
    NEUTRAL
  } = presslore.shared.measures;
  const numbers = presslore.numbers;

  /** What makes sense, least and most, by the name of a figure. */
  const WINDOWS = new Map(Object.entries(presslore.shared.measures.WINDOWS));

  /**
   * Whether a figure that is held can be one; true for a name that is not known.
   * @type {Measures['sensible']}
   */
  function sensible(name, value) {
    const window = WINDOWS.get(name);
    return !window || (window[0] - ROUNDING <= value && value <= window[1] + ROUNDING);
  }

  // --- formulas: the figure at the heart of each, what it needs and may use, and for which items it serves ---

  const patch = lab('print').concat(lab('proof'));
  const FORMULAS = new Map([
    [PLATEN, formula('probe', (f) => f.probe - f.set, { needs: ['set'] })],
    ['set-gap', formula('set', (f, at) => beyond(f.set, at.item.windows[0]), { serves: windowed })],
    ['dwell-gap', formula('dwell', dwellGap, { serves: windowed })],
    ['clock-gap', formula('watch', (f) => Math.log(f.watch / f.dwell), { needs: ['dwell'] })],
    ['layers', formula('sheets', (f) => f.sheets)],
    ['layers-dose', formula('sheets', layersDose, { serves: bodied })],
    ['thickness-dose', formula('thickness', thicknessDose, { serves: hard })],
    [
      STACK,
      formula('strip', (f, at) => f.strip - reckoned(f, at), {
        needs: ['set'],
        uses: ['dwell', 'probe', 'sheets', 'thickness'],
        serves: bodied
      })
    ],
    ['lightness', formula('print.l', (f) => f['print.l'] - f['proof.l'], { needs: patch })],
    ['chroma', formula('print.l', (f) => chroma(f, 'print') - chroma(f, 'proof'), { needs: patch })],
    ['hue', formula('print.l', hue, { needs: patch })],
    [
      'yellowness',
      formula('ground.b', (f) => f['ground.b'] - f['blank.b'], { needs: lab('ground').concat(lab('blank')) })
    ]
  ]);

  /** @param {string} own @param {Formula['work']} work @param {Partial<Formula>} [more] */
  function formula(own, work, more) {
    return { own, work, needs: [], uses: [], serves: () => true, ...more };
  }

  /** @param {string} name */
  function lab(name) {
    return AXES.map((axis) => `${name}.${axis}`);
  }

  /** @param {Place} at */
  function windowed(at) {
    return Boolean(at.item && at.item.windows);
  }

  /** @param {Place} at */
  function bodied(at) {
    return windowed(at) && Boolean(at.item && at.item.body);
  }

  /** @param {Place} at */
  function hard(at) {
    return bodied(at) && new Map(at.item ? at.item.facts : []).get('item.hard') === true;
  }

  /**
   * How far a value lies outside a window.
   * @param {number} value @param {Span} window
   */
  function beyond(value, window) {
    return Math.min(0, value - window[0]) + Math.max(0, value - window[1]);
  }

  /** @param {Figures} f @param {Laid} at */
  function dwellGap(f, at) {
    const [least, most] = at.item.windows[1];
    return beyond(Math.log(f.dwell), [Math.log(least), Math.log(most)]);
  }

  /** @param {Figures} f @param {Laid} at */
  function layersDose(f, at) {
    const usual = at.item.usual;
    const stack = { ...usual, sheets: numbers.rounded(f.sheets, 0) };
    return logged(presslore.heat.dose(at.press, at.item, stack) / presslore.heat.dose(at.press, at.item, usual));
  }

  /** @param {Figures} f @param {Laid} at */
  function thicknessDose(f, at) {
    const usual = at.item.usual;
    const other = presslore.heat.dose(at.press, at.item, usual, f.thickness);
    return logged(other / presslore.heat.dose(at.press, at.item, usual));
  }

  /** @param {number} quotient */
  function logged(quotient) {
    return Math.log(Math.max(quotient, LEAST_QUOTIENT));
  }

  /**
   * The highest temperature that the print should see by what was told.
   * @param {Figures} f @param {Laid} at
   */
  function reckoned(f, at) {
    const usual = at.item.usual;
    const settings = {
      ...usual,
      temperature: f.set,
      dwell: f.dwell === undefined ? usual.dwell : f.dwell,
      offset: f.probe === undefined ? 0 : f.probe - f.set,
      sheets: f.sheets === undefined ? usual.sheets : numbers.rounded(f.sheets, 0)
    };
    return presslore.heat.peak(at.press, at.item, settings, f.thickness);
  }

  /** @param {Figures} f @param {string} name */
  function chroma(f, name) {
    return Math.hypot(f[`${name}.a`], f[`${name}.b`]);
  }

  /**
   * How far the hue turned, as a distance whichever way; 0 where one of the two is grey.
   * @param {Figures} f
   */
  function hue(f) {
    const proof = chroma(f, 'proof');
    const print = chroma(f, 'print');
    if (Math.min(proof, print) < NEUTRAL) return 0;
    const turn = Math.atan2(f['print.b'], f['print.a']) - Math.atan2(f['proof.b'], f['proof.a']);
    return Math.abs(2 * Math.sqrt(proof * print) * Math.sin(turn / 2));
  }

  // --- what was told ---

  /**
   * The figures that a formula works with and their period, null where one is missing. `told`: [{period, figures}].
   * @param {Formula} made @param {ToldFigures[]} told
   */
  function inForce(made, told) {
    const last = lastTold(made.own, told);
    if (last < 0) return null;
    /** @type {Figures} */
    const figures = {};
    [made.own].concat(made.needs, made.uses).forEach((name) => {
      const value = asOf(name, last, told);
      if (value !== undefined) figures[name] = value;
    });
    if (made.needs.some((name) => figures[name] === undefined)) return null;
    return { figures, period: told[last].period };
  }

  /**
   * Where a figure was told last, -1 where it was not.
   * @param {string} name @param {ToldFigures[]} told
   */
  function lastTold(name, told) {
    let last = told.length - 1;
    while (last >= 0 && told[last].figures[name] === undefined) last -= 1;
    return last;
  }

  /**
   * The figure as it was last told by then; where it was told later only, that.
   * @param {string} name @param {number} last @param {ToldFigures[]} told
   */
  function asOf(name, last, told) {
    const place = placeOf(name, last, told);
    return place < 0 ? undefined : told[place].figures[name];
  }

  /**
   * Where a figure was told last by then; where it was told later only, there; -1 where it was not.
   * @param {string} name @param {number} last @param {ToldFigures[]} told
   */
  function placeOf(name, last, told) {
    const before = lastTold(name, told.slice(0, last + 1));
    return before >= 0 ? before : told.findIndex((one) => one.figures[name] !== undefined);
  }

  /**
   * What stood in the press when a measure was taken, as far as it was told, each as a change of what is usual.
   * @param {string} own @param {ToldFigures[]} told
   * @returns {PressChange[]}
   */
  function inPress(own, told) {
    const last = lastTold(own, told);
    const at = (/** @type {string} */ name) => asOf(name, last, told);
    /** @type {PressChange[]} */
    const found = [];
    const [set, dwell, sheets, thickness] = ['set', 'dwell', 'sheets', 'thickness'].map(at);
    if (set !== undefined) found.push({ settings: { temperature: set } });
    if (dwell !== undefined) found.push({ settings: { dwell } });
    const probed = placeOf('probe', last, told);
    const beside = probed < 0 ? undefined : asOf('set', probed, told);
    if (beside !== undefined) found.push({ settings: { offset: told[probed].figures.probe - beside } });
    if (sheets !== undefined) found.push({ settings: { sheets: numbers.rounded(sheets, 0) } });
    if (thickness !== undefined) found.push({ settings: {}, thickness });
    return found;
  }

  /**
   * How many times what stood in the press together makes of a shortfall of the dose, and of an excess, what the worst
   * of it makes alone.
   * @param {Laid} at @param {PressChange[]} stood
   */
  function together(at, stood) {
    if (stood.length < 2) return { short: 1, over: 1 };
    const usual = presslore.heat.dose(at.press, at.item, at.item.usual);
    const moves = stood.map((one) => moved(at, [one], usual));
    const whole = moved(at, stood, usual);
    return {
      short: against(
        -whole,
        moves.map((move) => -move)
      ),
      over: against(whole, moves)
    };
  }

  /**
   * How far some changes move the logarithm of the dose together.
   * @param {Laid} at @param {PressChange[]} changes @param {number} usual
   */
  function moved(at, changes, usual) {
    const settings = Object.assign({}, at.item.usual, ...changes.map((one) => one.settings));
    const thick = changes.find((one) => one.thickness !== undefined);
    return Math.log(presslore.heat.dose(at.press, at.item, settings, thick && thick.thickness) / usual);
  }

  /** @param {number} whole @param {number[]} moves */
  function against(whole, moves) {
    const worst = Math.max(...moves);
    return worst > LEAST_MOVE ? Math.min(moves.length, Math.max(0, whole / worst)) : 1;
  }

  /**
   * The readings that some figures make, in the order of the knowledge:
   * {measure, value, figures, period, ratios: Map<cause, times>}.
   * @type {Measures['readings']}
   */
  function readings(told, item, knowledge) {
    const at = { item, press: knowledge.press };
    /** @type {Reading[]} */
    const found = [];
    knowledge.readings.forEach((measure) => {
      const made = presslore.known(FORMULAS, measure.id);
      const force = inForce(made, told);
      if (force && made.serves(at))
        found.push({
          measure,
          value: made.work(force.figures, /** @type {Laid} */ (at)),
          ratios: new Map(),
          counts: 1,
          ...force
        });
    });
    const platen = found.find((one) => one.measure.id === PLATEN);
    /** @type {Map<string, { short: number, over: number }>} */
    const known = new Map();
    const reckoned = (/** @type {string} */ measure) => {
      // mostly the same for all measures, and reckoned with once then
      const dosed = DOSING.indexOf(measure) >= 0 && bodied(at);
      const stood = dosed ? inPress(presslore.known(FORMULAS, measure).own, told) : [];
      const key = JSON.stringify(stood);
      if (!known.has(key)) known.set(key, together(/** @type {Laid} */ (at), stood));
      return presslore.known(known, key);
    };
    found.forEach((one) => {
      const probed = one.measure.id === STACK && platen ? platen.measure.speaks.map((said) => said[0]) : [];
      const spoken = one.measure.speaks.filter((said) => probed.indexOf(said[0]) < 0);
      const all = reckoned(one.measure.id);
      const counts = one.value < 0 ? all.short : all.over;
      const joint = one.value * counts;
      one.counts = one.value ? counts : 1;
      one.ratios = new Map(
        spoken.map((said) => [said[0], ratio(said[4] ? joint : one.value, said, one.measure.error)])
      );
    });
    return found;
  }

  /**
   * The figure that may be told in answer to a check, '' where there is none.
   * @type {Measures['askedBy']}
   */
  function askedBy(check, item, knowledge) {
    const measure = knowledge.readings.find((one) => {
      const made = presslore.known(FORMULAS, one.id);
      const plain = made.own.indexOf('.') < 0;
      return one.settles.indexOf(check) >= 0 && plain && made.serves({ item, press: knowledge.press });
    });
    return measure ? presslore.known(FORMULAS, measure.id).own : '';
  }

  // --- what to set by what was measured ---

  /**
   * What a fix should set by the figures; null where it goes by none, where its measure was not taken or is as it should
   * be, or where a fix tried since may have changed it.
   * @type {Measures['setRight']}
   */
  function setRight(fix, consultation) {
    const reading = consultation.readings.find((one) => one.measure.id === fix.byFigure);
    if (!reading || Math.abs(reading.value) < (OFF[reading.measure.id] || LEAST_OFF)) return null;
    const spoken = reading.measure.speaks.map((said) => said[0]);
    const fixes = consultation.knowledge.fixes;
    const since = consultation.evidence.tried.slice(reading.period).map((one) => fixes.get(one.fix));
    if (since.some((one) => one && one.cures.some((cure) => spoken.indexOf(cure[0]) >= 0))) return null;
    const to = presslore.known(TO, reading.measure.id)(reading, consultation.item);
    return to === null ? null : { reading, to };
  }

  /** @type {Map<string, (reading: Reading, item: Item | null) => number | null>} */
  const TO = new Map([
    [PLATEN, display],
    ['set-gap', (_, item) => middleOf(item, 0)],
    ['dwell-gap', (_, item) => middleOf(item, 1)],
    ['clock-gap', (reading) => 2 * reading.figures.dwell - reading.figures.dwell * Math.exp(reading.value)],
    ['layers-dose', (_, item) => (item && item.usual ? item.usual.sheets : null)]
  ]);

  /**
   * The display's figure at which the platen stands where it should.
   * @param {Reading} reading @param {Item | null} item
   */
  function display(reading, item) {
    if (Math.abs(reading.value) > MOST_OFFSET) return null;
    const window = item && item.windows && item.windows[0];
    const set = reading.figures.set;
    return (window && beyond(set, window) ? (window[0] + window[1]) / 2 : set) - reading.value;
  }

  /** @param {Item | null} item @param {0 | 1} which */
  function middleOf(item, which) {
    const window = item && item.windows && item.windows[which];
    return window ? (window[0] + window[1]) / 2 : null;
  }

  // --- likelihood ---

  /**
   * The likelihood of the value with the cause over that without it, within MOST either way. `says`: the way out (-1
   * under, 1 over, 0 either), how far out the marks lie, and how often figures lie between them.
   * @type {Measures['ratio']}
   */
  function ratio(value, says, error) {
    const [, way, edges, bands] = says;
    const out = way ? way * value : Math.abs(value);
    const ends = edges.map((edge) => past((out - edge) / (error * SCALE)));
    const reach = [1].concat(ends, [0]);
    const within = bands.map((_, place) => reach[place] - reach[place + 1]);
    const there = numbers.sum(within.map((part, place) => part * bands[place][0]));
    const otherwise = numbers.sum(within.map((part, place) => part * bands[place][1]));
    if (otherwise * MOST <= there) return there > 0 ? MOST : 1;
    return Math.max(1 / MOST, numbers.rounded(there / otherwise, DECIMALS));
  }

  /**
   * The chance that the true value lies past an edge that the reading is so many steps past.
   * @param {number} steps
   */
  function past(steps) {
    return 1 / (1 + Math.exp(-Math.max(-FAR, Math.min(FAR, steps))));
  }

  presslore.measures = { WINDOWS, sensible, readings, setRight, askedBy, ratio, MOST };
})();
