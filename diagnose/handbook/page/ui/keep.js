// What is kept on this device, so that a dialogue goes on after the phone slept. Where nothing can be kept, nothing is.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const PLACE = 'presslore.diagnosis';
  const KEYS = 'presslore.keys';
  const FORMAT = 1;
  const DRAFT = ['stage', 'item', 'press', 'itemWords', 'words', 'defects', 'notSeen', 'answers', 'left', 'opening'];
  const REST = ['warned', 'after'];

  const isText = (value) => typeof value === 'string';
  const isTexts = (value) => Array.isArray(value) && value.every(isText);
  const isObject = (value) => typeof value === 'object' && value !== null && !Array.isArray(value);
  /** What each part of a kept state must be: others write here too. */
  const FITS = {
    stage: isText,
    item: (value) => value === null || (isObject(value) && isText(value.id) && isObject(value.facts)),
    press: (value) => value === null || isText(value),
    itemWords: isText,
    words: isText,
    defects: isTexts,
    notSeen: isTexts,
    answers: (value) => Array.isArray(value) && value.every((pair) => isTexts(pair) && pair.length === 2),
    left: isTexts,
    opening: Number.isInteger,
    warned: isTexts,
    after: isText
  };

  /** Keep a state. False where the device does not let us. */
  function keep(state, version) {
    const kept = { format: FORMAT, at: new Date().toISOString() };
    DRAFT.concat(REST).forEach((name) => {
      kept[name] = state[name];
    });
    kept.session = presslore.session.toJson(state.session, version);
    return write(PLACE, JSON.stringify(kept));
  }

  /** The kept state and when it was kept: {state, at}; null where there is none. Throws where it cannot be used. */
  function kept(knowledge) {
    const text = read(PLACE);
    if (!text) return null;
    const found = JSON.parse(text);
    if (found.format !== FORMAT) throw new Error('kept by another version of this page');
    const state = presslore.page.flow.begin(knowledge);
    if (found.press === undefined) found.press = null; // kept before the page knew of presses
    DRAFT.concat(REST).forEach((name) => {
      if (!FITS[name](found[name])) throw new Error('damaged');
      state[name] = found[name];
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

  function switchKeys(on) {
    write(KEYS, on ? 'on' : 'off');
  }

  function read(place) {
    try {
      return localStorage.getItem(place);
    } catch (_) {
      return null;
    }
  }

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
