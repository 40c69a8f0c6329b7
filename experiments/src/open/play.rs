//! A run that is watched: block after block until it is sure, is stopped, nobody listens any more, or all has been played.
//!
//! Where it is chosen first, the choice is that of `compare --until-sure`: the same race, the same possessions, and nothing
//! claimed but at its looks. Who stops it takes what the last look has shown, which holds at all looks together.

use std::ops::Range;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::time::{Duration, Instant};

use crate::commands::open::Asking;
use crate::error::Error;
use crate::run::{BLOCK, Played, Watch};
use crate::selection::{FROM, Racing};

/// Possessions of each that are played before anything is said at first: too few to judge by, soon enough to be seen.
const FIRST: u64 = 128;
/// So often something is said while it plays.
const PERIOD: Duration = Duration::from_millis(1500);
/// Saying it takes no more than about a fifth of the time, unless a stop would be heard too late by that.
const PLAYED_TO_TOLD: u32 = 4;
/// A stop is heard after about so long at most.
const LONGEST: Duration = Duration::from_secs(5);

/// What a run has come to.
pub enum Standing<'a> {
    /// It is being chosen.
    Choosing {
        /// The choice by its last look.
        racing: &'a Racing,
        /// Possessions so far of each that is left.
        possessions: u64,
    },
    /// What is left, or all where nothing is chosen, is being measured.
    Measuring {
        /// What that is.
        asking: &'a Asking,
        /// What was played of each, from the first possession on.
        played: &'a Played,
        /// How many of each that are to be.
        most: u64,
    },
}

/// How far a run has come.
pub struct News<'a> {
    /// What it has come to.
    pub standing: Standing<'a>,
    /// Possessions that may still have to be played, of all variants together.
    pub still: u64,
}

/// Possessions of some variants, in blocks as a folder keeps them.
pub struct Stage {
    /// Their names.
    pub variants: Vec<String>,
    /// The blocks, in order.
    pub blocks: Vec<(Range<u64>, Played)>,
}

/// What a run has left.
pub struct Ended {
    /// What was measured.
    pub asking: Arc<Asking>,
    /// What that came to.
    pub played: Played,
    /// All that was played and counts, what chose first.
    pub stages: Vec<Stage>,
}

/// What ends a run before its time, and how fast it goes.
#[derive(Debug)]
pub struct Reins {
    /// Told to stop: what was played counts.
    pub stopped: AtomicBool,
    /// Nobody listens: what was played is thrown away.
    pub dropped: AtomicBool,
    done: AtomicU64,
    begun: Instant,
}

impl Default for Reins {
    fn default() -> Self {
        let (stopped, dropped, done) = (AtomicBool::default(), AtomicBool::default(), AtomicU64::default());
        Self { stopped, dropped, done, begun: Instant::now() }
    }
}

impl Reins {
    fn is_stopped(&self) -> bool {
        self.stopped.load(Ordering::Relaxed)
    }

    fn is_dropped(&self) -> bool {
        self.dropped.load(Ordering::Relaxed)
    }

    /// Possessions played so far, of all variants together.
    pub fn done(&self) -> u64 {
        self.done.load(Ordering::Relaxed)
    }

    /// Possessions a second since the run began, of all variants together.
    pub fn speed(&self) -> f64 {
        self.done() as f64 / self.begun.elapsed().as_secs_f64().max(1e-3)
    }
}

impl Watch for Reins {
    fn played(&self, possessions: u64) {
        self.done.fetch_add(possessions, Ordering::Relaxed);
    }
}

/// The blocks in which a run is kept, each cut into pieces so that it can be stopped, and seen, about as often as it should
/// be: `pace` is how many possessions of each are played in that time.
fn piece(from: u64, most: u64, pace: u64) -> Range<u64> {
    let block = (from / BLOCK + 1) * BLOCK;
    from..(from + pace.max(32)).min(block).min(most)
}

/// Plays ranges of possessions piece by piece.
struct Walk<'a> {
    reins: &'a Reins,
    pace: u64,
}

