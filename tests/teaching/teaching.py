"""Weights from examples: a softmax-linear model with a little of a shrunk log-ratio of counts, made sparse.

Trained by stochastic gradients with a step for each weight (Duchi, Hazan and Singer 2011), a share of the features left
out at random each time (Srivastava and others 2014). The same material gives the same table on one machine.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

import numpy as np
from scipy import sparse

from diagnose.reasoning.words.table import BETWEEN, DIGITS, WEIGHTS
from diagnose.reasoning.words.tokens import A_FIGURE, Spelt, pair
from tests.teaching.material import IDLE, Example, Material

ROUNDS, AT_ONCE, RATE, LEFT_OUT, HALVED = 10, 256, 0.6, 0.3, 0.5
OF_COUNTS, OF_CHANCE = 0.1, 3.0  # the share of the counts in a weight; the ways of saying that chance is given
A_CAUSE = 1.0  # what more a cause must be told by than an answer: "not taped" tells how it was held
OF_PRIOR = 0.5  # the share of how often a defect comes up in what speaks for it
BALANCE = 0.5  # a class with four times the examples weighs twice as much in all
ONCE, SELDOM = 2, 3  # a word, and a pair of words, found less often is left out
STEP = 0.5
LEAST = (0.4, 1.0)  # of each layer: what a weight must exceed what the feature says of every class by
LEAST_OF_ALL = 0.1  # and what it must say for the class in all

Array = np.ndarray[Any, np.dtype[np.float32]]


@dataclass(frozen=True, slots=True)
class Weights:
    """``each``: (features, classes), relative to idle talk; ``bias``: of each class."""

    features: Sequence[str]
    classes: Sequence[str]
    each: Array
    bias: Array


def table_of(material: Material, seed: int = 0) -> dict[str, Any]:
    """The table as plain values, as ``words.table.from_plain`` takes it."""
    layers = [weights_of(examples, seed) for examples in (material.sights, material.answers)]
    return written(material, [replace(each, bias=each.bias + _prior(each, material.common)) for each in layers])


def written(material: Material, layers: Sequence[Weights]) -> dict[str, Any]:
    """Two layers of weights as plain values."""
    parts = [_parts(layer, least) for layer, least in zip(layers, LEAST, strict=True)]
    features = sorted({feature for part in parts for feature in part})
    rows = [BETWEEN.join(part.get(feature, "") for part in parts) for feature in features]
    sights, answers = (
        {"classes": layer.classes, "bias": [round(float(each), 2) for each in layer.bias]} for layer in layers
    )
    return {
        "stamp": material.stamp,
        "step": STEP,
        "sights": sights,
        "answers": answers,
        "words": " ".join(material.words),
        "features": "\n".join(features),
        "rows": "\n".join(rows),
    }


def features_of(tokens: Sequence[Spelt]) -> set[str]:
    """What the table knows a run of tokens by."""
    single = {feature for token in tokens for feature in token.features if feature != A_FIGURE}
    return single | {pair(one, other) for one, other in pairwise(tokens)} - {""}


def weights_of(examples: Sequence[Example], seed: int) -> Weights:
    """The weights of one layer."""
    found = [features_of(tokens) for tokens, _, _ in examples]
    counts = Counter(feature for each in found for feature in each)
    features = sorted(feature for feature, times in counts.items() if times >= (SELDOM if " " in feature else ONCE))
    classes = sorted({told for _, told, _ in examples})
    numbers, of_class = ({name: n for n, name in enumerate(names)} for names in (features, classes))
    places = [[numbers[feature] for feature in sorted(each) if feature in numbers] for each in found]
    held = np.repeat(np.arange(len(places)), [len(each) for each in places])
    shape = len(places), len(features)
    flat = np.array([place for each in places for place in each], dtype=np.int64)
    matrix = sparse.csr_matrix((np.ones(len(flat), np.float32), (held, flat)), shape=shape)
    told = np.array([of_class[each] for _, each, _ in examples])
    weight = np.array([each for _, _, each in examples], dtype=np.float32)
    linear, bias = _linear(matrix, told, weight, len(classes), seed)
    each = linear + OF_COUNTS * _ratios(matrix, told, len(classes))
    idle = of_class[IDLE]
    return Weights(features, classes, each - each[:, [idle]], bias - bias[idle])


def _linear(matrix: Any, told: Any, weight: Array, many: int, seed: int) -> tuple[Array, Array]:
    random = np.random.default_rng(seed)
    weight = weight * np.bincount(told, minlength=many)[told].astype(np.float32) ** -BALANCE
    weight /= weight.mean()
    weights: Array = np.zeros((matrix.shape[1], many), np.float32)
    bias: Array = np.zeros(many, np.float32)
    gone, bias_gone = np.full(weights.shape, 1e-6, np.float32), np.full(many, 1e-5, np.float32)
    for _ in range(ROUNDS):
        order = random.permutation(len(told))
        for start in range(0, len(told), AT_ONCE):
            batch = order[start : start + AT_ONCE]
            some = matrix[batch] * HALVED
            some.data *= random.random(len(some.data)) > LEFT_OUT
            active = np.unique(some.indices)
            some = some[:, active]
            chances = _softmax(some @ weights[active] + bias)
            chances[np.arange(len(batch)), told[batch]] -= 1
            chances *= weight[batch][:, None]
            slope, bias_slope = (some.T @ chances) / len(batch), chances.mean(axis=0)
            gone[active] += slope * slope
            weights[active] -= RATE * slope / np.sqrt(gone[active])
            bias_gone += bias_slope * bias_slope
            bias -= RATE * bias_slope / np.sqrt(bias_gone)
    halved: Array = (weights * HALVED).astype(np.float32)
    return halved, bias


def _softmax(scores: Array) -> Array:
    powers = np.exp(scores - scores.max(axis=1, keepdims=True))
    shares: Array = powers / powers.sum(axis=1, keepdims=True)
    return shares


def _ratios(matrix: Any, told: Any, many: int) -> Array:
    of_class = sparse.csr_matrix(
        (np.ones(len(told), np.float32), (np.arange(len(told)), told)), shape=(len(told), many)
    )
    counts = np.asarray((matrix.T @ of_class).todense())
    sizes = np.bincount(told, minlength=many)[None, :].astype(np.float32)
    share = (counts.sum(axis=1, keepdims=True) + 0.5) / (len(told) + 1)
    ratios: Array = np.log((counts + OF_CHANCE * share) / ((sizes + OF_CHANCE) * share)).astype(np.float32)
    return ratios


def _parts(layer: Weights, least: float) -> dict[str, str]:
    """By feature: what it says of every class, then the classes of which it says clearly more, each with its weight."""
    usual = np.median(layer.each, axis=1)
    common = np.minimum(np.round(usual / STEP), 0)
    more = np.round(layer.each / STEP - common[:, None])
    kept = (layer.each - usual[:, None] >= least) & (layer.each >= LEAST_OF_ALL)
    idle = layer.classes.index(IDLE)
    found = {}
    for number, feature in enumerate(layer.features):
        own = [int(told) for told in np.flatnonzero(kept[number]) if told != idle]
        if own:
            gaps = [told - before for before, told in zip([-1, *own], own, strict=False)]
            signs = "".join(_gap(gap) + _weight(more[number, told]) for gap, told in zip(gaps, own, strict=True))
            found[feature] = DIGITS[int(np.clip(-common[number], 0, len(DIGITS) - 1))] + signs
    return found


def _prior(layer: Weights, common: Mapping[str, float]) -> Array:
    """What speaks for a class by how often it comes up, beside the mean of all that are known, and by what it is."""
    logs = np.log([common.get(told, np.nan) for told in layer.classes])
    judged = np.array([told.startswith("cause ") for told in layer.classes])
    prior: Array = (OF_PRIOR * np.nan_to_num(logs - np.nanmean(logs)) - A_CAUSE * judged).astype(np.float32)
    return prior


def _gap(gap: int) -> str:
    high, low = divmod(gap, len(DIGITS))
    return (_gap(high) if high else "") + DIGITS[low]


def _weight(steps: float) -> str:
    return WEIGHTS[int(np.clip(steps, 1, len(WEIGHTS))) - 1]
