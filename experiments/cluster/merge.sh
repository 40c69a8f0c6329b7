#!/usr/bin/env bash
# The result of a run whose shards are whole, as the last job that submit makes: merge.sh N FOLDER
#SBATCH --requeue
#SBATCH --open-mode=append
set -euo pipefail
shards=$1 folder=$2
# The same line given again: the result is there, and only has to be what was written.
if [ -e "$folder/result/manifest.json" ]; then exec "$ZONEPROBE" verify "$folder/result"; fi
folders=()
for ((nth = 1; nth <= shards; nth++)); do folders+=("$folder/shards/$nth"); done
exec "$ZONEPROBE" merge "${folders[@]}" --threads "${SLURM_CPUS_PER_TASK:-1}" --out "$folder/result"
