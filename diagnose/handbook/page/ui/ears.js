// The person's own words, taken to the engine. What they are matched by is large: it is fetched once the page has been
// painted and has nothing else to do, or at once where words wait for it.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const { make } = presslore.page.dom;
  const FEW = 4;

  /** What listens to words for this knowledge; `address` is where the vocabulary lies. */
  function ears(knowledge, address) {
    let made = null;
    let script = null;
    let waiting = [];

    function lexicon() {
      if (!made) made = new presslore.words.Lexicon(knowledge, presslore.vocabulary);
      return made;
    }

    function fetchWords() {
      if (script || presslore.vocabulary) return;
      script = make('script', { src: address, on: { load: came, error: () => stayedAway('missing') } });
      document.head.append(script);
    }

    function came() {
      if (presslore.vocabulary.version !== knowledge.version) {
        delete presslore.vocabulary;
        stayedAway('renewed');
      } else if (waiting.length) tell((one) => one.ready());
      else later(() => presslore.words.hear(lexicon(), 'pale')); // the first words take the longest: not theirs
    }

    /** It can be asked for again. */
    function stayedAway(why) {
      script.remove();
      script = null;
      tell((one) => one.not(why));
    }

    function tell(what) {
      const told = waiting;
      waiting = [];
      told.forEach(what);
    }

    /** What people call each defect in a few words, one text for each; whole sentences fit too much. */
    function names() {
      const each = Array.from(knowledge.defects.keys(), () => []);
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

      /** Do `ready` as soon as words can be understood; `not(why)` where what they need cannot be had. */
      wait(ready, not) {
        waiting.push({ ready, not });
        fetchWords();
      },

      names,

      /** What to say of goods of a stuff that is refused, by its id. */
      refusal: (id) => presslore.vocabulary.refused.find((stuff) => stuff.id === id).text,

      /** The item that words name: {id, facts, refused}; null where they name none. */
      item: (text) => presslore.words.findItem(lexicon(), text),

      /** What words say is seen: {defects, notSeen, answers, item, facts, refused, notUnderstood}. */
      sights: (text) => presslore.words.hear(lexicon(), text)
    };
  }

  /** Do something when the page stands on the screen and has nothing else to do. */
  function onceSeen(act) {
    requestAnimationFrame(() => requestAnimationFrame(() => later(act)));
  }

  /** Do something when the page has nothing else to do. */
  function later(act) {
    if (window.requestIdleCallback) window.requestIdleCallback(act);
    else setTimeout(act, 200);
  }

  Object.assign(presslore.page, { ears, later });
})();
