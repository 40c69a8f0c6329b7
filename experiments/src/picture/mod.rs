//! Pictures as SVG text, drawn from tables and from nothing else: the same table gives the same bytes.
//!
//! Attackers are discs with their number, defenders squares with their letters; a cut is a solid line, a pass a
//! dashed one, a shot a dotted one. A picture fits a light and a dark page, and no meaning hangs on colour alone.

mod breakdown;
mod court;
mod defenders;
mod drawing;
mod floor;
mod heat;
mod labels;
mod later;
mod lettering;
mod named;
mod network;
mod play;
mod ranking;
mod regions;
mod route;
mod scale;
mod stands;
mod start;
mod still;
mod style;
mod trade;
mod zone;

pub use crate::places::Breakdowns;
pub use breakdown::breakdown;
pub use court::{Line, Part, lines};
pub use defenders::defenders;
pub use drawing::Picture;
pub use floor::apart;
pub use heat::{heat, top_of};
pub use named::named;
pub use network::network;
pub use play::play;
pub use ranking::ranking;
pub(crate) use regions::often;
pub use regions::{free, most_free, regions};
pub use route::route;
pub use scale::Classes;
pub use stands::{DRAWN, stand};
pub use start::{
    AFTER, LATER, ON_ITS_WAY, OnCard, PASSES, SCREENS, SEALS, SETS_OUT, STARTS, can_set_out, card, start,
};
pub use still::{SHOT_BY, SHOWS_RUN, key_of_stills, still};
pub use style::{STYLE, written_out};
pub use trade::trade;
pub use zone::zone;

#[cfg(test)]
mod snapshots;
