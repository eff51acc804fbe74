//! Keys by which commands are reached.

/// A key, named as keyboards print it.
pub type Key = &'static str;

/// A key with its modifiers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Shortcut {
    /// Ctrl, or Cmd on a Mac.
    pub command: bool,
    /// Shift.
    pub shift: bool,
    /// The key.
    pub key: Key,
}

impl Shortcut {
    /// Whether it is a letter alone, which works only where a chart has the pointer or the focus.
    pub fn is_letter(&self) -> bool {
        let mut letters = self.key.chars();
        !self.command && letters.next().is_some_and(char::is_alphabetic) && letters.next().is_none()
    }
}

/// With Ctrl.
pub(super) const fn ctrl(key: Key) -> Shortcut {
    Shortcut {
        command: true,
        shift: false,
        key,
    }
}

/// With Ctrl and Shift.
pub(super) const fn ctrl_shift(key: Key) -> Shortcut {
    Shortcut {
        command: true,
        shift: true,
        key,
    }
}

/// Alone.
pub(super) const fn plain(key: Key) -> Shortcut {
    Shortcut {
        command: false,
        shift: false,
        key,
    }
}
