//! From a spec to what is handed in and served: the rules of a competition against a trial.
//!
//! Plain data in, plain data out.

mod rule_amounts;
mod rule_bounds;
mod rule_build;
mod rule_check;
mod rule_figures;
mod rule_finding;
mod rule_ingredients;
mod rule_measures;
mod rule_notches;
mod rule_pours;
mod rule_practices;
mod rule_product;
mod rule_shares;
mod rule_times;
mod rule_title;
mod rule_words;

pub use rule_bounds::{Clash, End, FromRule, Ruled, RuledLimit, rules_alone, under_rules};
pub use rule_check::{Handed, check_rules};
pub use rule_finding::{Act, Field, Finding, RuleVerdict, findings_summary};
pub use rule_title::{drinks, rule_title};
