//! Kinds of points and lines, told apart without colour.

/// A kind of point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// A filled dot.
    Dot,
    /// A ring.
    Ring,
    /// A filled square.
    Square,
    /// A filled triangle.
    Triangle,
    /// A hollow diamond.
    Diamond,
    /// A cross.
    Cross,
}

impl Shape {
    /// Its outline around its middle, as an SVG path.
    pub fn path(self) -> &'static str {
        match self {
            Self::Dot | Self::Ring => "M-4 0a4 4 0 1 0 8 0a4 4 0 1 0-8 0z",
            Self::Square => "M-3.5-3.5h7v7h-7z",
            Self::Triangle => "M0-4.5L4.5 3.5H-4.5z",
            Self::Diamond => "M0-5.5L5.5 0L0 5.5L-5.5 0z",
            Self::Cross => "M-4-4L4 4M-4 4L4-4",
        }
    }

    /// Its class.
    pub fn class(self) -> &'static str {
        match self {
            Self::Dot | Self::Square | Self::Triangle => "dot",
            Self::Ring | Self::Diamond => "dot hollow",
            Self::Cross => "dot cross",
        }
    }
}

/// A kind of line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trace {
    /// None.
    None,
    /// Solid.
    Solid,
    /// Dashed.
    Dashed,
}

impl Trace {
    /// Its class; nothing where there is no line.
    pub fn class(self) -> Option<&'static str> {
        match self {
            Self::None => None,
            Self::Solid => Some("trace"),
            Self::Dashed => Some("trace dashed"),
        }
    }
}
