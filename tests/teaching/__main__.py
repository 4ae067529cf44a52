"""``./dev teach``: makes the listener's table anew and writes it where it ships."""

import json
from time import perf_counter

from diagnose.knowledge.loading import load, shipped_folder
from diagnose.reasoning.words.table import FILE
from tests.teaching.material import material
from tests.teaching.teaching import table_of


def main() -> None:
    started = perf_counter()
    taught = material(load(shipped_folder()))
    print(f"{len(taught.sights):,} ways of sights, {len(taught.answers):,} of answers")
    plain = table_of(taught)
    FILE.write_text(json.dumps(plain, ensure_ascii=False, separators=(",", ":")), encoding="utf-8")
    print(f"{FILE.name}: {FILE.stat().st_size / 1000:.0f} kB, {perf_counter() - started:.0f} s")


if __name__ == "__main__":
    main()
