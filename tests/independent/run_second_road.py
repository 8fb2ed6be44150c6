"""Run the second road over many random surveys and print counts and the largest difference of each check.

python tests/independent/run_second_road.py --surveys 2000 --first 0
"""

import argparse
import sys
import time
from collections import Counter
from pathlib import Path

FOLDER = Path(__file__).parent
sys.path[:0] = [str(FOLDER), str(FOLDER.parents[1])]

from random_surveys import survey  # noqa: E402  the folders above come first
from two_roads import apart, compare, kind, same  # noqa: E402


def main() -> int:
    """Compare, print, and say by the exit code whether both roads agree."""
    asked = _asked()
    counted, differ, refused = Counter(), Counter(), Counter()
    largest, where = {}, {}
    start = time.monotonic()
    for seed in range(asked.first, asked.first + asked.surveys):
        found = compare(survey(seed))
        if found.refused:
            refused[found.refused.splitlines()[0]] += 1
            continue
        for key, pair in found.pairs.items():
            name, off = kind(key), apart(*pair)
            counted[name] += 1
            differ[name] += not same(*pair)
            if off >= largest.get(name, 0.0):
                largest[name], where[name] = off, f"survey {seed}, {key}"
        _progress(seed - asked.first + 1, asked.surveys, start)
    print(f"{asked.surveys} surveys, {sum(refused.values())} of them refused, in {time.monotonic() - start:.0f} s")
    print(f"{sum(counted.values())} utilisations, {sum(differ.values())} of them more than a millionth apart\n")
    print(f"{'check':34}{'compared':>10}{'differ':>8}{'largest':>12}  where")
    for name in sorted(counted):
        print(f"{name:34}{counted[name]:>10}{differ[name]:>8}{largest[name]:>12.1e}  {where[name]}")
    for reason, times in refused.most_common():
        print(f"refused {times} times: {reason}")
    return 1 if sum(differ.values()) else 0


def _asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--surveys", type=int, default=2000, help="how many")
    parser.add_argument("--first", type=int, default=0, help="seed of the first")
    return parser.parse_args()


def _progress(done: int, whole: int, start: float) -> None:
    if sys.stderr.isatty() or done % 500 == 0:
        print(f"\r{done} of {whole}, {time.monotonic() - start:.0f} s", end="", file=sys.stderr, flush=True)
    if done == whole:
        print(file=sys.stderr)


if __name__ == "__main__":
    sys.exit(main())
