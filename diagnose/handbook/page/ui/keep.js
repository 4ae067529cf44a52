// What is kept on this device, so that a dialogue goes on after the phone slept. Where nothing can be kept, nothing is.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const PLACE = 'presslore.diagnosis';
  const KEYS = 'presslore.keys';
  const FORMAT = 1;
  const LATER = { press: null, causes: [], unsure: [], allowed: [] }; // what was kept may be older than these parts

  const isText = (/** @type {unknown} */ value) => typeof value === 'string';
  const isTexts = (/** @type {unknown} */ value) => Array.isArray(value) && value.every(isText);
  /**
   * @param {unknown} value
   * @returns {value is Record<string, unknown>}
   */
  const isObject = (value) => typeof value === 'object' && value !== null && !Array.isArray(value);
  /** What each part of a kept state must be: others write here too. */
  /** @type {Record<string, (value: unknown) => boolean>} */
  const FITS = {
    stage: isText,
    item: (value) => value === null || (isObject(value) && isText(value.id) && isObject(value.facts)),
    press: (value) => value === null || isText(value),
    itemWords: isText,
    words: isText,
    defects: isTexts,
    notSeen: isTexts,
    answers: (value) => Array.isArray(value) && value.every((pair) => isTexts(pair) && pair.length === 2),
    causes: isTexts,
    unsure: isTexts,
    left: isTexts,
    opening: Number.isInteger,
    warned: isTexts,
    allowed: isTexts,
    after: isText
  };

  /**
   * Keep a state. False where the device does not let us.
   * @type {Keep['keep']}
   */
  function keep(state, version) {
    const session = presslore.session.toJson(state.session, version);
    const kept = { format: FORMAT, at: new Date().toISOString(), ...state, session };
    return write(PLACE, JSON.stringify(kept));
  }

  /**
   * The kept state and when it was kept: {state, at}; null where there is none. Throws where it cannot be used.
   * @type {Keep['kept']}
   */
  function kept(knowledge) {
    const text = read(PLACE);
    if (!text) return null;
    const found = { ...LATER, ...JSON.parse(text) };
    if (found.format !== FORMAT) throw new Error('kept by another version of this page');
    const state = presslore.page.flow.begin(knowledge);
    Object.keys(FITS).forEach((name) => {
      if (!FITS[name](found[name])) throw new Error('damaged');
      Object.assign(state, { [name]: found[name] });
    });
    state.session = presslore.session.resume(found.session, knowledge);
    presslore.page.flow.proven(state, knowledge);
    return { state, at: new Date(found.at) };
  }

  function forget() {
    try {
      localStorage.removeItem(PLACE);
    } catch (_) {
      // nothing was kept
    }
  }

  /** Whether single keys answer; they do until switched off. */
  function keysOn() {
    return read(KEYS) !== 'off';
  }

  /** @type {Keep['switchKeys']} */
  function switchKeys(on) {
    write(KEYS, on ? 'on' : 'off');
  }

  /** @param {string} place */
  function read(place) {
    try {
      return localStorage.getItem(place);
    } catch (_) {
      return null;
    }
  }

  /** @param {string} place @param {string} text */
  function write(place, text) {
    try {
      localStorage.setItem(place, text);
      return true;
    } catch (_) {
      return false;
    }
  }

  presslore.page.keep = { keep, kept, forget, keysOn, switchKeys };
})();
