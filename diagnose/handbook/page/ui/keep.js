// What is kept on this device, so that a dialogue goes on after the phone slept. Where nothing can be kept, nothing is.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const PLACE = 'presslore.diagnosis';
  const KEYS = 'presslore.keys';
  const FORMAT = 1;
  const DRAFT = ['stage', 'item', 'itemWords', 'words', 'defects', 'notSeen', 'answers', 'left', 'opening'];
  const REST = ['warned', 'after'];

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
    const state = presslore.page.flow.begin();
    DRAFT.concat(REST).forEach((name) => {
      if (typeof found[name] !== typeof state[name] && state[name] !== null) throw new Error('damaged');
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
