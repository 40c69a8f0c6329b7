#!/usr/bin/env bash
# One shard of a run, as a task of the array that submit makes: shard.sh N FOLDER compare ...
#SBATCH --requeue
#SBATCH --open-mode=append
set -euo pipefail
shards=$1 folder=$2
shift 2
nth=$SLURM_ARRAY_TASK_ID
# With --resume a task that is run again goes on with what it had played, and one that is whole has nothing to do.
exec "$ZONEPROBE" "$@" --quiet --resume --threads "${SLURM_CPUS_PER_TASK:-1}" \
  --shard "$nth/$shards" --out "$folder/shards/$nth"
