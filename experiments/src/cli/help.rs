//! What stands under the options of each help page: examples to copy, and what an option's list cannot say.
//!
//! Every line that begins with two blanks and `zoneprobe` is a command that works; tests run them all.

/// Of the program.
pub const PROGRAM: &str = "\
Without a command: `compare` with the bundled question.

Examples:
  zoneprobe --possessions 1000           # a first answer to the bundled question
  zoneprobe catalog                      # what there is to play
  zoneprobe compare my-question.toml     # a question of your own
  zoneprobe film --possession 17         # one possession, move for move

Exit codes: 0 done; 1 the run failed or was stopped; 2 a file or an option cannot be used.
Colour: NO_COLOR and CLICOLOR_FORCE are obeyed, and --color has the last word.";

/// Of `compare`.
pub const COMPARE: &str = "\
Examples:
  zoneprobe compare my-question.toml --dry-run
  zoneprobe compare routes-against-sink --rank-by good_shot_rate --out first
  zoneprobe compare my-question.toml --format csv --quiet > rows.csv
  zoneprobe compare my-question.toml --possessions 1000 --until-sure 0.05 --budget 2048

Nothing is written over: a folder in use is refused before the run begins, and one that another run has, too. The \
command in manifest.json names a file with ./ where it was given by a way from the root: run it in that file's folder. \
What has been played is kept in the folder parts of the output folder until the result is whole. \
A file may be a pipe (/dev/stdin): it is read once, and its text has to be piped in again for the same result. \
In CSV files a name that a spreadsheet would take for a formula has an apostrophe before it.";

/// Of `simulate`.
pub const SIMULATE: &str = "\
Examples:
  zoneprobe simulate sunken-122 --possessions 4096
  zoneprobe simulate our-night.toml --seed 3 --out night
  zoneprobe simulate sunken-122 --format json --quiet > night.json";

/// Of `film`.
pub const FILM: &str = "\
Examples:
  zoneprobe film --possession 17
  zoneprobe film our-night.toml --seed 7 --possession 0 --out film
  zoneprobe film my-question.toml --variant seal --beside plain --possession 17 --out pair
  zoneprobe film my-question.toml --variant seal --possession 17 --as gif --units m --out clip

One possession has the same players and the same draws under every variant; --beside says where two of them part, and --as gif shows both at once. \
Keys of the page work while its floor has the focus, and an address that ends in #t=12.4 opens it at that moment.";

/// Of `find`.
pub const FIND: &str = "\
Examples:
  zoneprobe compare --possessions 64 --records events --out saturday
  zoneprobe find saturday \"open_look and not made\" --list
  zoneprobe find saturday \"happened(event = 'shot' and nearest_m > 2)\" --limit 2 --out alone
  zoneprobe find saturday \"points = 3 and count(event = 'pass') >= 4\" --list --format csv

A filter is what stands behind WHERE in SQL, with SELECT * FROM possessions WHERE before it or without: the columns of possessions.parquet, compared by = <> < <= > >=, with AND, OR, \
NOT, IN, BETWEEN, LIKE and IS NULL. happened(...) asks whether there is an event that is so, count(...) how many there are; in \
their brackets stand columns of events.parquet. `zoneprobe keys columns` has all of them. A name with a sign in it such as - \
stands in double quotes.";

/// Of `power`.
pub const POWER: &str = "\
Examples:
  zoneprobe power --possessions 256
  zoneprobe power my-question.toml --possessions 256 --rank-by good_look_rate --difference 0.02
  zoneprobe power my-question.toml --possessions 256 --power 0.9 --format csv
  zoneprobe power --shares 0.50 0.55 --power 0.9

A difference is shown where an interval that is safe for all comparisons with the baseline at once leaves out 0. Beside \
what the question needs stands what it would need if each variant had draws of its own: pairing saves the rest. A pilot \
knows well how much possessions scatter and badly how far variants are apart, so name the difference that matters. \
Nothing is written; play the question itself with another seed, or with all its possessions from the first on.";

/// Of `worth`.
pub const WORTH: &str = "\
Examples:
  zoneprobe worth sunken-122 --possessions 64 --sweeps 2 > our-worth.toml
  zoneprobe worth every-route --level college --possessions 64 --sweeps 2 > college.toml

A level names its table under `skill.continuation.table`, a scenario under `players.attack.skill.continuation.table`. Compute a \
new one where shooting, passing or the zone differ much from the bundled levels': players weigh every shot against it. \
The bundled tables are made from `mixture`; it takes minutes.";

/// Of `sheet`.
pub const SHEET: &str = "\
Examples:
  zoneprobe compare --possessions 64 --out monday
  zoneprobe sheet monday
  zoneprobe sheet monday --paper a4 --units m --out monday-a4
  zoneprobe sheet monday --opponent 'North End' --date 2026-12-04 --out monday-north

It writes sheet.html and cards.html, which print on two pages each, and the same as PDF. Everything on them stands in the \
folder's tables; the attacks are ranked by net points, whatever the comparison was ranked by.";

/// Of `verify`.
pub const VERIFY: &str = "\
Examples:
  zoneprobe compare --possessions 64 --out tuesday
  zoneprobe verify tuesday

