//! Sets of roles and of ball places, by which programs and plans say whom and where they mean.

/// A set of roles, one bit a role in the order of [`super::Role`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct RoleSet(pub u8);

impl RoleSet {
    /// True where the role is in the set.
    pub fn has(self, role: usize) -> bool {
        self.0 >> role & 1 == 1
    }
}

/// A set of ball places, one bit each in the order of [`super::BallPlace`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PlaceSet(pub u8);

impl PlaceSet {
    /// Every place.
    pub const ALL: PlaceSet = PlaceSet(u8::MAX);

    /// True where the place is in the set.
    pub fn has(self, place: usize) -> bool {
        self.0 >> place & 1 == 1
    }
}

/// Side of the floor as compared with the owner's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relative {
    /// The owner's side.
    Same,
    /// The other side.
    Other,
    /// Either.
    Any,
}
