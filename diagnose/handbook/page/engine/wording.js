// What measured figures say, in sentences: in the shop's unit first, with the other beside.
var presslore = presslore || {};

(function () {
  'use strict';

  const { NEAR, LEVEL } = presslore.shared.wording;
  const { numbers, say } = presslore;

  /** @type {Record<string, (f: Figures, value: number, unit: string) => string>} */
  const WORDS = {
    'platen-gap': (f, value, unit) =>
      say('platen-gap', { probe: degrees(f.probe, unit), set: degrees(f.set, unit), gap: gap(value, unit) }),
    'set-gap': (f, value, unit) =>
      say('set-gap', { side: side(value, LEVEL), set: degrees(f.set, unit), step: step(value, unit) }),
    'dwell-gap': (f, value) =>
      say('dwell-gap', {
        side: side(value, Number.MIN_VALUE),
        dwell: f.dwell,
        off: Math.abs(f.dwell - f.dwell / Math.exp(value))
      }),
    'clock-gap': (f) => say('clock-gap', { watch: f.watch, dwell: f.dwell }),
    layers: (f) => say('layers', { sheets: numbers.rounded(f.sheets, 0) }),
    'layers-dose': (f, value) =>
      say('layers-dose', { sheets: numbers.rounded(f.sheets, 0), share: Math.exp(value) * 100 }),
    'thickness-dose': (f, value) =>
      say('thickness-dose', { millimetres: f.thickness * 1000, share: Math.exp(value) * 100 }),
    'stack-gap': (f, value, unit) =>
      say('stack-gap', {
        strip: degrees(f.strip, unit),
        reckoned: degrees(f.strip - value, unit),
        gap: gap(value, unit)
      }),
    lightness: (_, value) => say('lightness', { side: side(value, 0), steps: Math.abs(value) }),
    chroma: (_, value) => say('chroma', { side: side(value, 0), steps: Math.abs(value) }),
    hue: (_, value) => say('hue', { steps: value }),
    yellowness: (_, value) => say('yellowness', { side: side(value, 0), steps: Math.abs(value) })
  };

  /** @param {number} value @param {number} level */
  function side(value, level) {
    if (Math.abs(value) < level) return 'level';
    return value < 0 ? 'under' : 'over';
  }

  /** @param {number} celsius */
  function inFahrenheit(celsius) {
    return celsius * 1.8 + 32;
  }

  /** @param {number} celsius @param {string} unit */
  function degrees(celsius, unit) {
    return say('degrees', { unit, celsius, fahrenheit: inFahrenheit(celsius) });
  }

  /**
   * A figure with its unit, by its name.
   * @type {Engine['wording']['amount']}
   */
  function amount(name, value, unit) {
    if (['set', 'probe', 'strip'].includes(name)) return degrees(value, unit);
    if (name === 'dwell' || name === 'watch') return say('seconds', { seconds: value });
    if (name === 'sheets') return say('sheets', { count: numbers.rounded(value, 0) });
    if (name !== 'thickness') return say('general-number', { value });
    return say('of-unit', { value: say('general-number', { value: numbers.rounded(value * 1000, 2) }), unit: 'mm' });
  }

  /**
   * A difference without its sign.
   * @param {number} kelvin @param {string} unit
   */
  function step(kelvin, unit) {
    return say('degrees', { unit, celsius: Math.abs(kelvin), fahrenheit: Math.abs(kelvin) * 1.8 });
  }

  /** @param {number} kelvin @param {string} unit */
  function gap(kelvin, unit) {
    return say('gap', { side: side(kelvin, LEVEL), step: step(kelvin, unit) });
  }

  /**
   * The figure and what it comes to; `unit` is C or F.
   * @type {Engine['wording']['told']}
   */
  function told(reading, unit) {
    return WORDS[reading.measure.id](reading.figures, reading.value, unit);
  }

  /**
   * What to set by a figure.
   * @type {Engine['wording']['put']}
   */
  function put(right, unit, item) {
    const { reading, to } = right;
    const { figures: f, value } = reading;
    const measure = reading.measure.id;
    if (measure === 'platen-gap')
      return say('put-platen', { side: side(value, LEVEL), step: step(value, unit), to: degrees(to, unit) });
    if (measure === 'clock-gap')
      return say('put-clock', { side: side(value, 0), off: Math.abs(f.dwell - f.watch), dwell: f.dwell, to });
    if (measure === 'layers-dose')
      return say('put-layers', { sheets: numbers.rounded(f.sheets, 0), usual: numbers.rounded(to, 0) });
    const window = windowOf(measure, item, unit);
    if (measure === 'dwell-gap') return say('put-dwell', { dwell: f.dwell, window, to });
    return say('put-set', { set: degrees(f.set, unit), window, to: degrees(to, unit) });
  }

  /**
   * The window of an item that a figure is held against.
   * @type {Engine['wording']['windowOf']}
   */
  function windowOf(measure, item, unit) {
    if (!item || !item.windows) throw new RangeError('the item has no window');
    const [[low, high], [least, most]] = item.windows;
    const [lowF, highF] = [low, high].map(inFahrenheit);
    if (measure === 'set-gap')
      return say('degrees-between', { unit, low, high, low_fahrenheit: lowF, high_fahrenheit: highF });
    return least === most ? say('exactly', { least, unit: 's' }) : say('between', { least, most, unit: 's' });
  }

  /**
   * How such a figure speaks of one cause.
   * @type {Engine['wording']['weighed']}
   */
  function weighed(reading, ratio, cause) {
    const said = reading.measure.speaks.find((one) => one[0] === cause);
    const apart = (1 / NEAR < reading.counts && reading.counts < NEAR) || !(said && said[4]);
    const what = !apart ? 'all' : reading.measure.id.endsWith('-gap') ? 'gap' : 'figure';
    if (1 / NEAR < ratio && ratio < NEAR) return say('speaks-neither-way', { what });
    if (ratio >= 1) return say('speaks-for', { what, times: times(ratio) });
    return say('speaks-against', { what, times: times(1 / ratio) });
  }

  /** @param {number} ratio */
  function times(ratio) {
    const most = presslore.measures.MOST;
    if (ratio >= most * (1 - 1e-9)) return say('times-or-more', { times: most });
    return ratio >= 3 ? say('times', { times: ratio }) : say('times-few', { times: ratio });
  }

  presslore.wording = { amount, told, put, windowOf, weighed };
})();
