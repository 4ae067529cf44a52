// The person's own words, taken to the engine. What they are matched by is large: it is fetched once the page has been
// painted and has nothing else to do, or at once where words wait for it.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make } = presslore.page.dom;
  const FEW = 4;

  /** @typedef {{ ready: (why: NoWords | '') => void, not: (why: NoWords) => void }} Waiting who waits for the words */

  /**
   * What listens to words for this knowledge; `address` is where the vocabulary lies.
   * @type {Page['ears']}
   */
  function ears(knowledge, address) {
    /** @type {Lexicon | null} */
    let made = null;
    /** @type {HTMLScriptElement | null} */
    let script = null;
    /** @type {Waiting[]} */
    let waiting = [];

    function lexicon() {
      if (made) return made;
      if (!presslore.vocabulary) throw new RangeError('the vocabulary is not there yet');
      made = new presslore.words.Lexicon(knowledge, presslore.vocabulary);
      return made;
    }

    function fetchWords() {
      if (script || presslore.vocabulary) return;
      script = make('script', { src: address, on: { load: came, error: () => stayedAway('missing') } });
      document.head.append(script);
    }

    function came() {
      if (!presslore.vocabulary || presslore.vocabulary.version !== knowledge.version) {
        delete presslore.vocabulary;
        stayedAway('renewed');
      } else if (waiting.length) tell((one) => one.ready(''));
      else later(() => presslore.words.hear(lexicon(), 'pale')); // the first words take the longest: not theirs
    }

    /**
     * It can be asked for again.
     * @param {NoWords} why
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

    /** What people call each defect in a few words, one text for each; whole sentences fit too much. */
    function names() {
      const each = Array.from(knowledge.defects.keys(), () => /** @type {string[]} */ ([]));
      if (!presslore.vocabulary) return each.map(() => '');
      lexicon().names.forEach((owner, name) => {
        if (name.split(' ').length <= FEW) each[owner].push(name);
      });
      return each.map((own) => own.join(' '));
    }

    onceSeen(fetchWords);

    return {
      /** Whether words can be understood now. */
      ready: () => Boolean(presslore.vocabulary),

      /**
       * Do `ready` as soon as words can be understood; `not(why)` where what they need cannot be had.
       * @param {(why: NoWords | '') => void} ready @param {(why: NoWords) => void} not
       */
      wait(ready, not) {
        waiting.push({ ready, not });
        fetchWords();
      },

      names,

      /** What to say of goods of a stuff that is refused, by its id. */
      refusal(id) {
        const told = Array.from(lexicon().stuffs.values()).find((stuff) => stuff.id === id);
        return told ? told.text : '';
      },

      /** What to say of another craft or trade, by its id. */
      elsewhere(id) {
        const told = ((presslore.vocabulary && presslore.vocabulary.elsewhere) || []).find((craft) => craft.id === id);
        return told ? told.text : '';
      },

      /** The item that words name: {id, facts, refused}; null where they name none. */
      item: (text) => presslore.words.findItem(lexicon(), text),

      /** What words say is seen: {defects, notSeen, answers, item, facts, refused, elsewhere, notUnderstood}. */
      sights: (text) => presslore.words.hear(lexicon(), text)
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

  Object.assign(presslore.page, { ears, later });
})();
