#!/usr/bin/env bash
# Measures whole runs and single stages against general-purpose peers, in one run. Called by `cargo xtask bench`.
set -euo pipefail
lengthsman=$1 bench=$2
here=$(cd "$(dirname "$0")" && pwd)
root=$(dirname "$here")
out=$(mktemp -d)
trap 'rm -rf "$out"' EXIT
if [ ! -x "$here/.venv/bin/python" ]; then
    python3 -m venv "$here/.venv"
    "$here/.venv/bin/pip" install --quiet shapely==2.2.0 networkx==3.6.1 pyvrp==0.14.1
fi
plan=("$lengthsman" plan "$root/demo/district.toml" --holes "$root/demo/holes.csv" --date 2026-06-09 --out "$out")
repair=("$lengthsman" repair --length 1.2m --width 0.8m --depth 220mm --json)
# Exit code 3: the demo's list has bad rows on purpose.
mean() { hyperfine --ignore-failure --warmup 1 --runs "$1" --export-json "$out/time.json" "${*:2}" >/dev/null 2>&1; python3 -c "import json; r=json.load(open('$out/time.json'))['results'][0]; print(f\"{r['mean']:.3f} s (least {r['min']:.3f})\")"; }
peak() { python3 -c "import resource,subprocess,sys; subprocess.run(sys.argv[1:],stdout=subprocess.DEVNULL,stderr=subprocess.DEVNULL); print(f'{resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss/1024:.0f} MB')" "$@"; }
echo "| what | ours | peer |"
echo "|---|---|---|"
echo "| demo plan with PDF, whole process | $(mean 5 "${plan[@]}"), $(peak "${plan[@]}") | budget 5 s, 300 MB |"
echo "| repair, whole process | $(mean 20 "${repair[@]}"), $(peak "${repair[@]}") | budget 0.050 s |"
"$here/.venv/bin/python" "$here/peers.py" "$lengthsman" "$bench"
