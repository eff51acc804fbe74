//! Why a preparation cannot be worked out.

/// Where in a preparation something is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum At {
    /// In the preparation as a whole.
    Whole,
    /// At the input of that name.
    Input(String),
    /// At the step of that place, from 0.
    Step(usize),
    /// At the output of that name.
    Output(String),
}

impl core::fmt::Display for At {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Whole => write!(f, "preparation"),
            Self::Input(name) => write!(f, "input \"{name}\""),
            Self::Step(place) => write!(f, "step {}", place + 1),
            Self::Output(name) => write!(f, "output \"{name}\""),
        }
    }
}

/// What is wrong, where and in which field.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{at}, {field}: {reason}")]
pub struct FlowError {
    /// Where.
    pub at: At,
    /// The field, in the words of the form.
    pub field: &'static str,
    /// Why it cannot stand.
    pub reason: String,
}

impl FlowError {
    /// What is wrong with a field.
    pub fn new(at: At, field: &'static str, reason: impl Into<String>) -> Self {
        Self {
            at,
            field,
            reason: reason.into(),
        }
    }
}