impl Walk<'_> {
    /// Plays possessions of some variants; `tell` hears of each piece what all so far have come to. Where it `halts`, or nobody
    /// listens, it ends early, but not before the first piece.
    fn play(
        &mut self,
        (asking, some): (&Asking, &[usize]),
        range: Range<u64>,
        halts: &dyn Fn() -> bool,
        tell: &mut dyn FnMut(&Played),
    ) -> Result<(Stage, Played), Error> {
        let (mut all, mut blocks) = (asking.nothing(some), Vec::new());
        let mut block = (range.start..range.start, asking.nothing(some));
        let mut from = range.start;
        while from < range.end && (from == range.start || !halts() && !self.reins.is_dropped()) {
            let (own, begun) = (piece(from, range.end, self.pace), Instant::now());
            let played = asking.play(some, own.clone(), self.reins)?;
            all.merge(&played);
            block.0.end = own.end;
            block.1.merge(&played);
            if own.end % BLOCK == 0 || own.end == range.end {
                blocks.push(std::mem::replace(&mut block, (own.end..own.end, asking.nothing(some))));
            }
            from = own.end;
            let speed = (own.end - own.start) as f64 / begun.elapsed().as_secs_f64().max(1e-3);
            let told = Instant::now();
            tell(&all);
            let period = PERIOD.max(PLAYED_TO_TOLD * told.elapsed()).min(LONGEST);
            self.pace = (speed * period.as_secs_f64()) as u64;
        }
        if block.0.start < block.0.end {
            blocks.push(block);
        }
        Ok((Stage { variants: asking.names(some), blocks }, all.in_order()))
    }
}

