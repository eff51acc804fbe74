//! Which chart letter keys go to: one under the pointer or with the focus, so that a letter that is
//! typed or spoken anywhere else changes nothing (WCAG 2.2, criterion 2.1.4).

use crate::session::{COMMANDS, Command};
use eframe::egui::{Context, Id, Ui};

/// What letters can be meant for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Listening {
    /// The balance map.
    Map,
    /// The strips below it.
    Strips,
}

impl Listening {
    /// Whether a command's letter is meant for it.
    fn takes(self, command: Command) -> bool {
        match self {
            Self::Map => command.info().is_by_letter(),
            Self::Strips => command == Command::Spread,
        }
    }

    fn place(self) -> Id {
        Id::unique(("letters go to", self))
    }

    /// Notes that letters go to it until the next frame, where it has the pointer or the focus.
    pub(super) fn hear(self, ui: &Ui, has_it: bool) {
        if has_it {
            let pass = ui.ctx().cumulative_pass_nr();
            ui.data_mut(|data| data.insert_temp(self.place(), pass));
        }
    }

    /// Which letters it takes: "Keys: F whole field, A other axes".
    pub(super) fn hint(self) -> String {
        let taken = COMMANDS.iter().filter(|info| self.takes(info.command));
        let said = taken.filter_map(|info| {
            let key = info.shortcut?.key;
            Some(format!("{key} {}", info.name.to_lowercase()))
        });
        format!("Keys: {}", said.collect::<Vec<_>>().join(", "))
    }
}

/// Whether a chart that takes this command's letter had the pointer or the focus in the last frame.
pub(super) fn are_heard(ctx: &Context, command: Command) -> bool {
    let now = ctx.cumulative_pass_nr();
    [Listening::Map, Listening::Strips]
        .into_iter()
        .filter(|chart| chart.takes(command))
        .any(|chart| {
            let heard = ctx.data(|data| data.get_temp::<u64>(chart.place()));
            heard.is_some_and(|pass| now <= pass + 1)
        })
}
