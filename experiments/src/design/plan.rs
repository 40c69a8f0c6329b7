//! What of a design is played, and in which parts.

use std::ops::Range;

use crate::kept::Shard;

/// Possessions of a part, of each of its variants.
pub const BLOCK: u64 = 64;
/// Possessions of a part, all variants counted, at least: some seconds of a core.
const PART_LEAST: u64 = 4096;
/// Parts of a design, about, at most.
const PARTS_MOST: u64 = 512;

/// A design to be played: so many cells with so many variants in each, numbered cell by cell.
#[derive(Clone, Debug)]
pub struct Sketch<'a> {
    /// Cells.
    pub cells: usize,
    /// Variants in each.
    pub variants: usize,
    /// Possessions of each variant.
    pub possessions: u64,
    /// Each cell is played on possession numbers of its own.
    pub own_draws: bool,
    /// Worker threads.
    pub threads: usize,
    /// Ratios that the table needs, as pairs of row places.
    pub ratios: &'a [(usize, usize)],
    /// `[effect][variant]`: whole weights, in parts of one, where cells share their possessions; see `PARTS` beside the sums.
    pub weights: Vec<Vec<i64>>,
    /// Row places of the measures that effects are told of.
    pub measures: Vec<usize>,
}

/// Some cells' possessions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// Its number.
    pub nth: u64,
    /// Which of the blocks of possessions.
    pub block: usize,
    /// Their numbers, counted from the first of each cell.
    pub possessions: Range<u64>,
    /// Which cells.
    pub cells: Range<usize>,
}

impl Sketch<'_> {
    /// The parts, those of one block of possessions after the other.
    #[must_use]
    pub fn parts(&self) -> Vec<Part> {
        let all = self.possessions * (self.cells * self.variants) as u64;
        let of_cell = self.possessions.min(BLOCK) * self.variants as u64;
        let chunk = (PART_LEAST.max(all / PARTS_MOST) / of_cell.max(1)).max(1) as usize;
        let mut parts = Vec::new();
        for (block, from) in (0..self.possessions).step_by(BLOCK as usize).enumerate() {
            for first in (0..self.cells).step_by(chunk) {
                parts.push(Part {
                    nth: parts.len() as u64,
                    block,
                    possessions: from..(from + BLOCK).min(self.possessions),
                    cells: first..(first + chunk).min(self.cells),
                });
            }
        }
        parts
    }

    /// Those of a shard: as many as of any other but one, in a row; without one all of them.
    #[must_use]
    pub fn parts_of(&self, shard: Option<Shard>) -> Vec<Part> {
        let mut parts = self.parts();
        let Some(shard) = shard else { return parts };
        let own = shard.range(parts.len() as u64);
        parts.drain(own.start as usize..own.end as usize).collect()
    }

    /// Possessions of a part, all variants counted.
    #[must_use]
    pub fn size(&self, part: &Part) -> u64 {
        (part.possessions.end - part.possessions.start) * (part.cells.len() * self.variants) as u64
    }

    /// The number of a cell's first possession.
    #[must_use]
    pub fn first(&self, cell: usize) -> u64 {
        if self.own_draws { cell as u64 * self.possessions } else { 0 }
    }

    /// Possessions of all variants.
    #[must_use]
    pub fn in_all(&self) -> u64 {
        self.possessions * (self.cells * self.variants) as u64
    }
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;

    /// A design of few cells.
    pub fn sketch(cells: usize, variants: usize, possessions: u64) -> Sketch<'static> {
        let (weights, measures) = (Vec::new(), Vec::new());
        Sketch { cells, variants, possessions, own_draws: false, threads: 1, ratios: &[], weights, measures }
    }

    #[test]
    fn parts_have_every_possession_of_every_cell_once() {
        for (cells, variants, possessions) in
            [(1, 1, 1), (7, 2, 100), (2000, 2, 64), (20_000, 1, 1024), (300, 7, 65)]
        {
            let sketch = sketch(cells, variants, possessions);
            let parts = sketch.parts();
            assert_eq!(parts.iter().map(|part| sketch.size(part)).sum::<u64>(), sketch.in_all());
            for of in [1, 2, 5, 16] {
                let own = |nth| sketch.parts_of(Some(Shard { nth, of }));
                assert_eq!((1..=of).flat_map(own).collect::<Vec<_>>(), parts);
            }
            assert!(parts.iter().enumerate().all(|(nth, part)| part.nth == nth as u64));
            assert!(parts.len() as u64 <= 4 * PARTS_MOST + possessions / BLOCK + 1, "{} parts", parts.len());
        }
        assert_eq!(sketch(2000, 2, 64).parts().len(), 63);
    }
}
