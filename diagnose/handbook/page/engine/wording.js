// What measured figures say, in sentences: in the shop's unit first, with the other beside.
var presslore = presslore || {};

(function () {
  'use strict';

  const NEAR = 1.25; // a ratio up to this says little
  const LEVEL = 0.5; // K; a smaller gap is none
  const fixed = presslore.numbers.fixed;

  /** @type {Record<string, (f: Figures, value: number, unit: string) => string>} */
  const WORDS = {
    'platen-gap': (f, value, unit) =>
      `The probe read ${degrees(f.probe, unit)} where ${degrees(f.set, unit)} was set: ${short(value, unit)}`,
    'set-gap': setGap,
    'dwell-gap': dwellGap,
    'clock-gap': (f) => `The watch counted ${fixed(f.watch, 0)} s where ${fixed(f.dwell, 0)} s was set`,
    layers: sheets,
    'layers-dose': (f, value) => `${sheets(f)}: about ${share(value)} of the usual dose`,
    'thickness-dose': (f, value) =>
      `${fixed(f.thickness * 1000, 1)} mm thick: about ${share(value)} of the dose of the usual one`,
    'stack-gap': (f, value, unit) => {
      const reckoned = degrees(f.strip - value, unit);
      return `The strip read ${degrees(f.strip, unit)} where about ${reckoned} is reckoned: ${short(value, unit)}`;
    },
    lightness: than('The print', 'lighter', 'darker', 'L*', 'the proof'),
    chroma: than('The print', 'livelier', 'duller', 'C*', 'the proof'),
    hue: (_, value) => `The hue is ${fixed(value, 1)} H* off the proof's`,
    yellowness: than('The bare ground', 'yellower', 'bluer', 'b*', "an unpressed piece's")
  };

  /** @param {string} celsius @param {string} fahrenheit @param {string} unit */
  function both(celsius, fahrenheit, unit) {
    return unit === 'F' ? `${fahrenheit} (${celsius})` : `${celsius} (${fahrenheit})`;
  }

  /** @param {number} celsius @param {string} unit */
  function degrees(celsius, unit) {
    return both(`${fixed(celsius, 0)} °C`, `${fixed(celsius * 1.8 + 32, 0)} °F`, unit);
  }

  /**
   * A difference without its sign.
   * @param {number} kelvin @param {string} unit
   */
  function steps(kelvin, unit) {
    return both(`${fixed(Math.abs(kelvin), 0)} °C`, `${fixed(Math.abs(kelvin) * 1.8, 0)} °F`, unit);
  }

  /** @param {number} kelvin @param {string} unit */
  function short(kelvin, unit) {
    if (Math.abs(kelvin) < LEVEL) return 'just the same';
    return `${steps(kelvin, unit)} ${kelvin < 0 ? 'short' : 'over'}`;
  }

  /** @param {number} value */
  function share(value) {
    return `${fixed(Math.exp(value) * 100, 0)} %`;
  }

  /** @param {Figures} f @param {number} value @param {string} unit */
  function setGap(f, value, unit) {
    const shown = degrees(f.set, unit);
    if (Math.abs(value) < LEVEL) return `Set to ${shown}: within the window of this item`;
    return `Set to ${shown}: ${steps(value, unit)} ${value < 0 ? 'under' : 'over'} the window of this item`;
  }

  /** @param {Figures} f @param {number} value */
  function dwellGap(f, value) {
    if (value === 0) return `Set to ${fixed(f.dwell, 0)} s: within the window of this item`;
    const off = fixed(Math.abs(f.dwell - f.dwell / Math.exp(value)), 0);
    return `Set to ${fixed(f.dwell, 0)} s: ${off} s ${value < 0 ? 'under' : 'over'} the window of this item`;
  }

  /** @param {Figures} f */
  function sheets(f) {
    const count = presslore.numbers.rounded(f.sheets, 0);
    return `${count || 'No'} sheet${count === 1 ? '' : 's'} over the transfer`;
  }

  /**
   * @param {string} what
   * @param {string} more
   * @param {string} less
   * @param {string} axis
   * @param {string} other
   */
  function than(what, more, less, axis, other) {
    return (/** @type {Figures} */ _, /** @type {number} */ value) =>
      `${what} is ${fixed(Math.abs(value), 1)} ${axis} ${value >= 0 ? more : less} than ${other}`;
  }

  /**
   * The figure and what it comes to; `unit` is C or F.
   * @type {Engine['wording']['told']}
   */
  function told(reading, unit) {
    return WORDS[reading.measure.id](reading.figures, reading.value, unit);
  }

  /**
   * How such a figure speaks of one cause.
   * @type {Engine['wording']['weighed']}
   */
  function weighed(reading, ratio) {
    const what = reading.measure.id.endsWith('-gap') ? 'gap' : 'figure';
    if (1 / NEAR < ratio && ratio < NEAR) return `such a ${what} is about as common without this cause`;
    if (ratio >= 1) return `such a ${what} shows ${times(ratio)} as often with this cause as without it`;
    return `such a ${what} shows ${times(1 / ratio)} as often without this cause`;
  }

  /** @param {number} ratio */
  function times(ratio) {
    const most = presslore.measures.MOST;
    if (ratio >= most * (1 - 1e-9)) return `${fixed(most, 0)} times or more`;
    return `${fixed(ratio, ratio >= 3 ? 0 : 1)} times`;
  }

  presslore.wording = { told, weighed };
})();
