// Everything that words can mean, made ready once from what is known.
var presslore = presslore || {};

(function () {
  'use strict';

  const words = presslore.words;

  /**
   * The indexes of defects, items and outcomes; those of the last two are made when first wanted.
   * @param {Object} knowledge
   * @param {Object} vocabulary the names that `words_script` wrote, in the order of the knowledge
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
    this.itemNames = Array.from(knowledge.items.values(), (item, i) => [item.title, ...vocabulary.items[i]]);
    this.said = outcomesOf(knowledge).map((_, i) => vocabulary.outcomes[i]);
    this.outcomeNames = outcomesOf(knowledge).map((one, i) => [one.outcome.looks, ...this.said[i]]);
    const defectNames = Array.from(knowledge.defects.values(), (defect, i) => [
      defect.title,
      ...parted(vocabulary.defects[i])
    ]);
    this.speller = new words.Speller(this.knownWords(defectNames));
    this.defects = this.indexOfDefects(defectNames);
    this.later = {};
  }

  function parted(text) {
    return text ? text.split('|') : [];
  }

  /** Every outcome of every check, in order. */
  function outcomesOf(knowledge) {
    const result = [];
    knowledge.checks.forEach((check) => {
      check.outcomes.forEach((outcome) => result.push({ id: `${check.id} ${outcome.id}`, outcome }));
    });
    return result;
  }

  Lexicon.prototype.knownWords = function (defectNames) {
    const known = new Set(this.reader.groups.known);
    const add = (text) => words.cut(text).forEach((word) => known.add(word));
    this.knowledge.defects.forEach((defect) => add(defect.looks));
    [defectNames, this.itemNames, this.outcomeNames].forEach((each) =>
      each.forEach((names) => names.forEach(add))
    );
    this.knowledge.facts.forEach((fact) => fact.words.forEach((pair) => pair[1].forEach(add)));
    return known;
  };

  Lexicon.prototype.indexOfDefects = function (defectNames) {
    const names = [];
    Array.from(this.knowledge.defects.values()).forEach((defect, owner) => {
      const add = (field, text) => names.push({ owner, field, units: this.reader.name(text) });
      defectNames[owner].forEach((name) => add(words.SAID, name));
      add(words.LOOKS, defect.looks);
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
        own.forEach((text) => names.push({ owner, field: words.SAID, units: reader.name(text) }));
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