/// Plays up to `most` possessions of each, or of each that is left where it is chosen first; `tell` hears how far it has come,
/// the last time when it is over. None where it was dropped.
///
/// How long it goes on is decided here and nowhere else. A choice ends as its race does, or at its last look where it is
/// stopped; before the first it goes on to that. What a stopped one has left is measured by one block at most: who stops wants
/// no more.
///
/// # Errors
/// Those of a run.
pub fn play(
    asking: &Arc<Asking>,
    most: u64,
    reins: &Reins,
    tell: &mut dyn FnMut(&News<'_>),
) -> Result<Option<Ended>, Error> {
    let (mut stages, mut walk) = (Vec::new(), Walk { reins, pace: FIRST });
    let (asking, most, is_stopped) = match asking.racing() {
        None => (Arc::clone(asking), most, false),
        Some(racing) => {
            let Some(racing) = chosen((asking, racing), most, &mut walk, &mut stages, tell)? else {
                return Ok(None);
            };
            let (racing, stop_at) = racing;
            let most = if stop_at.is_some() { most.min(BLOCK) } else { most };
            (Arc::new(asking.after(racing.selected(), stop_at)?), most, stop_at.is_some())
        }
    };
    let all = asking.all();
    let halts = || !is_stopped && reins.is_stopped();
    let mut tell = |played: &Played| {
        let still = (most - played.totals.possessions()) * all.len() as u64;
        tell(&News { standing: Standing::Measuring { asking: &asking, played, most }, still });
    };
    let (stage, played) = walk.play((&asking, &all), 0..most, &halts, &mut tell)?;
    stages.push(stage);
    Ok((!reins.is_dropped()).then_some(Ended { asking, played, stages }))
}

/// A choice that has ended, and the look at which it was stopped, if it was; None where it was dropped.
fn chosen(
    (asking, mut racing): (&Asking, Racing),
    most: u64,
    walk: &mut Walk<'_>,
    stages: &mut Vec<Stage>,
    tell: &mut dyn FnMut(&News<'_>),
) -> Result<Option<(Racing, Option<u64>)>, Error> {
    let (reins, budget) = (walk.reins, asking.until().map_or(0, |until| until.budget));
    while let Some((left, range)) = racing.to_play() {
        let mut news = |racing: &Racing, possessions: u64| {
            // Beside those left the one that all are compared with is measured.
            let measured = most * (left.len() as u64 + 1).min(racing.names().len() as u64);
            let still = (budget - possessions) * left.len() as u64 + measured;
            tell(&News { standing: Standing::Choosing { racing, possessions }, still });
        };
        let (before, end) = (range.start - FROM, range.end);
        let halts = || before > 0 && reins.is_stopped();
        let (stage, played) = walk.play((asking, &left), range, &halts, &mut |so_far| {
            news(&racing, before + so_far.totals.possessions());
        })?;
        if reins.is_dropped() {
            return Ok(None);
        }
        let is_whole = stage.blocks.last().is_some_and(|(block, _)| block.end == end);
        if is_whole {
            racing.take(played);
            stages.push(stage);
            news(&racing, racing.looked_at());
        }
        // What was played since a look, and is not looked at, counts for nothing.
        if reins.is_stopped() && racing.to_play().is_some() {
            racing.stop();
            let look = racing.looked_at();
            return Ok(Some((racing, Some(look))));
        }
    }
    Ok(Some((racing, None)))
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;
    use std::ffi::OsString;
    use std::path::Path;

    use super::*;
    use crate::cli::Options;
    use crate::commands::compare;
    use crate::commands::open::Size;
    use crate::console::Console;
    use crate::selection::Ended as Chosen;
    use crate::stats::UntilSure;

    /// A question of two routes.
    const QUESTION: &str = r#"
question = "Which route?"
scenario = "sunken-122"
rank_by = "good_look_rate"
baseline = "hold-wing"
variant = [
  { name = "hold-wing", set = { "attack.rover.route" = "hold-wing" } },
  { name = "seam-cross", set = { "attack.rover.route" = "seam-cross" } },
]
"#;
    const NAME: &str = "question.toml";

    /// The question in a folder.
    fn asking(folder: &Path, possessions: u64, until: Option<UntilSure>) -> Arc<Asking> {
        std::fs::write(folder.join(NAME), QUESTION).unwrap();
        let size = Size { possessions, seed: 3, threads: 2, until };
        Arc::new(Asking::new(Some((folder, NAME)), size).unwrap())
    }

    #[test]
    fn pieces_end_where_blocks_end() {
        let mut from = 0;
        let mut ends = Vec::new();
        while from < 2500 {
            let own = piece(from, 2500, 700);
            assert!(own.start == from && own.end > from);
            from = own.end;
            ends.push(from);
        }
        assert_eq!(ends, [700, 1024, 1724, 2048, 2500]);
        assert_eq!(piece(0, 65_536, 0), 0..32, "however slow");
    }

    /// What was played piece by piece is what is played at once, and a run that is stopped keeps what it has.
    #[test]
    fn a_run_in_pieces_is_the_run_and_may_be_stopped() {
        let home = tempfile::tempdir().unwrap();
        let asking = asking(home.path(), 200, None);
        let reins = Reins::default();
        let mut told = Vec::new();
        let ended = play(&asking, 200, &reins, &mut |news| match news.standing {
            Standing::Measuring { played, .. } => told.push((played.totals.possessions(), news.still)),
            Standing::Choosing { .. } => panic!("nothing is chosen"),
        });
        let ended = ended.unwrap().unwrap();
        let variants = asking.question.variants.len() as u64;
        assert!(told.len() > 1 && told[0] == (FIRST, (200 - FIRST) * variants), "{told:?}");
        assert_eq!(told.last(), Some(&(200, 0)));
        let whole = asking.play(&asking.all(), 0..200, &Reins::default()).unwrap();
        assert!(ended.played == whole);
        assert_eq!(reins.done(), 200 * variants);
        let [stage] = ended.stages.as_slice() else { panic!("one stage") };
        assert!(stage.blocks.len() == 1 && stage.blocks[0].0 == (0..200));
        let reins = Reins::default();
        let stopped = play(&asking, 200, &reins, &mut |_| reins.stopped.store(true, Ordering::Relaxed));
        assert_eq!(stopped.unwrap().unwrap().played.totals.possessions(), FIRST);
        let reins = Reins::default();
        let dropped = play(&asking, 200, &reins, &mut |_| reins.dropped.store(true, Ordering::Relaxed));
        assert!(dropped.unwrap().is_none());
    }

    /// All files of a folder, by name.
    fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
        let mut all = BTreeMap::new();
        for entry in std::fs::read_dir(folder).unwrap().map(Result::unwrap) {
            let name = entry.file_name().into_string().unwrap();
            if entry.path().is_dir() {
                all.extend(
                    files(&entry.path()).into_iter().map(|(inner, bytes)| (format!("{name}/{inner}"), bytes)),
                );
            } else {
                all.insert(name, std::fs::read(entry.path()).unwrap());
            }
        }
        all
    }

    /// What `compare` writes and prints. The words are those of somebody in the question's folder, which a test is not.
    fn compared(words: &[String], folder: &Path) -> (BTreeMap<String, Vec<u8>>, Vec<u8>) {
        let file = folder.with_file_name(NAME);
        let word = |word: &String| if word == NAME { file.clone().into_os_string() } else { word.into() };
        let words = std::iter::once(OsString::from("zoneprobe")).chain(words.iter().map(word));
        let Ok((Options::Compare(options), _)) = Options::parse(words) else { panic!("a comparison") };
        let (mut out, mut err) = (Vec::new(), Vec::new());
        compare(&options, &mut Console { out: &mut out, err: &mut err, colour: false, width: 100 }).unwrap();
        assert_eq!(String::from_utf8(err).unwrap(), "");
        (files(folder), out)
    }

    /// A run of the page until it is sure, or stopped at its first look, and the command that it names, played anew: the same
    /// bytes and the same words; and of what the page kept nothing is played twice.
    #[test]
    fn until_sure_and_stopped_the_page_comes_to_what_its_command_comes_to() {
        let home = tempfile::tempdir().unwrap();
        for is_stopped in [false, true] {
            // No difference is too small for the one that is stopped, so that it does not end by itself.
            let (margin, budget) = if is_stopped { (0.0, 8192) } else { (0.05, 2048) };
            let until = UntilSure { margin, budget };
            let asking = asking(home.path(), 40, Some(until));
            let reins = Reins::default();
            let (mut chose, mut measured) = (Vec::new(), 0);
            let ended = play(&asking, 40, &reins, &mut |news| match news.standing {
                Standing::Choosing { possessions, racing } => {
                    chose.push((possessions, racing.looked_at()));
                    // Before the first look, where nothing can be said yet.
                    reins.stopped.store(is_stopped, Ordering::Relaxed);
                }
                Standing::Measuring { played, .. } => measured = played.totals.possessions(),
            });
            let ended = ended.unwrap().unwrap();
            assert!(chose[0] == (FIRST, 0) && chose.is_sorted() && measured == 40, "{chose:?}");
            assert!(chose.iter().all(|(_, looked_at)| [0, 1024, 2048].contains(looked_at)), "{chose:?}");
            let (_, verdict) = ended.asking.judged(&ended.played.totals);
            let selection = verdict.selection.unwrap();
            assert_eq!(selection.ended == Chosen::Stopped, is_stopped, "{selection:?}");
            assert!(!is_stopped || selection.possessions == 1024, "{selection:?}");

            let [kept, anew] = ["kept", "anew"].map(|name| home.path().join(format!("{name}-{is_stopped}")));
            ended.asking.keep(&kept, &asking, (&ended.stages, 40)).unwrap();
            let gone_on = compared(&ended.asking.line(40, kept.to_str().unwrap()), &kept);
            let command = format!("{} --quiet --out {}", ended.asking.command(40), anew.display());
            let words: Vec<String> = command.split(' ').skip(1).map(str::to_owned).collect();
            assert_eq!(words.contains(&"--stop-at".to_owned()), is_stopped, "{command}");
            let played = compared(&words, &anew);
            let names = |files: &BTreeMap<String, Vec<u8>>| files.keys().cloned().collect::<Vec<_>>();
            assert_eq!(names(&gone_on.0), names(&played.0));
            let unlike: Vec<&String> = played
                .0
                .iter()
                .filter(|(name, bytes)| gone_on.0[*name] != **bytes)
                .map(|own| own.0)
                .collect();
            assert!(unlike.is_empty() && gone_on.1 == played.1, "{unlike:?}");
        }
    }
}
