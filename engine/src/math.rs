//! The only maths the simulation may use: the four operations, square root, and pure-Rust `exp` and `ln`.
//!
//! The platform's own library may round differently from machine to machine, and fused multiply-add from
//! compiler to compiler; either would break "same seed, same bytes". There are no angles: directions are
//! unit vectors, so that mirroring a floor only flips the sign of `x` and every result mirrors bit for bit.

/// e to the power `x`, the same bits on every machine.
#[inline]
pub fn exp(x: f32) -> f32 {
    libm::expf(x)
}

/// Natural logarithm, the same bits on every machine.
#[inline]
pub fn ln(x: f32) -> f32 {
    libm::logf(x)
}

/// Standard logistic function 1 / (1 + e^-x).
#[inline]
pub fn logistic(x: f32) -> f32 {
    // From here on e^-x is less than half of what single precision adds to one (2^-24), and the answer is one exactly.
    if x > 17.0 { 1.0 } else { 1.0 / (1.0 + exp(-x)) }
}

/// The larger of two numbers, written as a select: unlike the library's, its result on signed zeros is fixed.
#[inline]
pub fn max(a: f32, b: f32) -> f32 {
    if a > b { a } else { b }
}

/// The smaller of two numbers, written as a select.
#[inline]
pub fn min(a: f32, b: f32) -> f32 {
    if a < b { a } else { b }
}

/// `x` held between `low` and `high`.
#[inline]
pub fn clamp(x: f32, low: f32, high: f32) -> f32 {
    min(max(x, low), high)
}

/// A point or displacement on the floor, metres.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Vec2 {
    /// Across the floor, positive to the right as the attack faces the rim.
    pub x: f32,
    /// Along the floor, positive toward midcourt.
    pub y: f32,
}

/// Short constructor of a [`Vec2`].
#[inline]
pub const fn vec2(x: f32, y: f32) -> Vec2 {
    Vec2 { x, y }
}

impl Vec2 {
    /// The rim's centre, the origin of the floor.
    pub const RIM: Vec2 = vec2(0.0, 0.0);

    /// Scalar product.
    #[inline]
    pub fn dot(self, o: Vec2) -> f32 {
        self.x * o.x + self.y * o.y
    }

    /// The z component of the cross product; changes sign when the floor is mirrored.
    #[inline]
    pub fn cross(self, o: Vec2) -> f32 {
        self.x * o.y - self.y * o.x
    }

    /// Squared length.
    #[inline]
    pub fn len2(self) -> f32 {
        self.dot(self)
    }

    /// Length.
    #[inline]
    pub fn len(self) -> f32 {
        self.len2().sqrt()
    }

    /// Distance to another point.
    #[inline]
    pub fn distance(self, o: Vec2) -> f32 {
        (self - o).len()
    }

    /// The unit vector this way, or `fallback` where the length is (nearly) zero.
    #[inline]
    pub fn unit_or(self, fallback: Vec2) -> Vec2 {
        let l = self.len();
        if l > 1e-6 { vec2(self.x / l, self.y / l) } else { fallback }
    }

    /// Turned a quarter turn; mirrors with a change of sign, so callers multiply it by the side's sign.
    #[inline]
    pub fn quarter(self) -> Vec2 {
        vec2(-self.y, self.x)
    }

    /// `x` multiplied by a side's sign (+1 or -1).
    #[inline]
    pub fn sided(self, sign: f32) -> Vec2 {
        vec2(self.x * sign, self.y)
    }

    /// The point a share `t` of the way to `o`.
    #[inline]
    pub fn toward(self, o: Vec2, t: f32) -> Vec2 {
        self + (o - self) * t
    }

    /// Shortened to at most `longest`.
    #[inline]
    pub fn at_most(self, longest: f32) -> Vec2 {
        let l = self.len();
        if l > longest { self * (longest / l) } else { self }
    }
}

impl core::ops::Add for Vec2 {
    type Output = Vec2;
    #[inline]
    fn add(self, o: Vec2) -> Vec2 {
        vec2(self.x + o.x, self.y + o.y)
    }
}

impl core::ops::Sub for Vec2 {
    type Output = Vec2;
    #[inline]
    fn sub(self, o: Vec2) -> Vec2 {
        vec2(self.x - o.x, self.y - o.y)
    }
}

impl core::ops::Mul<f32> for Vec2 {
    type Output = Vec2;
    #[inline]
    fn mul(self, k: f32) -> Vec2 {
        vec2(self.x * k, self.y * k)
    }
}

/// Distance from point `p` to the segment `a`-`b`, and the share of the way along it of the nearest point.
#[inline]
pub fn to_segment(p: Vec2, a: Vec2, b: Vec2) -> (f32, f32) {
    let d = b - a;
    let t = clamp((p - a).dot(d) / max(d.len2(), 1e-9), 0.0, 1.0);
    (p.distance(a + d * t), t)
}
