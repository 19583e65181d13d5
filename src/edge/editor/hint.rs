//! A figure that is shown beside what is written.

/// A figure and the offset it stands at.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Hint {
    /// Behind which byte.
    pub at: usize,
    /// The figure.
    pub text: String,
    /// What it is.
    pub about: String,
}
