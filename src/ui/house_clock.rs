//! From a start to when the preparation on screen is ready, and back from when it is needed.

use super::house_draft::refused;
use super::naming::named;
use crate::chart::minutes_text;
use crate::session::{Between, HouseView, Minutes, now, ready_between, start_between, today};
use eframe::egui::{Grid, RichText, TextEdit, Ui};

/// How a day and a time are written, for hints and errors.
const SUCH_AS: &str = "2026-05-04 14:30";
/// Width of a field, points.
const FIELD: f32 = 150.0;

/// What was typed.
#[derive(Clone, Debug, Default)]
pub(super) struct HouseClock {
    start: String,
    needed: String,
}

impl HouseClock {
    /// Shows both rows; nothing where it is not known how long it takes.
    pub(super) fn ui(&mut self, ui: &mut Ui, view: &HouseView) {
        let Some(timing) = view.timing() else {
            return;
        };
        let total = timing.total_min;
        Grid::new("house clock").num_columns(3).show(ui, |ui| {
            ui.label("Start at");
            ui.horizontal(|ui| {
                let teach = "The day and time of the first move: when it is ready is worked out";
                field(ui, "Start at", teach, &mut self.start);
                let press = ui.small_button("now");
                if named(press, "Start now", "Take this minute as the start").clicked() {
                    self.start = now();
                }
            });
            answer(ui, &self.start, "Start at", |at| {
                let ready = ready_between(at, total)?;
                Some(("ready", ready, ""))
            });
            ui.end_row();
            ui.label("Needed by");
            let teach = "The day and time by which it has to be there: when to start is worked out";
            field(ui, "Needed by", teach, &mut self.needed);
            answer(ui, &self.needed, "Needed by", |at| {
                let start = start_between(at, total)?;
                let why = ": the earlier leaves time for the longest waits, the later only for the shortest";
                Some(("start", start, why))
            });
            ui.end_row();
        });
        if !timing.before.is_empty() {
            let minutes: f64 = timing.before.iter().map(|made| made.total_min.most).sum();
            let words = format!(
                "What has to be made before is not in these times; one after the other it takes up to {}.",
                minutes_text(minutes)
            );
            ui.label(RichText::new(words).small().weak());
        }
    }
}

fn field(ui: &mut Ui, name: &str, teach: &str, text: &mut String) {
    let field = TextEdit::singleline(text)
        .desired_width(FIELD)
        .hint_text(SUCH_AS);
    let teach = format!("{teach}. Year, month, day, then hours and minutes; a time alone is today");
    named(ui.add(field), name, &teach);
}

/// What follows from what was typed, or what is wrong with it; nothing while it is empty.
fn answer<'w>(
    ui: &mut Ui,
    typed: &str,
    name: &str,
    work_out: impl Fn(&str) -> Option<(&'w str, Between, &'w str)>,
) {
    if typed.trim().is_empty() {
        ui.label("");
        return;
    }
    match moment(typed) {
        Err(reason) => refused(ui, &format!("{name}: {reason}")),
        Ok(at) => match work_out(&at) {
            Some((what, found, why)) => {
                ui.label(RichText::new(between(what, &found)).strong())
                    .on_hover_text(format!("{}{why}", between(what, &found)));
            }
            None => refused(
                ui,
                &format!("{name}: from {at} it runs beyond the calendar, years 1 to 9999"),
            ),
        },
    }
}

fn between(what: &str, found: &Between) -> String {
    let Between { earliest, latest } = found;
    if earliest == latest {
        format!("{what} at {earliest}")
    } else {
        format!("{what} between {earliest} and {latest}")
    }
}

/// A day and a time as they can be worked with; a time alone is one of today.
fn moment(typed: &str) -> Result<String, String> {
    let text = typed.trim();
    let has_day = text.contains('-');
    let at = if has_day {
        text.to_owned()
    } else {
        format!("{} {text}", today())
    };
    if has_day && !text.contains(':') {
        return Err(format!("say the time of day, too, such as {SUCH_AS}"));
    }
    // Any time reads back as itself when nothing is added to it.
    match ready_between(&at, Minutes::default()) {
        Some(found) => Ok(found.earliest),
        None => Err(format!(
            "\"{text}\" is no day and time; write it as {SUCH_AS}, or 14:30 for today"
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::moment;

    #[test]
    fn a_day_with_a_time_reads_back_as_itself_and_a_time_alone_is_of_today() {
        assert_eq!(
            moment(" 2028-02-29 08:05 "),
            Ok("2028-02-29 08:05".to_owned())
        );
        let today = moment("08:05");
        let is_whole = |moment: &String| moment.ends_with(" 08:05");
        assert!(today.as_ref().is_ok_and(is_whole), "{today:?}");
    }

    #[test]
    fn what_is_no_moment_is_refused_with_the_reason() {
        for (typed, reason) in [
            ("2028-02-29", "time of day"),
            ("2027-02-29 08:05", "no day and time"),
            ("2028-02-29 25:00", "no day and time"),
            ("soon", "\"soon\""),
        ] {
            let said = moment(typed).expect_err(typed);
            assert!(said.contains(reason), "{said}");
        }
    }
}
