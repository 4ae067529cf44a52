// Everything that words can mean, made ready once from what is known.
var presslore = presslore || {};

(function () {
  'use strict';

  const words = presslore.words;

  /**
   * `sights` and `answers`: what each word speaks for, with what a shop has of its own; `said`: the names that count
   * wherever they stand, word for word. The index of items is made when first wanted.
   * @param {Object} knowledge
   * @param {Object} vocabulary what `vocabulary.py` wrote, in the order of the knowledge
   */
  class Lexicon {
    /** @param {Knowledge} knowledge @param {Vocabulary} vocabulary */
    constructor(knowledge, vocabulary) {
      const groups = vocabulary.groups.map((group) => ({
        id: group.id,
        plain: Boolean(group.plain),
        members: parted(group.members),
        asWritten: parted(group.asWritten)
      }));
      this.knowledge = knowledge;
      this.reader = new words.Reader(new words.Groups(groups));
      this.literal = new words.Reader(new words.Groups(groups.filter((group) => group.plain)));
      /** @type {Map<string, Stuff>} */
      this.stuffs = new Map();
      vocabulary.refused.forEach((stuff) => stuff.said.forEach((word) => this.stuffs.set(word, stuff)));
      this.stuffStems = new Set(Array.from(this.stuffs.keys()).flatMap((word) => [word, words.stem(word)]));
      this.itemNames = Array.from(knowledge.items.values(), (item, i) => [item.title, ...vocabulary.items[i]]);
      this.outcomeNames = outcomesOf(knowledge, vocabulary);
      const seen = defectNames(knowledge, vocabulary);
      const told = answerNames(knowledge, vocabulary, this.outcomeNames);
      this.speller = new words.Speller(this.knownWords([...seen, ...told], vocabulary.table.words));
      const [sights, answers] = [seen, told].map((each) => each.map(({ told, text }) => this.named(told, text)));
      const table = words.table(vocabulary.table);
      this.sights = words.withOwn(table.sights, sights);
      this.answers = words.withOwn(table.answers, answers);
      this.said = words.saidWherever([...sights, ...answers]);
      /** @type {Map<string, number>} */
      this.names = new Map();
      this.nameDefects(seen);
      /** @type {Map<string, string>} */
      this.wholeItems = new Map();
      /** @type {Map<string, string>} */
      this.joinedItems = new Map();
      /** @type {Set<string>} */
      this.itemWords = new Set();
      this.nameItems();
      /** @type {NameIndex | null} */
      this.index = null;
    }

    /** @param {string} told @param {string} text */
    named(told, text) {
      return { told, name: words.ownTokens(this.reader, this.speller, text) };
    }

    /**
     * Whole names of defects -> the number of the first that has it.
     * @param {Saying[]} seen
     */
    nameDefects(seen) {
      const names = new Map(Array.from(this.knowledge.defects.keys(), (id) => [id, [id]]));
      seen.forEach(({ told, text }) => presslore.known(names, told).push(text));
      Array.from(names.values()).forEach((own, owner) => {
        own.forEach((text) => first(this.names, words.wholeKey(text), owner));
      });
    }

    /** Whole names of items, with and without blanks -> the id of the first that has it, and the words in them. */
    nameItems() {
      Array.from(this.knowledge.items.keys()).forEach((id, i) => {
        [id, ...this.itemNames[i]].forEach((name) => first(this.wholeItems, words.wholeKey(name), id));
      });
      this.wholeItems.forEach((id, name) => {
        first(this.joinedItems, name.replace(/ /g, ''), id);
        name.split(' ').forEach((word) => this.itemWords.add(word));
      });
    }

    /**
     * Whether a word, or its plural, is part of the name of an item.
     * @param {string} word
     */
    isItemWord(word) {
      return this.itemWords.has(words.withoutPlural(word));
    }

    /**
     * The stuff that goes by a word, or its plural, and is refused; undefined for other words.
     * @param {string} word
     */
    refused(word) {
      return this.stuffs.get(words.withoutPlural(word));
    }

    /**
     * The id of the defect that a text is a name of, word for word; '' where it is none.
     * @param {string} text
     */
    whole(text) {
      const owner = this.names.get(words.wholeKey(text));
      return owner === undefined ? '' : Array.from(this.knowledge.defects.keys())[owner];
    }

    /** @param {Saying[]} sayings @param {string} ships the words that the table was made from */
    knownWords(sayings, ships) {
      const known = new Set([...this.reader.groups.known, ...ships.split(' ')]);
      const add = (/** @type {string} */ text) => words.cut(text).forEach((word) => known.add(word));
      sayings.forEach(({ text }) => add(text));
      this.itemNames.forEach((names) => names.forEach(add));
      this.knowledge.checks.forEach((check) => add(`${check.title} ${check.asks}`));
      this.knowledge.facts.forEach((fact) => fact.words.forEach((pair) => pair[1].forEach(add)));
      return known;
    }

    /** The names of items. */
    items() {
      if (!this.index) {
        const names = this.itemNames.flatMap((own, owner) =>
          own.map((text) => ({ owner, units: this.literal.name(words.cut(text)) }))
        );
        this.index = new words.Index(Array.from(this.knowledge.items.keys()), names);
      }
      return this.index;
    }

    /**
     * The units of what a person typed.
     * @param {string} text
     */
    units(text) {
      return this.reader.typed(words.clauses(text), this.speller);
    }

    /**
     * The tokens of words, of which the reader has made units.
     * @param {TypedWord[]} typed @param {Unit[]} units
     */
    tokens(typed, units) {
      return words.tokens(typed, units, this.speller);
    }

    /**
     * The units of what a person typed, each word standing for itself alone.
     * @param {string} text
     */
    literalUnits(text) {
      return this.literal.typed(words.clauses(text), this.speller);
    }
  }

  /** @param {string} [text] */
  function parted(text) {
    return text ? text.split('|') : [];
  }

  /**
   * The title of each defect, what is said of it, and a shop's own ways of saying it.
   * @param {Knowledge} knowledge @param {Vocabulary} vocabulary
   */
  function defectNames(knowledge, vocabulary) {
    return Array.from(knowledge.defects.values()).flatMap((defect, i) =>
      sayings(defect.id, [defect.title, ...vocabulary.defects[i], ...heardOf(vocabulary, `defect ${defect.id}`)])
    );
  }

  /**
   * The names of the outcomes ("check outcome") and of the causes ("cause ID").
   * @param {Knowledge} knowledge @param {Vocabulary} vocabulary @param {Map<string, string[]>} outcomes
   */
  function answerNames(knowledge, vocabulary, outcomes) {
    const told = Array.from(outcomes).flatMap(([id, names]) =>
      sayings(id, [...names, ...heardOf(vocabulary, `answer ${id}`)])
    );
    const causes = Array.from(knowledge.causes.keys(), (id) => `cause ${id}`);
    return told.concat(causes.flatMap((id) => sayings(id, heardOf(vocabulary, id))));
  }

  /** @param {string} told @param {string[]} texts */
  function sayings(told, texts) {
    return texts.map((text) => ({ told, text }));
  }

  /** @param {Vocabulary} vocabulary @param {string} telling */
  function heardOf(vocabulary, telling) {
    return vocabulary.heard[telling] || [];
  }

  /**
   * What every outcome of every check looks like and is called, by "check outcome".
   * @param {Knowledge} knowledge @param {Vocabulary} vocabulary
   */
  function outcomesOf(knowledge, vocabulary) {
    /** @type {Map<string, string[]>} */
    const result = new Map();
    knowledge.checks.forEach((check) => {
      check.outcomes.forEach((outcome) => {
        result.set(`${check.id} ${outcome.id}`, [outcome.looks, ...vocabulary.outcomes[result.size]]);
      });
    });
    return result;
  }

  /**
   * @template One
   * @param {Map<string, One>} map @param {string} name @param {One} value
   */
  function first(map, name, value) {
    if (!map.has(name)) map.set(name, value);
  }

  words.Lexicon = Lexicon;
})();
