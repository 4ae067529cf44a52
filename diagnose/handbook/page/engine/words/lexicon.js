// Everything that words can mean, made ready once from what is known.
var presslore = presslore || {};

(function () {
  'use strict';

  const words = presslore.words;

  /**
   * The indexes of defects, items and outcomes; those of the last two are made when first wanted.
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
      this.said = outcomesOf(knowledge).map((_, i) => vocabulary.outcomes[i]);
      this.outcomeNames = outcomesOf(knowledge).map((one, i) => [one.outcome.looks, ...this.said[i]]);
      const defectNames = namesOf(knowledge, vocabulary);
      this.speller = new words.Speller(this.knownWords(defectNames));
      this.defects = this.indexOfDefects(defectNames);
      /** @type {Map<string, number>} */
      this.names = new Map();
      this.nameDefects(defectNames);
      /** @type {Map<string, string>} */
      this.wholeItems = new Map();
      /** @type {Map<string, string>} */
      this.joinedItems = new Map();
      /** @type {Set<string>} */
      this.itemWords = new Set();
      this.nameItems();
      /** @type {Map<string, NameIndex>} */
      this.later = new Map();
    }

    /**
     * Whole names of defects -> the number of the first that has it.
     * @param {string[][][]} defectNames
     */
    nameDefects(defectNames) {
      Array.from(this.knowledge.defects.keys()).forEach((id, owner) => {
        [words.cut(id), ...defectNames[owner]].forEach((name) => first(this.names, words.keyOf(name), owner));
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
      return owner === undefined ? '' : this.defects.owners[owner];
    }

    /** @param {string[][][]} defectNames */
    knownWords(defectNames) {
      const known = new Set(this.reader.groups.known);
      const add = (/** @type {string} */ text) => words.cut(text).forEach((word) => known.add(word));
      defectNames.forEach((names) => names.forEach((name) => name.forEach((word) => known.add(word))));
      this.knowledge.checks.forEach((check) => add(`${check.title} ${check.asks}`));
      this.knowledge.defects.forEach((defect) => add(defect.looks));
      [this.itemNames, this.outcomeNames].forEach((each) => each.forEach((names) => names.forEach(add)));
      this.knowledge.facts.forEach((fact) => fact.words.forEach((pair) => pair[1].forEach(add)));
      return known;
    }

    /** @param {string[][][]} defectNames */
    indexOfDefects(defectNames) {
      /** @type {IndexedName[]} */
      const names = [];
      Array.from(this.knowledge.defects.values()).forEach((defect, owner) => {
        const add = (/** @type {number} */ field, /** @type {string[]} */ parts) =>
          names.push({ owner, field, units: this.reader.name(parts) });
        defectNames[owner].forEach((name) => add(words.SAID, name));
        add(words.LOOKS, words.cut(defect.looks));
      });
      return new words.Index(Array.from(this.knowledge.defects.keys()), names);
    }

    /** The names of items. */
    items() {
      return this.made('items', this.literal, Array.from(this.knowledge.items.keys()), this.itemNames);
    }

    /** The names of outcomes of checks. An owner is "check outcome". */
    outcomes() {
      return this.made(
        'outcomes',
        this.reader,
        outcomesOf(this.knowledge).map((one) => one.id),
        this.outcomeNames
      );
    }

    /**
     * @param {string} kind
     * @param {Reader} reader
     * @param {string[]} owners
     * @param {string[][]} each
     */
    made(kind, reader, owners, each) {
      const before = this.later.get(kind);
      if (before) return before;
      /** @type {IndexedName[]} */
      const names = [];
      each.forEach((own, owner) => {
        own.forEach((text) => names.push({ owner, field: words.SAID, units: reader.name(words.cut(text)) }));
      });
      const index = new words.Index(owners, names);
      this.later.set(kind, index);
      return index;
    }

    /**
     * The units of what a person typed.
     * @param {string} text
     */
    units(text) {
      return this.reader.typed(words.clauses(text), this.speller);
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
   * The names of each defect, as lists of words: a word is one sign or, past the shortest, two.
   * @param {Knowledge} knowledge @param {Vocabulary} vocabulary
   */
  function namesOf(knowledge, vocabulary) {
    const known = vocabulary.words.split(' ');
    const signs = [];
    for (let code = 33; code < 127; code++) {
      const sign = String.fromCharCode(code);
      if ('"<\\|~'.indexOf(sign) < 0) signs.push(sign);
    }
    const worth = new Map(signs.map((sign, number) => [sign, number]));
    const written = vocabulary.defects.split('~');
    return Array.from(knowledge.defects.values(), (defect, i) => [
      words.cut(defect.title),
      ...parted(written[i]).map((name) => unwritten(name, known, worth, vocabulary.short))
    ]);
  }

  /**
   * @param {string} name
   * @param {string[]} known
   * @param {Map<string, number>} worth
   * @param {number} short
   */
  function unwritten(name, known, worth, short) {
    /** @type {string[]} */
    const result = [];
    for (let at = 0; at < name.length; at++) {
      const number = presslore.known(worth, name[at]);
      if (number < short) result.push(known[number]);
      else result.push(known[short + (number - short) * worth.size + presslore.known(worth, name[++at])]);
    }
    return result;
  }

  /**
   * Every outcome of every check, in order.
   * @param {Knowledge} knowledge
   */
  function outcomesOf(knowledge) {
    /** @type {{ id: string, outcome: Outcome }[]} */
    const result = [];
    knowledge.checks.forEach((check) => {
      check.outcomes.forEach((outcome) => result.push({ id: `${check.id} ${outcome.id}`, outcome }));
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
