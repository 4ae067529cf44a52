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
  function Lexicon(knowledge, vocabulary) {
    const groups = vocabulary.groups.map((group) => ({
      id: group.id,
      plain: Boolean(group.plain),
      members: parted(group.members),
      asWritten: parted(group.asWritten)
    }));
    this.knowledge = knowledge;
    this.reader = new words.Reader(new words.Groups(groups));
    this.literal = new words.Reader(new words.Groups(groups.filter((group) => group.plain)));
    this.stuffs = new Map(vocabulary.refused.flatMap((stuff) => stuff.said.map((word) => [word, stuff])));
    this.stuffStems = new Set(Array.from(this.stuffs.keys()).flatMap((word) => [word, words.stem(word)]));
    this.itemNames = Array.from(knowledge.items.values(), (item, i) => [item.title, ...vocabulary.items[i]]);
    this.said = outcomesOf(knowledge).map((_, i) => vocabulary.outcomes[i]);
    this.outcomeNames = outcomesOf(knowledge).map((one, i) => [one.outcome.looks, ...this.said[i]]);
    const defectNames = namesOf(knowledge, vocabulary);
    this.speller = new words.Speller(this.knownWords(defectNames));
    this.defects = this.indexOfDefects(defectNames);
    this.names = new Map();
    this.nameDefects(defectNames);
    this.nameItems();
    this.later = {};
  }

  function parted(text) {
    return text ? text.split('|') : [];
  }

  /** The names of each defect, as lists of words: a word is one sign or, past the shortest, two. */
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

  function unwritten(name, known, worth, short) {
    const result = [];
    for (let at = 0; at < name.length; at++) {
      const number = worth.get(name[at]);
      if (number < short) result.push(known[number]);
      else result.push(known[short + (number - short) * worth.size + worth.get(name[++at])]);
    }
    return result;
  }

  /** Every outcome of every check, in order. */
  function outcomesOf(knowledge) {
    const result = [];
    knowledge.checks.forEach((check) => {
      check.outcomes.forEach((outcome) => result.push({ id: `${check.id} ${outcome.id}`, outcome }));
    });
    return result;
  }

  /** Whole names of defects -> the number of the first that has it. */
  Lexicon.prototype.nameDefects = function (defectNames) {
    Array.from(this.knowledge.defects.keys()).forEach((id, owner) => {
      [words.cut(id), ...defectNames[owner]].forEach((name) => first(this.names, words.keyOf(name), owner));
    });
  };

  /** Whole names of items, with and without blanks -> the id of the first that has it, and the words in them. */
  Lexicon.prototype.nameItems = function () {
    this.wholeItems = new Map();
    this.joinedItems = new Map();
    this.itemWords = new Set();
    Array.from(this.knowledge.items.keys()).forEach((id, i) => {
      [id, ...this.itemNames[i]].forEach((name) => first(this.wholeItems, words.wholeKey(name), id));
    });
    this.wholeItems.forEach((id, name) => {
      first(this.joinedItems, name.replace(/ /g, ''), id);
      name.split(' ').forEach((word) => this.itemWords.add(word));
    });
  };

  function first(map, name, value) {
    if (!map.has(name)) map.set(name, value);
  }

  /** Whether a word, or its plural, is part of the name of an item. */
  Lexicon.prototype.isItemWord = function (word) {
    return this.itemWords.has(words.withoutPlural(word));
  };

  /** The stuff that goes by a word, or its plural, and is refused: {id, text: what to say of it}; undefined for others. */
  Lexicon.prototype.refused = function (word) {
    return this.stuffs.get(words.withoutPlural(word));
  };

  /** The id of the defect that a text is a name of, word for word; '' where it is none. */
  Lexicon.prototype.whole = function (text) {
    const owner = this.names.get(words.wholeKey(text));
    return owner === undefined ? '' : this.defects.owners[owner];
  };

  Lexicon.prototype.knownWords = function (defectNames) {
    const known = new Set(this.reader.groups.known);
    const add = (text) => words.cut(text).forEach((word) => known.add(word));
    defectNames.forEach((names) => names.forEach((name) => name.forEach((word) => known.add(word))));
    this.knowledge.checks.forEach((check) => add(`${check.title} ${check.asks}`));
    this.knowledge.defects.forEach((defect) => add(defect.looks));
    [this.itemNames, this.outcomeNames].forEach((each) => each.forEach((names) => names.forEach(add)));
    this.knowledge.facts.forEach((fact) => fact.words.forEach((pair) => pair[1].forEach(add)));
    return known;
  };

  Lexicon.prototype.indexOfDefects = function (defectNames) {
    const names = [];
    Array.from(this.knowledge.defects.values()).forEach((defect, owner) => {
      const add = (field, parts) => names.push({ owner, field, units: this.reader.name(parts) });
      defectNames[owner].forEach((name) => add(words.SAID, name));
      add(words.LOOKS, words.cut(defect.looks));
    });
    return new words.Index(Array.from(this.knowledge.defects.keys()), names);
  };

  /** The names of items. */
  Lexicon.prototype.items = function () {
    return this.made('items', this.literal, Array.from(this.knowledge.items.keys()), this.itemNames);
  };

  /** The names of outcomes of checks. An owner is "check outcome". */
  Lexicon.prototype.outcomes = function () {
    return this.made(
      'outcomes',
      this.reader,
      outcomesOf(this.knowledge).map((one) => one.id),
      this.outcomeNames
    );
  };

  Lexicon.prototype.made = function (kind, reader, owners, each) {
    if (!this.later[kind]) {
      const names = [];
      each.forEach((own, owner) => {
        own.forEach((text) => names.push({ owner, field: words.SAID, units: reader.name(words.cut(text)) }));
      });
      this.later[kind] = new words.Index(owners, names);
    }
    return this.later[kind];
  };

  /** The units of what a person typed. */
  Lexicon.prototype.units = function (text) {
    return this.reader.typed(words.clauses(text), this.speller);
  };

  /** The units of what a person typed, each word standing for itself alone. */
  Lexicon.prototype.literalUnits = function (text) {
    return this.literal.typed(words.clauses(text), this.speller);
  };

  words.Lexicon = Lexicon;
})();