It holds every file against the fingerprints (SHA-256) in the folder's manifest.json and prints a line for each that is \
missing, changed or extra; the folder that `sheet` makes is no part of the result. Exit codes: 0 all are as they were \
written; 1 some are not; 2 this is no result.";

/// Of `again`.
pub const AGAIN: &str = "\
Examples:
  zoneprobe compare --possessions 64 --out friday
  zoneprobe again friday

The folder holds all that the result was made from (inputs/, and the command in manifest.json), so it may have come from \
another machine; no other file is read. Every file is named that is missing, extra, or not what is made again. A changed \
input is named and nothing is played. Exit codes: 0 every byte agrees; 1 some do not; 2 this is no result.";

/// Of `merge`.
pub const MERGE: &str = "\
Examples:
  zoneprobe compare --possessions 64 --shard 1/2 --out first-half
  zoneprobe compare --possessions 64 --shard 2/2 --out second-half
  zoneprobe merge first-half second-half --out both-halves

The shards have to be all those of one run: the same texts, seed, possessions, command and version. What is played \
besides the comparison (the zone's answers, films) is played here. The result is that of one run, byte for byte.";

/// Of `open`.
pub const OPEN: &str = "\
Examples:
  zoneprobe open
  zoneprobe open --no-browser            # the address alone, to be opened by hand

It prints the page's address and opens it in the browser, if there is one. The page is for this machine alone: it listens on \
the loopback address, asks no network, and hears nobody who does not have the whole address. It runs until it is told to \
end, by the button on the page or by Ctrl-C; what is saved from it comes into the folder in which it was started.";

/// Of `check`.
pub const CHECK: &str = "\
Examples:
  zoneprobe check my-question.toml
  zoneprobe check my-question.toml our-night.toml --quiet
  zoneprobe check our-night.toml --format json

All files are judged; with --quiet nothing is said of those that are fine. The exit code is 2 if any of them \
cannot be used. The JSON document is { ok, files: [{ file, kind, ok, faults: [{ file, line, column, key, found, allowed, nearest, message, help }], more }] }. \
There, the first 50 faults of a file are listed and more says how many others there are; kind is null for a file that cannot be used; line and column count from 1 and are 0 where the fault is the \
file itself; key is a dotted path, or empty; found, allowed, nearest and help are null where there is nothing to say.";

/// Of `show`.
pub const SHOW: &str = "\
Examples:
  zoneprobe show 1-2-2 > our-zone.toml     # a zone to start from
  zoneprobe show high-school
  zoneprobe show scenarios/examples/our-night.toml    # your players, as they were read";

/// Of `scout`.
pub const SCOUT: &str = "\
Examples:
  zoneprobe scout --out scouting                      # a blank form, and a table
  zoneprobe scout scenarios/examples/sightings.csv --out scouted
  zoneprobe compare scouted/scouted.toml              # does what is not known matter?";

/// Of `chart`.
pub const CHART: &str = "\
Examples:
  zoneprobe chart --out charting                      # a blank form, and a table
  zoneprobe compare my-question.toml --possessions 64 --out thursday
  zoneprobe chart scenarios/examples/chart.csv --against thursday --out charted

A row a possession; what was not seen stays empty. Each rate that both sides have is held against what was predicted of so \
many possessions; where the model is right at most one session in twenty is told off. Practice is kept apart from games. \
Nothing is written over: the players' new counts (free throws, and with --every-shot the shots) and the next question are new \
files.";

/// Of `who`.
pub const WHO: &str = "\
Examples:
  zoneprobe who sunken-122 --squad scenarios/examples/squad.csv --possessions 256 --budget 1024
  zoneprobe check scenarios/examples/squad.csv

A squad is a roster of six to ten without roles: its column `plays` says which of guard, rover and post each may play; empty: \
all three. Of two guards the one who stands first in the file is the lead guard, of two posts the one on the rover's side; the \
other way round is not tried. Of more than 16 line-ups the most promising are chosen first, by what each player seems to be worth \
in each place, and for each player in each place the one that seems best with him. These are then played until it is sure, as \
`compare --until-sure` does: at most one run in twenty calls one of them better that is not, if everybody is just as he was played; how little the counts \
allow is told. Of the others nothing is shown.";

/// Of `catalog`.
pub const CATALOG: &str = "\
Examples:
  zoneprobe catalog
  zoneprobe catalog --format csv > catalog.csv";

/// Of `keys`.
pub const KEYS: &str = "\
Examples:
  zoneprobe keys route
  zoneprobe keys columns
  zoneprobe keys > keys.md";

/// Of `schema`.
pub const SCHEMA: &str = "\
Examples:
  zoneprobe schema zone
  zoneprobe schema experiment > experiment.schema.json";

/// Of `completions`.
pub const COMPLETIONS: &str = "\
Examples:
  zoneprobe completions bash > zoneprobe.bash      # then: source zoneprobe.bash
  zoneprobe completions zsh > _zoneprobe           # in a folder of $fpath
  zoneprobe completions fish > zoneprobe.fish      # in ~/.config/fish/completions";

/// Of `man`.
pub const MAN: &str = "\
Examples:
  zoneprobe man > zoneprobe.1            # then: man ./zoneprobe.1
  zoneprobe man --out man1               # a page a command";
