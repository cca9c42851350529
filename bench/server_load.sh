#!/usr/bin/env bash
# Batches of ten events over HTTP with wrk (Debian's package), on loopback: server_load.sh BENCH SECONDS CONNECTIONS [STORE]
# STORE is a URL postgres://... of an empty database; without it the record is a new SQLite file. Prints what wrk says, the
# server's memory every minute and its processor time.
set -euo pipefail
bench=$1 seconds=$2 connections=$3 store=${4:-}
here=$(cd "$(dirname "$0")" && pwd)
folder=$(mktemp -d)
"$bench" serve-record --folder "$folder" ${store:+--store "$store"} >"$folder/said" &
server=$!
trap 'kill -INT $server 2>/dev/null; wait $server 2>/dev/null || true; rm -rf "$folder"' EXIT
for _ in $(seq 100); do grep -q listening "$folder/said" && break; sleep 0.1; done
address=http://$(sed -n 's/^listening at //p' "$folder/said")
field() { python3 -c "import json, sys; print(json.load(sys.stdin)['$1'])"; }
post() { curl -sS --fail-with-body -b "$folder/cookies" -c "$folder/cookies" -H 'Content-Type: application/json' -H 'x-lengthsman: 1' -d "$2" "$address$1"; }
# the first account, signed in, and a device of it
set_up=$(sed -n 's/.*set-up=//p' "$folder/said")
post /api/set-up "{\"token\":\"$set_up\",\"name\":\"mara\",\"password\":\"a long password\"}"
account=$(post /api/sign-in '{"name":"mara","password":"a long password"}' | field account)
offer=$(post /api/enrolments "{\"account\":\"$account\"}" | field link)
token=$(post /api/devices "{\"token\":\"${offer##*=}\",\"name\":\"phone 1\"}" | field token)
TOKEN=$token NAME=mara DEVICE='phone 1' wrk --threads 1 --connections "$connections" --duration "${seconds}s" --timeout 10s \
    --script "$here/server_load.lua" "$address" &
load=$!
memory() { awk '/VmRSS/ { printf "%.0f MB", $2 / 1024 }' /proc/$server/status; }
minute=0
while sleep 60 & pause=$!; wait -n $load $pause && kill -0 $load 2>/dev/null; do
    minute=$((minute + 1))
    echo "minute $minute: $(memory)"
done
kill $pause 2>/dev/null || true
echo "in the end: $(memory), most $(awk '/VmHWM/ { printf "%.0f MB", $2 / 1024 }' /proc/$server/status)," \
    "$(awk -v ticks="$(getconf CLK_TCK)" '{ printf "%.1f s of the processor, of which in the system %.1f s", ($14 + $15) / ticks, $15 / ticks }' /proc/$server/stat)"
du -h "$folder"/record.sqlite* 2>/dev/null || true
