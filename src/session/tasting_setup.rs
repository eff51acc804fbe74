//! What a new tasting is set up with, what keeps it from starting, and the edit that starts it.

use super::edit::Edit;
use super::tasting_edit::TastingEdit;
use crate::model::{
    Attribute, Criterion, Document, MAX_TASTERS, SpecId, Tasting, TastingId, TastingMethod,
    TimeRule, TrialId, TrialState, is_day,
};
use crate::tasting::{PlanError, QUICK_FORM, plan, quick_form};
use jiff::Timestamp;
use std::collections::BTreeSet;

/// Most tasters that a quick form is meant for (our convention, no source).
const QUICK_TASTERS: usize = 2;

/// How a tasting asks, as it is chosen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum MethodKind {
    /// Just-about-right scales for chosen attributes, and liking.
    #[default]
    JustRight,
    /// Four scales and liking, with big buttons.
    Quick,
    /// Which of two is preferred.
    Preference,
    /// Which of three is the odd one.
    Triangle,
    /// Which of two is the reference.
    DuoTrio,
    /// From the best to the worst.
    Ranking,
    /// Marks of a judge.
    ScoreSheet,
}

impl MethodKind {
    /// Every kind, in the order of the choice.
    pub const ALL: [Self; 7] = [
        Self::JustRight,
        Self::Quick,
        Self::Preference,
        Self::Triangle,
        Self::DuoTrio,
        Self::Ranking,
        Self::ScoreSheet,
    ];

    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::JustRight => "just-about-right scales",
            Self::Quick => "quick form",
            Self::Preference => "paired preference",
            Self::Triangle => "triangle test",
            Self::DuoTrio => "duo-trio test",
            Self::Ranking => "ranking",
            Self::ScoreSheet => "score sheet",
        }
    }

    /// What it is for.
    pub const fn teach(self) -> &'static str {
        match self {
            Self::JustRight => {
                "For every cup: too little, just right or too much of each thing, and how much it is \
                 liked. Says in which direction to move the drink."
            }
            Self::Quick => {
                "For one or two tasters at the bench: sweetness, sourness, strength, dilution and liking, \
                 five taps a cup"
            }
            Self::Preference => "Two cups side by side: which one is liked better?",
            Self::Triangle => {
                "Three cups, two of them the same: which one is the odd one? Shows whether a change can be \
                 tasted at all."
            }
            Self::DuoTrio => {
                "A reference and two cups: which of them is the reference? Easier on the palate than three \
                 unknown cups."
            }
            Self::Ranking => "All cups from the best to the worst; ties may share a rank",
            Self::ScoreSheet => "Marks by criterion, as a jury gives them, with weights",
        }
    }
}

/// The field that keeps a tasting from starting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SetupField {
    /// Title.
    Title,
    /// Day.
    Day,
    /// Method with its attributes, criteria or time rule.
    Method,
    /// Trials to taste.
    Trials,
    /// Tasters.
    Tasters,
}

/// Why a tasting cannot start yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SetupTrouble {
    /// The field to mend.
    pub field: SetupField,
    /// What is wrong with it.
    pub reason: String,
}

/// A tasting as it is being set up; not part of the document.
#[derive(Clone, Debug, PartialEq)]
pub struct TastingSetup {
    /// Title.
    pub title: String,
    /// Day, ISO 8601; may be empty.
    pub on: String,
    /// How it asks.
    pub kind: MethodKind,
    /// What just-about-right scales ask for.
    pub attributes: BTreeSet<Attribute>,
    /// Lines of a score sheet.
    pub criteria: Vec<Criterion>,
    /// What taking too long costs, for a score sheet.
    pub time: Option<TimeRule>,
    /// What is tasted, in the order in which it counts.
    pub trials: Vec<TrialId>,
    /// Names, one a line, or a number.
    pub tasters: String,
}

