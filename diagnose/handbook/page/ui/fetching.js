// What is large and not needed at once: fetched when the page has been painted and has nothing else to do, or at once
// where somebody waits for it.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make } = presslore.page.dom;

  /** @typedef {{ ready: (why: Missing | '') => void, not: (why: Missing) => void }} Waiting who waits for it */

  /**
   * Fetches what a script at `address` assigns to `presslore[name]`. A page may be older than what it gets by then, so
   * it says which `version` of the knowledge it goes with. `came`: what to do once it is there and nobody waits.
   * @type {Page['fetching']}
   */
  function fetching(name, version, address, came) {
    /** @type {HTMLScriptElement | null} */
    let script = null;
    /** @type {Waiting[]} */
    let waiting = [];

    function ask() {
      if (script || presslore[name]) return;
      script = make('script', { src: address, on: { load: take, error: () => stayedAway('missing') } });
      document.head.append(script);
    }

    function take() {
      const found = presslore[name];
      if (!found || found.version !== version) {
        delete presslore[name];
        stayedAway('renewed');
      } else if (waiting.length) tell((one) => one.ready(''));
      else if (came) later(came);
    }

    /**
     * It can be asked for again.
     * @param {Missing} why
     */
    function stayedAway(why) {
      if (script) script.remove();
      script = null;
      tell((one) => one.not(why));
    }

    /** @param {(one: Waiting) => void} what */
    function tell(what) {
      const told = waiting;
      waiting = [];
      told.forEach(what);
    }

    onceSeen(ask);

    return {
      ready: () => Boolean(presslore[name]),
      wait(ready, not) {
        waiting.push({ ready, not });
        ask();
      }
    };
  }

  /**
   * Do something when the page is loaded, stands on the screen and has nothing else to do: what is asked for sooner
   * would have the browser show it as loading until that has come.
   * @param {() => void} act
   */
  function onceSeen(act) {
    const painted = () => requestAnimationFrame(() => requestAnimationFrame(() => later(act)));
    if (document.readyState === 'complete') painted();
    else window.addEventListener('load', painted, { once: true });
  }

  /**
   * Do something when the page has nothing else to do.
   * @type {Page['later']}
   */
  function later(act) {
    if (window.requestIdleCallback) window.requestIdleCallback(act);
    else setTimeout(act, 200);
  }

  Object.assign(presslore.page, { fetching, later });
})();
