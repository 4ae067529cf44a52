// The person's own words, taken to the engine. The lexicon is made once, when the page has nothing else to do.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  /** What listens to words for this knowledge. */
  function ears(knowledge) {
    let made = null;
    function lexicon() {
      if (!made) made = new presslore.words.Lexicon(knowledge, presslore.vocabulary);
      return made;
    }
    later(() => {
      presslore.words.hear(lexicon(), 'pale'); // the first words take the longest: let it not be theirs
    });

    return {
      /** The item that words name: {id, facts}; null where they name none. */
      item: (text) => presslore.words.findItem(lexicon(), text),

      /** What words say is seen: {defects, notSeen, answers, item, facts, notUnderstood}. */
      sights: (text) => presslore.words.hear(lexicon(), text)
    };
  }

  /** Do something when the page has nothing else to do. */
  function later(act) {
    if (window.requestIdleCallback) window.requestIdleCallback(act);
    else setTimeout(act, 200);
  }

  Object.assign(presslore.page, { ears, later });
})();