impl TastingSetup {
    /// As usual for a drink: its latest trial, on that day.
    pub fn of(document: &Document, spec: Option<SpecId>, on: String) -> Self {
        let spec = spec.and_then(|id| document.spec(id));
        let title = spec.map_or_else(String::new, |spec| format!("Tasting of {}", spec.name));
        let latest = spec.and_then(|spec| spec.latest());
        let line = |name: &str, weight| Criterion {
            name: name.to_owned(),
            most: 10.0,
            weight,
        };
        Self {
            title,
            on,
            kind: MethodKind::default(),
            attributes: QUICK_FORM.into(),
            criteria: vec![
                line("appearance", 1.0),
                line("aroma", 2.0),
                line("taste", 4.0),
                line("balance", 3.0),
            ],
            time: None,
            trials: latest.map(|trial| trial.id).into_iter().collect(),
            tasters: String::new(),
        }
    }

    /// The method as the document keeps it.
    pub fn method(&self) -> TastingMethod {
        match self.kind {
            MethodKind::JustRight => TastingMethod::JustRight {
                attributes: Attribute::ALL
                    .into_iter()
                    .filter(|attribute| self.attributes.contains(attribute))
                    .collect(),
            },
            MethodKind::Quick => quick_form(),
            MethodKind::Preference => TastingMethod::Preference,
            MethodKind::Triangle => TastingMethod::Triangle,
            MethodKind::DuoTrio => TastingMethod::DuoTrio,
            MethodKind::Ranking => TastingMethod::Ranking,
            MethodKind::ScoreSheet => TastingMethod::ScoreSheet {
                criteria: self.criteria.clone(),
                time: self.time,
            },
        }
    }

    /// Everything that keeps it from starting, field by field.
    pub fn troubles(&self, document: &Document) -> Vec<SetupTrouble> {
        let mut found = Vec::new();
        let mut note = |field, reason: String| found.push(SetupTrouble { field, reason });
        if self.title.trim().is_empty() {
            note(SetupField::Title, "give it a title".to_owned());
        }
        let day = self.on.trim();
        if !day.is_empty() && !is_day(day) {
            let reason = format!("\"{day}\" is no day such as 2026-05-04");
            note(SetupField::Day, reason);
        }
        if let Some(reason) = self.method_trouble() {
            note(SetupField::Method, reason);
        }
        if let Some(reason) = self.trials_trouble(document) {
            note(SetupField::Trials, reason);
        }
        if let Err(reason) = taster_names(&self.tasters) {
            note(SetupField::Tasters, reason);
        }
        found
    }

    fn method_trouble(&self) -> Option<String> {
        if self.kind != MethodKind::ScoreSheet {
            return None;
        }
        let blank = |line: &Criterion| line.name.trim().is_empty();
        if self.criteria.is_empty() {
            Some("add a criterion".to_owned())
        } else if let Some(place) = self.criteria.iter().position(blank) {
            Some(format!("criterion {} has no name", place + 1))
        } else if let Some(line) = self.criteria.iter().find(|line| line.most <= 0.0) {
            Some(format!("full marks of {} must be above 0", line.name))
        } else if self.criteria.iter().all(|line| line.weight <= 0.0) {
            Some("at least one criterion must count: give it a weight above 0".to_owned())
        } else if self.time.is_some_and(|time| time.each_s <= 0.0) {
            Some("the stretch that costs points must be above 0 s".to_owned())
        } else {
            None
        }
    }

    fn trials_trouble(&self, document: &Document) -> Option<String> {
        let gone = |id: &&TrialId| document.trial(**id).is_none();
        if self.trials.iter().any(|id| gone(&id)) {
            return Some("a chosen trial is no longer there".to_owned());
        }
        let (least, most) = self.method().samples();
        let chosen = self.trials.len();
        if (least..=most).contains(&chosen) {
            return None;
        }
        let missing = least.saturating_sub(chosen);
        let what = if missing > 0 {
            format!("choose {missing} more")
        } else {
            format!("take {} out", chosen - most)
        };
        Some(format!("{what}: {}", self.takes()))
    }

    /// How many samples the method takes, in words.
    pub fn takes(&self) -> String {
        let (least, most) = self.method().samples();
        let name = self.kind.name();
        let verb = match self.kind {
            MethodKind::JustRight => "take",
            _ => "takes",
        };
        if least == most {
            format!("{name} {verb} exactly {least} trials")
        } else {
            format!("{name} {verb} {least} to {most} trials")
        }
    }

