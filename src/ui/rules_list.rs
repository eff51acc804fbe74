//! What the rules say of the trial on screen: broken ones first, with reason, remedy and what mends it.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::rules_view::RulesView;
use super::theme::{Tokens, outline_ticks};
use crate::model::{Document, Spec, Trial};
use crate::service::{Act, Finding, RuleVerdict, findings_summary};
use crate::session::{Derived, Session, mend_rule, rules_of, tick_rule, today, untick_rule};
use eframe::egui::{Frame, RichText, Ui};

/// Shows the findings under the rules that the drink is entered under.
pub(super) fn ui(ui: &mut Ui, session: &Session, view: &mut RulesView, outbox: &mut Outbox) {
    outline_ticks(ui);
    let (Some(spec), Some(trial), Some(derived)) =
        (session.spec(), session.trial(), session.derived())
    else {
        ui.label("No drink is on screen.");
        return;
    };
    let document = session.document();
    let Some(set) = rules_of(document, spec) else {
        let words = "This drink is entered under no rules. Choose some, and every rule is looked at while you work.";
        ui.label(RichText::new(words).color(Tokens::of(ui).weak));
        return;
    };
    head(ui, &set.name, derived, view);
    let mut findings: Vec<&Finding> = derived.rules.findings.iter().collect();
    findings.sort_by_key(|finding| finding.verdict);
    let shown = Shown {
        document,
        spec,
        trial,
    };
    for finding in findings {
        shown.finding(ui, finding, view, outbox);
    }
    for clash in &derived.rules.clashes {
        let caution = Tokens::of(ui).caution;
        ui.label(RichText::new(format!("◆ {}", clash.words)).color(caution))
            .on_hover_text("Proposals leave this rule out until one of the two gives way");
    }
}

/// Name of the set, how many rules are kept, and who ticks.
fn head(ui: &mut Ui, name: &str, derived: &Derived, view: &mut RulesView) {
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(name).strong());
        let summary = findings_summary(&derived.rules.findings);
        ui.label(summary)
            .on_hover_text("Rules that are switched off are not counted");
        ui.label("ticked by");
        let field = eframe::egui::TextEdit::singleline(&mut view.by)
            .desired_width(110.0)
            .hint_text("your name");
        let teach = "Written beside each rule that you tick, with the day";
        named(ui.add(field), "Ticked by", teach);
    });
}

/// What a finding is about.
struct Shown<'a> {
    document: &'a Document,
    spec: &'a Spec,
    trial: &'a Trial,
}

impl Shown<'_> {
    fn finding(&self, ui: &mut Ui, finding: &Finding, view: &mut RulesView, outbox: &mut Outbox) {
        let tokens = Tokens::of(ui);
        let (mark, color) = match finding.verdict {
            RuleVerdict::Broken => ("▲", tokens.warn),
            RuleVerdict::Unknown => ("?", tokens.caution),
            RuleVerdict::Asked => ("◆", tokens.caution),
            RuleVerdict::Kept => ("·", tokens.weak),
        };
        Frame::new().inner_margin(2.0).show(ui, |ui| {
            ui.horizontal_wrapped(|ui| {
                ui.label(RichText::new(mark).color(color))
                    .on_hover_text(finding.verdict.name());
                ui.label(RichText::new(&finding.title).color(color));
                ui.label(RichText::new(&finding.reason).small().weak());
                if !finding.remedy.is_empty() {
                    ui.label(RichText::new(&finding.remedy).small());
                }
                self.mend(ui, finding, outbox);
                if finding.asks_a_person {
                    self.tick(ui, finding, view, outbox);
                }
            });
        });
    }

    /// The button that mends it or leads to where it is entered.
    fn mend(&self, ui: &mut Ui, finding: &Finding, outbox: &mut Outbox) {
        if let Some((words, edit)) = mend_rule(self.document, self.spec, self.trial, finding) {
            let name = format!("{words}: {}", finding.title);
            let button = ui.small_button(&words);
            if named(button, &name, "Does what the remedy says; it can be undone").clicked() {
                outbox.edit(edit);
            }
            return;
        }
        let Some(Act::Go(field)) = finding.act else {
            return;
        };
        let name = format!("{}: {}", field.name(), finding.title);
        let button = ui.small_button(field.name());
        if named(button, &name, "Shows where it is entered").clicked() {
            outbox.intent(Intent::LeadTo(field));
        }
    }

    /// The tick of a rule that only a person can judge, with who and when.
    fn tick(&self, ui: &mut Ui, finding: &Finding, view: &RulesView, outbox: &mut Outbox) {
        let mut on = finding.ticked.is_some();
        let name = format!("Looked at: {}", finding.title);
        let teach =
            "Tick it when you have looked; it counts as long as the rule reads as it does now";
        let tick = ui.checkbox(&mut on, "looked at");
        if named(tick, &name, teach).changed() {
            outbox.edit(if on {
                tick_rule(self.spec, finding, &view.by, &today())
            } else {
                untick_rule(self.spec, &finding.rule)
            });
        }
        if let Some(tick) = &finding.ticked {
            let who = match tick.by.as_str() {
                "" => "somebody",
                by => by,
            };
            ui.label(RichText::new(format!("{who}, {}", tick.on)).small().weak());
        }
    }
}
