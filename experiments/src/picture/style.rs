//! The pictures' style sheet, shared by files and the report.
//!
//! Sequential blues and diverging orange and purple: C. Brewer, M. Harrower, ColorBrewer 2.0, schemes Blues and
//! PuOr, both marked safe for colour-blind readers. The five defenders: M. Okabe, K. Ito, Color Universal Design
//! (2008), with a dash pattern each. Dark variants are the same hues with the lightness turned round.

/// CSS of every picture.
pub const STYLE: &str = include_str!("style.css");
