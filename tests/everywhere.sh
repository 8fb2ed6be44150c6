#!/usr/bin/env bash
# The wheel and the source archive, each installed into an empty environment, and the suite against the wheel:
#   bash tests/everywhere.sh lowest      the lowest releases of what pyproject.toml asks for, on the oldest Python
#   bash tests/everywhere.sh newest      the newest releases of it
# PYTHON names another Python, such as python3.14. A browser is not needed; without one its tests are skipped.
set -euo pipefail
cd "$(dirname "$0")/.."
case ${1:-} in lowest | newest) which=$1 ;; *) sed -n '2,5s/^# *//p' "$0" && exit 2 ;; esac
python=${PYTHON:-python3.11}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
unset PYTHONPATH PYTHONDONTWRITEBYTECODE
export PIP_DISABLE_PIP_VERSION_CHECK=1 PIP_ROOT_USER_ACTION=ignore PYTHONSAFEPATH=1

echo "== $("$python" --version), $which"
"$python" -m venv "$work/build"
"$work/build/bin/pip" install --quiet build
"$work/build/bin/python" -m build --outdir "$work/dist" . > "$work/build.log" 2>&1 || { cat "$work/build.log"; exit 1; }

# the lowest release of each direct dependency; of what these bring along, whatever fits; PyNiteFEA asks for a newer numpy
"$python" - "$which" > "$work/constraints" 2> "$work/tools" << 'END'
import re, sys, tomllib
project = tomllib.load(open("pyproject.toml", "rb"))["project"]
tools = [need for need in project["optional-dependencies"]["test"] if not need.startswith("PyNiteFEA") or sys.argv[1] == "newest"]
print("\n".join(tools), file=sys.stderr)
if sys.argv[1] == "lowest":
    print("\n".join(re.sub(r"^([\w-]+)>=([\w.]+).*", r"\1==\2", need) for need in (*project["dependencies"], *tools)))
END

for made in "$work"/dist/*; do
    echo "== $(basename "$made"), run from an empty environment"
    kind=${made##*.}
    "$python" -m venv "$work/$kind"
    "$work/$kind/bin/pip" install --quiet --constraint "$work/constraints" "$made"
    test -s "$work/$kind/share/man/man1/bearline.1"
    mkdir "$work/house-$kind"
    (
        cd "$work/house-$kind"
        "$work/$kind/bin/bearline" demo > demo.txt || test $? -eq 1 # one of its links is over, and the exit code says so
        "$work/$kind/bin/bearline" sheet demo.toml -o demo.pdf || test $? -eq 1
        sha256sum demo.*
    )
done
diff -r "$work/house-whl" "$work/house-gz"

echo "== the suite against the wheel"
"$work/whl/bin/pip" install --quiet --constraint "$work/constraints" --requirement "$work/tools"
"$work/whl/bin/pip" list
left_out=()
test "$which" = newest || left_out=(--ignore=tests/independent/test_beam_other_programs.py
    --ignore=tests/independent/test_second_road.py) # both want PyNiteFEA
"$work/whl/bin/pytest" -q "${left_out[@]}"
