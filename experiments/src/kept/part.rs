//! One block as a file: a line of JSON that says what it is, and what its possessions came to as another, in gzip.
//!
//! All numbers are whole, so nothing is lost. The first line has the SHA-256 of the second: a file that was cut off or
//! changed is told from a sound one whatever stands in it.

use std::io::{self, BufRead as _, BufReader, Read, Write};
use std::ops::Range;

use flate2::Compression;
use flate2::read::GzDecoder;
use flate2::write::GzEncoder;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::FORMAT;
use crate::output::hex;
use crate::run::{Plan, Played};

/// Most bytes of a file, and of its text.
pub const MOST: u64 = 64 << 20;
const MOST_TEXT: u64 = 1 << 30;
/// Most bytes of the first line.
const MOST_HEAD: u64 = 1 << 10;

/// The first line.
#[derive(Debug, PartialEq, Eq, Serialize, Deserialize)]
struct Head {
    format: u32,
    /// Of the run.
    run: String,
    from: u64,
    to: u64,
    /// Of the second line.
    sha256: String,
}

/// The name of a block's file: names stand in the order of the possessions.
pub fn name(block: &Range<u64>) -> String {
    format!("{:010}-{:010}.json.gz", block.start, block.end)
}

/// The bytes of a block of the run with this id.
///
/// # Errors
/// None, as it is written to memory.
pub fn bytes(run: &str, block: &Range<u64>, played: &impl Serialize) -> io::Result<Vec<u8>> {
    let body = serde_json::to_vec(played)?;
    let head = Head {
        format: FORMAT,
        run: run.into(),
        from: block.start,
        to: block.end,
        sha256: hex(&Sha256::digest(&body)),
    };
    let mut out = GzEncoder::new(Vec::new(), Compression::fast());
    serde_json::to_writer(&mut out, &head)?;
    out.write_all(b"\n")?;
    out.write_all(&body)?;
    out.finish()
}

/// What a block came to, read from its bytes; None where they are not those of this block of this run.
pub fn read(bytes: &[u8], run: &str, block: &Range<u64>, plan: &Plan<'_>) -> Option<Played> {
    opened::<Played>(bytes, run, block).filter(|played| fits(played, block, plan))
}

/// What such a file holds, whatever it is; None where its bytes are not those of this block of this run.
pub fn opened<T: DeserializeOwned>(bytes: &[u8], run: &str, block: &Range<u64>) -> Option<T> {
    let mut text = Vec::new();
    GzDecoder::new(bytes).take(MOST_TEXT).read_to_end(&mut text).ok()?;
    let end = text.iter().position(|byte| *byte == b'\n')?;
    let (head, body) = (&text[..end], &text[end + 1..]);
    let sha256 = hex(&Sha256::digest(body));
    let wanted = Head { format: FORMAT, run: run.into(), from: block.start, to: block.end, sha256 };
    if serde_json::from_slice::<Head>(head).ok()? != wanted {
        return None;
    }
    serde_json::from_slice(body).ok()
}

/// The id of the run that a block is of, as its first line tells it.
pub fn run_of(bytes: &[u8]) -> Option<String> {
    let mut line = String::new();
    BufReader::new(GzDecoder::new(bytes).take(MOST_HEAD)).read_line(&mut line).ok()?;
    serde_json::from_str::<Head>(&line).ok().map(|head| head.run)
}

/// Whether it has the shape that the plan's blocks have.
fn fits(played: &Played, block: &Range<u64>, plan: &Plan<'_>) -> bool {
    let (totals, variants) = (&played.totals, plan.variants.len());
    totals.is_well_formed()
        && (totals.variants(), totals.ratios()) == (variants, plan.ratios)
        && totals.measures() == crate::row::WIDTH
        && totals.possessions() == block.end - block.start
        && played.places.len() == variants
        && played.places.iter().all(engine::Places::is_well_formed)
        && played.first.iter().all(|first| first.variant < variants)
        && played.crashes.iter().all(|crash| crash.variant < variants)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::run;
    use crate::stub::{Stub, Unwatched};

    const RATIOS: [(usize, usize); 1] = [(1, 2)];

    #[test]
    fn a_block_comes_back_as_it_was_and_anything_else_is_none() {
        let variants = ["a", "b"].map(String::from).to_vec();
        let plan = Plan { variants, possessions: 20..70, batch: None, threads: 1, ratios: &RATIOS };
        let mut stub = Stub::new(3);
        stub.panics = vec![(1, 44)];
        let played = run(&plan, &stub, &Unwatched).unwrap();
        let own = bytes("id", &(20..70), &played).unwrap();
        assert_eq!(own, bytes("id", &(20..70), &played).unwrap(), "no clock is in it");
        assert!(read(&own, "id", &(20..70), &plan) == Some(played.clone()));
        assert!(
            read(&own, "other", &(20..70), &plan).is_none() && read(&own, "id", &(0..50), &plan).is_none()
        );
        assert_eq!(run_of(&own).as_deref(), Some("id"));
        assert_eq!(run_of(b"nothing"), None);
        for at in 0..own.len() {
            assert!(read(&own[..at], "id", &(20..70), &plan).is_none(), "cut off after {at} bytes");
        }
        // A byte of gzip's own head may say when and where it was made; any other byte counts.
        for at in 10..own.len() {
            let mut damaged = own.clone();
            damaged[at] ^= 1 << (at % 8);
            let back = read(&damaged, "id", &(20..70), &plan);
            assert!(back.is_none_or(|back| back == played), "byte {at}");
        }
        let wide = Plan { variants: vec!["a".into()], ..plan };
        assert!(read(&own, "id", &(20..70), &wide).is_none());
    }
}
