#!/usr/bin/env bash
# Instructions of each job of `benches/count.rs` under callgrind, held within 10 % of `benches/count.txt`.
#
#     benches/count.sh            compare; exit 1 if a job is more than 10 % off, in either direction
#     benches/count.sh --update   write the figures found; the commit that does says why
#
# `count JOB FILE` does `read`, `mark`, `read-10` and `mark-10` on another attempt.
#
# Needs valgrind (a Debian package). A figure is the job less what starting the program costs.
set -euo pipefail
cd "$(dirname "$0")/.."
export CARGO_TARGET_DIR="${CARGO_TARGET_DIR:-/tmp/switchdrop-target}"
figures=benches/count.txt
jobs=(read replay rows survey mark mark-slips read-10 mark-10 rows-1024 proof-24 proof-100 random-24 forty)

program=$(cargo bench --locked --no-default-features --bench count --no-run --message-format=json 2>/dev/null |
    grep -o '"executable":"[^"]*count-[^"]*"' | tail -1 | cut -d'"' -f4)
[ -x "$program" ] || { echo "benches/count.sh: the bench does not build" >&2; exit 1; }

count() {
    valgrind --tool=callgrind --callgrind-out-file=/dev/null "$program" "$@" 2>&1 |
        sed -n 's/.*Collected : \([0-9]*\).*/\1/p'
}

empty=$(count)
found=$(for job in "${jobs[@]}"; do echo "$job $(($(count "$job") - empty))"; done)
if [ "${1:-}" = --update ]; then
    { echo "# Instructions under callgrind, by job (benches/count.rs); benches/count.sh holds them within 10 %."; echo "$found"; } > "$figures"
    cat "$figures"
    exit
fi
echo "$found" | awk -v figures="$figures" '
    BEGIN { while ((getline line < figures) > 0) if (line !~ /^#/) { split(line, part, " "); kept[part[1]] = part[2] } }
    {
        if (!($1 in kept)) { print $1 ": no figure kept"; bad = 1; next }
        off = ($2 - kept[$1]) * 100 / kept[$1]
        printf "%-10s %12d  kept %12d  %+.1f %%%s\n", $1, $2, kept[$1], off, (off > 10 || off < -10) ? "  TOO FAR" : ""
        if (off > 10 || off < -10) bad = 1
    }
    END { exit bad }'
