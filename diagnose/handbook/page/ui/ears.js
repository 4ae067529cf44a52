// The person's own words, taken to the engine. What they are matched by is fetched after the page has been painted.
var presslore = presslore || {};
presslore.page = presslore.page || {};

(function () {
  'use strict';

  const FEW = 4;

  /**
   * What listens to words for this knowledge; `address` is where the vocabulary lies.
   * @type {Page['ears']}
   */
  function ears(knowledge, address) {
    /** @type {Lexicon | null} */
    let made = null;
    const fetched = presslore.page.fetching('vocabulary', knowledge.version, address, () => {
      presslore.words.hear(lexicon(), 'pale, 350F for 40 s'); // the first words take the longest: not theirs
    });

    function lexicon() {
      if (made) return made;
      if (!presslore.vocabulary) throw new RangeError('the vocabulary is not there yet');
      made = new presslore.words.Lexicon(knowledge, presslore.vocabulary);
      return made;
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

    return {
      /** Whether words can be understood now. */
      ready: fetched.ready,

      /** Do `ready` as soon as words can be understood; `not(why)` where what they need cannot be had. */
      wait: fetched.wait,

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

      /** What words say is seen, as `hear` tells it. */
      sights: (text) => presslore.words.hear(lexicon(), text)
    };
  }

  presslore.page.ears = ears;
})();
