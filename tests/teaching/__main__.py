"""``./dev teach``: makes the listener's table anew and writes it where it ships."""

import json
from time import perf_counter

from diagnose.knowledge.loading import load, shipped_folder
from diagnose.reasoning.words.table import FILE
from tests.teaching.material import material
from tests.teaching.teaching import table_of


def main() -> None:
    perf_counter()
    taught = material(load(shipped_folder()))
    plain = table_of(taught)
    FILE.write_text(json.dumps(plain, ensure_ascii=False, separators=(",", ":")), encoding="utf-8")


if __name__ == "__main__":
    main()