    /// Names of the drafts that starting marks as tasted, so that their figures are kept.
    pub fn marked<'a>(&self, document: &'a Document) -> Vec<&'a str> {
        let trials = self.trials.iter().filter_map(|id| document.trial(*id));
        trials
            .filter(|(_, trial)| trial.state == TrialState::Draft)
            .map(|(_, trial)| trial.name.as_str())
            .collect()
    }

    /// The edit that starts it, with the serving plan and the codes drawn from the seed.
    ///
    /// Refused with the first field that keeps it from starting.
    pub fn start(&self, document: &Document, seed: u64) -> Result<Edit, SetupTrouble> {
        if let Some(first) = self.troubles(document).into_iter().next() {
            return Err(first);
        }
        let refuse = |field, reason| SetupTrouble { field, reason };
        let names =
            taster_names(&self.tasters).map_err(|reason| refuse(SetupField::Tasters, reason))?;
        let method = self.method();
        let tasters = plan(&method, self.trials.len(), &names, seed)
            .map_err(|error| refuse(field_of(&error), error.to_string()))?;
        let tasting = Tasting {
            id: TastingId(0),
            title: self.title.trim().to_owned(),
            on: self.on.trim().to_owned(),
            method,
            samples: Vec::new(),
            tasters,
            seed,
            closed: false,
            notes: String::new(),
        };
        Ok(Edit::Tasting(TastingEdit::Start {
            tasting: Box::new(tasting),
            trials: self.trials.clone(),
        }))
    }
}

const fn field_of(error: &PlanError) -> SetupField {
    match error {
        PlanError::Samples { .. } | PlanError::Codes => SetupField::Trials,
        PlanError::NoTasters
        | PlanError::NoName { .. }
        | PlanError::TwoBallots { .. }
        | PlanError::Closed => SetupField::Tasters,
    }
}

/// Names of tasters from one a line, or from their number ("Taster 1", "Taster 2", …).
///
/// Refused in words when there is none, too many, or one stands twice.
pub fn taster_names(text: &str) -> Result<Vec<String>, String> {
    let lines = text.lines().map(str::trim);
    let mut names: Vec<String> = lines
        .filter(|line| !line.is_empty())
        .map(str::to_owned)
        .collect();
    if let [number] = names.as_slice()
        && let Ok(count) = number.parse::<usize>()
    {
        if !(1..=MAX_TASTERS).contains(&count) {
            return Err(format!("{count} is outside 1 to {MAX_TASTERS} tasters"));
        }
        names = (1..=count).map(|place| format!("Taster {place}")).collect();
    }
    if names.is_empty() {
        return Err("name at least one taster, or type how many there are".to_owned());
    }
    if names.len() > MAX_TASTERS {
        let given = names.len();
        return Err(format!("{given} tasters, above {MAX_TASTERS}"));
    }
    let mut known = BTreeSet::new();
    for name in &names {
        if !known.insert(name.to_lowercase()) {
            return Err(format!("{name} stands twice: everyone gets one ballot"));
        }
    }
    Ok(names)
}

/// True for a tasting at the bench: what the quick form asks, by one or two.
pub fn is_quick(tasting: &Tasting) -> bool {
    let asks = matches!(&tasting.method, TastingMethod::JustRight { attributes }
        if attributes.as_slice() == QUICK_FORM);
    asks && tasting.tasters.len() <= QUICK_TASTERS
}

/// How a tasting asks, in words: a quick form is called one.
pub fn method_name(tasting: &Tasting) -> &'static str {
    if is_quick(tasting) {
        "quick form"
    } else {
        tasting.method.name()
    }
}

/// A number to draw a serving plan with; the tasting keeps it, so that the plan can be drawn again.
pub fn tasting_seed() -> u64 {
    let nanoseconds = Timestamp::now().as_nanosecond().unsigned_abs();
    // Nine digits: short enough to read out.
    u64::try_from(nanoseconds % 1_000_000_000).unwrap_or(0)
}
