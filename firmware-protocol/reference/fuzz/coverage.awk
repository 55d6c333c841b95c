# Sums the branches that gcov reports for each file of core; fails below 95 %.
/^File/ { file = $2; gsub(/'/, "", file); in_core = file ~ /\/core\/[a-z0-9_]+\.c$/ }
/^Branches executed/ { next }
/^Taken at least once/ && in_core {
    split($0, part, "[:% ]+")
    match($0, /[0-9.]+%/); percent = substr($0, RSTART, RLENGTH - 1)
    match($0, /of [0-9]+/); count = substr($0, RSTART + 3, RLENGTH - 3)
    taken += percent * count / 100
    all += count
    name = file; sub(/.*\//, "", name)
    printf "%-14s %6.2f %% of %d\n", name, percent, count
    in_core = 0
}
END {
    if (all == 0) { print "no branches found"; exit 1 }
    printf "%-14s %6.2f %% of %d\n", "core", 100 * taken / all, all
    exit 100 * taken / all > 95 ? 0 : 1
}
